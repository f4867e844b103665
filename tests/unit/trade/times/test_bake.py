"""The bake is judged by its slowest part; the next coat by the panel."""

import math

import pytest

from cases.speech import english
from laydown.schema.limits import Limits
from laydown.schema.product import Bake
from laydown.trade.times.bake import bake_course
from laydown.trade.times.gate import GateAir, after_bake, dry_and_cool, next_coat_gate
from laydown.trade.times.warming import HeatedPart, Heating, parts_of_side, warming

SHEET = Bake(metal_c=60.0, time_s=1800.0)
SIDE = parts_of_side("steel", 0.8, plastic=True)
WARM = Heating(start_c=20.0, air_c=70.0)


def test_the_time_constant_of_a_skin_is_that_worked_by_hand():
    # 7.85 x 0.46 x 800 = 2889 J/(m2 K); (8 + 0.9 x 5.670e-8 (338.152 + 315.652) 653.8) x 1.4 = 21.2 W/(m2 K).
    transfer = (8 + 0.9 * 5.670374e-8 * (338.15**2 + 315.65**2) * (338.15 + 315.65)) * 1.4
    course = warming(HeatedPart("skin", "steel", 0.8), Heating(20.0, 65.0))
    assert course.panel_s == pytest.approx(2888.8 / transfer, rel=1e-3)
    assert course.goal_c == pytest.approx(65.0)


def test_the_slowest_part_decides_how_long_the_heat_is_on():
    course = bake_course(SHEET, Limits(), SIDE, WARM)
    slowest = max(course.parts, key=lambda part: part.reaches_s)
    assert course.slowest_part == slowest.name != "skin"
    assert course.on_s == pytest.approx(slowest.reaches_s + 1800.0)
    assert course.passes
    assert slowest.held_s == pytest.approx(1800.0)
    assert all(part.held_s >= 1800.0 - 1e-6 for part in course.parts)


def test_a_bake_by_the_model_alone_is_a_guess():
    verdicts = {
        how: bake_course(SHEET, Limits(), SIDE, WARM, evidence=how).verdict
        for how in ("measured", "anchored", "model")
    }
    assert verdicts == {"measured": "measured", "anchored": "estimated", "model": "guess"}
    guess, read = (
        bake_course(SHEET, Limits(), SIDE, WARM, evidence=how).text for how in ("model", "measured")
    )
    assert "computed only" in english(guess)
    assert "read on" in english(read)


def test_a_programme_that_is_too_short_does_not_pass():
    course = bake_course(SHEET, Limits(), SIDE, WARM, on_s=1800.0)
    assert not course.passes
    assert course.on_s == 1800.0


def test_cold_walls_keep_a_panel_below_the_air():
    course = bake_course(SHEET, Limits(), SIDE, Heating(20.0, 65.0, wall_c=45.0))
    assert course.verdict == "never reached"
    assert (course.reaches_s, course.on_s, course.passes) == (None, None, False)
    assert "walls" in english(course.text)


def test_a_traction_battery_without_the_makers_limit_gets_no_time():
    course = bake_course(SHEET, Limits(electric_vehicle=True), SIDE, WARM)
    assert course.verdict == "ask the vehicle maker"
    assert (course.on_s, course.passes) == (None, False)
    assert bake_course(SHEET, Limits(electric_vehicle=True, metal_max_c=80.0), SIDE, WARM).verdict == "guess"


@pytest.mark.parametrize(
    ("sheet", "limits"),
    [(Bake(60.0, 1800.0, max_c=62.0), Limits()), (SHEET, Limits(metal_max_c=62.0))],
)
def test_a_part_past_the_limit_of_sheet_or_vehicle_fails_the_bake(sheet, limits):
    course = bake_course(sheet, limits, SIDE, WARM)
    assert "skin" in course.over_limit
    assert not course.passes
    assert "Too hot" in english(course.text)


def test_the_shortest_ramp_of_the_sheet_is_kept():
    slow = Bake(60.0, 1800.0, ramp_min_s=3600.0)
    assert bake_course(slow, Limits(), SIDE, WARM).on_s == pytest.approx(5400.0)


@pytest.mark.parametrize(
    ("part", "heating"),
    [
        (HeatedPart("x", "steel", 0.0), WARM),
        (HeatedPart("x", "steel", 21.0), WARM),
        (HeatedPart("x", "wood", 1.0), WARM),
        (HeatedPart("x", "steel", 1.0), Heating(-21.0, 60.0)),
        (HeatedPart("x", "steel", 1.0), Heating(20.0, 151.0)),
        (HeatedPart("x", "steel", 1.0), Heating(20.0, 60.0, wall_c=200.0)),
    ],
)
def test_what_is_outside_its_range_is_refused(part, heating):
    with pytest.raises(ValueError, match="must be"):
        warming(part, heating)


def test_a_side_without_parts_is_refused():
    with pytest.raises(ValueError, match="parts"):
        bake_course(SHEET, Limits(), [], WARM)
    with pytest.raises(ValueError, match="parts"):
        dry_and_cool(600.0, None, [], WARM, GateAir(20.0, 9.0))


@pytest.mark.parametrize(
    ("surface_c", "air", "open_", "word"),
    [
        (24.0, GateAir(22.0, 9.0), True, ""),
        (30.5, GateAir(26.0, 9.0), False, "warm"),
        (30.5, GateAir(22.0, 9.0, surface_max_c=40.0), False, "warm"),
        (29.5, GateAir(24.0, 9.0, surface_max_c=40.0), True, ""),
        (26.0, GateAir(24.0, 9.0, surface_max_c=25.0), False, "warm"),
        (18.0, GateAir(20.0, 15.5), False, "cold"),
        (12.0, GateAir(20.0, 9.0), True, ""),
    ],
)
def test_the_next_coat_waits_for_a_panel_neither_warm_nor_cold(surface_c, air, open_, word):
    gate = next_coat_gate(surface_c, air)
    assert gate.open is open_
    assert [english(reason).split()[0] for reason in gate.reasons] == ([word] if word else [])


def test_a_flash_in_booth_air_needs_no_cooling():
    found = dry_and_cool(600.0, None, SIDE, Heating(20.0, 22.0), GateAir(22.0, 9.0))
    assert (found.dry_s, found.cool_s, found.ready_s) == (600.0, 0.0, 600.0)


def test_a_drying_bake_is_followed_by_cooling_until_the_gate_opens():
    air = GateAir(22.0, 9.0)
    found = dry_and_cool(600.0, 50.0, SIDE, Heating(20.0, 60.0), air)
    assert found.dry_s > 600.0
    assert found.cool_s > 60.0
    assert found.ready_s == pytest.approx(found.dry_s + found.cool_s)
    assert found.surface_c == pytest.approx(next_coat_gate(25.0, air).high_c)
    assert found.slowest_part != "skin"


def test_cooling_radiates_at_booth_temperature_and_not_at_that_of_the_bake():
    # By hand: a skin long held at 60 °C air cools to 30 °C in 22 °C air: tau ln(38 / 8), hr at the mean of 41 °C.
    found = dry_and_cool(36_000.0, 50.0, SIDE[:1], Heating(20.0, 60.0), GateAir(22.0, 9.0))
    radiation = 0.9 * 5.670374e-8 * (295.15**2 + 314.15**2) * (295.15 + 314.15)
    tau = 7.85 * 0.46 * 800 / ((8 + radiation) * 1.4)
    assert found.cool_s == pytest.approx(tau * math.log(38 / 8), rel=1e-3)


def test_drying_that_never_gets_there_has_no_time():
    found = dry_and_cool(600.0, 60.0, SIDE, Heating(20.0, 55.0), GateAir(22.0, 9.0))
    assert (found.dry_s, found.ready_s) == (None, None)


def test_a_panel_cannot_cool_below_the_air():
    found = dry_and_cool(600.0, 50.0, SIDE, Heating(20.0, 60.0), GateAir(33.0, 9.0))
    assert found.dry_s is not None
    assert (found.cool_s, found.ready_s, found.surface_c) == (None, None, None)


def test_a_baked_car_is_handled_then_polished():
    # By hand: 150 ln(40 / 15) = 147 s to 35 °C; 25 °C comes long before the hour.
    found = after_bake(60.0, 20.0, 150.0)
    assert found.handle_s == pytest.approx(150 * math.log(40 / 15))
    assert found.polish_s == 3600.0
    # 2000 ln(40 / 5) = 4159 s: a thick part is polished later.
    assert after_bake(60.0, 20.0, 2000.0).polish_s == pytest.approx(2000 * math.log(8))
    hot = after_bake(60.0, 30.0, 150.0)
    assert hot.handle_s is not None
    assert hot.polish_s is None
