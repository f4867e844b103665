"""From how likely each number of coats is to the half coats that are ordered.

All lengths are in coats.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np

from laydown.physics.values import Floats

STEP: Final = 0.02
"""Distance of the points of a grid of coats; assumption, a twenty-fifth of a half coat."""

AGREE_Z: Final = 1.65
"""Two estimates farther apart than this many common standard deviations contradict each other; assumption."""

JOIN_COATS: Final = 0.35
"""Zones whose estimates differ by less [coats] may share a count; assumption, below a half coat."""


@dataclass(frozen=True, slots=True)
class CoatPosterior:
    """Chance of each number of coats."""

    grid: Floats
    """Coats, equal steps from 0, (n,)."""
    density: Floats
    """Chance per coat, (n,); its sum times the step is 1."""
    mean: float
    """Mean [coats]."""
    sd: float
    """Standard deviation [coats]."""
    low: float
    """One in twenty lies below [coats]."""
    high: float
    """One in twenty lies above [coats]."""
    mode: float
    """The likeliest number [coats]."""


def coat_grid(last: float) -> Floats:
    """Return coats from 0 to the last in steps of `STEP`.

    Parameters
    ----------
    last
        Last point [coats], above 0.
    """
    return np.asarray(np.arange(round(last / STEP) + 1) * STEP, float)


def posterior_of(grid: Floats, likelihood: Floats) -> CoatPosterior:
    """Return the posterior of a likelihood on a grid, every number of coats being as likely before.

    Parameters
    ----------
    grid
        Coats in equal steps, (n,).
    likelihood
        Likelihood of each, 0 or more, any factor, (n,).

    Raises
    ------
    ValueError
        If the likelihood is not above 0 anywhere or not finite.

    Notes
    -----
    ``chance = likelihood / sum(likelihood)``                                                (1)
    The ends of the interval lie between the points, straight on the summed chance. Of a normal curve with a spread of
    0.2 coats mean, spread and ends are found to 0.005 (``tests/second/test_letdown_second.py``).
    """
    total = float(likelihood.sum())
    if not 0.0 < total < np.inf:
        raise ValueError("likelihood must be finite and above 0 somewhere")
    chance = likelihood / total
    step = float(grid[1] - grid[0])
    mean = float(grid @ chance)
    summed = np.concatenate([[0.0], np.cumsum(chance)])
    edges = np.concatenate([[grid[0]], (grid[1:] + grid[:-1]) / 2.0, [grid[-1]]])
    low, high = np.interp([0.05, 0.95], summed, edges)
    return CoatPosterior(
        grid=grid,
        density=chance / step,
        mean=mean,
        sd=float(np.sqrt(np.square(grid - mean) @ chance)),
        low=float(low),
        high=float(high),
        mode=float(grid[int(chance.argmax())]),
    )


def chance_within(posterior: CoatPosterior, low: Floats | float, high: Floats | float) -> Floats:
    """Return the chance that the coats lie from low to below high.

    Parameters
    ----------
    posterior
        The posterior.
    low, high
        Ends [coats]; both broadcast.
    """
    step = float(posterior.grid[1] - posterior.grid[0])
    summed = np.concatenate([[0.0], np.cumsum(posterior.density * step)])
    below = [np.searchsorted(posterior.grid, np.asarray(end, float) - 1e-9) for end in (low, high)]
    return np.asarray(summed[below[1]] - summed[below[0]], float)


def spread_by_film(posterior: CoatPosterior, film_scatter: float, strips: int = 1) -> CoatPosterior:
    """Return the posterior blurred by the scatter of the panel's own film.

    Parameters
    ----------
    posterior
        The posterior as if every coat of the panel had been alike.
    film_scatter
        Standard deviation of one coat of the panel [coats], 0 or more.
    strips
        Panels that were sprayed and read, 1 or more.

    Notes
    -----
    ::

        sd(n) = film_scatter sqrt(n / strips)                                   (1)

    Blurring adds its variance: 0.16 with 0.07 at three coats gives 0.20 to 0.005
    (``tests/second/test_letdown_second.py``).

    Sources
    -------
    (1) Variances of independent coats add.
    """
    grid = posterior.grid
    width = np.maximum(film_scatter * np.sqrt(grid / strips), 1e-6)
    blur = np.exp(-0.5 * np.square((grid[:, None] - grid) / width))
    return posterior_of(grid, (blur / blur.sum(axis=0)) @ posterior.density)


def agree(first: CoatPosterior, second: CoatPosterior) -> bool:
    """Return whether two estimates do not contradict each other.

    Parameters
    ----------
    first, second
        Estimates of the same place.

    Notes
    -----
    Means no farther apart than `AGREE_Z` common standard deviations.
    """
    return abs(first.mean - second.mean) <= AGREE_Z * float(np.hypot(first.sd, second.sd))


def combined(first: CoatPosterior, second: CoatPosterior) -> CoatPosterior | None:
    """Return what two estimates say together, or nothing where they contradict each other: then show both.

    Parameters
    ----------
    first, second
        Independent estimates of the same place.

    Sources
    -------
    Product of independent likelihoods.
    """
    if not agree(first, second):
        return None
    grid = coat_grid(float(min(first.grid[-1], second.grid[-1])))
    both = np.interp(grid, first.grid, first.density) * np.interp(grid, second.grid, second.density)
    return posterior_of(grid, both) if both.sum() > 0.0 else None


def zones_join(first: CoatPosterior, second: CoatPosterior) -> bool:
    """Return whether two zones of a car may share one count.

    Parameters
    ----------
    first, second
        Estimates of both zones, read off the same panel.

    Notes
    -----
    Their means must be nearer than `JOIN_COATS` and not contradict each other. Plastic is not judged here.
    """
    return abs(first.mean - second.mean) < JOIN_COATS and agree(first, second)


TOO_MANY: Final = 4.0
"""A coat too many costs as much as this many too few: more can be sprayed, none taken off; assumption."""

RIGHT: Final = 0.3
"""An order no farther off than this is right [coats]: an eye takes 0.25 to 0.6 coats for a match; assumption."""

HALF: Final = 0.5
"""Step of an order [coats]: the last coat at full or at half strength; definition."""


@dataclass(frozen=True, slots=True)
class HalfCoats:
    """Chances and losses of each half coat, and the one to order."""

    halves: Floats
    """Coats in halves from 0, (h,)."""
    mass: Floats
    """Chance that this is the nearest half coat, (h,)."""
    loss: Floats
    """Expected loss of ordering it [coats too few], (h,)."""
    ordered: float
    """The half coat with the least loss; the lower of equals."""
    likeliest: float
    """The half coat with the greatest chance; the lower of equals."""


def half_coats(posterior: CoatPosterior, too_many: float = TOO_MANY) -> HalfCoats:
    """Return the chances of half coats and the one to order.

    Parameters
    ----------
    posterior
        Chance of each number of coats.
    too_many
        How many times a coat too many costs what one too few costs, above 0.

    Returns
    -------
    The chances, the losses and the order.

    Notes
    -----
    ::

        mass(h) = P(h - 0.25 <= n < h + 0.25)                                   (1)
        loss(h) = E[too_many max(h - n - 0.3, 0) + max(n - h - 0.3, 0)]         (2)

    What an eye does not tell apart costs nothing. Where the count is sure the
    nearest half coat is ordered, where it is not a lower one: of panels of a spectral model nine orders in ten are
    right (``tests/unit/physics/colour/test_letdown.py``).
    """
    grid = posterior.grid
    halves = np.asarray(np.arange(int(grid[-1] / HALF + 1e-9) + 1) * HALF, float)
    mass = chance_within(posterior, halves - HALF / 2.0, halves + HALF / 2.0)
    over = halves[:, None] - grid
    chance = posterior.density * (grid[1] - grid[0])
    loss = expected_loss(over, chance, too_many)
    # Equal losses may differ in the last digit; rounding lets the lower one win.
    ordered = halves[int(loss.round(9).argmin())]
    return HalfCoats(halves, mass, loss, float(ordered), float(halves[int(mass.round(9).argmax())]))


def expected_loss(over: Floats, chance: Floats, too_many: float = TOO_MANY) -> Floats:
    """Return what orders cost on average.

    Parameters
    ----------
    over
        By how much each order would be too many for each number of coats [coats], (order, n).
    chance
        Chance of each number of coats, sum 1, (n,).
    too_many
        How many times a coat too many costs what one too few costs, above 0.

    Returns
    -------
    Expected loss [coats too few], (order,).

    Sources
    -------
    Straight on both sides of what counts as right, as with stock that cannot be sent back; assumption.
    """
    cost = too_many * np.maximum(over - RIGHT, 0.0) + np.maximum(-over - RIGHT, 0.0)
    return np.asarray(cost @ chance, float)
