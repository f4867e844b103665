"""The search for sections: where to join and where to refill, for many adjustments at once."""

from dataclasses import dataclass

import numpy as np

from laydown.physics.values import Floats, Ints
from laydown.planning.sections.candidates import Meeting, Sections, SectionSpan


@dataclass(frozen=True, slots=True, eq=False)
class Board:
    """What the search decides on, for c cases, m sections and p joins."""

    sections: Sections
    section: Floats
    join: Floats
    refill_join: Floats | None
    used_g: Floats
    cup_g: Floats
    age_s: Floats

    def section_cost(self, section: SectionSpan) -> float:
        """Return the cost of a section in the first case, infinite where it is not allowed."""
        number = self.sections.numbers.get(section)
        return float("inf") if number is None else float(self.section[0, number])

    def join_cost(self, first: SectionSpan, second: SectionSpan, *, refill: bool) -> float:
        """Return the cost of a join in the first case, infinite where it is not allowed."""
        number = self.sections.join(first, second)
        table = self.refill_join if refill else self.join
        return float("inf") if number is None or table is None else float(table[0, number])


@dataclass(frozen=True, slots=True)
class BestCut:
    """The best sections of one case."""

    cost: float
    bounds: tuple[int, ...]
    refills: tuple[int, ...]


@dataclass(frozen=True, slots=True, eq=False)
class _Found:
    """What is known of every state, which is a bound of the last refill and a last section; shape (c, r, m).

    Where one filling lasts for the whole coat, r is 1.
    """

    cost: Floats
    used_g: Floats
    before: Ints
    """The state before it, refill times m plus section; -1 where there is none."""


def most_g(sections: Sections, used_g: Floats) -> Floats:
    """Return the grams of the coat cut so that it takes most."""
    most = np.full((len(used_g), sections.bounds), -np.inf)
    most[:, 0] = 0.0
    for number, (i, j) in enumerate(sections.pairs):
        np.maximum(most[:, j], most[:, i] + used_g[:, number], out=most[:, j])
    return np.asarray(most[:, -1], np.float64)


def best_cuts(board: Board) -> tuple[Floats, tuple[BestCut, ...]]:
    """Return the cheapest sections of every case.

    Dynamic programming over the place of the last refill and the last section: the age of a join depends on the
    sections on both its sides, and what is left in the cup on the place of the last refill and, by the few grams of
    a lap, on the cuts since. Of the ways to a section since the same refill only the cheapest for which the cup lasts
    is followed. So the cup always lasts, and the result is the true optimum of the board unless a dearer way would
    win by the laps it saves (checked against all sets of cuts and refills in ``tests/unit/planning/sections/test_search.py``).

    Source: Bellman's principle of optimality.
    """
    sections = board.sections
    cases, count = board.section.shape
    found = _start(board)
    for meeting in sections.meetings:
        _go_on(board, found, meeting)
        if board.refill_join is not None:
            _fill_up(board, board.refill_join, found, meeting)
    # The order of the ways decides between equal ones: by section, then by refill.
    ends = found.cost[:, :, sections.last].swapaxes(1, 2).reshape(cases, -1)
    if not ends.shape[1]:
        return np.full(cases, np.inf), tuple(BestCut(np.inf, (), ()) for _ in range(cases))
    index = ends.argmin(axis=1)
    costs = ends[np.arange(cases), index]
    section, refill = np.divmod(index, found.cost.shape[1])
    states = refill * count + sections.last[section]
    return costs, tuple(
        _trace(sections, float(cost), found.before[case].ravel(), int(state))
        for case, (cost, state) in enumerate(zip(costs, states, strict=True))
    )


def _start(board: Board) -> _Found:
    """Every state unknown but the first sections, as far as the cup lasts for them."""
    cases, count = board.section.shape
    shape = (cases, 1 if board.refill_join is None else board.sections.bounds, count)
    found = _Found(np.full(shape, np.inf), np.zeros(shape), np.full(shape, -1, np.int64))
    first = board.sections.ends[0] == 0
    used = board.used_g[:, first]
    found.cost[:, 0, first] = np.where(used <= board.cup_g[:, None], board.section[:, first], np.inf)
    found.used_g[:, 0, first] = used
    return found


def _go_on(board: Board, found: _Found, meeting: Meeting) -> None:
    """The cheapest ways from the sections that end at a bound to those that begin there, out of the same filling."""
    cases, refills, count = found.cost.shape
    refills = min(refills, meeting.bound)
    first, second = meeting.first, meeting.second
    join = board.join[:, None, meeting.joins].reshape(cases, 1, first.size, -1)
    cost = found.cost[:, :refills, first, None] + join
    if board.refill_join is not None:
        used = found.used_g[:, :refills, first, None] + board.used_g[:, None, None, second]
        cost = np.where(used <= board.cup_g[:, None, None, None], cost, np.inf)
        index = cost.argmin(axis=2)
        found.used_g[:, :refills, second] = np.take_along_axis(used, index[:, :, None], axis=2)[:, :, 0]
    else:
        index = cost.argmin(axis=2)
    found.cost[:, :refills, second] = cost.min(axis=2) + board.section[:, None, second]
    found.before[:, :refills, second] = first[index] + count * np.arange(refills)[:, None]


def _fill_up(board: Board, refill_join: Floats, found: _Found, meeting: Meeting) -> None:
    """The cheapest ways from the sections that end at a bound to those that begin there, with a refill in between."""
    cases, _, count = found.cost.shape
    first, second, bound = meeting.first, meeting.second, meeting.bound
    join = refill_join[:, meeting.joins].reshape(cases, first.size, 1, -1)
    reached = found.cost[:, :bound, first].swapaxes(1, 2)
    ways = (reached[..., None] + join).reshape(cases, first.size * bound, -1)
    used = board.used_g[:, second]
    cost = np.where(used <= board.cup_g[:, None], ways.min(axis=1), np.inf)
    section, refill = np.divmod(ways.argmin(axis=1), bound)
    found.cost[:, bound, second] = cost + board.section[:, second]
    found.used_g[:, bound, second] = used
    found.before[:, bound, second] = first[section] + count * refill


def _trace(sections: Sections, cost: float, before: Ints, end: int) -> BestCut:
    """Walk back from the end to the start."""
    if not np.isfinite(cost):
        return BestCut(np.inf, (), ())
    bounds = [sections.bounds - 1]
    refills: list[int] = []
    state = end
    while state >= 0:
        refill, number = divmod(state, len(sections.pairs))
        begin = sections.pairs[number][0]
        bounds.append(begin)
        if refill == begin and begin:
            refills.append(begin)
        state = int(before[state])
    return BestCut(cost, tuple(reversed(bounds)), tuple(reversed(refills)))
