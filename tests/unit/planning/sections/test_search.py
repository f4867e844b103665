"""The search against every possible set of cuts and refills."""

import itertools
from dataclasses import replace

import numpy as np
import pytest

from laydown.planning.sections.candidates import sections_of
from laydown.planning.sections.search import Board, best_cuts, most_g


def random_board(seed: int, cases: int, bounds: int, lap_g: float = 0.0) -> Board:
    dice = np.random.default_rng(seed)
    pairs = [(i, j) for i in range(bounds) for j in range(i + 1, bounds) if dice.random() > 0.15]
    sections = sections_of(bounds, tuple(pairs))
    join = dice.uniform(0, 6, (cases, sections.joins.shape[1]))
    refill = join + dice.uniform(0, 8, join.shape)
    to = np.sort(dice.uniform(0, 100, (cases, bounds)), axis=1)
    i, j = sections.ends
    section = dice.uniform(0.5, 5, (cases, len(pairs)))
    used = to[:, j] - to[:, i] + lap_g
    return Board(sections, section, join, refill, used, dice.uniform(35, 120, cases), join)


def cost_of(board: Board, case: int, way: tuple[int, ...], fills: tuple[bool, ...]) -> float:
    ways = list(itertools.pairwise(way))
    cost, used = 0.0, 0.0
    for place, section in enumerate(ways):
        number = board.sections.numbers.get(section)
        if number is None:
            return np.inf
        used += board.used_g[case, number]
        if used > board.cup_g[case]:
            return np.inf
        cost += board.section[case, number]
        if place + 1 < len(ways):
            join = board.sections.join(section, ways[place + 1])
            if join is None:
                return np.inf
            cost += (board.refill_join if fills[place] else board.join)[case, join]
            used = 0.0 if fills[place] else used
    return cost


def cheapest_by_trying_all(board: Board, case: int) -> float:
    last = board.sections.bounds - 1
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
    tiny = replace(board, used_g=np.ones_like(board.used_g), cup_g=np.array([0.0]))
    costs, cuts = best_cuts(tiny)
    assert np.isinf(costs[0])
    assert cuts[0].bounds == ()


def every_way(bounds: int):
    for count in range(bounds - 1):
        for inner in itertools.combinations(range(1, bounds - 1), count):
            yield (0, *inner, bounds - 1)


@pytest.mark.parametrize("seed", range(6))
def test_where_no_refill_can_pay_the_search_finds_the_cheapest_cut(seed):
    board = replace(random_board(seed, cases=3, bounds=8), refill_join=None, cup_g=np.full(3, np.inf))
    costs, cuts = best_cuts(board)
    for case in range(3):
        tried = [cost_of(board, case, way, (False,) * (len(way) - 2)) for way in every_way(8)]
        assert costs[case] == pytest.approx(min(tried))
        assert cuts[case].refills == ()


@pytest.mark.parametrize("seed", range(6))
def test_no_cut_takes_more_than_the_most(seed):
    board = random_board(seed, cases=3, bounds=7, lap_g=1.5)
    known = board.sections.numbers
    for case in range(3):
        grams = [
            sum(board.used_g[case, known[section]] for section in itertools.pairwise(way))
            for way in every_way(7)
            if all(section in known for section in itertools.pairwise(way))
        ]
        assert most_g(board.sections, board.used_g)[case] == pytest.approx(max(grams, default=-np.inf))


def test_joins_are_numbered_by_the_sections_that_meet():
    sections = sections_of(4, ((1, 3), (0, 1), (0, 2), (1, 2), (2, 3)))
    for number, (first, second) in enumerate(sections.joins.T):
        one, other = sections.pairs[first], sections.pairs[second]
        assert one[1] == other[0]
        assert sections.join(one, other) == number
    assert sections.joins.shape[1] == 4  # by hand: 01-12, 01-13, 02-23, 12-23
    assert sections.join((0, 1), (2, 3)) is None
    assert sections.join((0, 3), (2, 3)) is None
