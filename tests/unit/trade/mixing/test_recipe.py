"""A recipe that is whole becomes grams; one that is not says everything that is wrong."""

from dataclasses import replace

import pytest

from cases.speech import english
from laydown.schema.problem import InputError
from laydown.schema.product import RecipeLine
from laydown.trade.mixing.recipe import (
    mix_volume_ml,
    recipe_problems,
    relative_masses,
    scale,
)
from laydown.trade.mixing.water_percent import ratio_basis, readings_of_percent

BASE = RecipeLine("base", "base", 100, "parts", "volume", density_g_ml=1.0, solids_volume_fraction=0.2)
HARDENER = RecipeLine("hardener", "hardener", 5, "percent", "volume", "base", density_g_ml=1.1)
WATER = RecipeLine("water", "water", 10, "percent", density_g_ml=1.0, solids_volume_fraction=0.0)


def fields(lines):
    return [one.where.removeprefix("recipe") for one in recipe_problems(lines)]


def test_every_fault_is_told_at_once():
    lines = (
        replace(BASE, role="other"),
        replace(HARDENER, amount=float("nan"), density_g_ml=0.4),
        WATER,
    )
    assert fields(lines) == ["[1].role", "[2].amount", "[2].density_g_ml", "[3].basis", "[3].of"]


def test_an_empty_recipe_is_a_fault():
    assert fields(()) == [""]


def test_a_base_of_nothing_is_a_fault():
    assert fields((replace(BASE, amount=0),)) == ["[1].role"]


def test_a_missing_density_is_never_taken_as_one():
    with pytest.raises(InputError) as caught:
        scale((BASE, replace(HARDENER, density_g_ml=None)), volume_ml=100)
    assert "density of hardener is missing" in english(caught.value.problems[0].what)
    assert english(caught.value.problems[0].hint).startswith("weigh 100 mL")


def test_a_recipe_by_mass_needs_no_density():
    lines = (
        RecipeLine("base", "base", 100, "parts", "mass"),
        RecipeLine("water", "water", 10, "percent", "mass", "base"),
    )
    assert scale(lines, mass_g=220) == pytest.approx((200, 20))
    with pytest.raises(InputError) as caught:
        scale(lines, volume_ml=220)
    assert "density of base is missing" in english(caught.value.problems[0].what)


def test_a_percentage_by_volume_needs_the_density_of_what_it_refers_to():
    lines = (
        RecipeLine("base", "base", 100, "parts", "mass"),
        RecipeLine("water", "water", 10, "percent", "volume", "base", density_g_ml=1.0),
    )
    assert fields(lines) == ["[1].density_g_ml"]


def test_a_line_of_another_role_is_not_part_of_the_base():
    lines = (
        BASE,
        replace(HARDENER, kind="parts", of=None, amount=20),
        replace(WATER, basis="volume", of="base"),
    )
    assert relative_masses(lines)[2] == pytest.approx(10.0)
    before = (*lines[:2], replace(lines[2], of="before"))
    assert relative_masses(before)[2] == pytest.approx(12.0)


def test_shares_of_one_mass_cannot_be_more_than_the_whole():
    assert fields((replace(BASE, voc_mass_fraction=0.5, water_mass_fraction=0.6),)) == [
        "[1].voc_mass_fraction"
    ]
    assert fields((replace(BASE, voc_mass_fraction=-0.1),)) == ["[1].voc_mass_fraction"]
    assert fields((replace(BASE, voc_mass_fraction=0.4, water_mass_fraction=0.6),)) == []


def final(amount, basis="volume"):
    return replace(WATER, amount=amount, basis=basis, of="final")


def test_two_lines_in_percent_of_the_final_mix_each_hold_their_share():
    masses = scale((BASE, final(10), final(15)), volume_ml=200)
    assert masses == pytest.approx((150, 20, 30))


def test_lines_in_percent_of_the_final_mix_stand_last_share_a_basis_and_leave_room():
    assert fields((BASE, final(10), HARDENER)) == ["[2].of"]
    assert fields((BASE, final(10), final(10, "mass"))) == ["[2].of"]
    assert fields((BASE, final(60), final(40))) == ["[2].amount"]


def test_exactly_one_size_above_nothing_is_wanted():
    for sizes in ({}, {"volume_ml": 1, "mass_g": 1}, {"volume_ml": 0}, {"mass_g": float("inf")}):
        with pytest.raises(ValueError, match="volume_ml"):
            scale((BASE,), **sizes)


def test_a_half_open_percentage_has_only_the_readings_that_are_left():
    by_mass = readings_of_percent((BASE, HARDENER, replace(WATER, basis="mass")), 2, volume_ml=100)
    assert [(one.of, one.basis) for one in by_mass] == [
        ("base", "mass"),
        ("before", "mass"),
        ("final", "mass"),
    ]
    of_base = readings_of_percent((BASE, HARDENER, replace(WATER, of="base")), 2, volume_ml=100)
    assert [(one.of, one.basis) for one in of_base] == [("base", "volume"), ("base", "mass")]


def test_a_reading_that_lacks_a_density_has_no_grams():
    lines = (RecipeLine("base", "base", 100, "parts", "mass"), replace(WATER, density_g_ml=None))
    found = {(one.of, one.basis): one.masses_g for one in readings_of_percent(lines, 1, mass_g=110)}
    assert found["base", "mass"] == pytest.approx((100, 10))
    assert found["base", "volume"] is None


def test_a_reading_does_not_hide_another_fault():
    with pytest.raises(InputError) as caught:
        readings_of_percent((replace(BASE, amount=-1), WATER), 1, volume_ml=100)
    assert any("amount of base" in english(one.what) for one in caught.value.problems)


def test_only_a_percentage_has_readings():
    with pytest.raises(ValueError, match="per cent"):
        readings_of_percent((BASE, WATER), 0, volume_ml=100)


def test_a_ratio_without_a_basis_is_a_fault():
    with pytest.raises(InputError) as caught:
        ratio_basis((replace(BASE, basis=None),))
    assert "no basis" in english(caught.value.problems[0].what)


def test_a_line_of_nothing_needs_no_density_for_the_volume():
    assert mix_volume_ml((BASE, replace(HARDENER, density_g_ml=None)), (50.0, 0.0)) == 50.0
