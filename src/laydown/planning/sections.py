"""Sections that a coat may be cut into, and which of them may follow one another."""

import itertools
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

Ints = NDArray[np.int64]

Section = tuple[int, int]
"""A section by the indices of its two bounds, in the order of work."""


@dataclass(frozen=True, slots=True, eq=False)
class Meeting:
    """Sections that meet at one inner bound.

    Attributes
    ----------
    bound
        Index of the bound.
    first, second
        Numbers of the sections that end and that begin there.
    joins
        Numbers of their joins: every first with every second, the seconds side by side.
    """

    bound: int
    first: Ints
    second: slice
    joins: slice


@dataclass(frozen=True, slots=True, eq=False)
class Sections:
    """All sections that are allowed and all joins between them, numbered.

    Attributes
    ----------
    bounds
        n: bound 0 is the start and bound n - 1 the end.
    pairs
        The m sections, by their bounds in rising order.
    numbers
        Number of each section.
    ends
        The bounds of each section, shape (2, m).
    joins
        Numbers of the two sections of each of p joins, shape (2, p).
    meetings
        The joins bound by bound, in rising order; bounds where nothing meets are left out.
    last
        Numbers of the sections that reach the end.
    """

    bounds: int
    pairs: tuple[Section, ...]
    numbers: Mapping[Section, int]
    ends: Ints
    joins: Ints
    meetings: tuple[Meeting, ...]
    last: Ints

    def join(self, first: Section, second: Section) -> int | None:
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
def sections_of(bounds: int, pairs: tuple[Section, ...]) -> Sections:
    """Return sections and joins, numbered.

    Parameters
    ----------
    bounds
        Number of bounds, start and end counted.
    pairs
        The sections that are allowed, each once.

    Returns
    -------
    The sections; many coats of a side share them, so they are kept.

    Sources
    -------
    Definition.
    """
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
