"""What the user fixed is kept and judged; what is wrong is said, with a way out."""

from dataclasses import replace

import pytest

from cases.planning import (
    DRY,
    FADE,
    MILD,
    ONE_PANEL,
    SEVERE,
    VAN,
    Case,
    coats_of,
    codes,
    planned,
    quick,
    request_of,
)
from cases.speech import english
from laydown.planning.plan import make_plan
from laydown.trade.side.build import build_side

CASES = (MILD, DRY, SEVERE, replace(MILD, painters=2), replace(MILD, can_walk=True), VAN, FADE)
NAMES = ("mild", "dry", "severe", "pair", "walk", "van", "fade")

TRAINEE = replace(DRY, skill="trainee")

every_plan = pytest.mark.parametrize("case", CASES, ids=NAMES)


# --- what the user fixed ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("end", ["front", "rear"])
def test_a_start_at_one_end_is_kept(end):
    other = {"front": "rear", "rear": "front"}[end]
    for _, coat in coats_of(quick(replace(MILD, start=end)).plan):
        assert english(coat.direction) == f"{end} to {other}"
        first, last = coat.sections[0], coat.sections[-1]
        assert (first.x_from_m < last.x_from_m) == (end == "front")


def test_a_start_at_a_feature_is_kept_and_an_unknown_one_is_said():
    at = "gap.front_door.rear_door"
    plan = quick(replace(MILD, start=at)).plan
    for _, coat in coats_of(plan):
        assert coat.start == at
        first = coat.joins[0]
        assert first.between == (1, 2)
        assert first.x_m == pytest.approx(1.55, abs=0.02)
    assert "start-unknown" in codes(quick(replace(MILD, start="tow hook")).plan)


@pytest.mark.parametrize(
    ("name", "value"), [("reducer", "fast"), ("water", 0.0), ("nozzle_mm", 1.2), ("reducer", "slow")]
)
def test_a_fixed_adjustment_is_kept(name, value):
    plan = quick(replace(DRY, **{name: value})).plan
    for adjustment in (plan.adjustment.ground, plan.adjustment.effect):
        assert getattr(adjustment, name) == value
        assert adjustment.fixed_by_user


def test_fixed_counts_are_kept_and_judged():
    plan = quick(replace(MILD, undercoat=45.0, ground_coats=1.5, effect_coats=5.0)).plan
    assert plan.hiding.ground_coats == 1.5
    assert sum(coat.counts for coat in plan.layers[0].coats) == 1.5
    assert plan.colour.effect_coats == 5.0
    assert sum(coat.counts for coat in plan.layers[1].coats) == 5.0
    assert {"ground-not-hiding", "effect-beyond-sheet"} <= codes(plan)


def with_ground(case: Case, **changes):
    """The request of a case with another sheet of the ground coat."""
    request = request_of(case)
    ground = replace(request.products.ground, **changes)
    return replace(request, products=replace(request.products, ground=ground))


def test_water_above_the_sheet_is_kept_and_stopped():
    plan = make_plan(with_ground(replace(DRY, water=0.10), water_max=0.05), thorough=False, drawn=False).plan
    assert plan.adjustment.ground.water == 0.10
    (finding,) = [one for one in plan.findings if one.code == "water-above-sheet"]
    assert finding.level == "stop"
    assert finding.where == "ground.adjustment"
    assert finding.do
    assert plan.verdict.state == "stop"


def test_a_reducer_that_the_sheet_does_not_name_is_kept_and_stopped():
    plan = make_plan(
        with_ground(replace(DRY, reducer="slow"), reducers=("standard",)), thorough=False, drawn=False
    ).plan
    assert plan.adjustment.ground.reducer == "slow"
    assert "reducer-not-on-sheet" in codes(plan)
    assert plan.verdict.state == "stop"


def test_laydown_itself_never_goes_beyond_the_sheet():
    plan = make_plan(
        with_ground(SEVERE, water_max=None, reducers=("fast", "standard")), thorough=False, drawn=False
    ).plan
    assert plan.adjustment.ground.water == 0.0
    assert plan.adjustment.ground.reducer in {"fast", "standard"}
    assert not {"water-above-sheet", "reducer-not-on-sheet"} & codes(plan)


# --- no good plan -----------------------------------------------------------------------------------------------------


def test_where_no_good_plan_exists_it_is_said_with_ways_out_and_the_best_is_shown():
    plan = planned(VAN).plan
    (finding,) = [one for one in plan.findings if one.code == "no-good-plan"]
    assert finding.level == "stop"
    assert plan.verdict.state == "stop"
    assert plan.verdict.because[0] == "no-good-plan"
    assert finding.do
    assert all(coat.sections for _, coat in coats_of(plan))


@pytest.mark.parametrize("case", [VAN, SEVERE], ids=["van", "severe"])
def test_spraying_wetter_is_never_a_way_out_by_itself(case):
    plan = planned(case).plan
    assert plan.alternatives
    for way in plan.alternatives:
        words = english(way.change).lower()
        assert not any(word in words for word in ("overlap", "closer", "slower hand", "more paint", "wetter"))


def test_a_good_plan_does_not_say_that_there_is_none():
    assert "no-good-plan" not in codes(planned(MILD).plan)


@pytest.mark.parametrize("case", [VAN, MILD], ids=["van", "mild"])
def test_alternatives_are_ranked_by_their_tightest_join(case):
    ways = planned(case).plan.alternatives
    ranked = [way.wet_chance if way.wet_chance is not None else 0.0 for way in ways]
    assert ranked == sorted(ranked, reverse=True)
    assert len({way.change for way in ways}) == len(ways)


# --- findings ---------------------------------------------------------------------------------------------------------


@every_plan
def test_every_join_that_is_not_wet_has_its_finding(case):
    plan = quick(case).plan
    asked = {
        f"{layer.name}.{coat.number}.{join.id}"
        for layer, coat in coats_of(plan)
        for join in coat.joins
        if join.state != "wet"
    }
    found = [one.where for one in plan.findings if one.code in {"join-tight", "join-dry"}]
    assert set(found) == asked
    assert len(found) == len(asked)


@every_plan
def test_the_verdict_follows_the_worst_finding(case):
    plan = quick(case).plan
    levels = {finding.level for finding in plan.findings}
    worst = "stop" if "stop" in levels else "caution" if "caution" in levels else "go"
    assert plan.verdict.state == worst


@every_plan
def test_every_finding_says_what_to_do(case):
    for finding in quick(case).plan.findings:
        assert english(finding.text).strip()
        assert finding.do or finding.code in {"join-tight", "join-dry"}, finding.code


def test_a_trainee_gets_less_chance_than_a_skilled_hand():
    skilled, trainee = (quick(case).plan.layers[0].coats[0].joins for case in (DRY, TRAINEE))
    assert min(join.wet_chance for join in trainee) < min(join.wet_chance for join in skilled)


def test_one_panel_needs_no_join_in_the_ground_coat():
    plan = quick(replace(DRY, works=ONE_PANEL)).plan
    assert all(not coat.joins for coat in plan.layers[0].coats)


def test_the_side_of_a_plan_is_the_one_that_was_asked():
    assert quick(MILD).plan.side.outline == build_side("medium hatch", {})
