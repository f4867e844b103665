"""Repeated readings of a spot."""

import numpy as np
import pytest

from laydown.physics.colour.repeats import reading_sd, spot_mean


def spot(*lightness):
    """Readings at two angles that differ in L* only."""
    return np.array([[[one, 1.0, 2.0], [one - 20.0, 0.0, 3.0]] for one in lightness])


def test_a_reading_far_off_is_left_out_and_named():
    found = spot_mean(spot(80.0, 80.1, 83.0, 79.9, 80.05))
    assert found.dropped == (2,)
    assert found.count == 4
    assert found.lab[0, 0] == pytest.approx(80.0125)


def test_of_three_readings_none_is_left_out_but_the_median_counts():
    found = spot_mean(spot(80.0, 80.1, 83.0))
    assert found.dropped == ()
    assert found.is_median
    assert found.lab[0, 0] == pytest.approx(80.1)


def test_a_reading_that_is_near_is_kept_however_alike_the_others_are():
    found = spot_mean(spot(80.0, 80.0, 80.0, 80.4))
    assert found.dropped == ()
    assert not found.is_median


def test_one_reading_has_no_spread():
    assert np.isnan(spot_mean(spot(80.0)).sd).all()


def test_the_shop_learns_its_own_scatter():
    dice = np.random.default_rng(1)
    spots = [80.0 + 0.12 * dice.standard_normal((3, 5, 3)) for _ in range(40)]
    assert reading_sd(spots) == pytest.approx(0.12, rel=0.06)
    with pytest.raises(ValueError, match="5 or more"):
        reading_sd(spots[:4])
    with pytest.raises(ValueError, match="3 or more"):
        reading_sd([*spots[:5], spots[5][:2]])


def test_readings_of_another_shape_are_refused():
    for bad in (np.zeros((3, 3)), np.zeros((0, 5, 3)), np.full((3, 5, 3), np.nan)):
        with pytest.raises(ValueError, match="readings"):
            spot_mean(bad)
