"""What uneven film looks like, on panels from a spectral model."""

import numpy as np
import pytest

from cases import spectral_panel as made
from laydown.physics.colour.difference import de2000
from laydown.physics.colour.letdown import curve, fit_letdown
from laydown.physics.colour.unevenness import (
    appearance_map,
    difference_table,
    effective_coats,
    film_tolerance,
    join_contrast,
    summary,
)

FIT = fit_letdown(made.FIELDS, made.panel(made.FIELDS), made.READING)


def test_the_table_gives_what_direct_calculation_gives():
    film_um = np.random.default_rng(4).uniform(4.0, 20.0, 3000)
    found = appearance_map(difference_table(FIT, 2.5), film_um, 10.0)
    lab, _ = curve(FIT, effective_coats(film_um, 10.0, 2.5))
    wanted, _ = curve(FIT, np.array([2.5]))
    assert found == pytest.approx(de2000(lab, wanted), abs=1e-3)


def test_the_wanted_film_is_not_off_at_all():
    assert appearance_map(difference_table(FIT, 2.37), np.array([9.0]), 9.0) == pytest.approx(0.0, abs=1e-9)


def test_film_off_by_a_little_looks_as_the_layer_of_flakes_itself():
    # The map stands on fitted curves; the truth here is the spectral model.
    shares = np.array([0.8, 0.9, 1.1, 1.2])
    found = appearance_map(difference_table(FIT, 3.0), 12.0 * shares, 12.0)
    true = de2000(made.panel(3.0 * shares), made.panel([3.0]))
    assert found[:, 1:] == pytest.approx(true[:, 1:], abs=0.2)
    assert found[:, 0] == pytest.approx(
        true[:, 0], abs=0.4
    )  # one bend for all angles costs most near the gloss


def test_film_beyond_the_panel_is_read_at_the_end():
    table = difference_table(FIT, 3.0)
    assert appearance_map(table, np.array([100.0]), 10.0)[0] == pytest.approx(table.difference[-1])


def test_shares_and_twentieths_are_weighed_by_area():
    difference = np.array([[0.2], [0.7], [1.5], [3.0]])
    found = summary(difference, np.array([4.0, 3.0, 2.0, 1.0]))
    assert found.above_fraction[0] == pytest.approx([0.6, 0.3, 0.1])
    assert (found.low[0], found.high[0]) == (0.2, 3.0)


def test_a_thick_join_is_seen_against_both_neighbours():
    found = join_contrast(FIT, 3.3, np.array([3.0, 3.3]))
    assert found.shape == (2, 5)
    assert found[1] == pytest.approx(0.0, abs=1e-9)
    # Trade fact of white pearls: ten per cent at a join is seen at the flop (common practice, no source).
    assert found[0, 4] > 0.5


def test_tolerance_is_the_inverse_of_the_map():
    table = difference_table(FIT, 2.5)
    for angle in range(5):
        thinner, thicker = film_tolerance(table, angle)
        at = appearance_map(table, np.array([10.0 * (1.0 - thinner), 10.0 * (1.0 + thicker)]), 10.0)
        assert at[:, angle] == pytest.approx(0.5, abs=1e-6)


def test_a_difference_that_is_never_reached_has_no_end():
    weak = fit_letdown(made.FIELDS, made.panel(made.FIELDS, 0.002), made.READING)
    assert film_tolerance(difference_table(weak, 3.0), 1) == (1.0, float("inf"))


def test_a_film_without_reference_is_refused():
    with pytest.raises(ValueError, match="reference_um"):
        appearance_map(difference_table(FIT, 3.0), np.array([9.0]), 0.0)
