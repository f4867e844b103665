"""Whether the ground of the panel is that of the car.

Colours are in CIELAB, one row of three for each angle of the instrument; lengths are in coats.
"""

from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from laydown.physics.colour.coat_count import slopes
from laydown.physics.colour.difference import de2000
from laydown.physics.colour.letdown import LetdownFit, curve
from laydown.physics.values import Floats

GROUND_GOOD: Final = 1.0
"""Ground of car and panel differ by no more than this, CIEDE2000: go on; assumption."""

GROUND_WRONG: Final = 2.0
"""Above this, CIEDE2000, it is another ground; assumption."""

GROUND_BIAS: Final = 0.5
"""A ground that would shift the count by more [coats] is another ground; assumption."""


@dataclass(frozen=True, slots=True)
class GroundState:
    """Ground of the car against that of the panel."""

    state: Literal["go", "correct", "wrong"]
    delta: Floats
    """Ground of the car less that of the panel, (angle, 3)."""
    difference: Floats
    """The same as CIEDE2000, (angle,)."""
    bias: float
    """By how much the count would be wrong without correction [coats]."""


def ground_bias(fit: LetdownFit, coats: float, ground_delta: Floats) -> float:
    """Return by how much a count is wrong if a difference of the grounds is not carried through.

    Parameters
    ----------
    fit
        The panel; its colour must change with coats.
    coats
        True number of coats.
    ground_delta
        Ground of the car less ground of the panel, (angle, 3).

    Returns
    -------
    Coats; above 0 where too many would be counted.

    Notes
    -----
    ::

        bias = sum(shift dX/dn) / sum((dX/dn)^2)                                (1)

    with what the other ground changes after those coats as shift.

    Sources
    -------
    (1) Straight-line propagation of errors with equal deviations; shift by `curve`.
    """
    slope = slopes(fit, coats)
    at = np.array([coats])
    shift = curve(fit, at, ground_delta)[0] - curve(fit, at)[0]
    return float((shift[0] * slope).sum() / np.square(slope).sum())


def check_ground(fit: LetdownFit, ground: Floats, angles_deg: Floats, coats: float) -> GroundState:
    """Compare the ground of a car with that of the panel: go on, correct for it, or it is another ground.

    Parameters
    ----------
    fit
        The panel, with a field without effect coat.
    ground
        CIELAB of ground without effect coat on the car, (angle, 3); cleared as the panel is.
    angles_deg
        Aspecular angles [degrees]; those from 25 to 75 are judged, all where none is.
    coats
        About how many coats are expected.

    Returns
    -------
    What to do, the difference to carry through, and the bias of a count without it.

    Raises
    ------
    ValueError
        If the panel has no field without effect coat.

    Sources
    -------
    `GROUND_GOOD`, `GROUND_WRONG`, `GROUND_BIAS`: assumptions.
    """
    if not fit.has_ground:
        raise ValueError("fit must hold a field of 0 coats to compare a ground with")
    own = fit.lab[fit.coats == 0.0].mean(axis=0)
    delta = np.asarray(ground, float) - own
    difference = de2000(own, ground)
    judged = (np.asarray(angles_deg) >= 25.0) & (np.asarray(angles_deg) <= 75.0)
    mean = float(difference[judged].mean() if judged.any() else difference.mean())
    bias = ground_bias(fit, coats, delta)
    if mean > GROUND_WRONG or abs(bias) > GROUND_BIAS:
        return GroundState("wrong", delta, difference, bias)
    return GroundState("go" if mean <= GROUND_GOOD else "correct", delta, difference, bias)
