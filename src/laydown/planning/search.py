"""The search for sections: where to join and where to refill, for many adjustments at once."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

Section = tuple[int, int]
"""A section by the indices of its two bounds, in the order of work."""


@dataclass(frozen=True, slots=True)
class Board:
    """What the search decides on, for c cases and n bounds.

    Attributes
    ----------
    bounds
        n: bound 0 is the start and bound n - 1 the end.
    section
        Cost of each allowed section, shape (c,).
    join, refill_join
        Cost of the join between two successive sections without and with a refill there, shape (c,).
    used_g
        Paint that each section takes out of the cup, shape (c,); with the laps at its joins.
    cup_g
        What may be sprayed from one filling, shape (c,).
    age_s
        Age of the edge between two successive sections without a refill, shape (c,); not used by the search.
    """

    bounds: int
    section: Mapping[Section, Floats]
    join: Mapping[tuple[Section, Section], Floats]
    refill_join: Mapping[tuple[Section, Section], Floats]
    used_g: Mapping[Section, Floats]
    cup_g: Floats
    age_s: Mapping[tuple[Section, Section], Floats]


@dataclass(frozen=True, slots=True)
class Cut:
    """The best sections of one case.

    Attributes
    ----------
    cost
        Minutes of work; infinite where no sections are possible.
    bounds
        Indices of the bounds from the first to the last.
    refills
        Indices of the bounds at which the cup is filled.
    """

    cost: float
    bounds: tuple[int, ...]
    refills: tuple[int, ...]


_State = tuple[int, Section]
"""The bound of the last refill, and the last section."""


@dataclass(frozen=True, slots=True)
class _Found:
    """Best cost of a state, the state before it (index into ``options``; -1 = none) and grams since the refill."""

    cost: Floats
    before: Ints
    options: tuple[_State, ...]
    used_g: Floats


@dataclass(frozen=True, slots=True)
class _Ways:
    """The ways to one section since the same refill: costs and grams before it, and the states they come from.

    There are no grams where the cup lasts for the whole coat whatever the cuts.
    """

    refill: int
    cost: tuple[Floats, ...]
    used_g: tuple[Floats, ...]
    options: tuple[_State, ...]


def _best(ways: _Ways, board: Board, section: Section) -> _Found | None:
    """The cheapest of several ways for which the cup lasts, per case."""
    if not ways.cost:
        return None
    table = np.stack(ways.cost)
    used = np.zeros_like(table)
    if ways.used_g:
        used = np.stack(ways.used_g) + board.used_g[section]
        table = np.where(used <= board.cup_g, table, np.inf)
    index = np.argmin(table, axis=0)
    every = np.arange(table.shape[1])
    cost = table[index, every]
    if not np.isfinite(cost).any():
        return None
    before = np.where(np.isfinite(cost), index, -1)
    return _Found(cost + board.section[section], before, ways.options, used[index, every])


def _most_g(board: Board) -> Floats:
    """Grams of the coat cut so that it takes most, shape (c,)."""
    most: dict[int, Floats] = {0: np.zeros(len(board.cup_g))}
    for section in sorted(board.section):
        i, j = section
        if i in most:
            used = most[i] + board.used_g[section]
            most[j] = np.maximum(most[j], used) if j in most else used
    return most.get(board.bounds - 1, np.zeros(len(board.cup_g)))


def best_cuts(board: Board) -> tuple[Floats, tuple[Cut, ...]]:
    """Return the cheapest sections of every case.

    Parameters
    ----------
    board
        Costs of c cases over n bounds.

    Returns
    -------
    Costs of shape (c,) and the sections of each case. A case without any way has infinite cost and no bounds.

    Notes
    -----
    Dynamic programming over the place of the last refill and the last section: the age of a join depends on the
    sections on both its sides, and what is left in the cup on the place of the last refill and, by the few grams of
    a lap, on the cuts since. Of the ways to a section since the same refill only the cheapest for which the cup lasts
    is followed. So the cup always lasts, and the result is the true optimum of the board unless a dearer way would
    win by the laps it saves (checked against all sets of cuts and refills in ``tests/unit/planning/test_search.py``).

    Sources
    -------
    Bellman's principle of optimality.
    """
    cases = len(board.cup_g)
    last = board.bounds - 1
    # Where one filling lasts for the whole coat in every case, no refill can pay.
    may_refill = bool((_most_g(board) > board.cup_g).any())
    found: dict[_State, _Found] = {}
    ending: dict[int, list[_State]] = {}
    for section in sorted(board.section):
        i, j = section
        if i == 0:
            used = board.used_g[section]
            cost = np.where(used <= board.cup_g, board.section[section], np.inf)
            found[0, section] = _Found(cost, np.zeros(cases, np.int64), (), used)
            ending.setdefault(j, []).append((0, section))
            continue
        for ways in _ways(board, section, found, ending.get(i, []), may_refill=may_refill):
            one = _best(ways, board, section)
            if one is not None:
                found[ways.refill, section] = one
                ending.setdefault(j, []).append((ways.refill, section))
    ends = ending.get(last, [])
    if not ends:
        return np.full(cases, np.inf), tuple(Cut(np.inf, (), ()) for _ in range(cases))
    table = np.stack([found[end].cost for end in ends])
    index = np.argmin(table, axis=0)
    costs = table[index, np.arange(cases)]
    return costs, tuple(_trace(case, float(costs[case]), ends[index[case]], found) for case in range(cases))


def _ways(
    board: Board,
    section: Section,
    found: Mapping[_State, _Found],
    before: Sequence[_State],
    *,
    may_refill: bool,
) -> list[_Ways]:
    """For every place of the last refill: the ways to a section that is not the first."""
    i = section[0]
    result: list[_Ways] = []
    for refill in sorted({state for state, _ in before}):
        same = tuple(one for one in before if one[0] == refill and (one[1], section) in board.join)
        costs = tuple(found[one].cost + board.join[one[1], section] for one in same)
        used = tuple(found[one].used_g for one in same) if may_refill else ()
        result.append(_Ways(refill, costs, used, same))
    if may_refill:
        fill = tuple(one for one in before if (one[1], section) in board.refill_join)
        costs = tuple(found[one].cost + board.refill_join[one[1], section] for one in fill)
        empty = np.zeros(len(board.cup_g))
        result.append(_Ways(i, costs, tuple(empty for _ in fill), fill))
    return result


def _trace(case: int, cost: float, end: _State, found: Mapping[_State, _Found]) -> Cut:
    """Walk back from the end to the start."""
    if not np.isfinite(cost):
        return Cut(np.inf, (), ())
    bounds = [end[1][1]]
    refills: list[int] = []
    state = end
    while state[1][0] != 0:
        bounds.append(state[1][0])
        one = found[state]
        before = one.options[int(one.before[case])]
        if state[0] == state[1][0]:
            refills.append(state[0])
        state = before
    return Cut(cost, (0, *reversed(bounds)), tuple(reversed(refills)))
