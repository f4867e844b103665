"""CIEDE2000 against colour-science."""

import warnings

import numpy as np

from laydown.physics.colour.difference import de2000

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    import colour


def test_random_pairs_differ_as_in_colour_science():
    dice = np.random.default_rng(11)
    low, high = (
        np.array([0.0, -120.0, -120.0]),
        np.array([130.0, 120.0, 120.0]),
    )  # metallic flops go above L* 100
    first, second = (low + (high - low) * dice.random((100_000, 3)) for _ in range(2))
    reference = colour.delta_E(first, second, method="CIE 2000")
    assert np.abs(de2000(first, second) - reference).max() < 1e-9


def test_near_pairs_differ_as_in_colour_science():
    dice = np.random.default_rng(12)
    first = np.array([60.0, 0.0, 0.0]) + np.array([40.0, 10.0, 10.0]) * dice.standard_normal((20_000, 3))
    second = first + 0.5 * dice.standard_normal(first.shape)
    reference = colour.delta_E(first, second, method="CIE 2000")
    assert np.abs(de2000(first, second) - reference).max() < 1e-9


def test_neutrals_differ_as_in_colour_science():
    lightness = np.linspace(0.0, 120.0, 61)
    neutral = np.stack([lightness, np.zeros(61), np.zeros(61)], axis=1)
    coloured = np.array([50.0, -3.0, 7.0])
    for other in (coloured, neutral[::-1]):
        reference = colour.delta_E(neutral, np.broadcast_to(other, neutral.shape), method="CIE 2000")
        assert np.abs(de2000(neutral, other) - reference).max() < 1e-9
