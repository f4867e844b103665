"""The hand: how evenly a person sprays, and whether a join is reached in time."""

import math
from dataclasses import dataclass

import numpy as np

from laydown.physics.values import Floats


@dataclass(frozen=True, slots=True)
class Hand:
    """Spreads of one painter; all assumptions until learnt from records.

    Attributes
    ----------
    speed_share
        Spread of the speed from stroke to stroke, standard deviation over mean.
    day_share
        Spread of the speed from day to day.
    pitch_share
        Spread of the distance between strokes, over the pitch.
    wander_m
        Wandering across a stroke [m].
    distance_share
        Spread of the distance to the panel.
    pause_chance, pause_s, pause_spread
        Chance of a pause in a section, its median [s] and the standard deviation of its logarithm.
    """

    speed_share: float
    day_share: float
    pitch_share: float
    wander_m: float
    distance_share: float
    pause_chance: float = 0.08
    pause_s: float = 12.0
    pause_spread: float = 0.8


SKILLED = Hand(0.06, 0.05, 0.12, 0.010, 0.08)
"""A skilled painter; assumption."""

TRAINEE = Hand(0.12, 0.10, 0.25, 0.020, 0.15)
"""A trainee; assumption."""

_NODES, _WEIGHTS = np.polynomial.hermite_e.hermegauss(9)
_WEIGHTS = _WEIGHTS / _WEIGHTS.sum()
_Z = np.linspace(-8.0, 8.0, 4001)
_PHI = np.array([0.5 * math.erfc(-z / math.sqrt(2.0)) for z in _Z])
_STEPS = np.diff(_PHI)
_PER_UNIT = 1.0 / (_Z[1] - _Z[0])


def normal_share(z: Floats) -> Floats:
    """Return the share of a standard normal variable below z.

    Parameters
    ----------
    z
        Any shape, any value.

    Returns
    -------
    Share 0 to 1.

    Notes
    -----
    Interpolated in 4,001 points from -8 to 8; within 1e-6 (checked in ``tests/second/test_hand_second.py``)::

        (1 + erf(z / sqrt(2))) / 2                                                       (1)
    """
    place = (np.asarray(z, float) - _Z[0]) * _PER_UNIT
    # Even steps need no search; not-a-number stays one.
    low = np.fmin(np.fmax(place, 0.0), len(_Z) - 2.0).astype(np.intp)
    return np.asarray(_PHI[low] + (np.clip(place, 0.0, len(_Z) - 1.0) - low) * _STEPS[low], float)


def film_cv(hand: Hand, fan_m: float, overlap: float, exponent: float) -> float:
    """Return the coefficient of variation of the film that a hand sprays.

    Parameters
    ----------
    hand
        Spreads of the painter.
    fan_m
        Width of the fan [m].
    overlap
        Overlap of neighbouring strokes, 0.3 to 0.9.
    exponent
        Exponent k of the profile across the fan.

    Returns
    -------
    Standard deviation over mean, a share.

    Notes
    -----
    First order in speed, place and distance of each stroke::

        var = sum w^2 sv^2 + sum (dw/dy)^2 sy^2 + sum (dw/dd)^2 sd^2            (1)

    with w the profile of each stroke at a point, plus the ripple of ideal strokes. From 1 % below to 12 % above a
    simulation stroke by stroke at overlaps of 0.50 to 0.75 (checked in ``tests/second/test_hand_second.py``), so
    on the safe side.

    Sources
    -------
    (1) Error propagation; definition.
    """
    pitch = fan_m * (1.0 - overlap)
    half = fan_m / 2.0
    reach = math.ceil(half / pitch) + 2
    y = (np.arange(200) + 0.5) / 200.0 * pitch
    u = (y[:, None] - np.arange(-reach, reach + 1)[None, :] * pitch) / half
    inside = np.clip(1.0 - u * u, 1e-12, None)
    weight = np.where(np.abs(u) < 1.0, inside**exponent, 0.0)
    slope = np.where(np.abs(u) < 1.0, exponent * inside ** (exponent - 1.0), 0.0) * 2.0 * u
    by_distance = slope * u - 1.5 * weight
    mean = weight.sum(axis=1)
    place = (hand.pitch_share * pitch) ** 2 + hand.wander_m**2
    variance = (
        (weight**2).sum(axis=1) * hand.speed_share**2
        + (slope**2).sum(axis=1) * place / half**2
        + (by_distance**2).sum(axis=1) * hand.distance_share**2
    )
    ripple = float(mean.std() / mean.mean())
    return math.sqrt(float((variance / mean**2).mean()) + ripple**2)


def age_spread(hand: Hand, stroke_count: float, open_spread: float) -> float:
    """Return the standard deviation of the logarithm of age over open time.

    Parameters
    ----------
    hand
        Spreads of the painter.
    stroke_count
        Strokes in a section, at least 1.
    open_spread
        Standard deviation of the logarithm of the open time.

    Returns
    -------
    Standard deviation, a plain number.

    Sources
    -------
    Independent factors add in the squares of their logarithms; definition.
    """
    return math.sqrt(hand.day_share**2 + hand.speed_share**2 / max(stroke_count, 1.0) + open_spread**2)


def wet_chance(age_s: Floats, open_s: Floats, spread: float, hand: Hand) -> Floats:
    """Return the chance that an edge is still open when the next section reaches it.

    Parameters
    ----------
    age_s
        Age of the edge without a pause [s], above 0. Any shape.
    open_s
        Open time of the edge [s], above 0; broadcasts with ``age_s``; infinite = never closes.
    spread
        Standard deviation of the logarithm of age over open time (``age_spread``), above 0.
    hand
        Chance and length of a pause.

    Returns
    -------
    Chance 0 to 1.

    Notes
    -----
    A mixture of no pause and a lognormal pause, the latter by Gauss-Hermite nodes::

        P = (1 - q) Phi(ln(open / age) / s) + q sum_i w_i Phi(ln(open / (age + pause_i)) / s)      (1)

    Within 0.005 of a simulation of 200,000 joins (checked in ``tests/second/test_hand_second.py``).

    Sources
    -------
    (1) Derived; the spreads are assumptions.
    """
    age, opening = np.asarray(age_s, float), np.asarray(open_s, float)
    pauses = hand.pause_s * np.exp(hand.pause_spread * _NODES)
    # Nodes first: no pause, then every length of a pause.
    ages = age + np.concatenate([[0.0], pauses]).reshape(-1, *([1] * max(age.ndim, opening.ndim)))
    shares = normal_share((np.log(opening) - np.log(ages)) / spread)
    weights = np.concatenate([[1.0 - hand.pause_chance], hand.pause_chance * _WEIGHTS])
    return np.asarray(np.tensordot(weights, shares, axes=1), float)
