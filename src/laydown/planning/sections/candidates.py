"""What a coat must keep: the start, the arm, and the joins of the coat before."""

import itertools
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from laydown.physics.values import Floats, Ints
from laydown.planning.sections.stretches import Bounds
from laydown.planning.setup.weights import NARROWEST_M, STAGGER_M, WEIGHTS, WIDEST_M, Weights

SectionSpan = tuple[int, int]
"""A section by the indices of its two bounds, in the order of work."""


@dataclass(frozen=True, slots=True, eq=False)
class Meeting:
    """Sections that meet at one inner bound."""

    bound: int
    first: Ints
    second: slice
    joins: slice


@dataclass(frozen=True, slots=True, eq=False)
class Sections:
    """All sections that are allowed and all joins between them, numbered."""

    bounds: int
    pairs: tuple[SectionSpan, ...]
    numbers: Mapping[SectionSpan, int]
    ends: Ints
    joins: Ints
    meetings: tuple[Meeting, ...]
    last: Ints

    def join(self, first: SectionSpan, second: SectionSpan) -> int | None:
        """Return the number of the join of two sections that follow one another, None where one is not allowed."""
        if first not in self.numbers or second not in self.numbers or first[1] != second[0]:
            return None
        one, other = self.numbers[first], self.numbers[second]
        meeting = next(meeting for meeting in self.meetings if meeting.bound == first[1])
        row = int(np.flatnonzero(meeting.first == one)[0])
        begins = meeting.second
        number: int = meeting.joins.start + row * (begins.stop - begins.start) + other - begins.start
        return number


@lru_cache(maxsize=64)
def sections_of(bounds: int, pairs: tuple[SectionSpan, ...]) -> Sections:
    """Return sections and joins, numbered."""
    ordered = tuple(sorted(pairs))
    ends = np.array(ordered, np.int64).reshape(-1, 2).T
    meetings: list[Meeting] = []
    joins: list[tuple[int, int]] = []
    for bound in range(1, bounds - 1):
        first = np.flatnonzero(ends[1] == bound)
        second = np.flatnonzero(ends[0] == bound)
        if not first.size or not second.size:
            continue
        # Sections are ordered by the bound they begin at, so those that begin here lie side by side.
        meetings.append(
            Meeting(
                bound,
                first,
                slice(int(second[0]), int(second[-1]) + 1),
                slice(len(joins), len(joins) + first.size * second.size),
            )
        )
        joins += itertools.product(first.tolist(), second.tolist())
    return Sections(
        bounds,
        ordered,
        {pair: number for number, pair in enumerate(ordered)},
        ends,
        np.array(joins, np.int64).reshape(-1, 2).T,
        tuple(meetings),
        np.flatnonzero(ends[1] == bounds - 1),
    )


def allowed_sections(reach: Bounds, rules: "Rules") -> Sections:
    """Return the sections that are neither too narrow nor too wide and keep the user's start."""
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
    """What else a coat must keep."""

    before: tuple[tuple[float, bool], ...]
    start_at: int | None
    open_ln_sd: float
    density_g_ml: float
    weights: Weights = WEIGHTS

    def bound_cost(self, reach: Bounds) -> Floats:
        """Return what a join costs by its place, shape (n,); infinite too near an open join of the coat before."""
        cost = np.full(len(reach.x_m), self.weights.join)
        for index, place in enumerate(reach.places, start=1):
            cost[index] += self.weights.place * place.cost
            for x_m, was_gap in self.before:
                near = abs(place.x_m - x_m) < STAGGER_M - 1e-9
                if near:
                    cost[index] += self.weights.repeat if place.kind == "gap" and was_gap else np.inf
        return cost

    def severity(self, reach: Bounds) -> Floats:
        """Return how much of a redo a late join at each bound is worth, 0 to 1, shape (n,); house rule."""
        place = np.array([1.0, *(one.cost for one in reach.places), 1.0])
        gap = np.array([False, *(one.kind == "gap" for one in reach.places), False])
        return np.asarray(
            (0.4 + 0.6 * np.minimum(1.0, place)) * np.where(gap, self.weights.gap_relief, 1.0), np.float64
        )
