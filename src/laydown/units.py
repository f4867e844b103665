"""The house units: one unit for each quantity, told by the end of a name; text is converted once, at the door."""

import math
import re
import unicodedata
from fractions import Fraction
from typing import Literal

from laydown.schema.message import Message, Name, message
from laydown.unit_table import EXAMPLES, FOOT_M, METRIC, UNITS, US, Scale

System = Literal["metric", "us"]
"""How figures are shown; files always hold house units."""

_SHARES = ("rh", "overlap", "water", "transfer")
_SHARE_ENDS = ("_share", "_fraction", "_chance", "_overlap", "_rh", "_water")
_SHARE_STARTS = ("rh_", "water_max")
_SUFFIXES = sorted((unit for unit in UNITS if unit.startswith("_")), key=len, reverse=True)
_NUMBER = re.compile(r"([+-]?(?:\d{1,3}(?: \d{3})+|\d+)?(?:[.,]\d+)?(?:[eE][+-]?\d{1,3})?)\s*(.*)", re.DOTALL)
_THOUSANDS = re.compile(r"[+-]?[1-9]\d{0,2},\d{3}")
_LONGEST_TEXT = 60


class UnitError(ValueError):
    """A value that cannot be read in the unit of its name."""

    def __init__(self, what: Message, hint: Message) -> None:
        super().__init__(what.code)
        self.what = what
        self.hint = hint


def suffix(name: str) -> str:
    """Return which house unit a name stands for.

    The longest suffix wins, so that ``speed_m_s`` is a speed and not a time.
    """
    if name in _SHARES or name.startswith(_SHARE_STARTS) or name.endswith(_SHARE_ENDS):
        return "" if name in {"water_percent_of", "water_basis"} else "share"
    short = name.removesuffix("_per_coat")
    return next((end for end in _SUFFIXES if short.endswith(end)), "")


def examples(name: str) -> tuple[Name, ...]:
    """Return how a value of this name may be written, for hints."""
    return tuple(map(Name, EXAMPLES.get(suffix(name), ("1.5",))))


def house_unit(name: str) -> str:
    """Return the unit in which a bare number of this name is read."""
    end = suffix(name)
    if end in {"", "share"}:
        return ""
    return {"_pa": "Pa", "_s": "s"}.get(end) or METRIC[end].unit


def parse(value: object, name: str) -> float:
    """Convert a number or a text with a unit into the house unit of a name.

    Text is converted in whole fractions and rounded once, so ``"0.6 mil"`` gives exactly 15.24 µm.
    """
    hint = message("write-a-value", examples=examples(name))
    if isinstance(value, bool):
        raise UnitError(message("no-number", given=Name(str(value).lower())), hint)
    if isinstance(value, int | float):
        return _finite(value, hint)
    if not isinstance(value, str):
        raise UnitError(message("no-number", given=message(_kind(value))), hint)
    if len(value) > _LONGEST_TEXT:
        raise UnitError(message("text-too-long-for-a-number"), hint)
    return _parse_text(value, name, hint)


def _parse_text(value: str, name: str, hint: Message) -> float:
    """Split the text into number and unit and convert."""
    number, unit = _split(value, hint)
    if not unit:
        return _finite(float(number), hint)
    scale = _find(unit, suffix(name))
    if scale is None:
        raise UnitError(message("cannot-read-value", typed=Name(value)), _known_units(name))
    _finite(float(number), hint)
    factor, offset = scale
    return _finite(float((Fraction(number) + offset) * factor), hint)


def _known_units(name: str) -> Message:
    """Say how a value is written, and in which units."""
    known = UNITS.get(suffix(name), {})
    if not known:
        return message("write-a-value-without-a-unit", examples=examples(name))
    return message("write-a-value-in-a-unit", examples=examples(name), units=tuple(map(Name, known)))


def _kind(value: object) -> str:
    """Code of what stands where a number was expected."""
    return {"dict": "a-table", "list": "a-list", "tuple": "a-list", "NoneType": "a-null"}.get(
        type(value).__name__, "a-value-of-another-kind"
    )


def _finite(value: float, hint: Message) -> float:
    """Return the value as float, or refuse infinity, not-a-number and integers beyond any float."""
    try:
        number = float(value)
    except OverflowError:
        number = math.inf
    if not math.isfinite(number):
        raise UnitError(message("not-finite"), hint)
    return number


def _split(value: str, hint: Message) -> tuple[str, str]:
    """Split a text into its number, with a decimal point and without blanks, and its unit."""
    text = unicodedata.normalize("NFKC", value.replace("º", "°").replace("\N{MINUS SIGN}", "-"))
    text = " ".join(text.split())
    match = _NUMBER.fullmatch(text)
    number = match[1] if match else ""
    if not any(letter.isdigit() for letter in number):
        if text.lower().lstrip("+-") in {"nan", "inf", "infinity"}:
            raise UnitError(message("not-finite"), hint)
        raise UnitError(message("cannot-read-value", typed=Name(value)), hint)
    if _THOUSANDS.fullmatch(number):
        raise UnitError(
            message("readable-in-two-ways", typed=Name(value)),
            message(
                "write-without-a-comma",
                ways=(Name(number.replace(",", "")), Name(number.replace(",", "."))),
            ),
        )
    return number.replace(" ", "").replace(",", "."), match[2] if match else ""


def _find(unit: str, end: str) -> Scale | None:
    """Look a unit up, first as written, then without regard to capitals."""
    table = {_fold(name): scale for name, scale in UNITS.get(end, {}).items()}
    exact = UNITS.get(end, {}).get(unit)
    return exact if exact is not None else table.get(_fold(unit))


def _fold(unit: str) -> str:
    """Drop capitals and the two code points of the micro sign."""
    return unicodedata.normalize("NFKC", unit).casefold()


def show(value: float, name: str, system: System = "metric") -> str:
    """Return a value as text for people: three figures and a unit.

    Digits before the decimal point are never rounded away, because a scale shows them.

    Source: Common practice, no source.
    """
    end = suffix(name)
    if end == "_s":
        return _show_time(value)
    if end == "_c" and system == "us":
        return f"{figures(value * 1.8 + 32)} °F"
    if end == "_m" and system == "us" and abs(value) < 3 * FOOT_M:
        return f"{figures(value * float(12 / FOOT_M))} in"
    shown = (US if system == "us" else METRIC).get(end)
    return f"{figures(value * shown.factor)} {shown.unit}" if shown else figures(value)


def figures(value: float) -> str:
    """Return a number with three figures, whole numbers in full, with a real minus sign.

    Source: Common practice, no source.
    """
    if value == 0:
        return "0"
    if not 1e-6 <= abs(value) < 1e15:
        return f"{value:.3g}"
    places = max(0, 2 - math.floor(math.log10(abs(value))))
    text = f"{abs(value):.{places}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return f"\N{MINUS SIGN}{text}" if value < 0 and text.strip("0.") else text


def _show_time(value: float) -> str:
    """Show seconds as s, as min and s, or as h and min."""
    if abs(value) < 59.5:
        return f"{figures(value)} s"
    sign = "\N{MINUS SIGN}" if value < 0 else ""
    seconds = round(abs(value))
    if seconds < 3600:
        return f"{sign}{seconds // 60} min" + (f" {seconds % 60} s" if seconds % 60 else "")
    minutes = round(abs(value) / 60)
    return f"{sign}{minutes // 60} h" + (f" {minutes % 60} min" if minutes % 60 else "")
