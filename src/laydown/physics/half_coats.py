"""From how likely each number of coats is to the half coats that are ordered.

All lengths are in coats.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np

from laydown.physics.coat_posterior import CoatPosterior, chance_within
from laydown.physics.values import Floats

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
    right (``tests/unit/physics/test_letdown.py``).

    Sources
    -------
    (1) Definition. (2) `expected_loss`.
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
