"""A recipe that is whole becomes grams; one that is not says everything that is wrong."""

from dataclasses import replace

import pytest

from laydown.schema.product import RecipeLine
from laydown.trade.mixing.recipe import (
    RecipeError,
    density_from_weighing_g_ml,
    mix_solids_volume_fraction,
    mix_volume_ml,
    recipe_faults,
    relative_masses,
    scale,
    unusual_densities,
)
from laydown.trade.mixing.water_percent import (
    in_house_convention,
    open_percentages,
    ratio_basis,
    readings_of_percent,
)

BASE = RecipeLine("base", "base", 100, "parts", "volume", density_g_ml=1.0, solids_volume_fraction=0.2)
HARDENER = RecipeLine("hardener", "hardener", 5, "percent", "volume", "base", density_g_ml=1.1)
WATER = RecipeLine("water", "water", 10, "percent", density_g_ml=1.0, solids_volume_fraction=0.0)


def fields(lines):
    return [(fault.line, fault.field) for fault in recipe_faults(lines)]


def test_every_fault_is_told_at_once():
    lines = (
        replace(BASE, role="other"),
        replace(HARDENER, amount=float("nan"), density_g_ml=0.4),
        WATER,
    )
    assert fields(lines) == [(1, "role"), (2, "amount"), (2, "density_g_ml"), (3, "basis"), (3, "of")]


def test_an_empty_recipe_is_a_fault():
    assert fields(()) == [(0, "recipe")]


def test_a_base_of_nothing_is_a_fault():
    assert fields((replace(BASE, amount=0),)) == [(1, "role")]


def test_a_missing_density_is_never_taken_as_one():
    with pytest.raises(RecipeError, match="density of hardener is missing") as caught:
        scale((BASE, replace(HARDENER, density_g_ml=None)), volume_ml=100)
    assert caught.value.faults[0].hint.startswith("weigh 100 mL")


def test_a_recipe_by_mass_needs_no_density():
    lines = (
        RecipeLine("base", "base", 100, "parts", "mass"),
        RecipeLine("water", "water", 10, "percent", "mass", "base"),
    )
    assert scale(lines, mass_g=220) == pytest.approx((200, 20))
    with pytest.raises(RecipeError, match="density of base is missing"):
        scale(lines, volume_ml=220)


def test_a_percentage_by_volume_needs_the_density_of_what_it_refers_to():
    lines = (
        RecipeLine("base", "base", 100, "parts", "mass"),
        RecipeLine("water", "water", 10, "percent", "volume", "base", density_g_ml=1.0),
    )
    assert fields(lines) == [(1, "density_g_ml")]


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
        (1, "voc_mass_fraction")
    ]
    assert fields((replace(BASE, voc_mass_fraction=-0.1),)) == [(1, "voc_mass_fraction")]
    assert fields((replace(BASE, voc_mass_fraction=0.4, water_mass_fraction=0.6),)) == []


def final(amount, basis="volume"):
    return replace(WATER, amount=amount, basis=basis, of="final")


def test_two_lines_in_percent_of_the_final_mix_each_hold_their_share():
    masses = scale((BASE, final(10), final(15)), volume_ml=200)
    assert masses == pytest.approx((150, 20, 30))


def test_lines_in_percent_of_the_final_mix_stand_last_share_a_basis_and_leave_room():
    assert fields((BASE, final(10), HARDENER)) == [(2, "of")]
    assert fields((BASE, final(10), final(10, "mass"))) == [(2, "of")]
    assert fields((BASE, final(60), final(40))) == [(2, "amount")]


def test_exactly_one_size_above_nothing_is_wanted():
    for sizes in ({}, {"volume_ml": 1, "mass_g": 1}, {"volume_ml": 0}, {"mass_g": float("inf")}):
        with pytest.raises(ValueError, match="volume_ml"):
            scale((BASE,), **sizes)


def test_solids_of_the_mix_are_weighted_by_volume_or_unknown():
    # 100 mL with 20 mL of solids and 10 mL of water: 20 / 110.
    lines = (BASE, replace(WATER, basis="volume", of="base"))
    assert mix_solids_volume_fraction(lines) == pytest.approx(20 / 110)
    assert mix_solids_volume_fraction((BASE, HARDENER)) is None
    empty = replace(WATER, amount=0, basis="mass", of="base", density_g_ml=None)
    assert mix_solids_volume_fraction((BASE, empty)) == pytest.approx(0.2)
    with pytest.raises(RecipeError, match="line 2: the density of water is missing"):
        mix_solids_volume_fraction((BASE, replace(empty, amount=5)))


def test_a_density_comes_from_weighing_a_hundred_millilitres():
    assert density_from_weighing_g_ml(105.0) == pytest.approx(1.05)
    with pytest.raises(ValueError, match="above 0"):
        density_from_weighing_g_ml(0.0)


def test_a_rare_density_is_accepted_and_named():
    assert fields((BASE, replace(HARDENER, density_g_ml=1.9))) == []
    assert unusual_densities((BASE, replace(HARDENER, density_g_ml=1.9))) == (2,)


def test_open_percentages_are_named_and_read_by_the_house_convention_only_on_request():
    lines = (BASE, HARDENER, WATER)
    assert open_percentages(lines) == (2,)
    with pytest.raises(RecipeError, match="percent of what"):
        relative_masses(lines)
    assert open_percentages(in_house_convention(lines)) == ()


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
    with pytest.raises(RecipeError, match="amount of base"):
        readings_of_percent((replace(BASE, amount=-1), WATER), 1, volume_ml=100)


def test_only_a_percentage_has_readings():
    with pytest.raises(ValueError, match="per cent"):
        readings_of_percent((BASE, WATER), 0, volume_ml=100)


def test_a_ratio_without_a_basis_is_a_fault():
    with pytest.raises(RecipeError, match="no basis"):
        ratio_basis((replace(BASE, basis=None),))


def test_a_line_of_nothing_needs_no_density_for_the_volume():
    assert mix_volume_ml((BASE, replace(HARDENER, density_g_ml=None)), (50.0, 0.0)) == 50.0
