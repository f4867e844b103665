"""What the planner makes of a sheet, and what it takes where the sheet is silent."""

from dataclasses import replace

import pytest

from cases.planning import MILD, request_of
from cases.speech import english
from laydown.planning.setup.paint import bands_of, paint_of
from laydown.schema.product import Hiding

PRODUCTS = request_of(MILD).products
SILENT = {
    "volume_solids": None,
    "dry_um_per_coat": None,
    "density_g_ml": None,
    "coats_min": None,
    "coats_max": None,
}


def test_a_full_sheet_is_followed_without_assumptions():
    ground = paint_of(PRODUCTS.ground)
    assert (ground.volume_solids, ground.dry_um, ground.density_g_ml) == (0.20, 8.0, 1.15)
    assert (ground.coats_min, ground.coats_max) == (1.5, 4.0)
    assert ground.assumptions == ()


def test_wet_and_dry_film_are_each_others_inverse():
    # 8 µm at 20 % solids are 40 µm wet; times 1.15 g/mL = 46 g/m2
    ground = paint_of(PRODUCTS.ground)
    assert ground.sheet_g_m2() == pytest.approx(46.0)
    assert ground.dry_um_of(46.0) == pytest.approx(8.0)


@pytest.mark.parametrize("name", ["ground", "effect", "clear"])
def test_every_default_of_a_silent_sheet_is_listed(name):
    paint = paint_of(replace(getattr(PRODUCTS, name), **SILENT))
    listed = {one.figure: one for one in paint.assumptions}
    assert set(listed) == {
        f"{name}.{figure}" for figure in ("volume_solids", "dry_um_per_coat", "density_g_ml", "coats")
    }
    assert listed[f"{name}.volume_solids"].value == paint.volume_solids
    assert 0.05 < paint.volume_solids < 0.6
    assert paint.coats_min <= paint.coats_max
    assert all(one.source for one in listed.values())


def test_a_density_that_the_recipe_gives_is_computed_and_said():
    # 100 mL of base 1.1675, 5 mL 1.10, 10 mL 1.00: 132.25 g in 115 mL = 1.150 g/mL
    paint = paint_of(replace(PRODUCTS.ground, density_g_ml=None))
    assert paint.density_g_ml == pytest.approx((116.75 + 5.5 + 10.0) / 115.0, rel=1e-6)
    (said,) = paint.assumptions
    assert "recipe" in english(said.source)


def test_without_densities_in_the_recipe_the_default_is_taken():
    blank = tuple(replace(line, density_g_ml=None) for line in PRODUCTS.ground.recipe)
    paint = paint_of(replace(PRODUCTS.ground, density_g_ml=None, recipe=blank))
    assert "default" in english(paint.assumptions[0].source)


def test_a_measured_hiding_card_beats_the_house_value():
    card = Hiding((0.01, 0.01, 0.02), (0.3, 0.3, 0.3), source="card of today")
    found, _, scattering, source = bands_of(replace(PRODUCTS.ground, hiding=card))
    assert found == card
    assert scattering == card.scattering_per_um
    assert source == "card of today"


def test_house_values_of_hiding_ask_for_a_card():
    for colour in ("white", "light grey", None):
        found, endless, scattering, source = bands_of(replace(PRODUCTS.ground, colour=colour, hiding=None))
        assert found is None
        assert all(0.0 < one < 1.0 for one in endless)
        assert min(scattering) > 0.0
        assert "card" in source
