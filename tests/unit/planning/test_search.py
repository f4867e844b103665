"""The search against every possible set of cuts and refills."""

import itertools
from dataclasses import replace

import numpy as np
import pytest

from laydown.planning.search import Board, best_cuts


def random_board(seed: int, cases: int, bounds: int, lap_g: float = 0.0) -> Board:
    dice = np.random.default_rng(seed)
    pairs = [(i, j) for i in range(bounds) for j in range(i + 1, bounds) if dice.random() > 0.15]
    follow = [(p, s) for p in pairs for s in pairs if p[1] == s[0]]
    section = {pair: dice.uniform(0.5, 5, cases) for pair in pairs}
    join = {both: dice.uniform(0, 6, cases) for both in follow}
    refill = {both: cost + dice.uniform(0, 8, cases) for both, cost in join.items()}
    to = np.sort(dice.uniform(0, 100, (cases, bounds)), axis=1)
    used = {(i, j): to[:, j] - to[:, i] + lap_g for i, j in pairs}
    return Board(bounds, section, join, refill, used, dice.uniform(35, 120, cases), {})


def cost_of(board: Board, case: int, way: tuple[int, ...], fills: tuple[bool, ...]) -> float:
    sections = list(itertools.pairwise(way))
    cost, used = 0.0, 0.0
    for number, section in enumerate(sections):
        if section not in board.section:
            return np.inf
        used += board.used_g[section][case]
        if used > board.cup_g[case]:
            return np.inf
        cost += board.section[section][case]
        if number + 1 < len(sections):
            both = (section, sections[number + 1])
            if both not in board.join:
                return np.inf
            cost += (board.refill_join if fills[number] else board.join)[both][case]
            used = 0.0 if fills[number] else used
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


@pytest.mark.parametrize("seed", range(12))
def test_the_cup_lasts_with_every_lap_counted_and_hardly_a_way_is_missed(seed):
    board = random_board(seed, cases=4, bounds=7, lap_g=2.0)
    costs, cuts = best_cuts(board)
    for case, cut in enumerate(cuts):
        best = cheapest_by_trying_all(board, case)
        assert costs[case] >= best - 1e-9
        assert np.isfinite(costs[case]) == np.isfinite(best)
        if cut.bounds:
            fills = tuple(bound in cut.refills for bound in cut.bounds[1:-1])
            assert cost_of(board, case, cut.bounds, fills) == pytest.approx(costs[case])
            assert costs[case] <= 1.05 * best


def test_a_side_that_no_cup_can_paint_has_no_way():
    board = random_board(3, cases=1, bounds=5)
    grams = {section: np.array([1.0]) for section in board.section}
    tiny = replace(board, used_g=grams, cup_g=np.array([0.0]))
    costs, cuts = best_cuts(tiny)
    assert np.isinf(costs[0])
    assert cuts[0].bounds == ()
