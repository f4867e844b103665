"""The guide from plan, log and clock."""

from dataclasses import replace

import pytest

from cases.booth_day import START_S, at, event, follow, main_button, plan_of, tapped
from cases.planning import VAN, quick
from cases.speech import english
from laydown.booth.guide import add, now, plan_id_of
from laydown.schema.coat import Refill
from laydown.schema.figure import Spread
from laydown.schema.session import Session


def coat_of(plan, layer, number):
    return next(one for one in plan.layers if one.name == layer).coats[number - 1]


def test_a_day_tapped_as_planned_ends_closed():
    plan = plan_of()
    session, at_s = follow(plan, Session(plan.id), START_S, lambda screen: english(screen.where) == "closed")
    assert english(now(plan, session, at_s).sentence) == "closed: good"
    # sections and gates of the plan, and nothing twice
    steps = [one.step for one in session.events if one.kind == "begin"]
    assert steps == [
        *(f"{layer.name}.{coat.number}.spray" for layer in plan.layers for coat in layer.coats),
        "bake",
    ]


def test_before_the_first_stroke_it_names_coat_section_cup_and_pace():
    plan = plan_of()
    screen = now(plan, *at(plan, "ground.1.spray"))
    first = coat_of(plan, "ground", 1).sections[0]
    assert screen.sign == "ready"
    assert first.panels[0] in english(screen.sentence)
    assert f"cup {first.cup_g_after + first.sprayed_g:.0f} g" in english(screen.second)
    assert "fed air" in english(screen.second)  # hardener in the ground coat
    assert screen.number_s == pytest.approx(first.elapsed_s)


def test_in_a_section_the_number_counts_to_the_end_of_the_edge():
    plan = plan_of()
    session, at_s = at(plan, "ground.1.spray", 1)
    screen = now(plan, session, at_s)
    coat = coat_of(plan, "ground", 1)
    join, first = coat.joins[0], coat.sections[0]
    # by hand: the section, 3 s to step aside, and the spare time of the plan
    assert screen.number_s == pytest.approx(first.elapsed_s + 3.0 + join.open_s.value - join.age_s.value)
    assert screen.counts_to_s == pytest.approx(at_s + screen.number_s)
    assert (screen.sign, screen.tone) == ("wet", "go")
    assert f"{first.cup_g_after:.0f} g" in english(screen.second)


def test_the_tone_follows_the_chance_of_the_edge_nine_in_ten_and_one_in_two():
    # an edge open for 100 s, middle 90 % 50 to 200 s, so ln sd = ln 2 / 1.645 = 0.4214:
    # nine in ten up to 100 exp(-1.2816 x 0.4214) = 58.3 s, one in two up to 100 s
    plan = plan_of()
    coat = coat_of(plan, "ground", 1)
    join = replace(coat.joins[0], age_s=Spread(40.0, 37.0, 43.0), open_s=Spread(100.0, 50.0, 200.0))
    changed = replace(coat, joins=(join, *coat.joins[1:]))
    ground = replace(plan.layers[0], coats=(changed, *plan.layers[0].coats[1:]))
    plan = replace(plan, layers=(ground, *plan.layers[1:]))
    session, at_s = at(plan, "ground.1.spray", 1)
    due = at_s + coat.sections[0].elapsed_s + 3.0
    seen = [now(plan, session, due + late) for late in (0.0, 18.0, 19.0, 59.0, 61.0)]
    assert [one.sign for one in seen] == ["wet", "wet", "tight", "tight", "dry"]
    assert [one.tone for one in seen] == ["go", "go", "caution", "caution", "stop"]
    assert seen[-1].number_s == pytest.approx(-1.0)
    assert seen[-1].assertive
    assert seen[-1].sound_count == 3


def test_a_lost_edge_in_open_panel_is_not_joined_and_at_a_gap_begun_anew():
    plan = plan_of()
    coat = coat_of(plan, "ground", 1)
    for kind, words in (
        ("gap", "begin anew beyond the gap"),
        ("open", "do not join here: go on at the next gap"),
    ):
        joins = (replace(coat.joins[0], kind=kind), *coat.joins[1:])
        ground = replace(plan.layers[0], coats=(replace(coat, joins=joins), *plan.layers[0].coats[1:]))
        other = replace(plan, layers=(ground, *plan.layers[1:]))
        session, at_s = at(other, "ground.1.spray", 1)
        screen = now(other, session, at_s + 10_000.0)
        assert words in english(screen.sentence)
        assert (screen.sign, screen.tone) == ("dry", "stop")


def test_slower_than_the_plan_by_a_quarter_is_said_and_the_tone_stays_that_of_the_edge():
    plan = plan_of()
    session, at_s = at(plan, "ground.1.spray", 1)
    elapsed = coat_of(plan, "ground", 1).sections[0].elapsed_s
    before, after = (now(plan, session, at_s + share * elapsed) for share in (1.24, 1.26))
    assert not english(before.sentence).startswith("slower")
    assert english(after.sentence).startswith("slower than the plan")
    assert after.tone == "go"


def test_half_time_the_last_ten_seconds_and_late_are_told_by_sound():
    plan = plan_of()
    session, at_s = at(plan, "ground.1.spray", 1)
    goal = now(plan, session, at_s).counts_to_s
    half = (at_s + goal) / 2.0
    counts = [now(plan, session, when).sound_count for when in (at_s, half + 1, goal - 9, goal + 1)]
    assert counts == [0, 1, 2, 3]


def test_a_refill_is_asked_for_at_its_gap_with_its_grams():
    plan = quick(VAN).plan
    coat = coat_of(plan, "ground", 1)
    refill = coat.refills[0]
    session, at_s = at(plan, "ground.1.spray", refill.after_section)
    screen = now(plan, session, at_s)
    assert screen.sign == "refill"
    assert english(screen.second).startswith(f"fill {refill.fill_g:.0f} g at {refill.feature}")
    session = add(session, tapped(main_button(screen), "fill", at_s + 60.0))
    filling = now(plan, session, at_s + 61.0)
    assert filling.sign in {"refill", "dry"}
    assert filling.section == refill.after_section
    assert main_button(filling).kind == "next"


def test_holding_stands_at_the_end_of_the_section_and_the_time_keeps_running():
    plan = plan_of()
    session, at_s = at(plan, "ground.1.spray", 1)
    goal = now(plan, session, at_s).counts_to_s
    session = add(session, event("hold", at_s - START_S + 20.0, "hold"))
    screen = now(plan, session, at_s + 30.0)
    assert screen.sign == "hold"
    assert "time keeps running" in english(screen.sentence)
    assert screen.counts_to_s == pytest.approx(goal)


def test_a_tap_that_came_late_is_moved_back_in_steps_of_five_seconds_but_not_before_the_last():
    plan = plan_of()
    session, at_s = at(plan, "ground.1.spray", 2)
    goal = now(plan, session, at_s).counts_to_s
    button = next(one for one in now(plan, session, at_s).buttons if one.kind == "earlier")
    once = add(session, tapped(button, "e1", at_s + 1.0))
    assert now(plan, once, at_s + 1.0).counts_to_s == pytest.approx(goal - 5.0)
    for number in range(100):
        once = add(once, tapped(button, f"f{number}", at_s + 2.0))
    first = coat_of(plan, "ground", 1).sections[0].elapsed_s
    assert now(plan, once, at_s + 2.0).counts_to_s == pytest.approx(goal - first)


def test_the_flash_counts_down_asks_to_look_at_seventy_percent_and_asks_at_the_end():
    plan = plan_of()
    session, at_s = at(plan, "ground.1.flash")
    flash = coat_of(plan, "ground", 1).flash_s.value
    seen = [now(plan, session, at_s + share * flash) for share in (0.1, 0.71, 1.01)]
    assert [one.sign for one in seen] == ["flash", "look", "look"]
    assert seen[0].number_s == pytest.approx(0.9 * flash)
    assert english(seen[1].sentence).startswith("look: matt everywhere")
    assert english(seen[2].sentence).startswith("matt everywhere")
    assert [one.kind for one in seen[2].buttons[:2]] == ["matt", "not_yet"]


def test_not_yet_asks_again_after_a_fifth_of_the_flash():
    plan = plan_of()
    session, at_s = at(plan, "ground.1.flash")
    flash = coat_of(plan, "ground", 1).flash_s.value
    session = add(session, event("n", at_s - START_S + flash, "not_yet"))
    assert now(plan, session, at_s + flash).number_s == pytest.approx(0.2 * flash)


def test_clear_is_never_asked_to_be_matt():
    plan = plan_of()
    session, at_s = at(plan, "clear.1.flash")
    screen = now(plan, session, at_s + 10_000.0)
    assert "matt" not in english(screen.sentence)
    assert "air-fed" in english(screen.second)


def test_a_gate_opens_with_three_yes_or_by_a_name_and_not_otherwise():
    plan = plan_of()
    session, at_s = at(plan, "ground.release")
    late = at_s - START_S
    for number, yes in enumerate((True, False, True)):
        session = add(session, event(f"a{number}", late, "answer", item=number, yes=yes))
    shut = add(session, event("r", late, "release"))
    assert now(plan, shut, at_s).step == "ground.release"
    assert "not yet" in english(now(plan, shut, at_s).sentence)
    unnamed = add(shut, event("x", late, "release_anyway"))
    assert now(plan, unnamed, at_s).step == "ground.release"
    named = add(shut, event("y", late, "release_anyway", text="R."))
    assert now(plan, named, at_s).step != "ground.release"
    good = add(add(session, event("b", late, "answer", item=1, yes=True)), event("s", late, "release"))
    assert now(plan, good, at_s).step == now(plan, named, at_s).step


def test_a_gate_tells_the_flash_expected_and_seen():
    plan = plan_of()
    session, at_s = at(plan, "ground.release")
    last = plan.layers[0].coats[-1]
    assert f"matt expected {last.flash_s.value / 60.0:.1f} min" in english(now(plan, session, at_s).second)


def test_pot_life_runs_from_the_tap_and_is_near_in_its_last_quarter_of_an_hour():
    plan = plan_of()
    limit = next(one.limit_s for one in plan.clocks if one.starts == "mix.ground")
    session = add(Session(plan.id), event("m", 0.0, "mixed", layer="ground"))
    early, late = now(plan, session, START_S + 10.0), now(plan, session, START_S + limit - 800.0)
    assert early.deadlines[0].at_s == pytest.approx(START_S + limit)
    assert not early.deadlines[0].near
    assert late.deadlines[0].near
    assert now(plan, session, START_S + limit + 1.0).deadlines[0].tone == "stop"


def test_without_the_tap_pot_life_counts_from_the_plans_mixing_and_says_so():
    plan = plan_of()
    session, at_s = at(plan, "ground.1.spray", 1)
    clock = now(plan, session, at_s).deadlines[0]
    limit = next(one.limit_s for one in plan.clocks if one.starts == "mix.ground")
    starts = {step.id: step.start_s for step in plan.timeline}
    lead = starts["ground.1.spray"] - starts["mix.ground"]
    assert clock.at_s == pytest.approx(at_s - lead + limit)
    assert "not tapped" in english(clock.name)


def test_the_window_to_the_clear_is_near_two_hours_before_its_end():
    plan = plan_of()
    session, at_s = at(plan, "effect.release")
    clock = next(one for one in now(plan, session, at_s).deadlines if "effect" in english(one.name))
    assert not clock.near
    assert next(
        one for one in now(plan, session, clock.at_s - 7000.0).deadlines if "effect" in english(one.name)
    ).near


def test_the_bake_counts_from_the_metal_not_from_the_air():
    plan = plan_of()
    session, at_s = at(plan, "bake")
    heating = now(plan, session, at_s)
    assert "slowest part" in english(heating.sentence)
    assert now(plan, add(session, event("d", at_s - START_S + 9.0, "done")), at_s + 9.0).step == "bake"
    warm = add(session, tapped(main_button(heating), "w", at_s + 900.0))
    assert now(plan, warm, at_s + 900.0).number_s == pytest.approx(plan.bake.hold_s)


def test_a_tap_sent_twice_changes_nothing():
    plan = plan_of()
    session, at_s = at(plan, "ground.1.spray", 1)
    again = add(session, session.events[-1])
    assert again is session
    assert now(plan, again, at_s) == now(plan, session, at_s)


def test_a_tap_meant_for_another_section_is_passed_over():
    plan = plan_of()
    session, at_s = at(plan, "ground.1.spray", 2)
    stale = event("stale", at_s - START_S + 1.0, "next", step="ground.1.spray", section=1)
    assert now(plan, add(session, stale), at_s + 1.0).section == 2


def test_undo_takes_the_last_tap_back_and_can_be_undone():
    plan = plan_of()
    session, at_s = at(plan, "ground.1.spray", 2)
    screen = now(plan, session, at_s)
    back = add(session, event("u", at_s - START_S, "undo", target=screen.undo))
    assert now(plan, back, at_s).section == 1
    forth = add(back, event("v", at_s - START_S, "undo", target="u"))
    assert replace(now(plan, forth, at_s), undo="") == replace(screen, undo="")


def test_after_a_restart_the_log_alone_gives_the_same_screen():
    plan = plan_of()
    session, at_s = at(plan, "effect.1.spray", 1)
    copy = Session(session.plan_id)
    for one in session.events:
        copy = add(copy, replace(one))
    assert now(plan, copy, at_s + 7.0) == now(plan, session, at_s + 7.0)


def test_a_log_of_another_plan_is_told_and_undoing_the_turn_goes_back():
    plan = plan_of()
    session = add(Session(plan.id), event("t", 0.0, "replan", text="other"))
    assert plan_id_of(session) == "other"
    assert now(plan, session, START_S).tone == "stop"
    back = add(session, event("u", 1.0, "undo", target="t"))
    assert plan_id_of(back) == plan.id
    assert now(plan, back, START_S).tone != "stop"


def test_the_first_fill_is_that_of_the_plan():
    plan = plan_of()
    coat = coat_of(plan, "ground", 1)
    first = coat.sections[0]
    screen = now(plan, *at(plan, "ground.1.spray"))
    assert f"cup {coat.fill_g:.0f} g" in english(screen.second)
    # one painter: what is left after the first section and what it took were both in the cup
    assert coat.fill_g == pytest.approx(first.cup_g_after + first.sprayed_g, rel=0.01)


def test_the_planned_refill_is_counted_into_the_time_of_the_next_section():
    plan = plan_of()
    coat = coat_of(plan, "ground", 1)
    session, at_s = at(plan, "ground.1.spray", 1)
    goal = now(plan, session, at_s).counts_to_s
    with_stop = replace(coat, refills=(Refill(1, "gap", 90.0, 200.0),))
    ground = replace(plan.layers[0], coats=(with_stop, *plan.layers[0].coats[1:]))
    other = replace(plan, layers=(ground, *plan.layers[1:]))
    assert now(other, session, at_s).counts_to_s == pytest.approx(goal + 90.0)
