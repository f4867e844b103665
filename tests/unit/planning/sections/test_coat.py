"""One coat over a long plain side without any feature: every join lies on open panel."""

import itertools
from dataclasses import replace

import numpy as np
import pytest

from cases.rectangle import BASE, CREW, OPEN, TASK, place
from laydown.planning.sections.coat import plan_coat
from laydown.planning.setup.weights import NARROWEST_M, STAGGER_M, WIDEST_M


def xs(planned):
    return [x_m for x_m, _ in planned.joins()]


@pytest.mark.parametrize("backwards", [False, True])
def test_sections_are_within_the_reach_of_an_arm(backwards):
    planned = plan_coat(BASE, replace(TASK, backwards=backwards))
    ends = sorted([0.0, *xs(planned), 5.0])
    widths = np.diff(ends)
    assert len(xs(planned)) >= 2, "5 m are more than two strides"
    assert widths.min() >= NARROWEST_M - 1e-9
    assert widths.max() <= WIDEST_M + 1e-9


def test_open_joins_of_five_coats_in_a_row_are_staggered():
    before, found = (), []
    for _ in range(5):
        planned = plan_coat(BASE, replace(TASK, before=before))
        found.append(xs(planned))
        before = planned.joins()
    for below, above in itertools.pairwise(found):
        assert min(abs(a - b) for a, b in itertools.product(below, above)) >= STAGGER_M - 1e-9
    assert len({tuple(one) for one in found}) > 1


def test_an_edge_that_closes_sooner_never_gets_fewer_joins():
    # the shorter the edge stays open, the narrower the sections, as long as narrower ones can still be wet
    joins = [len(xs(plan_coat(BASE, replace(TASK, open_s=open_s)))) for open_s in (400.0, 200.0, 120.0)]
    assert joins == sorted(joins)
    assert joins[0] < joins[-1]


def test_a_gap_among_open_panel_is_taken():
    gap = place(1.7)
    planned = plan_coat(replace(BASE, places=tuple(sorted([*OPEN, gap], key=lambda one: one.x_m))), TASK)
    assert (1.7, True) in planned.joins()


def test_a_start_the_user_named_ends_the_first_section_there():
    planned = plan_coat(BASE, replace(TASK, start=OPEN[5].id))
    assert xs(planned)[0] == OPEN[5].x_m


def test_a_cup_is_filled_at_the_end_of_a_section_and_lasts_until_the_next_filling():
    small = replace(BASE, crew=replace(CREW, cup_ml=250.0))
    planned = plan_coat(small, TASK)
    assert planned.work.refill_after
    assert max(planned.work.refill_after) < len(planned.made.begin_s) - 1, "never after the last section"
    sprayed = planned.made.strokes.sprayed_g()
    each = [float(sprayed[planned.made.strokes.section == n].sum()) for n in range(len(planned.made.begin_s))]
    since = 0.0
    for number, used in enumerate(each):
        since += used
        assert since <= 250.0 * 1.1 * 1.05
        since = 0.0 if number in planned.work.refill_after else since


def test_where_no_sections_are_possible_the_whole_length_is_shown_with_endless_cost():
    planned = plan_coat(replace(BASE, crew=replace(CREW, cup_ml=20.0)), TASK)
    assert np.isinf(planned.cut.cost)
    assert planned.joins() == ()
    assert planned.outcome.balance.sprayed_g > 0.0


def test_a_walked_coat_has_no_join():
    planned = plan_coat(BASE, replace(TASK, walk=True))
    assert planned.joins() == ()
    assert len(planned.made.begin_s) == 1
