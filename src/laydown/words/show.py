"""Retells every sentence inside a noun; its figures, names and sources stay as they are."""

import math
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, fields, is_dataclass, replace
from fractions import Fraction
from typing import Any, TypeVar

from laydown.schema.plan import Plan
from laydown.unit_table import FOOT_M, POUND_G, PSI_BAR, US_GALLON_ML
from laydown.units import System

MOST_FIGURES = 3
"""Figures of a retold number at most, as in the tables; common practice, no source."""

YARD_FT = 3
"""Length on which a hand counts its seconds in feet: about the metre it counts on otherwise; assumption."""

_LUX_FOOT_CANDLE = 1 / FOOT_M**2
_INCH_M = FOOT_M / 12


@dataclass(frozen=True, slots=True)
class _Unit:
    """A US unit: printed figure = metric figure * factor + offset."""

    name: str
    factor: Fraction
    offset: Fraction = Fraction(0)


_FAHRENHEIT = _Unit("°F", Fraction(9, 5), Fraction(32))
_FEET = _Unit("ft", 1 / FOOT_M)
_INCHES_OF_A_METRE = _Unit("in", 1 / _INCH_M)
_POUNDS_PER_GALLON_OF_A_GRAM_PER_LITRE = US_GALLON_ML / 1000 / POUND_G

_UNITS = {
    "°C": _FAHRENHEIT,
    "K": _Unit("°F", Fraction(9, 5)),
    "m": _FEET,
    "cm": _Unit("in", Fraction(1, 100) / _INCH_M),
    "µm": _Unit("mil", Fraction(10, 254)),
    "m²": _Unit("ft²", 1 / FOOT_M**2),
    "cm²": _Unit("in²", Fraction(1, 10_000) / _INCH_M**2),
    "m/s": _Unit("ft/min", 60 / FOOT_M),
    "s per m": _Unit(f"s per {YARD_FT} ft", YARD_FT * FOOT_M),
    "s per metre": _Unit(f"s per {YARD_FT} ft", YARD_FT * FOOT_M),
    "bar": _Unit("psi", 1 / PSI_BAR),
    "mL": _Unit("fl oz", 128 / US_GALLON_ML),
    "L": _Unit("qt", 4000 / US_GALLON_ML),
    "g/m²": _Unit("g/ft²", FOOT_M**2),
    "g/L": _Unit("lb/gal", _POUNDS_PER_GALLON_OF_A_GRAM_PER_LITRE),
    "g/mL": _Unit("lb/gal", 1000 * _POUNDS_PER_GALLON_OF_A_GRAM_PER_LITRE),
    "lx": _Unit("foot-candles", 1 / _LUX_FOOT_CANDLE),
}

_ROUND = ("lx",)
"""Units of which nobody reads a whole number to its last nought."""
_COUNTED = {
    one + end
    for one in ("coat", "field", "gate", "join", "layer", "panel", "question", "section", "zone")
    for end in ("", "s")
}

_NUMBER = r"[+\N{MINUS SIGN}-]?\d+(?:\.\d+)?"
_BETWEEN = r" to | and | or |, | / |-|–"
_FIGURES = re.compile(
    rf"(?<![\w.,|])({_NUMBER}(?:(?:{_BETWEEN}){_NUMBER})*) "
    rf"({'|'.join(re.escape(unit) for unit in sorted(_UNITS, key=len, reverse=True))})(?![\w²³/*·°])"
)
_PART = re.compile(rf"({_NUMBER})({_BETWEEN})?")


def retell(text: str, system: System, names: Iterable[str] = ()) -> str:
    """Retell a metric sentence in US units.

    Parameters
    ----------
    text
        A sentence in which every figure stands before its unit with one blank between: "61 cm", "20 to 25 °C".
    system
        How figures are shown; ``metric`` returns the text as it is.
    names
        Names that people gave and that may hold figures, such as labels of panels; they stay as they are.

    Returns
    -------
    The sentence with °F, mil, inch, foot, fluid ounce, psi and lb/gal. Numbers without a unit, seconds, minutes,
    per cent, grams and millimetres, which name nozzles, stay. Retelling twice changes nothing.

    Notes
    -----
    A figure keeps as many digits as it had, one more where its first digit becomes smaller, three at most; a
    temperature keeps its decimals. A range or list before one unit is retold as a whole.

    Sources
    -------
    Digits: NIST SP 811, B.7 (from memory). Factors as stated in ``laydown.unit_table``.
    """
    if system == "metric":
        return text
    kept = sorted({name for name in names if any(sign.isdigit() for sign in name)}, key=len, reverse=True)
    if not kept:
        return _FIGURES.sub(_retold, text)
    named = re.compile(rf"((?<![\w.,])(?:{'|'.join(map(re.escape, kept))})(?!\w))")
    # Split by a group: what stands at odd places is a name.
    return "".join(
        part if place % 2 else _FIGURES.sub(_retold, part) for place, part in enumerate(named.split(text))
    )


def _retold(match: re.Match[str]) -> str:
    """Retell the numbers before one unit."""
    parts = [part for number in _PART.finditer(match[1]) for part in number.groups("")]
    first = _first_of_unit(parts, match.string[: match.start()])
    metric = parts[first::2]
    unit = _UNITS[match[2]]
    if match[2] == "m" and max(abs(_value(number)) for number in metric) < 3 * FOOT_M:
        unit = _INCHES_OF_A_METRE
    parts[first::2] = [_converted(number, unit, rounded=match[2] in _ROUND) for number in metric]
    return f"{''.join(parts)} {unit.name}"


def _first_of_unit(parts: Sequence[str], before: str) -> int:
    """Place of the first number that belongs to the unit: only the last one after "section 3, " or "coat 2 and "."""
    listed = " and " in parts or " or " in parts
    counted = before.rstrip().rpartition(" ")[2].casefold() in _COUNTED
    return len(parts) - 2 if counted or (", " in parts and not listed) else 0


def _value(number: str) -> Fraction:
    """Read a number with either minus sign."""
    return Fraction(number.replace("\N{MINUS SIGN}", "-"))


def _converted(number: str, unit: _Unit, *, rounded: bool) -> str:
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


SENTENCES = frozenset(
    {
        "ask",
        "change",
        "consequence",
        "decision",
        "differs",
        "do",
        "needs",
        "next_step",
        "note",
        "reason",
        "runner_up",
        "second",
        "sentence",
        "text",
        "title",
        "why",
        "why_not",
        "words",
    }
)
"""Names of the fields that hold sentences laydown wrote, wherever they stand.

Sources are quoted as they were given, so they are not among them.
"""

_Noun = TypeVar("_Noun")


def told_plan(plan: Plan, system: System) -> Plan:
    """Retell the sentences of a plan, to be shown; the plan document itself always stays metric.

    Parameters
    ----------
    plan
        The plan.
    system
        How figures are shown; ``metric`` returns the plan itself.

    Returns
    -------
    The same figures in house units with sentences in US units.
    """
    return plan if system == "metric" else told(plan, system, names_of(plan))


def told(noun: _Noun, system: System, names: Iterable[str] = ()) -> _Noun:
    """Retell the sentences of a noun.

    Parameters
    ----------
    noun
        A frozen dataclass, or a tuple of such.
    system
        How figures are shown; ``metric`` returns the noun itself.
    names
        Names that people gave, see ``retell``.

    Returns
    -------
    The noun with every field of ``SENTENCES`` retold, also in the nouns within it.
    """
    if system == "metric":
        return noun
    kept = frozenset(name for name in names if any(sign.isdigit() for sign in name))
    made: _Noun = _walk(noun, kept)
    return made


def names_of(plan: Plan) -> frozenset[str]:
    """Gather the names in a plan that people may have given.

    Parameters
    ----------
    plan
        The plan.

    Returns
    -------
    Job, painter, shape, panels, features, zones, products and lines of recipes.
    """
    side = plan.side
    coats = [coat for layer in plan.layers for coat in layer.coats]
    found = {plan.inputs.job, plan.inputs.painter, side.shape, side.outline.name, plan.bake.slowest_part}
    found |= {name for panel in side.panels for name in (panel.name, panel.id)}
    found |= {name for panel in side.outline.panels for name in (panel.label, panel.id)}
    found |= {name for coat in coats for join in coat.joins for name in join.feature.split("|")}
    found |= {zone.zone for zone in plan.colour.zones}
    found |= {layer.product for layer in plan.layers}
    found |= {name for mix in plan.mixes for name in (mix.product, *(line.name for line in mix.lines))}
    return frozenset(found - {""})


def _walk(value: Any, names: frozenset[str]) -> Any:
    """Retell what is inside a value; points and other plain values are passed by."""
    if is_dataclass(value) and not isinstance(value, type):
        changed = {}
        for field in fields(value):
            old = getattr(value, field.name)
            new = _said(old, names) if field.name in SENTENCES else _walk(old, names)
            if new is not old:
                changed[field.name] = new
        return replace(value, **changed) if changed else value
    if isinstance(value, tuple) and value and _holds_nouns(value[0]):
        made = tuple(_walk(one, names) for one in value)
        return made if any(new is not old for new, old in zip(made, value, strict=True)) else value
    return value


def _holds_nouns(first: Any) -> bool:
    """Whether a tuple that begins so holds nouns, or rows of nouns."""
    return is_dataclass(first) or (isinstance(first, tuple) and any(is_dataclass(one) for one in first))


def _said(value: Any, names: frozenset[str]) -> Any:
    """Retell a field of sentences: one, several, or a noun of the same name."""
    if isinstance(value, str):
        new = retell(value, "us", names)
        return value if new == value else new
    if isinstance(value, tuple) and value and isinstance(value[0], str):
        made = tuple(retell(one, "us", names) for one in value)
        return value if made == value else made
    return _walk(value, names)
