"""Plane geometry against shapely (polygons) and scipy (Hermite splines)."""

import math

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.interpolate import CubicHermiteSpline
from shapely import LineString, Point, Polygon, box

from cases.thorough import examples
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
from laydown.physics.geometry.grid import overlap_area
from laydown.physics.geometry.rings import clip_x, crosses, polyline_length, ring_area

number = st.floats(-3.0, 3.0)
radius = st.floats(0.2, 2.0)


def star(radii, dx=0.0, dy=0.0):
    """A ring that turns once round a point, so it never crosses itself."""
    turn = np.linspace(0.0, 2.0 * np.pi, len(radii), endpoint=False)
    return np.column_stack([dx + np.asarray(radii) * np.cos(turn), dy + np.asarray(radii) * np.sin(turn)])


stars = st.builds(star, st.lists(radius, min_size=3, max_size=12), number, number)


@given(stars)
def test_the_area_of_a_ring_is_that_of_the_polygon_library(ring):
    assert abs(ring_area(ring)) == pytest.approx(Polygon(ring).area, rel=1e-12)


@given(stars)
def test_the_length_of_a_curve_is_that_of_the_polygon_library(ring):
    assert polyline_length(ring) == pytest.approx(LineString(ring).length, rel=1e-12)


@given(stars, number, st.floats(0.1, 3.0))
def test_a_ring_is_cut_between_two_stations_as_by_the_polygon_library(ring, low, width):
    kept = clip_x(ring, low, low + width)
    wanted = Polygon(ring).intersection(box(low, -9.0, low + width, 9.0)).area
    area = abs(ring_area(kept)) if len(kept) > 2 else 0.0
    assert area == pytest.approx(wanted, abs=1e-9)


@given(stars, stars)
def test_outlines_cross_where_the_polygon_library_says_so(first, second):
    # Outlines of two simple rings cross where each holds a part of the other but not all of it.
    one, other = Polygon(first), Polygon(second)
    parts = [one.intersection(other).area, one.difference(other).area, other.difference(one).area]
    corners = [*map(Point, first), *map(Point, second)]
    near = min(max(one.exterior.distance(corner), other.exterior.distance(corner)) for corner in corners)
    assume(near > 1e-6 and not any(1e-12 < part < 1e-6 for part in parts))  # a corner on a side is a touch
    assert crosses(first, second) == all(part >= 1e-6 for part in parts)


@settings(max_examples=examples(20))
@given(stars, stars)
def test_the_shared_area_of_two_rings_is_that_of_the_polygon_library(first, second):
    wanted = Polygon(first).intersection(Polygon(second)).area
    assert overlap_area([first], [second]) == pytest.approx(wanted, abs=0.02 * Polygon(first).length)


def test_a_smooth_curve_is_the_hermite_spline_of_scipy():
    points = np.array([(0.0, 0.0), (0.4, 0.9), (1.1, 1.0), (1.9, 0.2), (2.5, 0.4)])
    ends = np.vstack([2 * points[0] - points[1], points, 2 * points[-1] - points[-2]])
    tangents = (ends[2:] - ends[:-2]) / 2.0
    place = np.linspace(0.0, 4.0, 4 * 10 + 1)
    theirs = CubicHermiteSpline(np.arange(5.0), points, tangents)(place)
    assert hermite(points, 10) == pytest.approx(theirs, abs=1e-12)


def test_a_curve_read_by_height_or_by_station_passes_its_points_and_is_held_beyond_them():
    points = np.array([(0.0, 0.2), (0.1, 0.6), (0.25, 1.1)])
    x_of_y, y_of_x = by_y(points), by_x(points)
    assert x_of_y(points[:, 1]) == pytest.approx(points[:, 0], abs=1e-12)
    assert y_of_x(points[:, 0]) == pytest.approx(points[:, 1], abs=1e-12)
    assert x_of_y(np.array([-1.0, 9.0])) == pytest.approx([0.0, 0.25])


def test_two_curves_meet_where_the_polygon_library_lets_them_meet():
    upright, level = by_y(np.array([(0.0, 0.0), (0.3, 1.0)])), by_x(np.array([(-1.0, 0.4), (1.0, 0.6)]))
    up, along = run_up(upright, 0.0, 1.0, 400), run_along(level, -1.0, 1.0, 400)
    theirs = LineString(up).intersection(LineString(along))
    assert meet(upright, level, 0.5) == pytest.approx((theirs.x, theirs.y), abs=1e-6)


@given(st.floats(0.1, 2.0), st.floats(-0.9, 0.9), st.booleans())
def test_a_circle_passes_a_height_at_the_angle_that_is_given(size, share, right):
    y = size * share
    angle = angle_at(0.0, size, y, right=right)
    end = arc((0.0, 0.0), size, 0.0, angle, 2)[-1]
    assert end[1] == pytest.approx(y, abs=1e-9)
    assert (end[0] > 0.0) == right


def test_an_arc_lies_on_the_circle_of_the_polygon_library():
    theirs = Point(0.3, 0.4).buffer(1.5, quad_segs=2000).exterior
    for point in arc((0.3, 0.4), 1.5, 0.0, math.pi, 9):
        assert theirs.distance(Point(point)) < 1e-5


@given(st.floats(0.05, 0.4), st.floats(0.3, 2.8))
def test_a_rounded_corner_stays_between_its_sides_and_touches_both(size, turn):
    sides = np.array([(1.0, 0.0), (0.0, 0.0), (math.cos(turn), math.sin(turn))])
    rounded = fillet(sides, size)
    assert LineString(rounded).length < LineString(sides).length
    assert Polygon(sides).buffer(1e-9).covers(LineString(rounded))
    assert np.hypot(*rounded[1]) == pytest.approx(min(size, 0.45), rel=1e-9)
