"""Walking the length: ages of neighbouring strokes by hand."""

from dataclasses import replace

import pytest
from rectangle import BASE, CREW, TASK

from laydown.planning.layers.way import stride_chance, stroke_age_s, walk_chance, walk_cost, walks_better
from laydown.planning.sections.coat import plan_coat
from laydown.planning.setup.weights import TURN_S
from planning_cases import MILD, VAN, process_for, setup_for

WALKED = plan_coat(BASE, replace(TASK, walk=True))


def test_the_greatest_age_is_there_and_back_along_one_stroke():
    # 5 m with 2 cm past each end at 0.5 m/s: 10.08 s there and as long back; the turn is small beside it
    assert stroke_age_s(WALKED) == pytest.approx(2.0 * 10.08, rel=0.01)


def test_a_stride_over_a_car_at_half_a_metre_a_second_is_18_s_old_at_most():
    # 4.4 m at 0.5 m/s: 8.8 s and a turn, there and back 18 s; derived by hand
    chance, age = stride_chance(4.4 / 0.5, 94.0, 0.4, CREW)
    assert age == pytest.approx(2.0 * (8.8 + TURN_S))
    assert chance > 0.95


def test_a_shorter_open_time_gives_less_chance():
    chances = [stride_chance(10.0, open_s, 0.4, CREW)[0] for open_s in (15.0, 30.0, 60.0, 120.0)]
    assert chances == sorted(chances)
    assert walk_chance(WALKED, 0.4, CREW) == pytest.approx(
        stride_chance(10.08 - TURN_S, 120.0, 0.4, CREW)[0], abs=0.01
    )


def test_a_walk_that_needs_more_than_a_cup_is_never_taken():
    small = replace(BASE, crew=replace(CREW, cup_ml=100.0))
    walked = plan_coat(small, replace(TASK, walk=True))
    assert walk_cost(walked, 0.4, CREW) == float("inf")
    assert not walks_better(plan_coat(BASE, TASK), walked, 0.4, CREW)


def test_a_walk_without_a_join_beats_open_joins_and_a_painter_who_can_gets_it():
    big = replace(BASE, crew=replace(CREW, cup_ml=900.0))
    sections, walked = (plan_coat(big, replace(TASK, walk=walk)) for walk in (False, True))
    assert walks_better(sections, walked, 0.4, CREW)
    assert process_for(replace(MILD, can_walk=True)).layers["ground"].coats[0].planned.task.walk


def test_nobody_is_asked_to_walk_who_cannot():
    for case in (MILD, VAN):
        assert not setup_for(case).job.job.can_walk
        assert not any(coat.planned.task.walk for coat in process_for(case).layers["ground"].coats)
