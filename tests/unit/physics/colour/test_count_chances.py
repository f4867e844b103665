"""From chances to the half coats that are ordered."""

import numpy as np
import pytest

from laydown.physics.colour.count_chances import (
    agree,
    coat_grid,
    combined,
    half_coats,
    posterior_of,
    zones_join,
)


def normal(mean, sd, last=6.0):
    """A normal posterior."""
    grid = coat_grid(last)
    return posterior_of(grid, np.exp(-0.5 * ((grid - mean) / sd) ** 2))


def test_chances_of_half_coats_sum_to_one():
    assert half_coats(normal(2.6, 0.4)).mass.sum() == pytest.approx(1.0)


def test_equal_chances_take_the_lower_half_coat():
    grid = coat_grid(6.0)
    even = np.zeros(grid.size)
    even[[round(2.0 / 0.02), round(2.5 / 0.02)]] = 1.0
    found = half_coats(posterior_of(grid, even), too_many=1.0)
    assert found.likeliest == 2.0
    assert found.ordered == 2.0


def test_a_doubtful_count_is_ordered_lower_than_a_sure_one():
    assert half_coats(normal(3.0, 0.05)).ordered == 3.0
    assert half_coats(normal(3.0, 0.5)).ordered == 2.5
    assert half_coats(normal(3.0, 1.1)).ordered < 2.5


def test_if_too_many_were_as_cheap_as_too_few_the_middle_is_ordered():
    assert half_coats(normal(3.0, 0.5), too_many=1.0).ordered == 3.0


def test_zones_join_only_where_neither_distance_nor_sureness_parts_them():
    assert zones_join(normal(2.4, 0.2), normal(2.6, 0.2))
    assert not zones_join(normal(2.3, 0.5), normal(2.7, 0.5))  # too far for one count
    assert not zones_join(normal(2.4, 0.05), normal(2.6, 0.05))  # near, but surely different


def test_estimates_that_contradict_each_other_are_not_mixed():
    assert not agree(normal(2.0, 0.2), normal(3.0, 0.2))
    assert combined(normal(2.0, 0.2), normal(3.0, 0.2)) is None


def test_estimates_on_grids_of_different_length_are_combined_on_the_shorter():
    found = combined(normal(2.4, 0.3, 4.0), normal(2.6, 0.3, 6.0))
    assert found is not None
    assert found.grid[-1] == pytest.approx(4.0)
    assert found.mean == pytest.approx(2.5, abs=0.01)


@pytest.mark.parametrize(
    "likelihood", [np.zeros(3), np.array([1.0, np.inf, 1.0]), np.array([1.0, np.nan, 1.0])]
)
def test_a_likelihood_without_chance_is_refused(likelihood):
    with pytest.raises(ValueError, match="likelihood"):
        posterior_of(np.array([0.0, 0.02, 0.04]), likelihood)
