"""The ordinal model of looking against integration with scipy."""

import numpy as np
import pytest
from scipy.integrate import quad_vec
from scipy.stats import norm

from laydown.physics.colour.count_chances import coat_grid
from laydown.physics.colour.eye_ranking import Judgement, normal_share, rank_coats

WORD = {"L": "too_few", "M": "match", "D": "too_many"}


def test_the_table_of_the_normal_distribution_is_that_of_scipy():
    z = np.linspace(-9.0, 9.0, 100_003)
    assert np.abs(normal_share(z) - norm.cdf(z)).max() < 2e-6


def integrated(series):
    """Mean and spread of the model by adaptive integration over what a way of looking is off."""
    grid = coat_grid(6.0)
    total = np.zeros(grid.size)
    for width in (0.25, 0.4, 0.6):
        for eye in (0.25, 0.4, 0.7):
            chance = np.ones(grid.size)
            for letters in series:

                def at(off, letters=letters, width=width, eye=eye):
                    product = norm.pdf(off, 0.0, 0.35) * np.ones(grid.size)
                    for field, letter in enumerate(letters):
                        away = field - (grid + off)
                        few, many = norm.cdf((-width - away) / eye), norm.sf((width - away) / eye)
                        said = {"L": few, "M": 1.0 - few - many, "D": many}[letter]
                        product = product * (0.97 * said + 0.01)
                    return product

                chance = chance * quad_vec(at, -2.0, 2.0, epsabs=1e-9, limit=60)[0]
            total += chance
    total /= total.sum()
    mean = float(grid @ total)
    return mean, float(np.sqrt((grid - mean) ** 2 @ total))


@pytest.mark.parametrize("series", [("LLMDDD", "LLMDDD"), ("LLLDDD", "LLMDDD"), ("LMMDDD",)])
def test_mean_and_spread_are_those_of_integration(series):
    judged = [
        Judgement(float(field), f"way {number}", WORD[letter])
        for number, letters in enumerate(series)
        for field, letter in enumerate(letters)
    ]
    found = rank_coats(judged, 6.0).posterior
    assert (found.mean, found.sd) == pytest.approx(integrated(series), abs=0.02)
