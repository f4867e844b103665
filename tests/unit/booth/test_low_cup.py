"""The cup that runs low; grams worked by hand."""

from dataclasses import replace

import pytest

from cases.booth_day import plan_of
from laydown.booth.low_cup import rejudged, with_low_cup
from laydown.schema.figure import Spread

GRAMS = (100.0, 150.0, 120.0)


def made(kinds=("gap", "gap")):
    coat = plan_of().layers[0].coats[0]
    sections = tuple(replace(one, sprayed_g=grams) for one, grams in zip(coat.sections, GRAMS, strict=True))
    joins = tuple(replace(join, kind=kind) for join, kind in zip(coat.joins, kinds, strict=True))
    return replace(coat, sections=sections, joins=joins, refills=())


def test_a_cup_that_is_full_enough_is_not_filled():
    coat = with_low_cup(made(), 1, 400.0, 600.0, 1, 90.0)
    assert coat.refills == ()
    assert [one.cup_g_after for one in coat.sections[1:]] == [250.0, 130.0]


def test_the_cup_is_filled_where_the_next_section_would_use_the_reserve():
    # 200 g less 150 g leaves 50 g, less than 120 g and 30 g of reserve: fill after section 2 with 1.1 x 120 + 30 g
    coat = with_low_cup(made(), 1, 200.0, 600.0, 1, 90.0)
    assert [(one.after_section, one.takes_s) for one in coat.refills] == [(2, 90.0)]
    assert coat.refills[0].fill_g == pytest.approx(162.0)
    assert [one.cup_g_after for one in coat.sections[1:]] == pytest.approx([50.0, 42.0])


def test_it_is_filled_at_a_gap_rather_than_in_open_panel():
    coat = with_low_cup(made(("gap", "open")), 1, 200.0, 600.0, 1, 90.0)
    assert [one.after_section for one in coat.refills] == [1]


def test_the_stop_ages_the_edge_by_what_it_takes():
    before = made()
    after = with_low_cup(before, 1, 20.0, 600.0, 1, 90.0)
    assert after.joins[0].age_s.value == pytest.approx(before.joins[0].age_s.value + 90.0)
    assert after.joins[0].wet_chance < before.joins[0].wet_chance
    assert after.joins[1] == before.joins[1]


def test_two_painters_use_half_each():
    assert with_low_cup(made(), 1, 200.0, 600.0, 2, 90.0).refills == ()


def test_a_small_cup_is_filled_again_and_again_and_it_ends():
    coat = with_low_cup(made(), 1, 10.0, 100.0, 1, 15.0)
    assert [one.after_section for one in coat.refills] == [1, 2]
    assert all(one.fill_g <= 100.0 for one in coat.refills)


def test_a_join_that_stays_as_it_was_keeps_its_chance():
    join = made().joins[0]
    assert rejudged(join, join.age_s, join.open_s) is join
    late = rejudged(join, Spread(300.0, 290.0, 310.0), Spread(100.0, 50.0, 200.0))
    assert (late.state, late.margin_s.value) == ("dry", -200.0)
