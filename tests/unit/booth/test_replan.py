"""When the day leaves the plan."""

import time
from dataclasses import replace

import pytest

from cases.booth_day import START_S, at, event, follow, plan_of
from cases.planning import DRY, VAN, quick, setup_for
from cases.speech import english
from laydown.booth.changes_today import DayChange, pace_factor
from laydown.booth.day_steps import legs_of
from laydown.booth.guide import add, now
from laydown.booth.progress import replay
from laydown.booth.replan import replanned
from laydown.planning.plan import Stamp, plan_from
from laydown.planning.setup.setup import with_job
from laydown.schema.figure import Figure

PLACES = [
    ("prepare", 0),
    ("ground.1.spray", 2),
    ("ground.1.flash", 0),
    ("ground.release", 0),
    ("effect.1.spray", 1),
    ("effect.dehydrate", 0),
    ("effect.release", 0),
    ("clear.1.spray", 0),
    ("clear.1.flash", 0),
]


def turned(case, place, kind, **fields):
    plan, setup = quick(case).plan, setup_for(case)
    session, at_s = at(plan, *place)
    turn = replanned(plan, session, setup, DayChange(kind, at_s + fields.pop("later_s", 0.0), **fields))
    if turn.plan.id != plan.id:
        session = add(session, event("turn", at_s - START_S, "replan", text=turn.plan.id))
    return plan, turn, session, at_s


def coats(plan, layer):
    return next(one.coats for one in plan.layers if one.name == layer)


@pytest.mark.parametrize("place", PLACES, ids=lambda place: place[0])
def test_other_air_keeps_what_is_done_and_the_place_where_one_stands(place):
    plan, turn, session, at_s = turned(DRY, place, "air changed", temperature_c=Figure(28.0), rh=Figure(0.4))
    before = now(plan, replace(session, events=session.events[:-1]), at_s)
    after = now(turn.plan, session, at_s)
    assert (after.step, after.section) == (before.step, before.section)
    assert turn.changes
    assert turn.plan.id != plan.id
    for layer in plan.layers:
        done = [one for one in layer.coats if before.step.startswith("clear") and layer.name != "clear"]
        assert done == [] or coats(turn.plan, layer.name) == layer.coats


@pytest.mark.parametrize("place", PLACES, ids=lambda place: place[0])
def test_the_way_on_from_a_turn_ends_closed(place):
    _, turn, session, at_s = turned(DRY, place, "air changed", temperature_c=Figure(28.0), rh=Figure(0.4))
    session, at_s = follow(turn.plan, session, at_s, lambda screen: english(screen.where) == "closed")
    ids = [step.id for step in turn.plan.timeline]
    assert len(ids) == len(set(ids))


@pytest.mark.parametrize("place", PLACES, ids=lambda place: place[0])
@pytest.mark.parametrize("kind", ["interrupted", "painter left"])
def test_where_nothing_differs_nothing_changes(place, kind):
    plan, turn, _, _ = turned(DRY, place, kind)
    assert turn.changes == ()
    assert turn.plan is plan


def test_every_change_is_told_old_and_new():
    _, turn, _, _ = turned(
        DRY, ("ground.1.flash", 0), "air changed", temperature_c=Figure(30.0), rh=Figure(0.3)
    )
    assert all(one.old != one.new for one in turn.changes)
    assert any(english(one.what).endswith("flash") for one in turn.changes)


def test_a_mix_in_use_keeps_its_adjustment():
    plan, turn, _, _ = turned(
        DRY, ("ground.1.flash", 0), "air changed", temperature_c=Figure(18.0), rh=Figure(0.6)
    )
    assert turn.plan.adjustment.ground == plan.adjustment.ground
    assert [one for one in turn.plan.mixes if one.layer == "ground"] == [
        one for one in plan.mixes if one.layer == "ground"
    ]
    assert turn.plan.adjustment.effect != plan.adjustment.effect


def test_warmer_drier_air_leaves_the_edge_of_the_coat_at_hand_open_for_less_long():
    plan, turn, _, _ = turned(
        DRY, ("ground.1.spray", 1), "air changed", temperature_c=Figure(30.0), rh=Figure(0.15)
    )
    old, new = coats(plan, "ground")[0], coats(turn.plan, "ground")[0]
    assert new.sections == old.sections
    assert new.open_s.value < old.open_s.value
    assert new.joins[-1].wet_chance < old.joins[-1].wet_chance


def test_one_painter_instead_of_two_has_the_whole_side_alone():
    case = replace(VAN, painters=2)
    plan, turn, _, _ = turned(case, ("ground.1.flash", 0), "painter left")
    assert coats(turn.plan, "ground")[0].sections == coats(plan, "ground")[0].sections
    assert coats(turn.plan, "ground")[1].elapsed_s > 1.3 * coats(plan, "ground")[1].elapsed_s
    assert turn.setup.crew.painters == 1


def test_a_slow_hand_is_planned_with_from_here_on():
    plan = plan_of(DRY)
    session, at_s = at(plan, "ground.1.spray", 1)
    took = 1.5 * coats(plan, "ground")[0].sections[0].elapsed_s
    session = add(session, event("slow", at_s - START_S + took, "next"))
    legs = legs_of(plan)
    assert pace_factor(legs, replay(legs, session, at_s), at_s + took) == pytest.approx(1.5, rel=0.01)
    turn = replanned(plan, session, setup_for(DRY), DayChange("section took longer", at_s + took))
    assert turn.setup.job.gun.speed_m_s.value == pytest.approx(
        setup_for(DRY).job.gun.speed_m_s.value / 1.5, rel=0.01
    )
    assert coats(turn.plan, "ground")[1].elapsed_s > coats(plan, "ground")[1].elapsed_s


def test_a_section_that_was_interrupted_does_not_count_as_a_slow_hand():
    plan = plan_of(DRY)
    session, at_s = at(plan, "ground.1.spray", 1)
    session = add(session, event("phone", at_s - START_S + 2000.0, "next"))
    legs = legs_of(plan)
    assert pace_factor(legs, replay(legs, session, at_s), at_s + 2001.0) == 1.0


def test_a_low_cup_is_filled_at_a_gap_and_the_join_judged_anew():
    plan, turn, session, at_s = turned(DRY, ("ground.1.spray", 1), "ran low", left_g=40.0)
    refill = coats(turn.plan, "ground")[0].refills[0]
    assert refill.after_section == 1
    assert coats(plan, "ground")[0].joins[0].kind == "gap"
    assert english(turn.words).startswith(f"fill {refill.fill_g:.0f} g")
    assert english(now(turn.plan, session, at_s).second).startswith("fill")
    _, enough, _, _ = turned(DRY, ("ground.1.spray", 1), "ran low", left_g=2000.0)
    assert "enough" in english(enough.words)


def test_a_forgotten_ground_coat_is_added_before_the_gate():
    plan, turn, session, at_s = turned(DRY, ("ground.release", 0), "coat forgotten", layer="ground", coat=1)
    assert len(coats(turn.plan, "ground")) == len(coats(plan, "ground")) + 1
    assert coats(turn.plan, "ground")[: len(coats(plan, "ground"))] == coats(plan, "ground")
    assert now(turn.plan, session, at_s).step == f"ground.{len(coats(plan, 'ground')) + 1}.spray"
    steps = [step.id for step in turn.plan.timeline]
    assert steps.index("ground.release") < steps.index("effect.1.spray")


def test_a_ground_coat_forgotten_under_the_effect_coat_is_told_as_a_fault():
    # the effect coat never hides: common practice, no source
    plan, turn, _, _ = turned(DRY, ("effect.1.spray", 2), "coat forgotten", layer="ground", coat=1)
    assert turn.plan is plan
    assert "too late" in english(turn.words)


def test_an_effect_coat_older_than_a_day_is_scuffed_and_gets_one_more_coat_and_a_second_gate():
    # printed mid-coat sheets: after 24 h scuff lightly and apply one more coat, then clear
    plan, turn, session, at_s = turned(DRY, ("clear.1.spray", 0), "interrupted", later_s=90_000.0)
    count = len(coats(plan, "effect"))
    assert len(coats(turn.plan, "effect")) == count + 1
    assert "scuff" in english(turn.words)
    assert now(turn.plan, session, at_s + 90_000.0).step == f"effect.{count + 1}.spray"
    steps = [step.id for step in turn.plan.timeline]
    assert f"effect.{count + 1}.spray" in steps
    again = [name for name in steps if name.endswith(".again")]
    assert again == ["effect.dehydrate.again", "effect.release.again"]
    gate = next(leg for leg in legs_of(turn.plan) if leg.id == "effect.release.again")
    assert gate.gate is not None
    _, soon, _, _ = turned(DRY, ("clear.1.spray", 0), "interrupted", later_s=80_000.0)
    assert soon.changes == ()


def test_two_turns_on_one_day_build_on_each_other():
    _, turn, session, at_s = turned(DRY, ("ground.release", 0), "coat forgotten", layer="ground", coat=1)
    session, at_s = follow(turn.plan, session, at_s, lambda screen: screen.step == "effect.1.spray")
    second = replanned(
        turn.plan, session, turn.setup, DayChange("air changed", at_s, Figure(28.0), Figure(0.4))
    )
    assert coats(second.plan, "ground") == coats(turn.plan, "ground")
    session = add(session, event("second", at_s - START_S, "replan", text=second.plan.id))
    follow(second.plan, session, at_s, lambda screen: english(screen.where) == "closed")


@pytest.mark.parametrize("control", [False, True])
@pytest.mark.parametrize("half", ["light", "half strength"])
def test_half_coats_and_a_drop_coat_stay_as_they_were_ordered(half, control):
    setup = setup_for(replace(DRY, effect_coats=2.5))
    choices = replace(setup.job.choices, half_coat=half, drop_coat=control)
    setup = with_job(setup, replace(setup.job, choices=choices))
    plan = plan_from(setup, Stamp("x"), thorough=False, drawn=False).plan
    session, at_s = at(plan, "effect.1.flash")
    change = DayChange("air changed", at_s, Figure(26.0), Figure(0.3))
    turn = replanned(plan, session, setup, change)
    assert [one.part for one in coats(turn.plan, "effect")] == [one.part for one in coats(plan, "effect")]
    assert coats(turn.plan, "effect")[1] != coats(plan, "effect")[1]
    assert coats(turn.plan, "effect")[0].sections == coats(plan, "effect")[0].sections


def test_after_the_last_coat_nothing_is_planned_again():
    plan, turn, _, _ = turned(DRY, ("bake", 0), "air changed", temperature_c=Figure(28.0))
    assert turn.plan is plan
    assert "nothing is left" in english(turn.words)


@pytest.mark.parametrize("kind", ["air changed", "ran low", "coat forgotten"])
def test_a_change_without_its_figure_is_refused(kind):
    with pytest.raises(ValueError, match="must be given"):
        turned(DRY, ("ground.1.flash", 0), kind)


def test_a_turn_on_a_car_side_takes_less_than_a_second_of_work():
    plan, setup = quick(DRY).plan, setup_for(DRY)
    session, at_s = at(plan, "ground.1.flash")
    begun = time.process_time()
    replanned(plan, session, setup, DayChange("air changed", at_s, Figure(27.0), Figure(0.35)))
    assert time.process_time() - begun < 1.0
