"""What one change would lead to."""

from dataclasses import replace

import pytest

from cases.planning import DRY, MILD, SEVERE, VAN, planned, request_of
from cases.speech import english
from laydown.planning.document.alternatives import COOLER_K, cooler
from laydown.planning.plan import make_plan
from laydown.planning.setup.request import Changes, changed
from laydown.schema.figure import Figure
from laydown.schema.limits import Prices

STATES = ((0.90, "go"), (0.50, "caution"), (0.0, "stop"))


def ways(case):
    return {english(one.change): one for one in planned(case).plan.alternatives}


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
        if way.wet_chance is not None and "no possible sections" not in english(way.text):
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
    assert "needs a second cup" in english(ways(VAN)["spare cup"].text)


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


@pytest.mark.parametrize("case", [DRY, SEVERE], ids=["dry", "severe"])
def test_what_is_told_of_a_change_is_what_a_plan_of_the_changed_job_says(case):
    request = request_of(case)
    changes = {
        "two painters": Changes(painters=2),
        "10 % water": Changes(water=0.10),
        "standard reducer": Changes(reducer="standard"),
        "walk the length": Changes(can_walk=True),
    }
    day = planned(case).plan.timeline
    for name, change in changes.items():
        if name not in ways(case):
            continue
        told = ways(case)[name]
        plan = quick_plan(replace(request, job=changed(request.job, change)))
        joins = [join for layer in plan.layers[:2] for coat in layer.coats for join in coat.joins]
        assert told.minutes == pytest.approx((last_s(plan.timeline) - last_s(day)) / 60.0)
        if joins:
            tightest = min(joins, key=lambda join: join.wet_chance)
            assert told.wet_chance == pytest.approx(tightest.wet_chance)
            assert told.margin_s == pytest.approx(tightest.margin_s.value)


def quick_plan(request):
    return make_plan(request, thorough=False, drawn=False).plan


def last_s(steps):
    return max(step.end_s for step in steps)


def test_a_change_costs_what_the_users_own_prices_say_and_nothing_without_them():
    assert all(way.cost is None for way in ways(DRY).values())
    request = request_of(DRY)
    priced = replace(request.job, prices=Prices(currency="EUR", booth_per_h=60.0))
    plan = make_plan(replace(request, job=priced), drawn=False).plan
    pair = next(one for one in plan.alternatives if english(one.change) == "two painters")
    other = quick_plan(replace(request, job=changed(priced, Changes(painters=2))))
    # by hand: 60 EUR for an hour in the booth, so one minute less there is one EUR less
    assert plan.cost.total == pytest.approx(booth_min(plan.timeline), abs=0.02)
    assert pair.cost == pytest.approx(booth_min(other.timeline) - booth_min(plan.timeline), abs=0.02)
    assert f"cost {round(pair.cost):+d} EUR" in english(pair.text)


def booth_min(steps):
    return sum(step.end_s - step.start_s for step in steps if step.where == "booth") / 60.0
