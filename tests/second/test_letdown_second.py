"""The fit of a panel and the chances of a count against scipy."""

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.optimize import least_squares
from scipy.stats import norm

from laydown.physics.colour.coat_count import Doubt, estimate_coats, expected_sd, slopes
from laydown.physics.colour.count_chances import (
    chance_within,
    coat_grid,
    combined,
    expected_loss,
    half_coats,
    posterior_of,
    spread_by_film,
)
from laydown.physics.colour.letdown import built_up, curve, curves, fit_letdown, over_other_ground
from laydown.physics.colour.spectrum import lab_of_xyz, xyz_of_lab

COATS = np.arange(6.0)
SIGMA = 0.1


def noisy(seed, bend=0.2):
    """Fields of an exponential with noise, (6, 5, 3), and what made them."""
    dice = np.random.default_rng(seed)
    start = np.array([90.0, 0.0, 3.0]) + dice.normal(0.0, 1.0, (5, 3))
    slope = dice.normal(0.0, 3.0, (5, 3))
    step = (1.0 - np.exp(-bend * COATS)) / bend
    return start + slope * step[:, None, None] + SIGMA * dice.standard_normal((6, 5, 3))


@pytest.mark.parametrize("seed", range(4))
def test_the_fit_is_that_of_a_general_search(seed):
    lab = noisy(seed)
    fit = fit_letdown(COATS, lab, SIGMA)

    def left(guess):
        step = (1.0 - np.exp(-guess[0] * COATS)) / guess[0]
        return ((guess[1:16] + np.outer(step, guess[16:]) - lab.reshape(6, 15)) / SIGMA).ravel()

    free = least_squares(left, np.concatenate([[0.3], fit.start[0].ravel(), fit.slope[0].ravel()]))
    # The bend is scanned on a grid with steps of 8 %, so the sum of squares may lie a little higher.
    assert fit.chi2 >= 2.0 * free.cost - 1e-6
    assert fit.chi2 <= 2.0 * free.cost + 4.0
    assert fit.rate == pytest.approx(free.x[0], rel=0.08)
    assert curve(fit, COATS)[0].reshape(6, 15) == pytest.approx(
        left(free.x).reshape(6, 15) * SIGMA + lab.reshape(6, 15), abs=0.06
    )


def test_leverage_is_that_of_least_squares():
    fit = fit_letdown(COATS, noisy(1), SIGMA)
    design = np.stack([np.ones(6), built_up(COATS, np.array(fit.rate))], axis=1)
    hat = design @ np.linalg.pinv(design)
    assert curve(fit, COATS)[1] == pytest.approx(np.diag(hat), abs=1e-9)
    assert curves(fit, COATS)[1].shape == (fit.rates.size, 6)


def test_the_slope_is_that_of_the_curve():
    fit = fit_letdown(COATS, noisy(2), SIGMA)
    lab, _ = curve(fit, np.array([2.999, 3.001]))
    assert slopes(fit, 3.0) == pytest.approx((lab[1] - lab[0]) / 0.002, abs=1e-5)


def test_build_up_is_straight_where_the_bend_vanishes():
    assert built_up(COATS, np.array(0.0)) == pytest.approx(COATS)
    assert built_up(COATS, np.array(1e-5)) == pytest.approx(COATS, rel=1e-4)
    assert built_up(np.array(2.0), np.array(0.5)) == pytest.approx((1.0 - np.exp(-1.0)) / 0.5)


@pytest.mark.parametrize(("mean", "sd"), [(2.5, 0.2), (3.3, 0.1)])
def test_a_normal_posterior_has_the_figures_of_scipy(mean, sd):
    grid = coat_grid(6.0)
    found = posterior_of(grid, norm.pdf(grid, mean, sd))
    assert (found.mean, found.sd) == pytest.approx((mean, sd), abs=0.005)
    assert (found.low, found.high) == pytest.approx(norm.ppf([0.05, 0.95], mean, sd), abs=0.005)
    masses = half_coats(found).mass
    edges = np.arange(14) * 0.5 - 0.25
    assert masses == pytest.approx(np.diff(norm.cdf(edges, mean, sd)), abs=0.01)
    assert chance_within(found, 2.0, 3.0) == pytest.approx(
        np.diff(norm.cdf([2.0, 3.0], mean, sd))[0], abs=0.02
    )


def test_film_scatter_adds_its_variance():
    grid = coat_grid(6.0)
    found = spread_by_film(posterior_of(grid, norm.pdf(grid, 3.0, 0.16)), 0.07)
    assert found.sd == pytest.approx(np.hypot(0.16, 0.07 * np.sqrt(3.0)), abs=0.005)
    twice = spread_by_film(posterior_of(grid, norm.pdf(grid, 3.0, 0.16)), 0.07, strips=2)
    assert twice.sd == pytest.approx(np.hypot(0.16, 0.07 * np.sqrt(1.5)), abs=0.005)


def test_two_estimates_together_are_the_product_of_normals():
    grid = coat_grid(6.0)
    one, other = (posterior_of(grid, norm.pdf(grid, mean, sd)) for mean, sd in ((2.4, 0.2), (2.7, 0.4)))
    both = combined(one, other)
    assert both.mean == pytest.approx((2.4 / 0.04 + 2.7 / 0.16) / (1 / 0.04 + 1 / 0.16), abs=0.005)
    assert both.sd == pytest.approx((1 / 0.04 + 1 / 0.16) ** -0.5, abs=0.005)


def test_the_posterior_is_the_sum_over_bends_done_with_plain_loops():
    # One factor for all bends and counts; the sum of logarithms of the variances is in it.
    lab = noisy(3)
    target = curve(fit_letdown(COATS, lab, SIGMA), np.array([5.6]))[0][0] + 0.2
    fit = fit_letdown(COATS, lab, SIGMA)
    found = estimate_coats(fit, target, 0.09, Doubt(film_scatter=0.0))
    plain = np.zeros(found.grid.size)
    for at, (rate, weight) in enumerate(zip(fit.rates, fit.weights, strict=True)):
        step = found.grid if rate == 0.0 else (1.0 - np.exp(-rate * found.grid)) / rate
        design = np.stack(
            [np.ones(6), COATS if rate == 0.0 else (1.0 - np.exp(-rate * COATS)) / rate], axis=1
        )
        inverse = np.linalg.inv(design.T @ design)
        for place, s in enumerate(step):
            row = np.array([1.0, s])
            deviation = np.sqrt(0.09**2 + 0.3**2 + fit.inflation * SIGMA**2 * (row @ inverse @ row))
            mean = fit.start[at] + fit.slope[at] * s
            plain[place] += weight * np.prod(norm.pdf(target, mean, deviation))
    assert found.density == pytest.approx(plain / plain.sum() / 0.02, rel=1e-6, abs=1e-9)


@pytest.mark.parametrize("coats", [1.5, 3.0, 4.5])
def test_the_foretold_deviation_is_the_one_that_is_found(coats):
    fit = fit_letdown(COATS, noisy(4), SIGMA)
    found = estimate_coats(fit, curve(fit, np.array([coats]))[0][0], 0.09)
    assert found.sd == pytest.approx(expected_sd(fit, coats, 0.09), rel=0.1)


def test_light_through_a_clear_film_adds_the_whole_difference_of_the_grounds():
    # With nothing taken away the other ground is simply seen; with half taken away half its light is.
    white = np.array([0.94811, 1.0, 1.07304])
    own, other = np.array([[90.0, -1.0, 3.0]]), np.array([[85.0, 0.0, 5.0]])
    clear = over_other_ground(own[None, None], own[None], other - own, np.ones((1, 1)))
    assert clear[0, 0] == pytest.approx(other, abs=1e-9)
    halved = lab_of_xyz(0.5 * xyz_of_lab(own, white), white)
    mixed = lab_of_xyz(0.5 * xyz_of_lab(other, white), white)
    assert over_other_ground(halved[None, None], own[None], other - own, np.ones((1, 1)))[
        0, 0
    ] == pytest.approx(mixed, abs=1e-9)


@pytest.mark.parametrize("order", [2.0, 2.5, 3.0])
def test_the_expected_loss_of_an_order_is_that_of_numerical_integration(order):
    # 4 a coat for too many, 1 for too few, nothing within 0.3: the integral over a normal curve by scipy
    grid = coat_grid(6.0)
    found = posterior_of(grid, norm.pdf(grid, 2.6, 0.4))
    chance = found.density * (grid[1] - grid[0])

    def cost(coats):
        over = order - coats
        return (4.0 * max(over - 0.3, 0.0) + max(-over - 0.3, 0.0)) * norm.pdf(coats, 2.6, 0.4)

    wanted = quad(cost, 0.0, 6.0, points=[order - 0.3, order + 0.3], limit=200)[0]
    assert expected_loss(np.array([[order]]) - grid, chance)[0] == pytest.approx(wanted, abs=2e-3)
