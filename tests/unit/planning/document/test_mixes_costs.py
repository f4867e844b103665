"""Cost from the user's own prices only."""

from dataclasses import replace

import pytest

from cases.planning import MILD, quick, setup_for
from cases.speech import english
from laydown.planning.document.mixes import cost_of
from laydown.schema.limits import Prices


def plan():
    return quick(MILD).plan


def cost(prices, painters=1):
    setup = setup_for(replace(MILD, painters=painters))
    return cost_of(replace(setup, job=replace(setup.job, prices=prices)), plan().mixes, plan().timeline)


def hours(kinds=None, where="booth"):
    return (
        sum(
            step.end_s - step.start_s
            for step in plan().timeline
            if step.where == where and (kinds is None or step.kind in kinds)
        )
        / 3600.0
    )


def test_without_a_price_there_is_no_total_and_everything_is_missing():
    found = cost(Prices())
    assert found.total is None
    assert {"price of ground coat", "booth rate", "wage", "price of consumables"} <= set(
        map(english, found.missing)
    )


def test_material_is_all_that_is_mixed_at_the_price_of_a_litre():
    found = cost(Prices(currency="EUR", ground_per_l=100.0, effect_per_l=200.0, clear_per_l=50.0))
    by_hand = sum(
        round(mix.mix_ml / 1000.0 * price, 2)
        for mix, price in zip(plan().mixes, (100.0, 200.0, 50.0), strict=True)
    )
    assert [mix.layer for mix in plan().mixes] == ["ground", "effect", "clear"]
    assert found.materials == pytest.approx(by_hand, abs=0.01)
    assert found.total == found.materials
    assert found.currency == "EUR"


def test_the_booth_is_paid_for_every_hour_it_is_held():
    assert cost(Prices(booth_per_h=60.0)).booth == pytest.approx(60.0 * hours(), abs=0.02)


def test_wages_are_paid_without_the_bake_and_for_each_painter():
    worked = hours() - hours({"bake"}) + hours({"mix"}, "mixing room")
    assert cost(Prices(labour_per_h=40.0)).labour == pytest.approx(40.0 * worked, abs=0.02)
    assert cost(Prices(labour_per_h=40.0), painters=2).labour == pytest.approx(80.0 * worked, abs=0.02)


def test_doing_it_again_costs_its_chance():
    assert cost(Prices(redo=1500.0, redo_chance=0.05)).redo == pytest.approx(75.0)
    assert cost(Prices(redo=1500.0)).redo is None


def test_parts_add_up_to_the_total():
    found = cost(
        Prices(
            ground_per_l=90.0,
            effect_per_l=110.0,
            clear_per_l=40.0,
            booth_per_h=60.0,
            labour_per_h=45.0,
            consumables=20.0,
            redo=1500.0,
            redo_chance=0.05,
        )
    )
    assert found.total == pytest.approx(found.materials + found.booth + found.labour + found.redo, abs=0.005)
    assert set(map(english, found.missing)) <= {"bake rate"}
