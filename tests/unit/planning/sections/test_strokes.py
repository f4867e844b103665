"""Strokes of a rectangle against times worked by hand."""

import numpy as np
import pytest

from cases.rectangle import BOTTOM_M, CLOSED, LIGHT, field, work
from laydown.planning.sections.stretches import OVERRUN_M
from laydown.planning.sections.strokes import FEATHER_M, LAP_M, joined, programme
from laydown.planning.setup.weights import MOVE_S, TURN_S

ROWS = 11
SPREAD = (np.arange(1, ROWS + 1) * 0.6180339887498949) % 1.0 - 0.5
"""Where each row ends in the feather zone: the golden section, from -0.5 to 0.5."""


def by_hand_s(width_m, sign):
    """One section of 11 rows with one open end: overrun there, lap and feather here."""
    rows = width_m + OVERRUN_M + LAP_M / 2.0 + sign * FEATHER_M * SPREAD
    return float(rows.sum()) / CLOSED.speed_m_s + ROWS * TURN_S


def test_two_sections_of_a_rectangle_take_the_time_worked_by_hand():
    made = programme(work(field()))
    first, second = by_hand_s(1.5, 1.0), by_hand_s(1.5, -1.0)
    assert made.begin_s == pytest.approx((0.0, first + MOVE_S))
    assert made.end_s == pytest.approx((first, first + MOVE_S + second))
    # 11 rows of 3.0 m in two parts: 11 * 3.08 / 0.5 + 22 * 0.4 + 3.0 = 79.56 s
    assert made.total_s == pytest.approx(79.56)


def test_a_refill_stops_the_clock_between_two_sections():
    plain, filled = (programme(work(field(), refills=refills)) for refills in ((), (0,)))
    assert filled.begin_s[1] == pytest.approx(plain.begin_s[1] + 90.0)
    assert filled.end_s[0] == plain.end_s[0]


@pytest.mark.parametrize("backwards", [False, True])
def test_strokes_go_up_in_serpentines_and_start_away_from_the_next_section(backwards):
    strokes = programme(work(field(), backwards=backwards)).strokes
    for section in (0, 1):
        mine = strokes.only(strokes.section == section)
        assert (np.diff(mine.centre_m) > 0.0).all()
        assert mine.centre_m[0] == pytest.approx(BOTTOM_M)
        assert (mine.ahead[1:] == -mine.ahead[:-1]).all()
        assert mine.ahead[0] == (-1.0 if backwards else 1.0)
    first = strokes.only(strokes.section == 0)
    assert (first.left_m.min() > 1.0) == backwards


def test_strokes_run_past_the_edge_and_lap_at_the_join():
    strokes = programme(work(field())).strokes
    first, second = (strokes.only(strokes.section == section) for section in (0, 1))
    assert first.left_m == pytest.approx(np.full(ROWS, -OVERRUN_M))
    assert second.right_m == pytest.approx(np.full(ROWS, 3.0 + OVERRUN_M))
    assert first.right_m - second.left_m == pytest.approx(np.full(ROWS, LAP_M))
    assert first.right_m == pytest.approx(1.5 + FEATHER_M * SPREAD + LAP_M / 2.0)
    assert np.ptp(first.right_m) > FEATHER_M / 2.0, "the edge is feathered"


def test_two_painters_work_one_below_the_other_at_the_same_time():
    alone, pair = (programme(work(field(), painters=painters)) for painters in (1, 2))
    first = pair.strokes.only(pair.strokes.section == 0)
    lower = first.centre_m <= BOTTOM_M + 0.06 * 5 + 1e-6
    assert lower.sum() == 6
    assert (~lower).sum() == 5
    assert first.begin_s[lower].min() == first.begin_s[~lower].min() == 0.0
    # 6 of 11 rows: each is 1.5 m and its ends long
    assert pair.end_s[0] == pytest.approx(alone.end_s[0] * 6.0 / 11.0, rel=0.03)
    assert pair.strokes.sprayed_g().sum() == pytest.approx(alone.strokes.sprayed_g().sum())


def test_the_light_pass_follows_in_the_same_section_and_ends_short_of_the_join():
    coat = work(field(), passes=(CLOSED, LIGHT))
    strokes = programme(coat).strokes
    first = strokes.only(strokes.section == 0)
    full, light = first.only(first.light == 0), first.only(first.light == 1)
    assert (full.begin_s + full.duration_s()).max() <= light.begin_s.min()
    assert light.right_m.mean() == pytest.approx(full.right_m.mean() - CLOSED.fan_m, abs=0.02)
    second = strokes.only((strokes.section == 1) & (strokes.light == 1))
    assert second.left_m.mean() == pytest.approx(1.5 - CLOSED.fan_m - LAP_M / 2.0, abs=0.02)


def test_a_window_is_passed_with_the_trigger_off():
    coat = work(field(holes=((1.0, 2.0, 0.0, 2.0),)), places=())
    strokes = programme(coat).strokes
    assert len(strokes.begin_s) == 2 * ROWS
    for centre in np.unique(strokes.centre_m):
        row = strokes.only(strokes.centre_m == centre)
        gap_m = 1.0 - 2.0 * OVERRUN_M
        wait = row.begin_s[1] - (row.begin_s[0] + row.duration_s()[0])
        assert wait == pytest.approx(gap_m / CLOSED.speed_m_s + TURN_S / 2.0)
        assert row.ahead[0] == row.ahead[1]


def test_joined_parts_are_in_the_order_of_time():
    strokes = programme(work(field())).strokes
    late, early = strokes.only(strokes.section == 1), strokes.only(strokes.section == 0)
    assert (joined([late, early]).begin_s == strokes.begin_s).all()
