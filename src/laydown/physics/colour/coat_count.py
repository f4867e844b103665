"""How many coats a car has, read off the curves of a let-down panel, and how sure that is.

All lengths are in coats, all colours in CIELAB, one row of three for each angle of the instrument.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np

from laydown.physics.colour.count_chances import CoatPosterior, coat_grid, posterior_of, spread_by_film
from laydown.physics.colour.difference import de2000
from laydown.physics.colour.letdown import LetdownFit, curve, curves
from laydown.physics.values import Floats

READING_SIGMA: Final = 0.15
"""Standard deviation of one reading of an effect coat, put down anew, of each of L*, a*, b*; assumption."""

MISMATCH: Final = 0.3
"""What no number of coats can match, standard deviation of each of L*, a*, b* and angle; assumption."""

FILM_SCATTER: Final = 0.07
"""Standard deviation of one coat of a panel sprayed by hand [coats]; assumption, replaced by weighed panels."""


@dataclass(frozen=True, slots=True)
class Doubt:
    """What no reading takes away."""

    mismatch: float = MISMATCH
    """Standard deviation of what no number of coats can match, each channel and angle."""
    film_scatter: float = FILM_SCATTER
    """Standard deviation of one coat of the panel [coats]."""
    ground: float = 0.0
    """Standard deviation of the measured difference of the grounds, each channel."""
    strips: int = 1
    """Panels that were sprayed and read alike."""


def estimate_coats(
    fit: LetdownFit,
    target: Floats,
    sigma_target: Floats | float,
    doubt: Doubt | None = None,
    ground_delta: Floats | None = None,
) -> CoatPosterior:
    """Estimate how many coats of the panel give the colour of a car.

    Parameters
    ----------
    fit
        The panel.
    target
        CIELAB of the car, (angle, 3), same angles, illuminant and observer as the panel.
    sigma_target
        Standard deviation of its mean, one for all or (angle, 3).
    doubt
        What no reading takes away; the values of this module unless given.
    ground_delta
        Ground of the car less ground of the panel, (angle, 3), where measured.

    Returns
    -------
    Chance of each number of coats from 0 to `LetdownFit.last`.

    Raises
    ------
    ValueError
        If the target has another shape than a field or is not finite.

    Notes
    -----
    ::

        s2 = sigma_target^2 + mismatch^2 + ground^2 exp(-2 k n) + f sigma^2 leverage(n)   (1)
        log p(n | k) = -1/2 sum (t - X(n))^2 / s2 - 1/2 sum log s2                          (2)
        p(n) = sum over k of w(k) p(n | k), then blurred by the film of the panel          (3)

    One common factor is taken out over all k and n; one for each k would change the weights of the bends. Intervals of
    nine in ten cover 85 to 97 in a hundred on panels of a spectral model (``tests/unit/physics/colour/test_letdown.py``).

    Sources
    -------
    (1) Variances of independent errors add. (2) Normal errors. (3) Bayes; `spread_by_film`.
    """
    doubt = doubt or Doubt()
    target = np.asarray(target, float)
    if target.shape != fit.lab.shape[1:] or not bool(np.all(np.isfinite(target))):
        raise ValueError("target must be finite and have the shape (angle, 3) of a field of the panel")
    grid = coat_grid(fit.last)
    lab, leverage = curves(fit, grid, ground_delta)
    variance = np.square(np.asarray(sigma_target, float)) + doubt.mismatch**2
    own = fit.inflation * np.square(fit.sigma)
    shines = doubt.ground**2 * np.exp(-2.0 * fit.rates[:, None] * grid)
    s2 = variance + own * leverage[:, :, None, None] + shines[:, :, None, None]
    ln_chance = -0.5 * (np.square(target - lab) / s2 + np.log(s2)).sum(axis=(2, 3))
    ln_chance += np.log(fit.weights)[:, None]
    chance = np.exp(ln_chance - ln_chance.max()).sum(axis=0)
    return spread_by_film(posterior_of(grid, chance), doubt.film_scatter, doubt.strips)


def misfit(fit: LetdownFit, coats: float, target: Floats, ground_delta: Floats | None = None) -> Floats:
    """Return how far the panel is from a car with some coats, angle by angle.

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
    CIEDE2000, (angle,).

    Sources
    -------
    `curve` and `de2000`.
    """
    lab, _ = curve(fit, np.array([coats]), ground_delta)
    return de2000(lab[0], target)


def step_difference(fit: LetdownFit, fewer: float, more: float, ground_delta: Floats | None = None) -> Floats:
    """Return what the eye would see between two numbers of coats, angle by angle.

    Parameters
    ----------
    fit, ground_delta
        The panel, and ground of the car less its own, (angle, 3).
    fewer, more
        Both numbers of coats, 0 to `LetdownFit.last`.

    Returns
    -------
    CIEDE2000, (angle,).

    Sources
    -------
    `curve` and `de2000`.
    """
    lab, _ = curve(fit, np.array([fewer, more]), ground_delta)
    return de2000(lab[0], lab[1])


def travel(fit: LetdownFit) -> Floats:
    """Return how far the colour travels from the first to the last field, angle by angle.

    Parameters
    ----------
    fit
        The panel.

    Returns
    -------
    CIEDE2000, (angle,). Where the largest is below 0.5 the effect coat does nothing that could be counted.

    Sources
    -------
    `curve` and `de2000`.
    """
    return step_difference(fit, float(fit.coats.min()), float(fit.coats.max()))


def slopes(fit: LetdownFit, coats: float) -> Floats:
    """Return how much a coat changes the colour, on the best curve.

    Parameters
    ----------
    fit
        The panel.
    coats
        Where [coats].

    Returns
    -------
    Change of L*, a*, b* per coat, (angle, 3).

    Sources
    -------
    Derivative of the curve of `fit_letdown`: A exp(-k n).
    """
    best = int(np.flatnonzero(fit.rates == fit.rate)[0])
    return np.asarray(fit.slope[best] * np.exp(-fit.rate * coats), float)


def expected_sd(
    fit: LetdownFit, coats: float, sigma_target: Floats | float, doubt: Doubt | None = None
) -> float:
    """Return how sure a count will be before the car is measured.

    Parameters
    ----------
    fit, sigma_target, doubt
        As in `estimate_coats`.
    coats
        About how many coats are expected, above 0.

    Returns
    -------
    Standard deviation [coats]; infinite where a coat changes nothing.

    Notes
    -----
    ::

        sd_inst = 1 / sqrt(sum (dX/dn)^2 / s2),  sd = hypot(sd_inst, film_scatter sqrt(n / strips))   (1)

    Sources
    -------
    (1) Straight-line propagation of errors.
    """
    doubt = doubt or Doubt()
    slope = slopes(fit, coats)
    _, leverage = curve(fit, np.array([coats]))
    own = fit.inflation * np.square(fit.sigma) * leverage[0]
    shines = doubt.ground**2 * np.exp(-2.0 * fit.rate * coats)
    s2 = np.square(np.asarray(sigma_target, float)) + doubt.mismatch**2 + own + shines
    told = float((np.square(slope) / s2).sum())
    if told == 0.0:
        return float("inf")
    return float(np.hypot(told**-0.5, doubt.film_scatter * np.sqrt(coats / doubt.strips)))
