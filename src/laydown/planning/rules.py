"""What a coat must keep: the start, the arm, and the joins of the coat before."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from laydown.planning.bounds import Reach
from laydown.planning.sections import Sections, sections_of
from laydown.planning.weights import (
    NARROWEST_M,
    STAGGER_M,
    WEIGHTS,
    WIDEST_M,
    Weights,
)

Floats = NDArray[np.float64]


def allowed_sections(reach: Reach, rules: "Rules") -> Sections:
    """Return the sections that are neither too narrow nor too wide and keep the user's start.

    Parameters
    ----------
    reach
        Bounds in the order of work.
    rules
        What the coat must keep.

    Returns
    -------
    Sections and joins, numbered.

    Sources
    -------
    ``NARROWEST_M`` and ``WIDEST_M``.
    """
    count = len(reach.x_m)
    usable = np.isfinite(rules.bound_cost(reach))
    usable[0] = usable[-1] = True
    width = np.abs(reach.x_m[None, :] - reach.x_m[:, None])
    wide_enough = width >= NARROWEST_M
    wide_enough[0, -1] = True
    fits = wide_enough & (width <= WIDEST_M) & usable[:, None] & usable[None, :]
    fits &= np.arange(count)[None, :] > np.arange(count)[:, None]
    if rules.start_at is not None:
        fits[0] &= np.arange(count) == rules.start_at
    return sections_of(count, tuple(zip(*(one.tolist() for one in np.nonzero(fits)), strict=True)))


@dataclass(frozen=True, slots=True)
class Rules:
    """What else a coat must keep.

    Attributes
    ----------
    before
        Joins of the coat before: place [m] and whether it is a gap.
    start_at
        Index of the bound at which the first section must end; None = free.
    open_ln_sd
        Standard deviation of ln(open time).
    density_g_ml
        Of the mix [g/mL].
    weights
        Weights of the search.
    """

    before: tuple[tuple[float, bool], ...]
    start_at: int | None
    open_ln_sd: float
    density_g_ml: float
    weights: Weights = WEIGHTS

    def bound_cost(self, reach: Reach) -> Floats:
        """Return what a join costs by its place, shape (n,); infinite too near an open join of the coat before."""
        cost = np.full(len(reach.x_m), self.weights.join)
        for index, place in enumerate(reach.places, start=1):
            cost[index] += self.weights.place * place.cost
            for x_m, was_gap in self.before:
                near = abs(place.x_m - x_m) < STAGGER_M - 1e-9
                if near:
                    cost[index] += self.weights.repeat if place.kind == "gap" and was_gap else np.inf
        return cost

    def severity(self, reach: Reach) -> Floats:
        """Return how much of a redo a late join at each bound is worth, 0 to 1, shape (n,); house rule."""
        place = np.array([1.0, *(one.cost for one in reach.places), 1.0])
        gap = np.array([False, *(one.kind == "gap" for one in reach.places), False])
        return np.asarray(
            (0.4 + 0.6 * np.minimum(1.0, place)) * np.where(gap, self.weights.gap_relief, 1.0), np.float64
        )
