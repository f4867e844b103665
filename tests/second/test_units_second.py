"""Every unit that may be written, against pint's registry."""

import pint
import pytest

from laydown.unit_table import UNITS
from laydown.units import parse, show

REGISTRY = pint.UnitRegistry()

HOUSE = {
    "_pa": "pascal",
    "_bar": "bar",
    "_s": "second",
    "_m": "meter",
    "_mm": "millimeter",
    "_um": "micrometer",
    "_m2": "meter**2",
    "_g": "gram",
    "_ml": "milliliter",
    "_g_ml": "gram/milliliter",
    "_g_l": "gram/liter",
    "_g_s": "gram/second",
    "_m_s": "meter/second",
    "_kg_m3": "kilogram/meter**3",
}
SPELLED = {
    '"': "inch",
    "'": "foot",
    "mils": "thou",
    "mil": "thou",
    "sec": "second",
    "days": "day",
    "fl oz": "US_fluid_ounce",
    "US fl oz": "US_fluid_ounce",
    "imp fl oz": "imperial_fluid_ounce",
    "qt": "US_liquid_quart",
    "gal": "US_liquid_gallon",
    "oz": "ounce",
    "sq ft": "foot**2",
    "ft2": "foot**2",
    "fpm": "foot/minute",
    "m2": "meter**2",
    "cm2": "centimeter**2",
    "cm3": "centimeter**3",
    "g/cm3": "gram/centimeter**3",
    "kg/m3": "kilogram/meter**3",
    "lb/gal": "pound/US_liquid_gallon",
    "mL": "milliliter",
    "cL": "centiliter",
    "L": "liter",
    "g/mL": "gram/milliliter",
    "kg/L": "kilogram/liter",
    "g/L": "gram/liter",
    "mmHg": "mmHg",
    "inHg": "inHg",
    "in": "inch",
    "min": "minute",
    "h": "hour",
    "d": "day",
    "kg/h": "kilogram/hour",
    "km/h": "kilometer/hour",
    "in/s": "inch/second",
}
ROWS = [(end, unit) for end in HOUSE for unit in UNITS[end]]


@pytest.mark.parametrize(("end", "unit"), ROWS)
def test_a_written_unit_converts_as_the_reference_library_does(end, unit):
    theirs = REGISTRY.Quantity(7.25, SPELLED.get(unit, unit)).to(HOUSE[end]).magnitude
    # 1e-6: conventional mercury columns are rounded differently in different tables.
    assert parse(f"7.25 {unit}", f"x{end}") == pytest.approx(theirs, rel=1e-6 if "Hg" in unit else 1e-9)


@pytest.mark.parametrize(("unit", "theirs"), [("°F", "degF"), ("K", "kelvin"), ("°C", "degC")])
@pytest.mark.parametrize("value", [-40.0, 0.0, 75.0, 300.0])
def test_temperatures_convert_as_the_reference_library_does(unit, theirs, value):
    expected = REGISTRY.Quantity(value, theirs).to("degC").magnitude
    assert parse(f"{value} {unit}", "temperature_c") == pytest.approx(expected, abs=1e-9)


def test_us_units_are_shown_as_the_reference_library_converts_them():
    assert (
        show(550, "cup_ml", "us")
        == f"{REGISTRY.Quantity(550, 'mL').to('US_fluid_ounce').magnitude:.1f} fl oz"
    )
    assert (
        show(2, "pressure_bar", "us")
        == f"{REGISTRY.Quantity(2, 'bar').to('psi').magnitude:.1f}".rstrip("0").rstrip(".") + " psi"
    )
    assert show(3.39, "area_m2", "us") == f"{REGISTRY.Quantity(3.39, 'm**2').to('ft**2').magnitude:.1f} ft²"
