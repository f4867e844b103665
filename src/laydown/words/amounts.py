"""Writes a figure with its unit, metric or US.

The unit of a figure is told by the end of its name, and how it is printed by the table of units. A sentence may ask for a
number format as Python has it (``.0f``, ``g``, ``+.1f``), for another unit (``cm .0f``, ``min .0f``), or for the bare number
(``~.0f``); without any of these a figure is printed as in tables.
"""

import math
import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from laydown.unit_table import FOOT_M, METRIC, POUND_G, PSI_BAR, US_GALLON_ML
from laydown.units import System, figures, show, suffix

MOST_FIGURES = 3
"""Figures of a converted number at most, as in the tables; common practice, no source."""

YARD_FT = 3
"""Length on which a hand counts its seconds in feet: about the metre it counts on otherwise; assumption."""

_INCH_M = FOOT_M / 12


@dataclass(frozen=True, slots=True)
class UsUnit:
    """A US unit: printed figure = metric figure * factor + offset."""

    name: str
    factor: Fraction
    offset: Fraction = Fraction(0)


_FAHRENHEIT = UsUnit("°F", Fraction(9, 5), Fraction(32))
_INCHES_OF_A_METRE = UsUnit("in", 1 / _INCH_M)

US_UNITS = {
    "°C": _FAHRENHEIT,
    "K": UsUnit("°F", Fraction(9, 5)),
    "m": UsUnit("ft", 1 / FOOT_M),
    "cm": UsUnit("in", Fraction(1, 100) / _INCH_M),
    "µm": UsUnit("mil", Fraction(10, 254)),
    "m²": UsUnit("ft²", 1 / FOOT_M**2),
    "cm²": UsUnit("in²", Fraction(1, 10_000) / _INCH_M**2),
    "m/s": UsUnit("ft/min", 60 / FOOT_M),
    "s per m": UsUnit(f"s per {YARD_FT} ft", YARD_FT * FOOT_M),
    "s per metre": UsUnit(f"s per {YARD_FT} ft", YARD_FT * FOOT_M),
    "bar": UsUnit("psi", 1 / PSI_BAR),
    "mL": UsUnit("fl oz", 128 / US_GALLON_ML),
    "L": UsUnit("qt", 4000 / US_GALLON_ML),
    "g/m²": UsUnit("g/ft²", FOOT_M**2),
    "g/L": UsUnit("lb/gal", US_GALLON_ML / 1000 / POUND_G),
    "g/mL": UsUnit("lb/gal", US_GALLON_ML / POUND_G),
    "lx": UsUnit("foot-candles", FOOT_M**2),
}
"""The US unit of a metric one; seconds, grams, per cent and millimetres, which name nozzles, stay."""

_ROUND = ("lx",)
"""Units of which nobody reads a whole number to its last nought."""

_SAID = {"_s_m": "s per m", "_lx": "lx"}
"""Units of figures that only sentences hold, never a document."""

_OTHER = {
    ("_m", "cm"): 100.0,
    ("_m", "mm"): 1000.0,
    ("_s", "s"): 1.0,
    ("_s", "min"): 1.0 / 60.0,
    ("_s", "h"): 1.0 / 3600.0,
    ("_ml", "L"): 0.001,
    ("_m2", "cm²"): 10_000.0,
    ("_s_m", "s per metre"): 1.0,
}
"""Other units that a sentence may ask for, with the factor from the house unit."""

_SEVERAL = re.compile(r" [0-9]")
"""A figure within a unit: 30 s after 1 min."""

_SPEC = re.compile(
    rf"(~?)(?:({'|'.join(sorted({unit for _, unit in _OTHER}, key=len, reverse=True))})(?: |$))?([+]?(?:\.\d+)?[fg])?"
)


@lru_cache(maxsize=512)
def _parts(spec: str) -> tuple[bool, str, str]:
    """Bare or not, unit and number format that a sentence asks for."""
    match = _SPEC.fullmatch(spec)
    if match is None:
        raise ValueError(f"a figure cannot be written as '{spec}'")
    return bool(match[1]), match[2] or "", match[3] or ""


def amount(value: float, name: str, spec: str, system: System) -> str:
    """Write one figure."""
    bare, wanted, form = _parts(spec)
    if not (bare or wanted or form):
        return show(value, name, system)
    numbers, unit = _written((value,), name, (wanted, form), system)
    return numbers[0] if bare or not unit else f"{numbers[0]} {unit}"


def between(low: float, high: float, name: str, spec: str, system: System) -> tuple[str, str]:
    """Write two limits, the unit at the second only where both have the same."""
    _, wanted, form = _parts(spec)
    if not (wanted or form):
        first, second = show(low, name, system), show(high, name, system)
        number, _, unit = first.partition(" ")
        return (number if unit == second.partition(" ")[2] and not _SEVERAL.search(unit) else first), second
    numbers, unit = _written((low, high), name, (wanted, form), system)
    return numbers[0], f"{numbers[1]} {unit}" if unit else numbers[1]


def _written(
    values: tuple[float, ...], name: str, wish: tuple[str, str], system: System
) -> tuple[list[str], str]:
    """Write numbers that share one unit."""
    wanted, form = wish
    end = next((own for own in _SAID if name.endswith(own)), None) or suffix(name)
    if wanted:
        unit, factor = wanted, _OTHER[end, wanted]
    elif end in _SAID:
        unit, factor = _SAID[end], 1.0
    else:
        style = METRIC.get(end)
        unit, factor = (style.unit, style.factor) if style else ("s" if end == "_s" else "", 1.0)
    numbers = [format(value * factor, form) if form else figures(value * factor) for value in values]
    us = US_UNITS.get(unit) if system == "us" else None
    if us is None:
        return numbers, unit
    if unit == "m" and max(abs(_value(number)) for number in numbers) < 3 * FOOT_M:
        us = _INCHES_OF_A_METRE
    return [_converted(number, us, rounded=unit in _ROUND) for number in numbers], us.name


def _value(number: str) -> Fraction:
    """Read a number with either minus sign."""
    return Fraction(number.replace("\N{MINUS SIGN}", "-"))


def _converted(number: str, unit: UsUnit, *, rounded: bool) -> str:
    """Convert one number and round it to what its digits claim."""
    metric = _value(number)
    value = metric * unit.factor + unit.offset
    _, _, decimals = number.partition(".")
    places = len(decimals)
    if not unit.offset and value:
        places = _digits(number, value / metric, rounded=rounded) - 1 - _power(value)
    shown = round(value, places)
    text = f"{abs(float(shown)):.{max(0, places)}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    minus = "\N{MINUS SIGN}" if "\N{MINUS SIGN}" in number else "-"
    return (minus if shown < 0 else "+" if number[0] == "+" else "") + text


def _digits(number: str, factor: Fraction, *, rounded: bool) -> int:
    """Digits a converted number keeps."""
    digits = number.lstrip("+-\N{MINUS SIGN}").replace(".", "").lstrip("0")
    if rounded and "." not in number:
        digits = digits.rstrip("0")
    metric = abs(_value(number))
    smaller = _lead(metric * factor) < _lead(metric)
    return min(MOST_FIGURES, len(digits) + smaller)


def _power(value: Fraction) -> int:
    """Power of ten of the first digit."""
    return math.floor(math.log10(abs(value)))


def _lead(value: Fraction) -> int:
    """First digit of a number above zero."""
    return int(f"{float(value):e}"[0])
