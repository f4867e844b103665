"""The till, units and water against `scipy`, `pint` and `CoolProp`."""

import pint
import pytest
from CoolProp.CoolProp import PropsSI
from fluids.constants import psi
from scipy.stats import beta

from laydown.trade.redo import PRIOR_FAULTS, PRIOR_GOOD, fault_chance
from laydown.trade.regions import commonly_required
from laydown.trade.solvent import WATER_DENSITY_G_ML, voc_less_water_g_l


@pytest.mark.parametrize(("faults", "jobs"), [(0, 0), (3, 41), (7, 9), (0, 25), (40, 400), (90, 3000)])
def test_the_range_of_the_redo_chance_is_that_of_the_beta_distribution(faults, jobs):
    exact = beta(faults + PRIOR_FAULTS, jobs - faults + PRIOR_GOOD)
    found = fault_chance(faults, jobs)
    assert (found.low, found.high) == pytest.approx((exact.ppf(0.05), exact.ppf(0.95)), rel=1e-8)
    if found.value is not None:
        assert found.value == pytest.approx(exact.mean(), rel=1e-12)


def test_water_density_is_that_of_the_property_library():
    assert (
        pytest.approx(PropsSI("D", "T", 293.15, "P", 101_325, "Water") / 1000, abs=2e-5) == WATER_DENSITY_G_ML
    )


def test_pounds_per_gallon_become_grams_per_litre_as_the_unit_library_has_it():
    # The printed paint of 8.52 lb/gal: 4.87 lb/gal less water.
    units = pint.UnitRegistry()
    density = units.Quantity(8.52, "pound / gallon").to("gram / milliliter").magnitude
    water = units.Quantity(8.33, "pound / gallon").to("gram / milliliter").magnitude
    found = units.Quantity(voc_less_water_g_l(density, 0.208, 0.53, water), "gram / liter")
    assert found.to("pound / gallon").magnitude == pytest.approx(4.87, abs=0.01)


def test_booth_rules_are_converted_as_the_libraries_convert():
    units = pint.UnitRegistry()
    rules = {rule.quantity: rule for rule in commonly_required("us-ca")}
    assert rules["booth_air_m_s"].low == pytest.approx(
        units.Quantity(100, "foot / minute").to("m/s").magnitude
    )
    assert rules["cap_pressure_bar"].high == pytest.approx(10 * psi / 1e5, rel=1e-6)
