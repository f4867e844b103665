"""Spray laws worked by hand."""

import math

import numpy as np
import pytest

from laydown.physics.spray.fan import (
    fan_at_m,
    nozzle_flow_g_s,
    overlap_for_film,
    profile_share,
    raster_mean_g_m2,
    transfer_at,
    uniformity_cv,
)


def test_half_of_a_pass_lies_on_either_side_of_its_centre():
    assert profile_share(np.array([-2.0, -1.0, 0.0, 1.0, 2.0])) == pytest.approx([0.0, 0.0, 0.5, 1.0, 1.0])


def test_share_of_a_parabola_is_that_of_its_integral():
    # (2 + 3u - u^3) / 4 at u = 1/2: (2 + 1.5 - 0.125) / 4 = 0.84375.
    assert float(profile_share(np.array(0.5), 1.0)) == pytest.approx(0.84375, abs=1e-6)


def test_share_keeps_the_shape_of_its_places():
    assert profile_share(np.zeros((3, 4))).shape == (3, 4)


def test_mean_film_is_what_lands_over_what_is_covered():
    # 2 g/s half landing, 0.2 m fan at no overlap and 0.5 m/s: 1 g/s over 0.1 m2/s.
    assert raster_mean_g_m2(2.0, 0.5, 0.2, 0.0, 0.5) == pytest.approx(10.0)


@pytest.mark.parametrize(
    ("place", "value", "name"),
    [
        (0, 0.0, "flow_g_s"),
        (0, math.nan, "flow_g_s"),
        (0, math.inf, "flow_g_s"),
        (1, 0.0, "transfer"),
        (1, 1.01, "transfer"),
        (1, math.nan, "transfer"),
        (2, -0.1, "fan_m"),
        (3, 0.95, "overlap"),
        (3, -0.01, "overlap"),
        (3, math.nan, "overlap"),
        (4, 0.0, "speed_m_s"),
    ],
)
def test_a_value_outside_its_range_is_named(place, value, name):
    values = [3.1, 0.6, 0.25, 0.65, 0.5]
    values[place] = value
    with pytest.raises(ValueError, match=name):
        raster_mean_g_m2(*values)


def test_a_film_thinner_than_strokes_side_by_side_asks_for_gaps():
    # Side by side 10 g/m2; 5 g/m2 leaves every second fan out: 1 - 10/5.
    assert overlap_for_film(5.0, 2.0, 0.5, 0.2, 0.5) == pytest.approx(-1.0)


def test_fan_grows_and_transfer_falls_with_the_distance():
    assert fan_at_m(0.25, 0.18, 0.15) == pytest.approx(0.30)
    assert transfer_at(0.60, 0.18, 0.15) == pytest.approx(0.54)
    assert transfer_at(0.60, 0.15, 0.15) == 0.60


def test_some_paint_always_lands():
    assert transfer_at(0.60, 1.0, 0.15) == 0.05


def test_flow_goes_with_the_area_of_the_nozzle():
    assert nozzle_flow_g_s(3.0, 2.0, 1.0) == pytest.approx(12.0)
    assert nozzle_flow_g_s(3.0, 1.2, 1.2) == 3.0


def test_ripple_of_strokes_side_by_side_is_that_of_one_pass():
    # k = 1, no overlap: mean 2/3, mean of squares 8/15: CV = sqrt(8/15 - 4/9) / (2/3).
    assert uniformity_cv(0.0, 1.0) == pytest.approx(math.sqrt(8.0 / 15.0 - 4.0 / 9.0) * 1.5, rel=1e-5)
