"""Figures in US units against pint, within the digits that are printed."""

import re

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cases.thorough import examples
from laydown.words.amounts import amount

REGISTRY = pint.UnitRegistry()

UNITS = {
    "°C": "degC",
    "K": "delta_degC",
    "m": "meter",
    "cm": "centimeter",
    "µm": "micrometer",
    "m²": "meter**2",
    "cm²": "centimeter**2",
    "m/s": "meter/second",
    "s per m": "second/meter",
    "s per metre": "second/meter",
    "bar": "bar",
    "mL": "milliliter",
    "L": "liter",
    "g/m²": "gram/meter**2",
    "g/L": "gram/liter",
    "g/mL": "gram/milliliter",
    "lx": "lux",
}
US = {
    "°F": "degF",
    "in": "inch",
    "ft": "foot",
    "mil": "thou",
    "ft²": "foot**2",
    "in²": "inch**2",
    "ft/min": "foot/minute",
    "s per 3 ft": "second/yard",
    "psi": "psi",
    "fl oz": "US_fluid_ounce",
    "qt": "US_liquid_quart",
    "g/ft²": "gram/foot**2",
    "lb/gal": "pound/US_liquid_gallon",
    # 1 foot-candle = 1 lumen per square foot, definition
    "foot-candles": "lumen/foot**2",
}

# name of a figure, what is asked for, and how many of its house unit one of the unit is
ASKED = {
    "°C": ("air_c", "", 1),
    "K": ("warmer_k", "", 1),
    "m": ("length_m", "", 1),
    "cm": ("length_m", "cm ", 0.01),
    "µm": ("film_um", "", 1),
    "m²": ("area_m2", "", 1),
    "cm²": ("area_m2", "cm² ", 0.0001),
    "m/s": ("speed_m_s", "", 1),
    "s per m": ("pace_s_m", "", 1),
    "s per metre": ("pace_s_m", "s per metre ", 1),
    "bar": ("pressure_bar", "", 1),
    "mL": ("cup_ml", "", 1),
    "L": ("cup_ml", "L ", 1000),
    "g/m²": ("film_g_m2", "", 1),
    "g/L": ("voc_g_l", "", 1),
    "g/mL": ("density_g_ml", "", 1),
    "lx": ("light_lx", "", 1),
}


def ours(number, unit):
    """What we print for a figure of so many digits."""
    name, asked, house = ASKED[unit]
    places = len(number.partition(".")[2])
    return amount(float(number) * house, name, f"{asked}.{places}f", "us").split(" ", 1)


def theirs(number, unit, us):
    if unit == "K":
        return REGISTRY.Quantity(number, "delta_degC").to("delta_degF").magnitude
    return REGISTRY.Quantity(number, UNITS[unit]).to(US[us]).magnitude


def first_place(value):
    """Power of ten of the first digit."""
    return int(f"{value:e}".partition("e")[2])


def significant(number):
    return len(number.lstrip("-+0.").replace(".", ""))


@settings(max_examples=examples(400), database=None, derandomize=True)
@given(
    st.sampled_from(sorted(UNITS)),
    st.decimals(min_value="-250", max_value="2500", places=2, allow_nan=False),
    st.integers(0, 2),
)
def test_a_figure_is_what_pint_says_to_the_digits_printed(unit, value, places):
    number = f"{value:.{places}f}"
    printed, us = ours(number, unit)
    expected = theirs(float(number), unit, us)
    # A figure keeps at least the digits it had, three at most; it may be off by half of its last place.
    if unit == "°C":
        last = 10.0**-places
    else:
        had = number.lstrip("-0.").replace(".", "")
        had = had.rstrip("0") if unit == "lx" and not places else had
        last = 10.0 ** (first_place(expected) + 1 - min(3, max(1, len(had))))
    assert float(printed) == pytest.approx(expected, abs=0.501 * last)


@settings(max_examples=examples(200), database=None, derandomize=True)
@given(st.sampled_from(sorted(UNITS)), st.decimals(min_value="-250", max_value="2500", places=2))
def test_no_more_than_one_digit_is_added_and_never_more_than_three_are_printed(unit, value):
    number = f"{value:f}"
    printed = ours(number, unit)[0]
    if unit == "°C":
        assert len(printed.partition(".")[2]) <= len(number.partition(".")[2])
    else:
        digits = re.sub(r"^[-0.]+", "", printed).replace(".", "").rstrip("0")
        assert len(digits) <= 3
        assert len(digits) <= significant(number) + 1
