"""The search for sections: where to join and where to refill, for many adjustments at once."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class Board:
    """What the search decides on, for c cases and n bounds.

    Attributes
    ----------
    section
        Cost of a section from bound i to bound j, shape (c, n, n); infinite where not allowed.
    join, refill_join
        Cost of the join at the end of section i to j without and with a refill there, shape (c, n, n).
    used_g
        Paint between bounds i and j, shape (c, n, n), additive along the way.
    cup_g
        What the cup holds, shape (c,).
    """

    section: Floats
    join: Floats
    refill_join: Floats
    used_g: Floats
    cup_g: Floats


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


@dataclass(frozen=True, slots=True)
class _Stage:
    """Best ways from one refill to every later bound, shapes (c, n): going on there, or filling the cup there."""

    cost: Floats
    before: Ints
    fill_cost: Floats
    fill_before: Ints


def _stage(board: Board, start: int, begin: Floats) -> _Stage:
    """Sections from bound ``start``, where the cup is full, as long as the cup lasts."""
    cases, count = board.section.shape[:2]
    cost = np.full((cases, count), np.inf)
    cost[:, start] = begin
    fill_cost = np.full((cases, count), np.inf)
    before = np.full((cases, count), -1, np.int64)
    fill_before = np.full((cases, count), -1, np.int64)
    row = np.arange(cases)
    for j in range(start + 1, count):
        fits = board.used_g[:, start, j] <= board.cup_g
        ways = cost[:, start:j] + board.section[:, start:j, j]
        for extra, costs, links in (
            (board.join, cost, before),
            (board.refill_join, fill_cost, fill_before),
        ):
            options = ways + extra[:, start:j, j] if j < count - 1 else ways
            best = np.argmin(options, axis=1)
            value = np.where(fits, options[row, best], np.inf)
            costs[:, j] = value
            links[:, j] = np.where(np.isfinite(value), best + start, -1)
    return _Stage(cost, before, fill_cost, fill_before)


def best_cuts(board: Board) -> tuple[Floats, tuple[Cut, ...]]:
    """Return the cheapest sections of every case.

    Parameters
    ----------
    board
        Costs of c cases over n bounds; bound 0 is the start and bound n - 1 the end.

    Returns
    -------
    Costs of shape (c,) and the sections of each case. A case without any way has infinite cost and no bounds.

    Notes
    -----
    Dynamic programming over the place of the last refill and the end of the last section; the grams between two
    bounds do not depend on the cuts between them, so the result is the true optimum of the board (checked
    against all sets of cuts and refills in ``tests/unit/planning/test_search.py``).

    Sources
    -------
    Bellman's principle of optimality.
    """
    cases, count = board.section.shape[:2]
    full = np.full((cases, count), np.inf)
    full[:, 0] = 0.0
    came_from = np.full((cases, count), -1, np.int64)
    stages: list[_Stage | None] = []
    for start in range(count - 1):
        if not np.isfinite(full[:, start]).any():
            stages.append(None)
            continue
        stage = _stage(board, start, full[:, start])
        stages.append(stage)
        later = slice(start + 1, count - 1)
        better = stage.fill_cost[:, later] < full[:, later]
        full[:, later] = np.where(better, stage.fill_cost[:, later], full[:, later])
        came_from[:, later] = np.where(better, start, came_from[:, later])
    nothing = np.full(cases, np.inf)
    ends = np.stack([nothing if stage is None else stage.cost[:, -1] for stage in stages], axis=1)
    last = np.argmin(ends, axis=1)
    costs = ends[np.arange(cases), last]
    cuts = tuple(
        _trace(case, float(costs[case]), int(last[case]), stages, came_from) for case in range(cases)
    )
    return costs, cuts


def _trace(case: int, cost: float, last: int, stages: list[_Stage | None], came_from: Ints) -> Cut:
    """Walk back from the end to the start."""
    if not np.isfinite(cost):
        return Cut(np.inf, (), ())
    bounds: list[int] = []
    refills: list[int] = []
    start, end = last, came_from.shape[1] - 1
    filled = False
    while True:
        stage = stages[start]
        j = end
        while j != start and stage is not None:
            bounds.append(j)
            links = stage.fill_before if filled and j == end else stage.before
            j = int(links[case, j])
        if start == 0:
            return Cut(cost, (0, *reversed(bounds)), tuple(reversed(refills)))
        refills.append(start)
        start, end, filled = int(came_from[case, start]), start, True
