"""Spray laws against scipy: the incomplete beta function and numerical quadrature."""

import itertools
import math

import numpy as np
import pytest
from scipy import integrate, special

from laydown.physics.spray.fan import ALONG_EXPONENT, PROFILE_EXPONENT, profile_share, uniformity_cv
from laydown.physics.spray.strokes import SkinGrid, Strokes, film_factors, ramp


@pytest.mark.parametrize("exponent", [0.5, 1.0, 1.7, 2.5, 4.0])
def test_share_of_the_profile_is_the_incomplete_beta_function(exponent):
    u = np.linspace(-1.2, 1.2, 100_001)
    reference = special.betainc(exponent + 1.0, exponent + 1.0, np.clip((1.0 + u) / 2.0, 0.0, 1.0))
    assert np.abs(profile_share(u, exponent) - reference).max() < 1e-6


@pytest.mark.parametrize("exponent", [0.5, 1.7, 3.0])
def test_share_of_the_profile_is_its_integral(exponent):
    def height(t):
        return (1.0 - t * t) ** exponent

    whole = integrate.quad(height, -1.0, 1.0)[0]
    assert whole == pytest.approx(special.beta(0.5, exponent + 1.0), rel=1e-8)
    for place in (-0.9, -0.3, 0.0, 0.42, 0.99):
        share = integrate.quad(height, -1.0, place)[0] / whole
        assert float(profile_share(np.array(place), exponent)) == pytest.approx(share, abs=1e-6)


def test_what_has_passed_adds_up_to_the_integral_by_parts():
    u = np.linspace(-1.5, 1.5, 30_001)
    inside, power = np.clip(u, -1.0, 1.0), ALONG_EXPONENT + 1.0
    moment = (1.0 - inside**2) ** power / (2.0 * power * special.beta(0.5, power))
    reference = (
        inside * special.betainc(power, power, (1.0 + inside) / 2.0) + moment + np.maximum(u - 1.0, 0.0)
    )
    assert np.abs(ramp(u) - reference).max() < 1e-6


def one_stroke():
    """A stroke of 0.5 m in the middle of a metre."""
    one = {
        "begin_s": 0.0,
        "left_m": 0.25,
        "right_m": 0.75,
        "ahead": 1.0,
        "centre_m": 0.2013,
        "fan_m": 0.25,
        "half_m": 0.02,
        "flow_g_s": 3.1,
        "transfer": 0.6,
        "speed_m_s": 0.5,
        "stretch": 1.0,
    }
    values = {name: np.array([value]) for name, value in one.items()}
    return Strokes(**values, section=np.zeros(1, np.int64), light=np.zeros(1, np.int64))


@pytest.mark.parametrize("x_m", [0.235, 0.255, 0.50, 0.765])
def test_film_of_a_cell_is_the_integral_of_the_moving_footprint(x_m):
    stroke, cell = one_stroke(), 0.01
    skin = SkinGrid(x_m - cell / 2.0, 0.24, cell, 1, 1)
    up, along = film_factors(stroke, skin)
    half, height = 0.125, 0.02
    scale = special.beta(0.5, PROFILE_EXPONENT + 1.0) * special.beta(0.5, ALONG_EXPONENT + 1.0)

    def footprint(y, x, gun):
        across = max(1.0 - ((y - 0.2013) / half) ** 2, 0.0) ** PROFILE_EXPONENT
        along_it = max(1.0 - ((x - gun) / height) ** 2, 0.0) ** ALONG_EXPONENT
        return across * along_it / (half * height * scale)

    def passed(y, x):
        gun = np.linspace(0.25, 0.75, 4001)
        return integrate.trapezoid([footprint(y, x, one) for one in gun], gun)

    nodes, weights = np.polynomial.legendre.leggauss(4)
    across = (
        sum(
            weight / 2.0 * (1.0 - ((0.245 + node * cell / 2.0 - 0.2013) / half) ** 2) ** PROFILE_EXPONENT
            for node, weight in zip(nodes, weights, strict=True)
        )
        / (1.0 - ((0.245 - 0.2013) / half) ** 2) ** PROFILE_EXPONENT
    )
    mean = across * sum(
        weight / 2.0 * passed(0.245, x_m + node * cell / 2.0)
        for node, weight in zip(nodes, weights, strict=True)
    )
    assert float((up @ along)[0, 0]) == pytest.approx(3.1 * 0.6 / 0.5 * mean, rel=2e-4, abs=1e-6)


def test_the_footprint_holds_what_lands_per_second():
    # Elliptic footprint: b1 = k + 1/2 across, b2 along; its integral by quadrature against flow times transfer.
    half, height, across, along = 0.125, 0.02, PROFILE_EXPONENT + 0.5, ALONG_EXPONENT + 1.0
    peak = (3.1 * 0.6) / (half * height * special.beta(0.5, along) * special.beta(0.5, across + 0.5))

    def rate(x, y):
        room = 1.0 - (y / half) ** 2
        return peak * room ** (across - 1.0) * max(1.0 - (x / height) ** 2 / room, 0.0) ** (along - 1.0)

    def reach(y):
        return height * math.sqrt(1.0 - (y / half) ** 2)

    total = integrate.dblquad(rate, -half, half, lambda y: -reach(y), reach)[0]
    assert total == pytest.approx(3.1 * 0.6, rel=1e-5)
    # A straight pass over it leaves the profile that laydown works with.
    for y in (0.0, 0.05, 0.11):
        passed = integrate.quad(rate, -reach(y), reach(y), args=(y,))[0]
        top = integrate.quad(rate, -height, height, args=(0.0,))[0]
        assert passed / top == pytest.approx((1.0 - (y / half) ** 2) ** PROFILE_EXPONENT, rel=1e-6)


@pytest.mark.parametrize("exponent", [0.5, 1.0, 1.7, 3.0])
@pytest.mark.parametrize("overlap", [0.25, 0.50, 0.67, 0.80])
def test_ripple_of_ideal_strokes_is_that_of_quadrature(exponent, overlap):
    pitch = 2.0 * (1.0 - overlap)

    def film(y):
        return sum(max(1.0 - (y - i * pitch) ** 2, 0.0) ** exponent for i in range(-8, 9))

    edges = sorted({0.0, round(1.0 % pitch, 9), round(-1.0 % pitch, 9), round(pitch, 9)})

    def mean_of(quantity):
        parts = (integrate.quad(quantity, low, high, limit=200)[0] for low, high in itertools.pairwise(edges))
        return sum(parts) / pitch

    mean = mean_of(film)
    square = mean_of(lambda y: (film(y) - mean) ** 2)
    assert uniformity_cv(overlap, exponent) == pytest.approx(math.sqrt(square) / mean, abs=3e-5)
