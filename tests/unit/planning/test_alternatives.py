"""What one change would lead to."""

from dataclasses import replace

import pytest

from laydown.planning.alternatives import COOLER_K, cooler
from laydown.schema.figure import Figure
from planning_cases import DRY, MILD, SEVERE, VAN, planned, request_of

STATES = ((0.90, "go"), (0.50, "care"), (0.0, "stop"))


def ways(case):
    return {one.change: one for one in planned(case).plan.alternatives}


def test_a_cooler_hour_has_the_same_water_in_the_air():
    # 3169.7 Pa at 25 °C and 2338.8 Pa at 20 °C (steam tables, IAPWS): 40 % becomes 54.2 %
    job = request_of(replace(MILD, temperature_c=25.0, rh=0.40)).job
    found = cooler(job)
    assert COOLER_K == 5.0
    assert found.air.temperature_c.value == 20.0
    assert found.air.rh.value == pytest.approx(0.40 * 3169.7 / 2338.8, rel=0.002)
    assert found.surface.temperature_c is None


def test_a_cooler_hour_never_passes_95_percent():
    job = request_of(replace(MILD, temperature_c=25.0)).job
    damp = replace(job, air=replace(job.air, rh=Figure(0.90)))
    assert cooler(damp).air.rh.value == 0.95


@pytest.mark.parametrize("case", [MILD, SEVERE, VAN], ids=["mild", "severe", "van"])
def test_a_verdict_is_that_of_its_tightest_join(case):
    for way in planned(case).plan.alternatives:
        if way.wet_chance is not None and "no possible sections" not in way.text:
            assert way.verdict == next(word for least, word in STATES if way.wet_chance >= least)


@pytest.mark.parametrize("case", [DRY, SEVERE], ids=["dry", "severe"])
def test_a_change_that_is_planned_already_is_not_offered(case):
    plan = planned(case).plan
    adjustments = (plan.adjustment.ground, plan.adjustment.effect)
    if {one.reducer for one in adjustments} == {"slow"}:
        assert "slow reducer" not in ways(case)
    assert "standard reducer" in ways(case)


def test_what_the_job_has_already_is_not_offered():
    assert "two painters" in ways(SEVERE)
    assert "walk the length" in ways(SEVERE)
    able = replace(SEVERE, painters=2, can_walk=True)
    assert not {"two painters", "walk the length"} & set(ways(able))


def test_a_spare_cup_is_offered_only_where_the_cup_is_filled():
    assert "spare cup" in ways(VAN)
    assert "spare cup" not in ways(MILD)
    assert "spare cup" not in ways(replace(VAN, spare_cup=True))


def test_a_spare_cup_gives_time_and_saves_minutes_on_a_van():
    assert ways(VAN)["spare cup"].minutes < 0.0
    assert "needs a second cup" in ways(VAN)["spare cup"].text


def test_two_painters_are_faster_and_safer_in_hot_dry_air():
    pair = ways(SEVERE)["two painters"]
    tightest = min(
        join.wet_chance for layer in planned(SEVERE).plan.layers[:2] for join in layer.coats[0].joins
    )
    assert pair.minutes < 0.0
    assert pair.wet_chance > tightest


def test_a_cooler_hour_is_safer_but_slower_in_hot_dry_air():
    hour = ways(SEVERE)["an hour 5 K cooler"]
    tightest = min(
        join.wet_chance for layer in planned(SEVERE).plan.layers[:2] for join in layer.coats[0].joins
    )
    assert hour.wet_chance > tightest


def test_both_nozzles_are_not_offered_at_once_for_the_same_plan():
    names = {name for name in ways(MILD) if name.startswith("nozzle")}
    plan = planned(MILD).plan
    used = {plan.adjustment.ground.nozzle_mm, plan.adjustment.effect.nozzle_mm}
    if len(used) == 1:
        assert f"nozzle {used.pop():g}" not in names
    assert names
