"""Walking the length: ages of neighbouring strokes by hand."""

from dataclasses import replace

import pytest

from cases.planning import MILD, VAN, process_for, setup_for
from cases.rectangle import BASE, CREW, TASK
from laydown.planning.layers.way import stroke_age_s, walk_cost, walks_better
from laydown.planning.sections.coat import plan_coat

WALKED = plan_coat(BASE, replace(TASK, walk=True))


def test_the_greatest_age_is_there_and_back_along_one_stroke():
    # 5 m with 2 cm past each end at 0.5 m/s: 10.08 s there and as long back; the turn is small beside it
    assert stroke_age_s(WALKED) == pytest.approx(2.0 * 10.08, rel=0.01)


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
