"""Plans against facts of the trade; every fact is common practice, no source, unless a source stands beside it."""

import itertools
from dataclasses import replace

import pytest

from cases.planning import (
    CARS,
    DRY,
    FADE,
    MILD,
    ONE_PANEL,
    SEVERE,
    VAN,
    VAN_REAR,
    coats_of,
    codes,
    film_of,
    process_for,
    quick,
    request_of,
    setup_for,
)
from laydown.planning.sections.strokes import FEATHER_M, LAP_M
from laydown.planning.setup.coat_parts import CoatPlan, composition
from laydown.planning.setup.spraying import drop_pass, full_pass
from laydown.planning.setup.weights import STAGGER_M

SPEED = {"fast": 0, "standard": 1, "slow": 2}

COLOUR = ("ground", "effect")


def slowness(adjustment):
    """Slower reducer first, then more water."""
    return SPEED[adjustment.reducer], adjustment.water


def first_coat(case, layer):
    return process_for(case).layers[layer].coats[0]


def same(offer, hardener, option):
    """Index of the option that differs in the hardener only."""
    return offer.options.index(replace(option, hardener=hardener))


# --- adjustment -------------------------------------------------------------------------------------------------------


def test_on_a_large_side_the_adjustment_goes_slower_than_on_one_panel():
    # common practice, no source
    large, panel = (quick(case).plan.adjustment for case in (DRY, replace(DRY, works=ONE_PANEL)))
    assert slowness(large.ground) > slowness(panel.ground)
    assert slowness(large.effect) >= slowness(panel.effect)


def test_at_20_c_and_20_percent_a_large_hardened_side_gets_the_slow_reducer_and_5_percent_water():
    # common practice, no source
    ground = quick(DRY).plan.adjustment.ground
    assert (ground.reducer, ground.water, ground.hardener) == ("slow", 0.05, True)


def test_in_the_most_severe_air_the_effect_coat_gets_the_slow_reducer_and_5_to_10_percent_water():
    # common practice, no source
    effect = quick(SEVERE).plan.adjustment.effect
    assert effect.reducer == "slow"
    assert 0.05 <= effect.water <= 0.10


def test_a_hardened_base_is_faster_so_its_adjustment_goes_slower():
    # common practice, no source
    hard, plain = (quick(case).plan.adjustment.ground for case in (DRY, replace(DRY, hardener=False)))
    assert slowness(hard) > slowness(plain)
    offer = process_for(replace(DRY, hardener=None)).layers["ground"].offer
    for index, option in enumerate(offer.options):
        if not option.hardener:
            hardened = same(offer, True, option)
            assert offer.wetting.open_s[hardened] < offer.wetting.open_s[index]


def test_hardener_is_not_used_where_nobody_asks_for_it():
    # common practice, no source
    assert not quick(replace(DRY, hardener=None)).plan.adjustment.ground.hardener


def test_a_bigger_nozzle_helps_in_warm_dry_air():
    # common practice, no source
    for layer in COLOUR:
        offer = process_for(SEVERE).layers[layer].offer
        wide = [index for index, option in enumerate(offer.options) if option.nozzle_mm == 1.3]
        for index in wide:
            narrow = offer.options.index(replace(offer.options[index], nozzle_mm=1.2))
            assert offer.forward[index] < offer.forward[narrow]
    assert quick(SEVERE).plan.adjustment.ground.nozzle_mm == 1.3


def test_in_mild_air_the_nozzle_in_the_gun_stays_for_the_ground_coat():
    # common practice, no source
    ground = quick(MILD).plan.adjustment.ground
    assert (ground.reducer, ground.water, ground.nozzle_mm) == ("standard", 0.0, 1.2)


def test_in_damp_air_nobody_slows_the_ground_coat():
    # common practice, no source: from 65 to 70 % humidity not the slow reducer
    ground = quick(replace(MILD, rh=0.7)).plan.adjustment.ground
    assert slowness(ground) <= (SPEED["standard"], 0.0)


# --- joins ------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("shape", CARS[:2])
def test_a_car_side_in_mild_air_has_two_joins_both_at_gaps(shape):
    # common practice, no source: overlap zones are few
    plan = quick(replace(MILD, shape=shape)).plan
    coat = plan.layers[0].coats[0]
    assert len(coat.joins) == 2
    for layer, one in coats_of(plan):
        assert len(one.joins) <= 3, layer.name
        assert {join.kind for join in one.joins} == {"gap"}


@pytest.mark.parametrize("shape", CARS[:2])
def test_a_car_side_in_hot_dry_air_has_at_most_three_joins(shape):
    # common practice, no source
    for _, coat in coats_of(quick(replace(SEVERE, shape=shape)).plan):
        assert len(coat.joins) <= 3
        assert {join.kind for join in coat.joins} == {"gap"}


@pytest.mark.parametrize("case", [MILD, DRY, SEVERE, FADE, VAN])
def test_no_open_join_lies_where_a_gap_is_within_30_cm(case):
    # common practice, no source
    for name, layer in process_for(case).layers.items():
        gaps = [place.x_m for place in setup_for(case).places[name] if place.kind == "gap"]
        for coat in layer.coats:
            for x_m, is_gap in coat.planned.joins():
                assert is_gap or all(abs(x_m - gap) > 0.30 for gap in gaps)


def test_a_light_coat_over_one_panel_joins_at_its_gaps_too():
    # common practice, no source: a join within 30 cm of a gap goes into the gap
    case = replace(MILD, works=ONE_PANEL)
    layer = process_for(case).layers["effect"]
    gaps = [place.x_m for place in setup_for(case).places["effect"] if place.kind == "gap"]
    for coat in layer.coats:
        for x_m, is_gap in coat.planned.joins():
            assert is_gap or all(abs(x_m - gap) > 0.30 for gap in gaps)


@pytest.mark.parametrize("case", [MILD, SEVERE, FADE, VAN, VAN_REAR, replace(MILD, works=ONE_PANEL)])
def test_open_joins_of_successive_coats_are_25_cm_apart_and_only_gaps_repeat(case):
    # common practice, no source: staggered by a fan, 15 to 30 cm; a step in a gap is not seen
    coats = [coat.planned for layer in process_for(case).layers.values() for coat in layer.coats]
    for below, above in itertools.pairwise(coats):
        for (x_below, gap_below), (x_above, gap_above) in itertools.product(below.joins(), above.joins()):
            if not (gap_below and gap_above):
                assert abs(x_below - x_above) >= STAGGER_M - 1e-9


def test_a_long_side_is_cut_by_reach_or_walked_and_never_stops_on_open_panel():
    # common practice, no source
    for case in (VAN, replace(VAN, can_walk=True)):
        for _, coat in coats_of(quick(case).plan):
            if coat.pattern == "walk":
                assert len(coat.sections) == 1
            for section in coat.sections:
                assert coat.pattern == "walk" or section.x_to_m - section.x_from_m <= 1.9 + 1e-9
            places = {join.between[0]: join.kind for join in coat.joins}
            assert all(places[refill.after_section] != "open" for refill in coat.refills)


def test_a_spare_cup_makes_the_joins_of_a_large_van_safer():
    # common practice, no source: the stop for the cup dominates every other cause of a late join
    mild_van = replace(VAN, temperature_c=20.0, rh=0.5)
    slow, quickly = (
        [
            join.wet_chance
            for layer, coat in coats_of(quick(case).plan)
            if layer.name != "clear"
            for join in coat.joins
        ]
        for case in (mild_van, replace(mild_van, spare_cup=True))
    )
    assert min(quickly) > min(slow) + 0.2


# --- the two passes ---------------------------------------------------------------------------------------------------


def test_each_section_gets_a_closed_pass_and_at_once_a_lighter_one_from_farther_away():
    # common practice, no source
    plan = quick(MILD).plan
    for layer in plan.layers[:2]:
        full, light = layer.coats[0].passes
        assert (full.name, light.name) == ("full", "light")
        assert light.distance_m > full.distance_m
        assert light.fan_m > full.fan_m
        assert light.speed_m_s > full.speed_m_s
        assert light.transfer < full.transfer
        assert film_of(light) < film_of(full)
    strokes = first_coat(MILD, "ground").planned.made.strokes
    ends = []
    for number in range(int(strokes.section.max()) + 1):
        mine = strokes.only(strokes.section == number)
        first, second = mine.only(mine.light == 0), mine.only(mine.light == 1)
        assert (first.begin_s + first.duration_s()).max() < second.begin_s.min()
        ends.append((first.begin_s.min(), (second.begin_s + second.duration_s()).max()))
    for (_, end), (begin, _) in itertools.pairwise(ends):
        assert end < begin, "a section is finished before the next begins"


@pytest.mark.parametrize("layer", COLOUR)
def test_at_every_join_the_light_pass_ends_one_fan_inside_the_closed_one(layer):
    # common practice, no source
    coat = first_coat(MILD, layer).planned
    strokes, back = coat.made.strokes, coat.reach.backwards
    assert len(coat.work.bounds) > 2
    for number, bound in enumerate(coat.work.bounds[1:-1]):
        line = coat.reach.places[bound - 1]
        away = []
        for light in (0, 1):
            mine = strokes.only((strokes.section == number) & (strokes.light == light))
            end = line.x_at(mine.centre_m) - mine.left_m if back else mine.right_m - line.x_at(mine.centre_m)
            reached = end[end > -0.5]
            assert reached.size
            away.append(float(reached.mean()))
        assert away[1] < away[0] - 0.20
        assert away[1] == pytest.approx(away[0] - coat.work.passes[0][0].fan_m, abs=FEATHER_M / 2 + LAP_M)


def test_a_control_pass_goes_from_farther_away_at_85_to_90_percent_overlap():
    # common practice, no source; published by paint makers: distance up, overlap 85 to 90 %
    full = full_pass(request_of(MILD).job.gun, 1.2)
    control = drop_pass(full)
    assert control.distance_m > full.distance_m
    assert 0.85 <= control.overlap <= 0.90


def test_an_effect_coat_of_one_and_a_half_is_a_closed_and_a_light_pass():
    # common practice, no source
    assert composition(1.5, "effect") == (CoatPlan("full_light", 1.5),)


def test_an_overlap_below_half_is_said():
    # common practice, no source: 75 % for effect coats, below 50 % a fault
    assert {"film-not-closed", "film-off-sheet"} & codes(quick(replace(MILD, overlap=0.40)).plan)


def test_from_50_to_75_percent_overlap_the_sprayed_mass_doubles():
    # exact, from the geometry of a raster: strokes per metre go as 1 / (1 - overlap)
    gun = [request_of(replace(MILD, overlap=overlap)).job.gun for overlap in (0.50, 0.75)]
    half, three_quarters = (full_pass(one, 1.2).film_g_m2() for one in gun)
    assert three_quarters == pytest.approx(2.0 * half)


def test_a_hand_of_0_40_instead_of_0_50_m_s_gives_a_quarter_more_film():
    # exact: film goes as 1 / speed; joins may lie elsewhere, and each laps by some centimetres
    slow, usual = (
        quick(replace(MILD, hand_m_s=speed, nozzle_mm=1.2)).plan.layers[1].coats[0] for speed in (0.40, 0.50)
    )
    assert film_of(slow.passes[0]) / film_of(usual.passes[0]) == pytest.approx(1.25)
    assert slow.film_wet_g_m2 / usual.film_wet_g_m2 == pytest.approx(1.25, rel=0.02)
