"""Recipes, mix sheets and over-pours against printed or hand-worked figures."""

import pytest

from laydown.schema.product import RecipeLine
from laydown.trade.mixing.batch import least_mix_g
from laydown.trade.mixing.pour import overpour, pour_sheet
from laydown.trade.mixing.recipe import mix_density_g_ml, mix_volume_ml, scale
from laydown.trade.mixing.water_percent import in_house_convention, readings_of_percent
from laydown.trade.solvent import voc_material_g_l


def parts(name, amount, density, role="other", basis="volume"):
    return RecipeLine(name, role, amount, "parts", basis, density_g_ml=density)


def percent(name, amount, density, role="other", basis="volume", of="base"):
    return RecipeLine(name, role, amount, "percent", basis, of, density_g_ml=density)


# Worked sheet of the WHO alcohol hand-rub formula: 7515 : 417 : 145 : 1923 mL.
HAND_RUB = (
    parts("alcohol", 7515, 0.785, "base"),
    parts("peroxide", 417, 1.007),
    parts("glycerol", 145, 1.261),
    parts("water", 1923, 0.9982, "water"),
)

# Worked by hand: 100 : +5 % hardener : +10 % adjuster : +5 % water, all of base by volume.
ACTIVATED_BASE = (
    parts("base", 100, 1.05, "base"),
    percent("hardener", 5, 1.10, "hardener"),
    percent("adjuster", 10, 0.99, "adjuster"),
    percent("water", 5, 0.9982, "water"),
)


def test_volume_parts_become_the_grams_of_the_printed_worked_sheet():
    # WHO hand-rub worked sheet, scaled to 250 mL; printed to 0.01 g.
    masses = scale(HAND_RUB, volume_ml=250)
    assert masses == pytest.approx([147.48, 10.50, 4.57, 47.99], abs=0.01)
    assert sum(masses) == pytest.approx(210.54, abs=0.01)


def test_the_running_total_ends_where_the_printed_sheet_ends_and_single_rounding_does_not():
    # Arithmetic on the printed grams: 147.48 / 157.98 / 162.55 / 210.54 on a 0.1 g display.
    sheet = pour_sheet(scale(HAND_RUB, volume_ml=250))
    assert [step.running_g for step in sheet] == [147.5, 158.0, 162.6, 210.5]
    assert sheet[-1].step_g == 47.9
    assert sum(round(mass, 1) for mass in (147.48, 10.50, 4.57, 47.99)) == pytest.approx(210.6)


def test_percent_of_base_by_volume_gives_the_hand_worked_pour_sheet():
    # By hand: V = 120 parts; 600 / 120 = 5; 5 x (105.0, 5.5, 9.9, 4.991) = 525.0, 27.5, 49.5, 24.955 g.
    masses = scale(ACTIVATED_BASE, volume_ml=600)
    sheet = pour_sheet(masses)
    assert masses == pytest.approx([525.0, 27.5, 49.5, 24.955], abs=1e-9)
    assert [step.step_g for step in sheet] == [525.0, 27.5, 49.5, 25.0]
    assert [step.running_g for step in sheet] == [525.0, 552.5, 602.0, 627.0]
    assert mix_density_g_ml(ACTIVATED_BASE) == pytest.approx(626.955 / 600, abs=1e-9)


def test_percent_of_all_before_gives_the_hand_worked_grams_and_solvent():
    # By hand: 2 : 1 and 10 % of both, V = 3.3; 1000 / 3.3 x (2.00, 1.06, 0.261) = 606.061, 321.212, 79.091 g;
    # (0.42 x 606.061 + 0.35 x 321.212 + 79.091) / 1 L = 446.06 g/L.
    lines = (
        RecipeLine("clear", "base", 2, "parts", "volume", density_g_ml=1.00, voc_mass_fraction=0.42),
        RecipeLine("hardener", "hardener", 1, "parts", "volume", density_g_ml=1.06, voc_mass_fraction=0.35),
        RecipeLine(
            "thinner", "reducer", 10, "percent", "volume", "before", density_g_ml=0.87, voc_mass_fraction=1.0
        ),
    )
    masses = scale(lines, volume_ml=1000)
    assert masses == pytest.approx([606.061, 321.212, 79.091], abs=5e-4)
    assert [step.running_g for step in pour_sheet(masses)] == [606.1, 927.3, 1006.4]
    assert voc_material_g_l(lines, masses) == pytest.approx(446.06, abs=0.01)


def test_parts_by_mass_scale_to_a_wanted_mass():
    # By hand: 100 : 20 : 15 of 500 g = 370.370 / 74.074 / 55.556 g; volumes 308.64 + 68.59 + 55.66 = 432.88 mL.
    lines = (
        parts("base", 100, 1.2, "base", "mass"),
        parts("hardener", 20, 1.08, "hardener", "mass"),
        parts("water", 15, 0.9982, "water", "mass"),
    )
    masses = scale(lines, mass_g=500)
    assert masses == pytest.approx([370.370, 74.074, 55.556], abs=5e-4)
    assert mix_volume_ml(lines, masses) == pytest.approx(432.88, abs=0.01)


# By hand for 100 + 5 + 10 parts by volume (1.05 / 1.10 / 0.99 g/mL), 600 mL, "+ 10 % water":
# base, hardener, adjuster and water in grams for each reading.
WATER_READINGS = {
    ("base", "volume"): (504.00, 26.40, 47.52, 47.91),
    ("before", "volume"): (498.02, 26.09, 46.96, 54.45),
    ("base", "mass"): (501.92, 26.29, 47.32, 50.19),
    ("before", "mass"): (495.82, 25.97, 46.75, 56.85),
}
UNCLEAR_WATER = (
    parts("base", 100, 1.05, "base"),
    parts("hardener", 5, 1.10, "hardener"),
    parts("adjuster", 10, 0.99, "adjuster"),
    RecipeLine("water", "water", 10, "percent", density_g_ml=0.9982),
)


@pytest.mark.parametrize("reading", sorted(WATER_READINGS))
def test_each_reading_of_ten_percent_water_gives_its_own_hand_worked_grams(reading):
    found = {
        (one.of, one.basis): one.masses_g for one in readings_of_percent(UNCLEAR_WATER, 3, volume_ml=600)
    }
    assert found[reading] == pytest.approx(WATER_READINGS[reading], abs=0.006)


def test_percent_of_the_final_mix_is_a_share_of_what_is_in_the_cup():
    # Definition: 10 % of the final volume of 600 mL is 60 mL of water, whatever else is in the cup.
    found = {
        (one.of, one.basis): one.masses_g for one in readings_of_percent(UNCLEAR_WATER, 3, volume_ml=600)
    }
    assert found["final", "volume"][3] == pytest.approx(60 * 0.9982, abs=1e-9)
    grams = found["final", "mass"]
    assert grams[3] / sum(grams) == pytest.approx(0.10, abs=1e-12)


def test_the_house_convention_is_percent_of_base_on_the_basis_of_the_ratio():
    # Common practice, no source.
    line = in_house_convention(UNCLEAR_WATER)[3]
    assert (line.of, line.basis) == ("base", "volume")
    assert readings_of_percent(UNCLEAR_WATER, 3, volume_ml=600)[0].house


TARGETS = (525.0, 27.5, 49.5, 25.0)


def test_too_much_base_is_put_right_by_the_hand_worked_grams():
    # By hand: s = 540 / 525 = 1.02857; extra = 0.02857 x 627 = 17.9 g.
    found = overpour(TARGETS, [540.0])
    assert found.factor == pytest.approx(1.02857, abs=5e-6)
    assert found.add_g == pytest.approx([0, 28.3, 50.9, 25.7], abs=0.05)
    assert found.extra_g == pytest.approx(17.9, abs=0.05)


def test_too_much_hardener_after_the_base_is_put_right_by_the_hand_worked_grams():
    # By hand: s = 30.0 / 27.5 = 1.09091; base + 47.7, adjuster 54.0, water 27.3, extra 57.0 g.
    found = overpour(TARGETS, [525.0, 30.0])
    assert found.factor == pytest.approx(1.09091, abs=5e-6)
    assert found.add_g == pytest.approx([47.7, 0, 54.0, 27.3], abs=0.05)
    assert found.extra_g == pytest.approx(57.0, abs=0.05)


@pytest.mark.parametrize(("error_g", "least_g"), [(0.1, 114), (0.2, 228)])
def test_the_smallest_batch_that_can_be_weighed_follows_from_the_hardener(error_g, least_g):
    # By hand: hardener 4.386 % of the mass within 2 % (common practice): 0.1 / (0.02 x 0.04386) = 114 g.
    assert least_mix_g(ACTIVATED_BASE, error_g) == pytest.approx(least_g, abs=0.5)


@pytest.mark.parametrize(("thinner_parts", "printed_g_l"), [(10, 539), (25, 585)])
def test_thinning_a_sealer_raises_its_solvent_as_its_data_sheet_prints(thinner_parts, printed_g_l):
    # An unnamed two-pack sealer sheet: 100 : 25 by volume has 510 g/L; + 10 and + 25 parts of thinner give
    # 539 and 585 g/L. The thinner is all solvent at 0.93 g/mL (assumption). Agreement: 2 %.
    lines = (
        RecipeLine(
            "mixed sealer", "base", 125, "parts", "volume", density_g_ml=1.2, voc_mass_fraction=0.510 / 1.2
        ),
        RecipeLine(
            "thinner", "reducer", thinner_parts, "parts", "volume", density_g_ml=0.93, voc_mass_fraction=1.0
        ),
    )
    assert voc_material_g_l(lines, scale(lines, volume_ml=1000)) == pytest.approx(printed_g_l, rel=0.02)


def test_volumes_add_on_mixing():
    # ASTM D5201-05, 1.3: no volume change on mixing is assumed in formula constants.
    masses = scale(HAND_RUB, volume_ml=10_000)
    volumes = [mass / line.density_g_ml for mass, line in zip(masses, HAND_RUB, strict=True)]
    assert volumes == pytest.approx([7515, 417, 145, 1923])
