"""The search against every possible set of cuts and refills."""

import itertools

import numpy as np
import pytest

from laydown.planning.search import Board, best_cuts


def random_board(seed: int, cases: int, bounds: int) -> Board:
    dice = np.random.default_rng(seed)
    shape = (cases, bounds, bounds)
    places = np.sort(dice.uniform(0, 100, (cases, bounds)), axis=1)
    used = np.abs(places[:, None, :] - places[:, :, None])
    section = dice.uniform(0.5, 5, shape)
    section[dice.random(shape) < 0.15] = np.inf
    join = dice.uniform(0, 6, shape)
    return Board(section, join, join + dice.uniform(0, 8, shape), used, dice.uniform(35, 120, cases))


def cheapest_by_trying_all(board: Board, case: int) -> float:
    last = board.section.shape[1] - 1
    best = np.inf
    for count in range(last):
        for inner in itertools.combinations(range(1, last), count):
            way = (0, *inner, last)
            for fills in itertools.product((False, True), repeat=count):
                cost, left_at = 0.0, 0
                for i, j in itertools.pairwise(way):
                    cost += board.section[case, i, j]
                    if board.used_g[case, left_at, j] > board.cup_g[case]:
                        cost = np.inf
                    if j != last:
                        fill = fills[inner.index(j)]
                        cost += (board.refill_join if fill else board.join)[case, i, j]
                        left_at = j if fill else left_at
                best = min(best, cost)
    return best


@pytest.mark.parametrize("seed", range(12))
def test_the_search_finds_the_cheapest_of_all_cuts_and_refills(seed):
    board = random_board(seed, cases=4, bounds=7)
    costs, cuts = best_cuts(board)
    for case in range(4):
        assert costs[case] == pytest.approx(cheapest_by_trying_all(board, case))
        assert np.isfinite(costs[case]) == bool(cuts[case].bounds)


@pytest.mark.parametrize("seed", range(12))
def test_the_cuts_cost_what_the_search_says(seed):
    board = random_board(seed, cases=3, bounds=9)
    costs, cuts = best_cuts(board)
    for case, cut in enumerate(cuts):
        if not cut.bounds:
            continue
        total = 0.0
        for i, j in itertools.pairwise(cut.bounds):
            total += board.section[case, i, j]
            if j != 8:
                total += (board.refill_join if j in cut.refills else board.join)[case, i, j]
        assert total == pytest.approx(costs[case])


def test_a_side_that_no_cup_can_paint_has_no_way():
    board = random_board(3, cases=1, bounds=5)
    tiny = Board(board.section, board.join, board.refill_join, board.used_g, np.array([0.0]))
    costs, cuts = best_cuts(tiny)
    assert np.isinf(costs[0])
    assert cuts[0].bounds == ()
