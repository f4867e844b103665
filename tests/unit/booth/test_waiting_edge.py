"""The edge that waits."""

import math

import pytest

from cases.booth_day import plan_of
from cases.speech import english
from laydown.booth.waiting_edge import edge_of, ln_sd, next_gap, open_chance, planned_next_s
from laydown.schema.figure import Spread

OPEN = Spread(100.0, 50.0, 200.0)


def test_the_chance_is_one_half_at_the_median_and_one_in_twenty_beyond_the_high_end():
    # 90 % in the middle: 5 % lie above the high end, 95 % above the low one
    assert open_chance(100.0, OPEN) == pytest.approx(0.5)
    assert open_chance(200.0, OPEN) == pytest.approx(0.05, abs=1e-4)
    assert open_chance(50.0, OPEN) == pytest.approx(0.95, abs=1e-4)


def test_an_age_that_is_not_known_makes_a_sure_edge_less_sure():
    assert open_chance(50.0, OPEN, 0.4) < open_chance(50.0, OPEN)
    assert open_chance(100.0, OPEN, 0.4) == pytest.approx(0.5)


def test_an_edge_without_spread_is_open_or_not_and_one_that_never_closes_is_open():
    exact = Spread(100.0, 100.0, 100.0)
    assert (open_chance(99.0, exact), open_chance(101.0, exact)) == (1.0, 0.0)
    assert open_chance(1e9, Spread(math.inf, math.inf, math.inf)) == 1.0
    assert ln_sd(exact) == 0.0
    assert ln_sd(Spread(0.0, 0.0, 0.0)) == 0.0


def test_every_second_of_delay_ages_the_edge_by_one():
    coat = plan_of().layers[0].coats[0]
    on_time = planned_next_s(coat, 1, 0.0)
    by_plan, late = (edge_of(coat, 1, 0.0, on_time + delay) for delay in (0.0, 17.0))
    assert by_plan.age_s == pytest.approx(coat.joins[0].age_s.value)
    assert late.age_s == pytest.approx(by_plan.age_s + 17.0)
    assert by_plan.hurry_at_s < by_plan.goes_at_s


def test_after_the_last_section_nothing_waits():
    coat = plan_of().layers[0].coats[0]
    assert edge_of(coat, len(coat.sections), 0.0, 0.0) is None
    assert english(next_gap(coat, len(coat.sections))) == "the end of the side"
    assert next_gap(coat, 1) == coat.joins[1].feature
