"""One mix for each layer: its lines, its question to the sheet, and what there is to fear."""

from dataclasses import replace

import pytest

from cases.planning import DRY, MILD, process_for, quick, request_of, setup_for
from cases.speech import english
from laydown.planning.document.mixes import lines_of, mix_findings, mix_of
from laydown.planning.layers.adjustments import Option
from laydown.planning.setup.paint import paint_of
from laydown.schema.message import Finding

PRODUCTS = request_of(MILD).products
GROUND = paint_of(PRODUCTS.ground)
SLOW_5 = Option("slow", 0.05, True, 1.2)


def mix(case, layer):
    return mix_of(setup_for(case), layer, process_for(case).layers[layer])


def test_lines_are_the_sheets_with_the_speed_of_the_reducer_and_the_water_last():
    lines = lines_of(GROUND, SLOW_5)
    assert [line.role for line in lines] == ["base", "hardener", "reducer", "water"]
    assert lines[2].name.startswith("slow ")
    water = lines[-1]
    assert (water.amount, water.kind, water.of, water.basis) == (5.0, "percent", "base", "volume")


def test_hardener_and_water_are_poured_only_where_they_are_used():
    plain = lines_of(GROUND, Option("standard", 0.0, False, 1.2))
    assert [line.role for line in plain] == ["base", "reducer"]


def test_grams_of_a_mix_are_those_worked_by_hand():
    # 100 + 5 + 10 + 5 parts by volume, all of the base: per mL of base 1.1675 g, 0.05 * 1.10, 0.10 * 1.00, 0.05 * 0.9982
    # per 1.20 mL; hardened slow base with 5 % water is what dry air asks for
    made = mix(DRY, "ground")
    base_ml = made.mix_ml / 1.20
    by_hand = [base_ml * 1.1675, base_ml * 0.05 * 1.10, base_ml * 0.10 * 1.00, base_ml * 0.05 * 0.9982]
    assert [line.role for line in made.lines] == ["base", "hardener", "reducer", "water"]
    assert [line.step_g for line in made.lines] == pytest.approx(by_hand, abs=0.1)
    assert made.lines[-1].running_g == pytest.approx(sum(by_hand), abs=0.2)
    assert made.mix_g == pytest.approx(sum(by_hand), rel=1e-6)


def test_the_batch_is_the_need_with_panel_reserve_and_dead_volume_in_steps_of_25_ml():
    # ceil(((need + 40) * 1.10 + 30) / 25) * 25
    made = mix(MILD, "ground")
    raw = (made.need_ml + 40.0) * 1.10 + 30.0
    assert made.mix_ml % 25.0 == 0.0
    assert raw <= made.mix_ml < raw + 25.0


def test_a_clear_gets_no_let_down_panel():
    made = mix(MILD, "clear")
    raw = made.need_ml * 1.10 + 30.0
    assert raw <= made.mix_ml < raw + 25.0


def test_water_of_an_unclear_percentage_is_asked_with_the_grams_of_each_reading():
    made = mix(DRY, "effect")
    assert made.ask
    assert len(made.readings) >= 3
    grams = [one.water_g for one in made.readings]
    assert min(grams) < max(grams)
    poured = next(line.step_g for line in made.lines if line.role == "water")
    assert poured == pytest.approx(grams[0], rel=0.02), "the plan takes the first reading and says so"
    assert "water-percent-of-what" in {one.code for one in mix_findings(made, 0.0)}


def test_water_of_a_clear_percentage_is_not_asked():
    made = mix(DRY, "ground")
    assert (made.ask, made.readings) == ("", ())


def test_a_layer_that_takes_longer_than_the_pot_life_is_stopped():
    made = mix(MILD, "ground")
    assert made.pot_life_s == pytest.approx(7200.0, rel=0.01), "the sheet's two hours at its own 20 °C"
    assert not any(one.code == "pot-life-too-short" for one in mix_findings(made, 7000.0))
    (found,) = [one for one in mix_findings(made, 7400.0) if one.code == "pot-life-too-short"]
    assert found.level == "stop"


def test_warm_air_shortens_the_pot_life():
    assert mix(replace(MILD, temperature_c=30.0), "ground").pot_life_s < mix(MILD, "ground").pot_life_s


def test_a_mix_too_small_to_weigh_is_said():
    made = mix(MILD, "ground")
    small = replace(made, mix_g=made.least_mix_g - 1.0)
    assert [one.code for one in mix_findings(small, 0.0)] == ["mix-too-small"]
    assert not mix_findings(made, 0.0)


def test_an_unhardened_mix_has_no_pot_life_of_a_hardener():
    assert mix(replace(MILD, hardener=False), "ground").pot_life_s is None


def test_a_recipe_without_densities_becomes_a_finding_and_not_an_exception():
    setup = setup_for(MILD)
    layer = process_for(MILD).layers["ground"]
    broken = tuple(replace(line, density_g_ml=None) for line in PRODUCTS.ground.recipe)
    product = replace(PRODUCTS.ground, recipe=broken)
    task = replace(layer.task, paint=replace(layer.task.paint, product=product))
    found = mix_of(setup, "ground", replace(layer, task=task))
    assert isinstance(found, Finding)
    assert (found.level, found.code) == ("stop", "recipe-not-weighable")


def test_grams_poured_do_not_depend_on_the_side():
    left, right = (quick(replace(DRY, side=side)).plan.mixes for side in ("left", "right"))
    assert left == right


def test_fixed_water_beyond_what_the_model_knows_is_still_kept_in_grams():
    plan = quick(replace(DRY, water=0.15)).plan
    assert plan.adjustment.ground.water == 0.15
    poured = [line.name for line in plan.mixes[0].lines]
    assert "demineralised water" in poured
    said = next(one for one in plan.findings if one.code == "water-above-sheet")
    assert said.level == "stop"
    assert "as fixed" in english(said.why)
    assert "15 %" in english(said.text)


def test_more_water_than_the_film_model_knows_is_kept_and_said():
    plan = quick(replace(DRY, water=0.60)).plan
    assert plan.adjustment.ground.water == 0.60
    said = next(one for one in plan.findings if one.code == "water-above-sheet")
    assert "30 %" in english(said.why)
