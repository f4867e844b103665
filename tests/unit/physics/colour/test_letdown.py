"""A let-down panel from a spectral model: what is read off it is what was made."""

from dataclasses import replace

import numpy as np
import pytest

from cases import spectral_panel as made
from laydown.physics.colour.coat_count import Doubt, estimate_coats, misfit, step_difference, travel
from laydown.physics.colour.count_chances import chance_within, half_coats
from laydown.physics.colour.difference import de2000
from laydown.physics.colour.letdown import curve, fit_letdown

SEEDS = range(200)
FINE = np.arange(0.0, 5.01, 0.1)


def estimates(strength, true, seeds=SEEDS, fields=made.FIELDS, doubt=None):
    """Posterior of each of many panels and cars."""
    for seed in seeds:
        case = made.case(seed, strength, true, fields)
        fit = fit_letdown(case.coats, case.lab, made.READING)
        yield estimate_coats(fit, case.target, made.READING, doubt)


@pytest.mark.parametrize("fields", [made.FIELDS, np.array([0.0, 2.0, 4.0])])
@pytest.mark.parametrize(("strength", "limit"), [(1.0, 1.2), (0.5, 0.5), (0.25, 0.2)])
def test_the_curve_keeps_close_to_the_layer_of_flakes(strength, limit, fields):
    within = FINE[fields.max() >= FINE]
    fit = fit_letdown(fields, made.panel(fields, strength), made.READING)
    apart = de2000(curve(fit, within)[0], made.panel(within, strength))
    assert apart.max() < limit
    assert apart.mean() < 0.3


@pytest.mark.parametrize("strength", [1.0, 0.5, 0.25])
def test_nine_intervals_in_ten_hold_the_true_count(strength):
    found = list(estimates(strength, 3.0))
    covered = np.mean([one.low <= 3.0 <= one.high for one in found])
    assert 0.85 <= covered <= 0.97
    assert abs(np.mean([one.mean for one in found]) - 3.0) < 0.02


@pytest.mark.parametrize("strength", [1.0, 0.5, 0.25])
@pytest.mark.parametrize("true", [1.5, 2.25, 4.0])
def test_intervals_hold_at_other_counts_as_well(strength, true):
    found = list(estimates(strength, true, range(100)))
    assert 0.83 <= np.mean([one.low <= true <= one.high for one in found]) <= 0.99


@pytest.mark.parametrize("strength", [1.0, 0.5])
def test_the_likeliest_half_coat_is_right_nine_times_in_ten(strength):
    orders = [half_coats(one) for one in estimates(strength, 3.0)]
    assert np.mean([one.likeliest == 3.0 for one in orders]) >= 0.90


@pytest.mark.parametrize("strength", [1.0, 0.5])
def test_the_ordered_half_coat_is_right_nine_times_in_ten(strength):
    ordered = np.array([half_coats(one).ordered for one in estimates(strength, 3.0)])
    assert np.mean(ordered == 3.0) >= 0.90


@pytest.mark.parametrize("strength", [1.0, 0.5])
@pytest.mark.parametrize("true", [1.5, 3.0])
def test_where_the_order_is_not_right_it_is_the_half_coat_below(strength, true):
    # Too many cannot be taken off, so the order leans down by at most one half coat.
    ordered = np.array([half_coats(one).ordered for one in estimates(strength, true)])
    assert np.mean(ordered > true) <= 0.03
    assert np.mean((ordered == true) | (ordered == true - 0.5)) >= 0.97


def test_three_fields_are_as_good_as_six_where_an_instrument_reads_them():
    whole = np.array([one.mean for one in estimates(0.5, 3.0)])
    short = np.array([one.mean for one in estimates(0.5, 3.0, fields=np.array([0.0, 2.0, 4.0]))])
    assert short.std() == pytest.approx(whole.std(), abs=0.025)


def test_without_the_scatter_of_the_film_the_interval_promises_too_much():
    bare = list(estimates(1.0, 3.0, doubt=Doubt(film_scatter=0.0)))
    assert np.mean([one.low <= 3.0 <= one.high for one in bare]) < 0.8


def test_the_blind_angle_alone_counts_worse_than_all_angles():
    # At the angle where the face turns from brighter to darker the colour stands still.
    fit = fit_letdown(made.FIELDS, made.panel(made.FIELDS), made.READING)
    per_coat = step_difference(fit, 2.0, 3.0)
    assert per_coat.argmin() == 1
    assert per_coat.max() > 3.0 * per_coat[1]


def test_two_fields_are_straight_and_rough():
    fit = fit_letdown(np.array([0.0, 3.0]), made.panel([0.0, 3.0], 0.5), made.READING)
    assert fit.is_rough
    assert fit.rate == 0.0
    assert not fit.is_uneven
    lab, _ = curve(fit, np.array([1.5]))
    assert lab[0] == pytest.approx(fit.lab.mean(axis=0))


def test_a_field_that_got_a_coat_too_many_is_named():
    films = np.array([0.0, 1.0, 2.0, 4.0, 4.0, 5.0])
    fit = fit_letdown(made.FIELDS, made.panel(films), made.READING)
    assert fit.is_uneven
    assert fit.worst_field == 3


def test_a_sound_panel_is_not_called_uneven():
    assert not fit_letdown(made.FIELDS, made.panel(made.FIELDS, 0.5), made.READING).is_uneven


def test_curves_end_one_coat_beyond_the_last_field():
    fit = fit_letdown(made.FIELDS, made.panel(made.FIELDS), made.READING)
    assert fit.last == 6.0
    assert curve(fit, np.array([6.0]))[0].shape == (1, 5, 3)
    for coats in (6.1, -0.1, np.nan):
        with pytest.raises(ValueError, match="coats must be within 0 to 6"):
            curve(fit, np.array([coats]))


def test_the_fields_tell_less_beyond_their_end():
    fit = fit_letdown(made.FIELDS, made.panel(made.FIELDS), made.READING)
    _, leverage = curve(fit, np.array([2.5, 5.0, 6.0]))
    assert leverage[0] < leverage[1] < leverage[2]


def test_a_panel_without_bare_ground_says_so():
    fit = fit_letdown(np.arange(1.0, 5.0), made.panel(np.arange(1.0, 5.0)), made.READING)
    assert not fit.has_ground
    assert fit_letdown(made.FIELDS, made.panel(made.FIELDS), made.READING).has_ground


def test_a_car_with_more_coats_than_the_panel_lies_at_the_end():
    fields = np.array([0.0, 1.0, 2.0])
    fit = fit_letdown(fields, made.panel(fields), made.READING)
    found = estimate_coats(fit, made.panel([4.5])[0], made.READING)
    assert float(chance_within(found, 2.0, 9.0)) > 0.5
    assert found.mode >= 2.8


def test_an_effect_coat_that_does_nothing_travels_nowhere():
    fit = fit_letdown(made.FIELDS, np.repeat(made.panel([0.0]), 6, axis=0), made.READING)
    assert travel(fit).max() < 1e-9
    assert travel(fit_letdown(made.FIELDS, made.panel(made.FIELDS), made.READING)).max() > 10.0


def test_the_misfit_is_small_where_the_car_is_on_the_curve():
    fit = fit_letdown(made.FIELDS, made.panel(made.FIELDS, 0.5), made.READING)
    assert misfit(fit, 3.0, made.panel([3.0], 0.5)[0]).max() < 0.5
    assert misfit(fit, 0.0, made.panel([3.0], 0.5)[0]).max() > 3.0


def test_a_second_strip_narrows_the_interval_and_a_shifted_formula_widens_it():
    case = made.case(1)
    fit = fit_letdown(case.coats, case.lab, made.READING)
    once = estimate_coats(fit, case.target, made.READING)
    assert estimate_coats(fit, case.target, made.READING, Doubt(strips=2)).sd < once.sd
    assert estimate_coats(fit, case.target, made.READING, Doubt(mismatch=0.6)).sd > once.sd


def test_bends_share_one_scale():
    # A factor of its own for every bend would make all bends equal; a bend that the fields exclude must not count.
    fit = fit_letdown(made.FIELDS, made.panel(made.FIELDS), made.READING)
    wrong = replace(fit, weights=np.full(fit.rates.size, 1.0 / fit.rates.size))
    target = made.panel([5.8])[0]
    right = estimate_coats(fit, target, made.READING)
    assert right.mean != pytest.approx(estimate_coats(wrong, target, made.READING).mean, abs=1e-4)


@pytest.mark.parametrize(
    ("coats", "shape", "words"),
    [
        ([0.0, 1.0, 2.0], (2, 5, 3), "shape"),
        ([0.0, 1.0], (2, 5), "shape"),
        ([2.0, 2.0], (2, 5, 3), "two different fields"),
        ([0.0, 9.0], (2, 5, 3), "within 0 to 8"),
    ],
)
def test_fields_that_make_no_panel_are_refused(coats, shape, words):
    with pytest.raises(ValueError, match=words):
        fit_letdown(np.array(coats), np.zeros(shape), made.READING)


def test_numbers_that_are_none_are_refused():
    lab = made.panel(made.FIELDS)
    fit = fit_letdown(made.FIELDS, lab, made.READING)
    with pytest.raises(ValueError, match="target"):
        estimate_coats(fit, np.full((5, 3), np.nan), made.READING)
    with pytest.raises(ValueError, match="target"):
        estimate_coats(fit, np.zeros((4, 3)), made.READING)
    with pytest.raises(ValueError, match="sigma"):
        fit_letdown(made.FIELDS, lab, 0.0)
    lab[2, 1, 0] = np.inf
    with pytest.raises(ValueError, match="finite"):
        fit_letdown(made.FIELDS, lab, made.READING)
