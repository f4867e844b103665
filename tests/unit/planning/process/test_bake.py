"""The bake of the clear as a noun, and what there is to fear of it."""

from dataclasses import replace

import pytest

from cases.planning import MILD, request_of
from laydown.planning.process.bake import AIR_ABOVE_METAL_K, bake_of
from laydown.planning.setup.setup import setup_of
from laydown.schema.product import Bake


def baked(bake=None, **limits):
    """The bake of a car side with other limits or another sheet of the clear."""
    request = request_of(MILD)
    job = replace(request.job, limits=replace(request.job.limits, **limits))
    clear = request.products.clear if bake is None else replace(request.products.clear, bake=bake)
    return bake_of(setup_of(replace(request, job=job, products=replace(request.products, clear=clear))))


def codes_of(found):
    return {(one.level, one.code) for one in found}


def test_the_sheet_is_followed_and_the_air_is_a_little_warmer():
    plan, times, _, _ = baked()
    assert (plan.metal_c, plan.hold_s) == (60.0, 1800.0)
    assert plan.air_c == 60.0 + AIR_ABOVE_METAL_K
    assert times.on_s == pytest.approx(plan.hold_s + plan.reaches_s, rel=0.3)
    assert times.polish_s >= times.handle_s >= 0.0


def test_plastic_parts_are_named_as_the_slowest():
    plan, _, found, _ = baked()
    assert "plastic" in plan.slowest_part
    assert ("note", "bake-not-measured") in codes_of(found)


def test_a_traction_battery_without_a_limit_asks_the_vehicle_maker():
    plan, times, found, _ = baked(electric_vehicle=True)
    assert plan.verdict == "ask the vehicle maker"
    assert ("stop", "bake-ask-vehicle-maker") in codes_of(found)
    assert times.on_s is None


def test_a_bake_above_the_vehicle_makers_limit_is_stopped():
    _, _, found, _ = baked(metal_max_c=50.0)
    assert any(level == "stop" for level, _ in codes_of(found))


def test_a_sheet_without_a_bake_gets_half_an_hour_at_60_c_and_says_so():
    request = request_of(MILD)
    clear = replace(request.products.clear, bake=None)
    plan, _, _, used = bake_of(setup_of(replace(request, products=replace(request.products, clear=clear))))
    assert (plan.metal_c, plan.hold_s) == (60.0, 1800.0)
    assert "clear.bake" in {one.figure for one in used}


def test_a_hotter_bake_takes_longer_to_reach():
    assert baked(Bake(80.0, 1200.0))[0].reaches_s > 0.0
    assert baked(Bake(80.0, 1200.0))[0].air_c == 85.0


def test_without_clear_there_is_no_bake():
    case = replace(MILD, works=(("front door", "repaired", 90.0, "full", "none", "none"),))
    setup = setup_of(request_of(case))
    plan, times, found, _ = bake_of(setup)
    assert "clear" not in setup.fields
    assert plan.verdict == "not needed"
    assert times.on_s is None
    assert not found
