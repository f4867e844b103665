"""A colour difference in its parts: lightness, chroma, hue, and along both axes of CIELAB."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from laydown.physics.values import Floats

_POWER = 25.0**7


def _hue(a: Floats, b: Floats) -> Floats:
    """Hue angle from 0 to 2 pi; 0 for a neutral."""
    hue = np.arctan2(b, a)
    return np.where(hue < 0.0, hue + 2.0 * np.pi, hue)


def _mean_hue(first: Floats, second: Floats, coloured: NDArray[np.bool_]) -> Floats:
    """Mean hue angle by the rules of the formula."""
    total = first + second
    apart = np.abs(second - first) > np.pi + 1e-12
    turn = np.where(total < 2.0 * np.pi, 2.0 * np.pi, -2.0 * np.pi)
    mean = np.where(apart, (total + turn) / 2.0, total / 2.0)
    return np.where(coloured, mean, total)


def _rotation(hue: Floats, chroma: Floats) -> Floats:
    """Rotation term R_T."""
    degrees = np.degrees(hue)
    turn = np.radians(60.0 * np.exp(-(((degrees - 275.0) / 25.0) ** 2)))
    power = chroma**7
    return np.asarray(-2.0 * np.sqrt(power / (power + _POWER)) * np.sin(turn), float)


def _hue_weight(hue: Floats) -> Floats:
    """Weight T of the hue difference."""
    return np.asarray(
        1.0
        - 0.17 * np.cos(hue - np.radians(30.0))
        + 0.24 * np.cos(2.0 * hue)
        + 0.32 * np.cos(3.0 * hue + np.radians(6.0))
        - 0.20 * np.cos(4.0 * hue - np.radians(63.0)),
        float,
    )


def de2000(first: Floats, second: Floats) -> Floats:
    """Return the colour difference CIEDE2000 of pairs of CIELAB colours.

    Parameters
    ----------
    first, second
        L*, a*, b* on the last axis; the other axes broadcast. L* above 100 is legal.

    Returns
    -------
    Differences, without the last axis.

    Notes
    -----
    ::

        dE = sqrt((dL/S_L)^2 + (dC/S_C)^2 + (dH/S_H)^2 + R_T dC/S_C dH/S_H)     (1)

    with k_L = k_C = k_H = 1. Equal to the 34 published pairs to 1e-4
    (checked in ``tests/published/test_colour_published.py``).

    Sources
    -------
    (1) ISO/CIE 11664-6; Sharma, Wu, Dalal, Color Res. Appl. 30 (2005) 21-30.
    """
    first, second = np.broadcast_arrays(np.asarray(first, float), np.asarray(second, float))
    mean_chroma = (np.hypot(first[..., 1], first[..., 2]) + np.hypot(second[..., 1], second[..., 2])) / 2.0
    power = mean_chroma**7
    stretch = 1.5 - 0.5 * np.sqrt(power / (power + _POWER))
    a1, a2 = first[..., 1] * stretch, second[..., 1] * stretch
    c1, c2 = np.hypot(a1, first[..., 2]), np.hypot(a2, second[..., 2])
    h1, h2 = _hue(a1, first[..., 2]), _hue(a2, second[..., 2])
    coloured = c1 * c2 > 0.0
    turn = h2 - h1
    turn = np.where(turn > np.pi, turn - 2.0 * np.pi, np.where(turn < -np.pi, turn + 2.0 * np.pi, turn))
    hue_difference = 2.0 * np.sqrt(c1 * c2) * np.sin(np.where(coloured, turn, 0.0) / 2.0)
    hue, chroma = _mean_hue(h1, h2, coloured), (c1 + c2) / 2.0
    offset = ((first[..., 0] + second[..., 0]) / 2.0 - 50.0) ** 2
    by_lightness = (second[..., 0] - first[..., 0]) / (1.0 + 0.015 * offset / np.sqrt(20.0 + offset))
    by_chroma = (c2 - c1) / (1.0 + 0.045 * chroma)
    by_hue = hue_difference / (1.0 + 0.015 * chroma * _hue_weight(hue))
    square = by_lightness**2 + by_chroma**2 + by_hue**2 + _rotation(hue, chroma) * by_chroma * by_hue
    return np.asarray(np.sqrt(np.maximum(square, 0.0)), float)


@dataclass(frozen=True, slots=True)
class ColourParts:
    """Second colour less first colour; every part without the last axis of the colours."""

    lightness: Floats
    """dL*; above 0 is lighter."""
    redness: Floats
    """da*; above 0 is redder, below greener."""
    yellowness: Floats
    """db*; above 0 is yellower, below bluer."""
    chroma: Floats
    """dC*ab; above 0 is more vivid."""
    hue: Floats
    """dH*ab; above 0 is turned from red towards yellow."""

    @property
    def total(self) -> Floats:
        """The whole difference dE*ab."""
        return np.asarray(np.sqrt(self.lightness**2 + self.redness**2 + self.yellowness**2), float)


def colour_parts(first: Floats, second: Floats) -> ColourParts:
    """Return the parts of the difference of pairs of CIELAB colours.

    Parameters
    ----------
    first, second
        L*, a*, b* on the last axis; the other axes broadcast.

    Returns
    -------
    Second less first.

    Notes
    -----
    ::

        dH = (a1 b2 - a2 b1) / sqrt((C1 C2 + a1 a2 + b1 b2) / 2)                (1)
        dE^2 = dL^2 + da^2 + db^2 = dL^2 + dC^2 + dH^2                          (2)

    Sources
    -------
    (1) Sève, Color Res. Appl. 16 (1991) 217-218, which has the sign without an angle. (2) ISO/CIE 11664-4.
    """
    first, second = np.broadcast_arrays(np.asarray(first, float), np.asarray(second, float))
    step = second - first
    c1, c2 = (np.hypot(one[..., 1], one[..., 2]) for one in (first, second))
    cross = first[..., 1] * second[..., 2] - second[..., 1] * first[..., 2]
    along = first[..., 1] * second[..., 1] + first[..., 2] * second[..., 2]
    half = np.maximum(0.5 * (c1 * c2 + along), 0.0)
    # Opposite hues leave nothing to divide by; there the whole of what is not chroma is hue.
    opposite = half <= 1e-9 * c1 * c2
    turned = cross / np.sqrt(np.where(opposite, 1.0, half))
    hue = np.where(opposite, 2.0 * np.sqrt(c1 * c2), turned)
    return ColourParts(step[..., 0], step[..., 1], step[..., 2], c2 - c1, hue)
