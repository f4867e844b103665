"""The search against every possible set of cuts and refills."""

import itertools

import numpy as np
import pytest

from laydown.planning.search import Board, best_cuts


def random_board(seed: int, cases: int, bounds: int) -> Board:
    dice = np.random.default_rng(seed)
    pairs = [(i, j) for i in range(bounds) for j in range(i + 1, bounds) if dice.random() > 0.15]
    follow = [(p, s) for p in pairs for s in pairs if p[1] == s[0]]
    section = {pair: dice.uniform(0.5, 5, cases) for pair in pairs}
    join = {both: dice.uniform(0, 6, cases) for both in follow}
    refill = {both: cost + dice.uniform(0, 8, cases) for both, cost in join.items()}
    used = np.sort(dice.uniform(0, 100, (cases, bounds)), axis=1)
    return Board(bounds, section, join, refill, used, dice.uniform(35, 120, cases), {})


def cost_of(board: Board, case: int, way: tuple[int, ...], fills: tuple[bool, ...]) -> float:
    sections = list(itertools.pairwise(way))
    cost, filled_at = 0.0, 0
    for number, section in enumerate(sections):
        if section not in board.section:
            return np.inf
        if board.used_g[case, section[1]] - board.used_g[case, filled_at] > board.cup_g[case]:
            return np.inf
        cost += board.section[section][case]
        if number + 1 < len(sections):
            both = (section, sections[number + 1])
            if both not in board.join:
                return np.inf
            cost += (board.refill_join if fills[number] else board.join)[both][case]
            filled_at = section[1] if fills[number] else filled_at
    return cost


def cheapest_by_trying_all(board: Board, case: int) -> float:
    last = board.bounds - 1
    best = np.inf
    for count in range(last):
        for inner in itertools.combinations(range(1, last), count):
            for fills in itertools.product((False, True), repeat=count):
                best = min(best, cost_of(board, case, (0, *inner, last), fills))
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
        if cut.bounds:
            fills = tuple(bound in cut.refills for bound in cut.bounds[1:-1])
            assert cost_of(board, case, cut.bounds, fills) == pytest.approx(costs[case])


def test_a_side_that_no_cup_can_paint_has_no_way():
    board = random_board(3, cases=1, bounds=5)
    tiny = Board(
        5, board.section, board.join, board.refill_join, np.arange(5.0)[None, :], np.array([0.0]), {}
    )
    costs, cuts = best_cuts(tiny)
    assert np.isinf(costs[0])
    assert cuts[0].bounds == ()
