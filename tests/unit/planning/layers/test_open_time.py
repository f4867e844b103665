"""Open and flash times of the planner against the film model asked directly."""

from dataclasses import replace

import numpy as np
import pytest

from cases.planning import DRY, MILD, process_for, request_of
from laydown.physics.film.course import matt_time_s, open_time_s
from laydown.physics.film.wet_film import arrive, dry
from laydown.planning.layers.adjustments import Option, options_of, water_on_mix, waters_of
from laydown.planning.layers.open_time import EDGE_SHARE, THICK_SHARE, conditions_of, films_of, wetting_of
from laydown.planning.setup.paint import paint_of
from laydown.planning.setup.spraying import full_pass, light_pass
from laydown.schema.figure import Figure
from laydown.trade.mixing.paint_classes import MOST_WATER_SHARE, ready_mix

JOB = request_of(replace(MILD, blower_m_s=0.0)).job
PRODUCTS = request_of(MILD).products
GROUND, EFFECT = paint_of(PRODUCTS.ground), paint_of(PRODUCTS.effect)
CLOSED = full_pass(JOB.gun, 1.2)


def times(*options, parts=("full_light",), job=JOB, base_um=0.0, panel_c=20.0):
    conditions = conditions_of(job, GROUND, panel_c)
    count = max(len(options), len(parts))
    films = films_of(list(parts) * (count // len(parts)), [CLOSED] * count)
    chosen = list(options) * (count // len(options))
    return wetting_of(chosen, films, GROUND, conditions, np.full(count, base_um)), conditions, films


@pytest.mark.parametrize(
    "option",
    [
        Option("standard", 0.0, False, 1.2),
        Option("slow", 0.05, True, 1.2),
        Option("fast", 0.10, False, 1.2),
    ],
)
def test_times_are_those_of_the_film_model_for_the_same_mix_film_and_air(option):
    found, conditions, _ = times(option)
    wet = arrive(
        ready_mix(option.reducer, water_on_mix(GROUND, option.water), activated=option.hardener),
        conditions.loss_share,
    )
    edge = CLOSED.film_g_m2() * EDGE_SHARE
    whole = CLOSED.film_g_m2() + light_pass(CLOSED).film_g_m2()
    course = dry(np.array([edge, whole, whole * THICK_SHARE]), wet, conditions.still)
    opening, matt = open_time_s(course), matt_time_s(course)
    assert found.open_s[0] == pytest.approx(opening[0], rel=1e-6)
    assert found.coat_open_s[0] == pytest.approx(opening[1], rel=1e-6)
    assert found.flash_s[0] == pytest.approx(matt[2], rel=1e-6)


def test_options_are_worked_out_side_by_side_as_one_by_one():
    options = options_of(JOB, GROUND)[:5]
    together = times(*options, parts=("full_light",) * 5)[0]
    for index, option in enumerate(options):
        alone = times(option)[0]
        assert together.open_s[index] == pytest.approx(alone.open_s[0], rel=1e-9)
        assert together.flash_s[index] == pytest.approx(alone.flash_s[0], rel=1e-9)


def test_slower_reducer_and_more_water_open_longer_and_hardener_shorter():
    # common practice, no source
    opening = {
        (reducer, water, hardener): times(Option(reducer, water, hardener, 1.2))[0].open_s[0]
        for reducer in ("fast", "standard", "slow")
        for water in (0.0, 0.10)
        for hardener in (False, True)
    }
    for (reducer, water, hardener), value in opening.items():
        slower = {"fast": "standard", "standard": "slow"}.get(reducer)
        assert slower is None or opening[slower, water, hardener] > value
        assert water > 0.0 or opening[reducer, 0.10, hardener] > value
        assert hardener or opening[reducer, water, True] < value


def test_the_edge_closes_before_the_coat_and_blowers_shorten_the_flash_only():
    option = Option("standard", 0.0, False, 1.2)
    still = times(option)[0]
    blown = times(option, job=request_of(MILD).job)[0]
    assert still.open_s[0] < still.coat_open_s[0]
    assert blown.open_s[0] == pytest.approx(still.open_s[0], rel=1e-3)
    assert blown.flash_s[0] < still.flash_s[0]


def test_a_dry_layer_below_drinks_from_the_edge():
    option = Option("standard", 0.0, False, 1.2)
    assert times(option, base_um=20.0)[0].open_s[0] < times(option)[0].open_s[0]


def test_films_are_the_closed_pass_halved_at_the_edge_and_both_passes_in_the_coat():
    films = films_of(["full", "full_light", "light"], [CLOSED] * 3)
    full, light = CLOSED.film_g_m2(), light_pass(CLOSED).film_g_m2()
    assert films.edge_g_m2 == pytest.approx(EDGE_SHARE * np.array([full, full, light]))
    assert films.whole_g_m2 == pytest.approx([full, full + light, light])


def test_warm_blowers_are_drier_by_what_warmth_does():
    # saturation pressure 2338.8 Pa at 20 °C and 6632.9 Pa at 38 °C (steam tables, IAPWS): 50 % becomes 17.6 %
    job = request_of(MILD).job
    blown = conditions_of(job, GROUND, 20.0).blown
    assert (blown.temperature_c, blown.air_speed_m_s) == (38.0, 2.0)
    assert blown.rh == pytest.approx(0.5 * 2338.8 / 6632.9, rel=0.005)
    assert conditions_of(JOB, GROUND, 20.0).blown == conditions_of(JOB, GROUND, 20.0).still


def test_the_flash_time_of_the_sheet_sets_the_transfer_and_narrows_the_spread():
    with_sheet = conditions_of(JOB, GROUND, 20.0)
    silent = paint_of(replace(PRODUCTS.ground, flash=None))
    without = conditions_of(JOB, silent, 20.0)
    assert without.still.transfer_factor == 1.0
    assert with_sheet.still.transfer_factor != 1.0
    assert with_sheet.open_ln_sd < without.open_ln_sd


def test_water_of_the_base_by_volume_becomes_a_share_of_the_mix_by_mass():
    # 100 parts base, 5 % hardener, 10 % reducer by volume: 5 mL of water on 115 mL of mix,
    # 5 * 0.9982 / (115 * 1.15) = 3.77 % of its mass
    assert water_on_mix(GROUND, 0.05) == pytest.approx(0.0377, abs=0.0002)
    assert water_on_mix(GROUND, 0.0) == 0.0


def test_waters_are_the_steps_the_sheet_allows_and_its_own_limit():
    limits = {
        limit: waters_of(paint_of(replace(PRODUCTS.ground, water_max=limit)))
        for limit in (None, 0.05, 0.08, 0.10)
    }
    assert limits == {None: (0.0,), 0.05: (0.0, 0.05), 0.08: (0.0, 0.05, 0.08), 0.10: (0.0, 0.05, 0.10)}


def test_an_effect_coat_without_hardener_on_the_sheet_is_never_hardened():
    assert not any(option.hardener for option in options_of(request_of(MILD).job, EFFECT))


def test_a_hot_panel_opens_shorter_than_a_cold_one():
    option = Option("standard", 0.0, False, 1.2)
    assert times(option, panel_c=35.0)[0].open_s[0] < times(option, panel_c=15.0)[0].open_s[0]


def test_no_water_beyond_what_the_model_knows_is_asked_of_it():
    assert water_on_mix(GROUND, 0.9) == MOST_WATER_SHARE


@pytest.mark.parametrize("case", [MILD, DRY], ids=["mild", "dry"])
def test_the_first_coat_of_a_plan_has_the_open_time_of_its_choice(case):
    for name in ("ground", "effect"):
        layer = process_for(case).layers[name]
        assert layer.coats[0].open_s == pytest.approx(
            layer.offer.wetting.open_s[layer.choice.index], rel=1e-6
        )


def test_a_wet_edge_never_lasts_longer_in_hotter_air_of_the_same_humidity():
    option = Option("slow", 0.05, True, 1.2)
    opening = []
    for temperature_c in (15.0, 20.0, 25.0, 30.0):
        job = replace(JOB, air=replace(JOB.air, temperature_c=Figure(temperature_c)))
        opening.append(times(option, job=job, panel_c=temperature_c)[0].open_s[0])
    assert opening == sorted(opening, reverse=True)
