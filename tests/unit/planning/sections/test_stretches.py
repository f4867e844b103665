"""Lengths between bounds against rows added up by hand."""

import numpy as np
import pytest

from cases.rectangle import CLOSED, LIGHT, field, place
from laydown.planning.sections.stretches import OVERRUN_M, bound_lines_m, lengths, reach_of, shift_of
from laydown.planning.setup.field import rows_of
from laydown.planning.setup.weights import TURN_S

PLACES = (place(1.0), place(2.0))


def of(where, *, backwards=False, shift_m=0.0, one=CLOSED):
    rows = rows_of(where, one.fan_m, one.overlap, past_edge=one.name == "full")
    return lengths(where, rows, reach_of(where, PLACES, backwards=backwards), shift_m)


def test_bounds_are_in_the_order_of_work():
    ahead, back = (reach_of(field(), PLACES, backwards=backwards) for backwards in (False, True))
    assert ahead.x_m == pytest.approx([0.0, 1.0, 2.0, 3.0])
    assert back.x_m == pytest.approx([3.0, 2.0, 1.0, 0.0])
    assert [one.x_m for one in back.places] == [2.0, 1.0]


@pytest.mark.parametrize("backwards", [False, True])
def test_each_row_of_a_section_is_its_width_and_the_overrun(backwards):
    # 11 rows of 1 m, 2 cm past each end; one turn a row
    found = of(field(), backwards=backwards)
    for i, j in ((0, 1), (1, 2), (2, 3)):
        assert found.trigger_m[:, i, j] == pytest.approx(np.full(11, 1.0 + 2.0 * OVERRUN_M))
        assert found.turns[:, i, j] == pytest.approx(np.ones(11))
        assert found.idle_m[:, i, j] == pytest.approx(np.zeros(11))
    assert found.trigger_m[:, 0, 3] == pytest.approx(np.full(11, 3.0 + 2.0 * OVERRUN_M))


def test_time_is_way_over_speed_and_a_turn():
    found = of(field())
    by_hand = 11 * ((1.0 + 2.0 * OVERRUN_M) / 0.5 + TURN_S)
    assert found.elapsed_s(0.5)[:, 0, 1].sum() == pytest.approx(by_hand)


def test_the_way_over_a_window_costs_time_but_no_paint():
    # a window of 60 cm in the middle section, over the whole height: 40 cm painted in two parts, 60 cm idle
    found = of(field(holes=((1.2, 1.8, 0.0, 2.0),)))
    assert found.trigger_m[:, 1, 2] == pytest.approx(np.full(11, 0.4 + 4.0 * OVERRUN_M))
    assert found.idle_m[:, 1, 2] == pytest.approx(np.full(11, 0.6))
    assert found.turns[:, 1, 2] == pytest.approx(np.full(11, 1.5))


def test_a_section_without_paint_takes_nothing():
    found = of(field(holes=((1.0, 2.0, 0.0, 2.0),)))
    assert found.trigger_m[:, 1, 2] == pytest.approx(np.zeros(11))
    assert found.turns[:, 1, 2] == pytest.approx(np.zeros(11))


@pytest.mark.parametrize("backwards", [False, True])
def test_a_light_pass_is_drawn_back_from_open_edges_and_made_up_in_the_next_section(backwards):
    # drawn back by 20 cm against the order of work: 0.8, 1.0 and 1.2 m
    found = of(field(), backwards=backwards, shift_m=0.2, one=LIGHT)
    widths = [found.trigger_m[0, i, i + 1] - 2.0 * OVERRUN_M for i in range(3)]
    assert widths == pytest.approx([0.8, 1.0, 1.2])


def test_stretch_counts_as_way():
    plain, stretched = (of(field(stretch=value)) for value in (1.0, 1.1))
    assert stretched.trigger_m[0, 0, 1] - 2.0 * OVERRUN_M == pytest.approx(
        1.1 * (plain.trigger_m[0, 0, 1] - 2.0 * OVERRUN_M)
    )


def test_only_passes_after_the_first_are_drawn_back_by_one_fan():
    assert shift_of(CLOSED, CLOSED) == 0.0
    assert shift_of(LIGHT, CLOSED) == CLOSED.fan_m


def test_outer_bounds_lie_beyond_everything():
    where = field()
    rows = rows_of(where, 0.24, 0.75)
    for backwards in (False, True):
        lines = bound_lines_m(reach_of(where, PLACES, backwards=backwards), rows, 0.1)
        ends = sorted([float(lines[0, 0]), float(lines[-1, 0])])
        assert ends[0] < 0.0
        assert ends[1] > 3.0
        inner = [2.1, 1.1] if backwards else [0.9, 1.9]
        assert lines[1:-1, 0] == pytest.approx(inner)
