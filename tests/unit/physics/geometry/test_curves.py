"""Curves and rings."""

import numpy as np
import pytest

from laydown.physics.geometry.curves import (
    angle_at,
    arc,
    by_x,
    by_y,
    fillet,
    hermite,
    meet,
    run_along,
    run_up,
)
from laydown.physics.geometry.rings import clip_x, crosses, polyline_length, ring_area

SQUARE = np.array([(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)])


def test_a_smooth_curve_passes_through_its_points():
    points = np.array([(0.0, 0.0), (1.0, 2.0), (3.0, 1.0), (4.0, 4.0)])
    curve = hermite(points, 7)
    assert curve.shape == (22, 2)
    assert np.allclose(curve[::7], points)


def test_a_smooth_curve_through_points_on_a_line_stays_on_the_line():
    curve = hermite(np.array([(0.0, 0.0), (1.0, 1.0), (2.0, 2.0), (3.0, 3.0)]))
    assert np.allclose(curve[:, 0], curve[:, 1])


def test_a_curve_over_height_and_one_over_length_meet_where_lines_cross():
    upright = by_y(np.array([(1.0, 0.0), (1.2, 2.0)]))
    level = by_x(np.array([(0.0, 1.0), (2.0, 1.2)]))
    # Lines x = 1 + 0.1 y and y = 1 + 0.1 x cross at x = 1.1 / 0.99.
    assert meet(upright, level, 0.0) == pytest.approx((1.1 / 0.99, 1 + 0.11 / 0.99))


def test_runs_start_and_end_where_asked():
    upright = by_y(np.array([(1.0, 0.0), (1.2, 2.0)]))
    level = by_x(np.array([(0.0, 1.0), (2.0, 1.2)]))
    assert run_up(upright, 0.5, 1.5, 5)[[0, -1], 1] == pytest.approx((0.5, 1.5))
    assert run_along(level, 0.5, 1.5, 5)[[0, -1], 0] == pytest.approx((0.5, 1.5))


def test_an_arc_keeps_its_radius_and_its_length():
    half = arc((2.0, 1.0), 0.5, 0.0, np.pi, 400)
    assert np.allclose(np.hypot(half[:, 0] - 2.0, half[:, 1] - 1.0), 0.5)
    assert polyline_length(half) == pytest.approx(0.5 * np.pi, rel=1e-5)


def test_the_angle_at_a_height_lies_on_the_side_asked_for():
    assert angle_at(0.0, 2.0, 1.0, right=True) == pytest.approx(np.pi / 6)
    assert angle_at(0.0, 2.0, 1.0, right=False) == pytest.approx(5 * np.pi / 6)
    assert angle_at(0.0, 2.0, 9.0, right=True) == pytest.approx(np.pi / 2)


def test_areas_need_no_orientation_and_no_origin():
    assert ring_area(SQUARE) == pytest.approx(1.0)
    assert ring_area(SQUARE[::-1] + 1e6) == pytest.approx(1.0)


def test_a_circle_has_the_area_of_a_circle():
    assert ring_area(arc((0.0, 0.0), 0.35, 0.0, 2 * np.pi, 2000)) == pytest.approx(np.pi * 0.35**2, rel=1e-5)


def test_rounding_a_corner_keeps_the_ends_and_cuts_the_corner():
    corner = np.array([(0.0, 0.0), (1.0, 0.0), (1.0, 1.0)])
    rounded = fillet(corner, 0.2)
    assert np.allclose(rounded[[0, -1]], corner[[0, -1]])
    assert np.hypot(*(rounded - np.array((1.0, 0.0))).T).min() > 0.05
    assert polyline_length(rounded) < 2.0


def test_a_clipped_square_keeps_the_middle():
    assert ring_area(clip_x(SQUARE, 0.25, 0.75)) == pytest.approx(0.5)
    assert len(clip_x(SQUARE, 2.0, 3.0)) == 0


def test_a_bow_tie_crosses_itself_and_a_square_does_not():
    bow_tie = SQUARE[[0, 2, 1, 3]]
    assert crosses(bow_tie, bow_tie)
    assert not crosses(SQUARE, SQUARE)


def test_squares_that_touch_do_not_cross_and_squares_that_lap_do():
    assert not crosses(SQUARE, SQUARE + np.array((1.0, 0.0)))
    assert crosses(SQUARE, SQUARE + np.array((0.5, 0.5)))


def test_a_crossing_is_found_in_a_ring_of_thousands_of_points():
    round_and_round = arc((0.0, 0.0), 1.0, 0.0, 2 * np.pi, 1500)[:-1]
    assert not crosses(round_and_round, round_and_round)
    swapped = round_and_round.copy()
    swapped[[1200, 1300]] = swapped[[1300, 1200]]
    assert crosses(swapped, swapped)
