"""What the colour that no number of coats explains looks like, and what would make the count surer.

Colours are in CIELAB, one row of three for each angle of the instrument; lengths are in coats.
"""

from dataclasses import dataclass, replace
from typing import Final, Literal

import numpy as np

from laydown.physics.colour.coat_count import READING_SIGMA, Doubt, expected_sd, slopes
from laydown.physics.colour.letdown import LetdownFit, curve, fit_letdown
from laydown.physics.values import Floats

EXPLAINS: Final = 0.6
"""Share of what is left that a cause must explain to be named; assumption."""

Cause = Literal["ground_light", "ground_yellow", "flake", "tint", "unclear"]
"""Ground too light or dark; ground yellower or bluer, or an aged clear; flakes lie otherwise; redder or greener."""

_FLAKE_ANGLES_DEG: Final = (15.0, 25.0, 45.0, 75.0, 110.0)
_FLAKE: Final = (1.0, 0.5, 0.0, -0.4, -0.5)


@dataclass(frozen=True, slots=True)
class PossibleCause:
    """A cause that would explain what is left: a suggestion to look at, no finding."""

    cause: Cause
    """The cause with the largest share, or unclear."""
    explained_share: float
    """Share of the square of what is left that the likeliest cause explains, 0 to 1."""
    amplitude: float
    """Size of the cause at 15 degrees or at every angle [CIELAB], with its sign; 0 where unclear."""
    shares: tuple[tuple[Cause, float], ...]
    """Share of every cause, the largest first."""


@dataclass(frozen=True, slots=True)
class Advice:
    """Expected standard deviation of the count now and after more work [coats]."""

    now: float
    more_readings: float
    second_strip: float
    further_field: float


def explain_residual(fit: LetdownFit, coats: float, residual: Floats, angles_deg: Floats) -> PossibleCause:
    """Return which cause looks most like what is left at the best number of coats.

    Parameters
    ----------
    fit
        The panel.
    coats
        The best number of coats.
    residual
        Car less curve at that number, (angle, 3).
    angles_deg
        Aspecular angles [degrees], (angle,).

    Returns
    -------
    The likeliest cause. Ask only where no number of coats fits; what is left of a good fit is chance.

    Notes
    -----
    ::

        r' = r - (r.T / T.T) T,  p' likewise,  T = dX/dn                        (1)
        share = (p'.r')^2 / (p'.p' r'.r'),  amplitude = p'.r' / p'.p'           (2)

    Patterns p: dL = 1; db = 1; dL = 1, 0.5, 0, -0.4, -0.5 at 15, 25, 45, 75, 110 degrees; da = 1.

    Sources
    -------
    (1) What a change of coats would do is taken out first. (2) Least squares on one pattern; the patterns are
    assumptions.
    """
    slope = slopes(fit, coats).ravel()
    left = _without(np.asarray(residual, float).ravel(), slope)
    size = float(left @ left)
    if size == 0.0:
        return PossibleCause("unclear", 0.0, 0.0, ())
    found: list[tuple[Cause, float, float]] = []
    for cause, pattern in _patterns(np.asarray(angles_deg, float)):
        bare = _without(pattern.ravel(), slope)
        square = float(bare @ bare)
        along = float(bare @ left)
        # A pattern that a change of coats imitates wholly can explain nothing.
        if square > 1e-6 * float(pattern.ravel() @ pattern.ravel()):
            found.append((cause, along * along / (square * size), along / square))
    found.sort(key=lambda one: -one[1])
    shares = tuple((cause, share) for cause, share, _ in found)
    cause, share, amplitude = found[0]
    if share <= EXPLAINS:
        return PossibleCause("unclear", share, 0.0, shares)
    return PossibleCause(cause, share, amplitude, shares)


def residual_of(fit: LetdownFit, coats: float, target: Floats, ground_delta: Floats | None = None) -> Floats:
    """Return what some coats of the panel leave of the colour of a car.

    Parameters
    ----------
    fit, ground_delta
        The panel, and ground of the car less its own, (angle, 3).
    coats
        Coats, 0 to `LetdownFit.last`.
    target
        CIELAB of the car, (angle, 3).

    Returns
    -------
    Car less curve, (angle, 3).
    """
    lab, _ = curve(fit, np.array([coats]), ground_delta)
    return np.asarray(np.asarray(target, float) - lab[0], float)


def advise(
    fit: LetdownFit, coats: float, readings: int = 3, sigma: float = READING_SIGMA, doubt: Doubt | None = None
) -> Advice:
    """Return how much surer a count would be with more readings, a second strip or a further field.

    Parameters
    ----------
    fit
        The panel, read as often as the car.
    coats
        About how many coats are expected, above 0.
    readings
        Readings per spot now, 1 or more.
    sigma
        Standard deviation of one reading.
    doubt
        What no reading takes away.

    Returns
    -------
    Expected standard deviations: now; with nine readings, or thrice as many from nine on; with one strip more; with one
    more field at the nearest half coat.

    Sources
    -------
    `expected_sd`; readings lessen only their own scatter, strips only that of the film.
    """
    doubt = doubt or Doubt()
    target = sigma / np.sqrt(readings)
    more = 9 if readings < 9 else 3 * readings
    shrunk = float(np.sqrt(readings / more))
    # More readings do not make uneven fields even: what scatters about the curve stays.
    surer = fit if fit.inflation > 1.0 else replace(fit, sigma=fit.sigma * shrunk)
    near = round(2.0 * coats) / 2.0
    lab, _ = curve(fit, np.array([near]))
    wider = fit_letdown(np.append(fit.coats, near), np.concatenate([fit.lab, lab]), fit.sigma)
    return Advice(
        now=expected_sd(fit, coats, target, doubt),
        more_readings=expected_sd(surer, coats, target * shrunk, doubt),
        second_strip=expected_sd(fit, coats, target, replace(doubt, strips=doubt.strips + 1)),
        further_field=expected_sd(wider, coats, target, doubt),
    )


def _without(vector: Floats, taken: Floats) -> Floats:
    """A vector less its part along another."""
    square = float(taken @ taken)
    return vector if square == 0.0 else np.asarray(vector - (float(vector @ taken) / square) * taken, float)


def _patterns(angles_deg: Floats) -> list[tuple[Cause, Floats]]:
    """What each cause does to L*, a*, b* at each angle."""
    flat = np.ones_like(angles_deg)
    none = np.zeros_like(angles_deg)
    flake = np.interp(angles_deg, _FLAKE_ANGLES_DEG, _FLAKE)
    return [
        ("ground_light", np.stack([flat, none, none], axis=1)),
        ("ground_yellow", np.stack([none, none, flat], axis=1)),
        ("flake", np.stack([flake, none, none], axis=1)),
        ("tint", np.stack([none, flat, none], axis=1)),
    ]
