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
        Paint from the start to each bound, shape (c, n); grams do not depend on the cuts between.
    cup_g
        What the cup holds, shape (c,).
    age_s
        Age of the edge between two successive sections without a refill, shape (c,); not used by the search.
    """

    bounds: int
    section: Mapping[Section, Floats]
    join: Mapping[tuple[Section, Section], Floats]
    refill_join: Mapping[tuple[Section, Section], Floats]
    used_g: Floats
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
    """Best cost of a state and the state before it, per case: index into ``options``; -1 = none."""

    cost: Floats
    before: Ints
    options: tuple[_State, ...]


def _best(ways: Sequence[Floats], options: tuple[_State, ...], fits: NDArray[np.bool_]) -> _Found | None:
    """The cheapest of several ways, per case."""
    if not ways:
        return None
    table = np.stack(ways)
    index = np.argmin(table, axis=0)
    cost = np.where(fits, table[index, np.arange(table.shape[1])], np.inf)
    if not np.isfinite(cost).any():
        return None
    return _Found(cost, np.where(np.isfinite(cost), index, -1), options)


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
    sections on both its sides, and what is left in the cup on the place of the last refill only. So the result is
    the true optimum of the board (checked against all sets of cuts and refills in
    ``tests/unit/planning/test_search.py``).

    Sources
    -------
    Bellman's principle of optimality.
    """
    cases = len(board.cup_g)
    last = board.bounds - 1
    # Where one filling lasts for the whole coat in every case, no refill can pay.
    may_refill = bool((board.used_g[:, last] > board.cup_g).any())
    found: dict[_State, _Found] = {}
    ending: dict[int, list[_State]] = {}
    for section in sorted(board.section):
        i, j = section
        for state, ways, options in _ways(board, section, found, ending.get(i, []), may_refill=may_refill):
            fits = board.used_g[:, j] - board.used_g[:, state] <= board.cup_g
            if i == 0:
                one = _Found(np.where(fits, board.section[section], np.inf), np.zeros(cases, np.int64), ())
            else:
                best = _best([way + board.section[section] for way in ways], options, fits)
                if best is None:
                    continue
                one = best
            found[state, section] = one
            ending.setdefault(j, []).append((state, section))
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
) -> list[tuple[int, list[Floats], tuple[_State, ...]]]:
    """For every place of the last refill: the costs before a section and the states they come from."""
    i = section[0]
    if i == 0:
        return [(0, [], ())]
    result: list[tuple[int, list[Floats], tuple[_State, ...]]] = []
    for refill in sorted({state for state, _ in before}):
        same = [one for one in before if one[0] == refill and (one[1], section) in board.join]
        ways = [found[one].cost + board.join[one[1], section] for one in same]
        result.append((refill, ways, tuple(same)))
    if may_refill:
        fill = [one for one in before if (one[1], section) in board.refill_join]
        result.append(
            (i, [found[one].cost + board.refill_join[one[1], section] for one in fill], tuple(fill))
        )
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
