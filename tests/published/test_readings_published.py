"""Readings and orders against textbook results."""

import numpy as np
import pytest

from laydown.physics.colour.count_chances import coat_grid, half_coats, posterior_of
from laydown.physics.colour.repeats import reading_sd, spot_mean


def test_the_median_deviation_leaves_out_what_a_textbook_leaves_out():
    # 2.1, 2.2, 2.3, 2.4, 9.0: median 2.3, MAD 0.1, limit 3 * 1.4826 * 0.1 = 0.445, raised to 0.5.
    readings = np.zeros((5, 1, 3))
    readings[:, 0, 0] = [2.1, 2.2, 2.3, 2.4, 9.0]
    found = spot_mean(readings)
    assert found.dropped == (4,)
    assert found.lab[0, 0] == pytest.approx(2.25)


def test_pooled_variance_by_hand():
    # Each spot 1, 2, 3 in every channel: sum of squares 2 with 2 degrees of freedom, so a deviation of 1.
    spot = np.tile(np.array([1.0, 2.0, 3.0])[:, None, None], (1, 2, 3))
    assert reading_sd([spot] * 5) == pytest.approx(1.0)


@pytest.mark.parametrize(
    ("mean", "sd", "order"), [(2.5, 0.2, 2.5), (3.0, 0.2, 3.0), (2.5, 0.5, 2.0), (3.0, 0.5, 2.5)]
)
def test_orders_lie_at_the_lower_fifth(mean, sd, order):
    # Stock that cannot be sent back (the newsvendor of operations research): with losses 4 to 1 the best stock is the
    # 1 / (1 + 4) quantile, mean - 0.8416 sd: 2.33, 2.83, 2.08, 2.58; the nearest half coat.
    grid = coat_grid(6.0)
    found = half_coats(posterior_of(grid, np.exp(-0.5 * ((grid - mean) / sd) ** 2)))
    assert found.ordered == order
    assert abs(order - (mean - 0.8416 * sd)) <= 0.25
