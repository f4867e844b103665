"""What the search believes of a coat against the coat it then gets."""

import itertools
from dataclasses import replace

import numpy as np
import pytest

from cases.planning import MILD, SHAPES, process_for, request_of
from cases.rectangle import HAND, field, place
from laydown.physics.spray.hand import wet_chance
from laydown.planning.process.process import process_of
from laydown.planning.sections.candidates import Rules, allowed_sections
from laydown.planning.sections.costs import Opening, late_chance
from laydown.planning.sections.stretches import reach_of
from laydown.planning.setup.setup import setup_of
from laydown.planning.setup.spraying import Crew
from laydown.planning.setup.weights import CUP_SHARE, MOVE_S, NARROWEST_M, STAGGER_M, WEIGHTS, WIDEST_M

FREE = Rules((), None, 0.4, 1.1)


def believed_and_simulated(case):
    """Age of every join of every coat: as the board has it, and as the strokes give it."""
    for layer in process_for(case).layers.values():
        for coat in layer.coats:
            planned = coat.planned
            sections = list(itertools.pairwise(planned.work.bounds))
            for number, both in enumerate(itertools.pairwise(sections)):
                stop = planned.work.refill_s if number in planned.work.refill_after else 0.0
                join = planned.board.sections.join(*both)
                yield float(planned.board.age_s[0, join]) + stop, planned.joined.joins[number].age_s


@pytest.mark.parametrize("shape", SHAPES)
def test_ages_on_the_board_are_within_15_percent_of_the_simulated_coat(shape):
    ages = list(believed_and_simulated(replace(MILD, shape=shape)))
    assert ages
    for believed, simulated in ages:
        assert believed == pytest.approx(simulated, rel=0.15)


@pytest.mark.parametrize("shape", SHAPES)
def test_ages_on_the_board_hold_for_two_painters_too(shape):
    for believed, simulated in believed_and_simulated(replace(MILD, shape=shape, painters=2)):
        assert believed == pytest.approx(simulated, rel=0.15)


@pytest.mark.parametrize("painters", [1, 2])
@pytest.mark.parametrize("shape", SHAPES)
def test_grams_and_seconds_on_the_board_are_those_of_the_strokes(shape, painters):
    for layer in process_for(replace(MILD, shape=shape, painters=painters)).layers.values():
        for coat in layer.coats:
            planned = coat.planned
            sections = list(itertools.pairwise(planned.work.bounds))
            used = sum(float(planned.times.cup_g[0, i, j]) for i, j in sections)
            assert used == pytest.approx(sum(planned.made.cup_g), rel=1.0 - CUP_SHARE)
            elapsed = sum(float(planned.times.elapsed_s[0, i, j]) for i, j in sections)
            elapsed += planned.work.refill_s * len(planned.work.refill_after)
            assert elapsed - MOVE_S == pytest.approx(planned.made.total_s, rel=0.05)


def test_the_cup_of_one_painter_holds_what_all_strokes_spray():
    for layer in process_for(MILD).layers.values():
        for coat in layer.coats:
            assert sum(coat.planned.made.cup_g) == pytest.approx(coat.planned.outcome.balance.sprayed_g)


@pytest.mark.parametrize("painters", [1, 2])
@pytest.mark.parametrize("cup_ml", [250.0, 400.0, 530.0])
@pytest.mark.parametrize("shape", SHAPES)
def test_no_filling_is_asked_for_more_than_the_cup_holds(shape, cup_ml, painters):
    request = request_of(replace(MILD, shape=shape, painters=painters))
    small = replace(request, job=replace(request.job, gun=replace(request.job.gun, cup_ml=cup_ml)))
    layer = process_of(setup_of(small)).layers["ground"]
    for coat in layer.coats:
        cups = coat.planned.made.cup_g
        if not np.isfinite(coat.planned.cut.cost):
            continue
        stops = [0, *(section + 1 for section in coat.planned.work.refill_after), len(cups)]
        for first, past in itertools.pairwise(stops):
            assert sum(cups[first:past]) <= cup_ml * layer.task.paint.density_g_ml


def test_chances_of_the_table_are_those_of_the_formula():
    crew = Crew(1, HAND, 90.0, 550.0)
    ages = np.array([[3.0, 40.0, 95.0, 160.0, 700.0], [5.0, 20.0, 60.0, 94.0, 300.0]])
    opening = Opening(np.array([94.0, 94.0, 60.0]), np.array([0, 1, 1]))
    found = late_chance(ages, opening, crew, 0.4)
    direct = 1.0 - wet_chance(ages[opening.setting], opening.open_s[:, None], 0.4, HAND)
    assert found == pytest.approx(direct, abs=0.005)


def test_sections_are_as_wide_as_an_arm_and_a_stride_reach():
    reach = reach_of(
        field(4.0), (place(0.4), place(1.0), place(2.0), place(2.2), place(3.5)), backwards=False
    )
    found = allowed_sections(reach, FREE)
    widths = [abs(float(reach.x_m[j] - reach.x_m[i])) for i, j in found.pairs]
    assert min(widths) >= NARROWEST_M
    assert max(widths) <= WIDEST_M
    # by hand, bounds 0 0.4 1 2 2.2 3.5 4: 0-1; 0.4-1 0.4-2 0.4-2.2; 1-2 1-2.2; 2-3.5; 2.2-3.5 2.2-4
    assert set(found.pairs) == {(0, 2), (1, 2), (1, 3), (1, 4), (2, 3), (2, 4), (3, 5), (4, 5), (4, 6)}


def test_a_start_the_user_named_leaves_only_its_first_section():
    reach = reach_of(field(3.0), (place(1.0), place(1.5)), backwards=False)
    found = allowed_sections(reach, replace(FREE, start_at=2))
    assert [section for section in found.pairs if section[0] == 0] == [(0, 2)]


def test_an_open_join_keeps_clear_of_the_joins_below_and_a_gap_may_repeat_for_a_little():
    places = (place(1.0), place(1.2, "open", 1.3), place(1.2 + STAGGER_M, "open", 1.3))
    reach = reach_of(field(3.0), places, backwards=False)
    below = replace(FREE, before=((1.0, True), (1.2, False))).bound_cost(reach)
    free = FREE.bound_cost(reach)
    # the gap repeats itself but lies 20 cm from an open join below: not allowed, and no open join there
    assert np.isinf(below[1])
    assert np.isinf(below[2])
    assert below[3] == free[3]
    only_gap = replace(FREE, before=((1.0, True),)).bound_cost(reach)
    assert only_gap[1] == pytest.approx(free[1] + WEIGHTS.repeat)


def test_a_late_join_is_worth_less_in_a_gap_than_on_open_panel():
    # worked by hand: gap (0.4 + 0.6 * 0.2) * relief, open 0.4 + 0.6 * 1
    reach = reach_of(field(3.0), (place(1.0), place(2.0, "open", 1.3)), backwards=False)
    found = FREE.severity(reach)
    assert found[1] == pytest.approx(0.52 * WEIGHTS.gap_relief)
    assert found[2] == pytest.approx(1.0)
