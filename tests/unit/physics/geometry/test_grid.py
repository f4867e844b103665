"""Rings onto cells: cases whose count of cells is known beforehand."""

import numpy as np
import pytest

from laydown.physics.geometry.curves import arc
from laydown.physics.geometry.grid import GridFrame, fill, inside, overlap_area

SQUARE = np.array([(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)])
FRAME = GridFrame(-0.2, -0.2, 0.01, 140, 140)


def test_a_square_metre_has_ten_thousand_cells():
    assert fill([SQUARE], FRAME).sum() == 10_000


def test_a_hole_is_left_out():
    assert fill([SQUARE, SQUARE * 0.5 + 0.2], FRAME).sum() == 7_500


def test_two_triangles_on_a_shared_diagonal_take_each_cell_once():
    lower, upper = fill([SQUARE[[0, 1, 2]]], FRAME), fill([SQUARE[[0, 2, 3]]], FRAME)
    assert not (lower & upper).any()
    assert ((lower | upper) == fill([SQUARE], FRAME)).all()


def test_orientation_does_not_matter():
    assert (fill([SQUARE[::-1]], FRAME) == fill([SQUARE], FRAME)).all()


def test_moving_a_square_by_half_a_cell_keeps_its_area():
    assert fill([SQUARE + 0.005], FRAME).sum() == 10_000


def test_what_lies_beyond_the_frame_is_cut_off():
    assert fill([SQUARE], GridFrame(0.5, 0.5, 0.01, 30, 30)).all()


def test_a_frame_lies_on_whole_cells_round_its_rings():
    frame = GridFrame.around([SQUARE * 0.995 + 0.002], 0.01)
    assert (frame.x0, frame.y0, frame.rows, frame.columns) == (0.0, 0.0, 100, 100)


def test_points_are_inside_or_outside():
    points = np.array([(0.5, 0.5), (0.25, 0.25), (1.5, 0.5)])
    assert inside(points, [SQUARE, SQUARE * 0.2 + 0.2]).tolist() == [True, False, False]


def test_the_overlap_of_shifted_squares_is_the_product_of_what_is_left():
    assert overlap_area([SQUARE], [SQUARE + np.array((0.3, 0.2))]) == pytest.approx(0.7 * 0.8)


def test_neighbours_do_not_overlap():
    assert overlap_area([SQUARE], [SQUARE + np.array((1.0, 0.0))]) == 0.0
    assert overlap_area([SQUARE[[0, 1, 2]]], [SQUARE[[0, 2, 3]]]) == pytest.approx(0.0, abs=1e-15)


def test_what_lies_in_a_hole_does_not_overlap():
    assert overlap_area([SQUARE, SQUARE * 0.5 + 0.2], [SQUARE * 0.4 + 0.25]) == pytest.approx(0.0, abs=1e-15)


def test_two_circles_overlap_by_the_lens_of_their_radius():
    # Lens of two unit circles one radius apart: 2 pi / 3 - sqrt(3) / 2; definition.
    ring = arc((0.0, 0.0), 1.0, 0.0, 2 * np.pi, 1500)[:-1]
    assert overlap_area([ring], [ring + np.array((1.0, 0.0))]) == pytest.approx(
        2 * np.pi / 3 - np.sqrt(3) / 2, rel=1e-4
    )
