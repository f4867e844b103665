"""The till: no price is assumed, no cent is lost."""

from decimal import Decimal

import pytest

from cases.speech import english
from laydown.trade.money import Hours, MaterialUse, Rates, amount, job_cost, minor_units

D = Decimal
MIX = MaterialUse("ground", 627.0, 600.0, price_per_kg=D(80))


def test_a_bill_worked_by_hand():
    # 0.627 x 80 = 50.16; 2 h x 45 = 90; 3 h x 38 = 114; 0.08 x 520 = 41.60; together 295.76.
    rates = Rates(booth_per_h=D(45), wage_per_h=D(38), consumables=D(0), redo=D(520))
    bill = job_cost([MIX], Hours(7200.0, 0.0, 10_800.0), rates, D("0.08"))
    assert (bill.materials, bill.booth, bill.labour, bill.redo) == (D("50.16"), D(90), D(114), D("41.60"))
    assert bill.total == D("295.76")
    assert bill.missing == ()


def test_what_has_no_price_is_listed_and_not_guessed():
    bill = job_cost([MaterialUse("clear", 100.0, 100.0)], Hours(3600.0, 0.0, 3600.0), Rates())
    assert tuple(map(english, bill.missing)) == (
        "price of clear",
        "price of consumables",
        "booth rate",
        "wage",
        "cost of doing it again",
        "chance of doing it again",
    )
    assert (bill.materials, bill.booth, bill.labour, bill.redo) == (None, None, None, None)
    assert bill.total == 0


def test_a_price_per_litre_counts_what_is_mixed_by_volume():
    use = MaterialUse("clear", 1000.0, 750.0, price_per_l=D("60.00"))
    bill = job_cost([use], Hours(0.0, 0.0, 0.0), Rates(consumables=D("12.5")))
    assert bill.materials == D("57.50")


def test_heat_has_its_own_rate_or_that_of_the_booth():
    hours = Hours(3600.0, 1800.0, 0.0)
    assert job_cost([], hours, Rates(booth_per_h=D(40), bake_per_h=D(60))).booth == D(70)
    assert job_cost([], hours, Rates(booth_per_h=D(40))).booth == D(60)
    assert job_cost([], hours, Rates(bake_per_h=D(60))).booth is None


def test_halves_go_up_as_at_a_till():
    assert minor_units(D("0.125")) == D("0.13")
    assert minor_units(D("2.5"), 0) == D(3)


def test_a_float_of_a_file_is_the_number_that_was_written():
    assert amount(0.1) == D("0.1")
    with pytest.raises(ValueError, match="finite"):
        amount(float("inf"))
