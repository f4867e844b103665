"""The house units: one unit for each quantity, told by the end of a name; text is converted once, at the door."""

import math
import re
import unicodedata
from fractions import Fraction
from typing import Literal

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
    """A value that cannot be read in the unit of its name.

    Attributes
    ----------
    what
        What is wrong with it.
    hint
        How to write it, with an example.
    """

    def __init__(self, what: str, hint: str) -> None:
        super().__init__(f"{what} ({hint})")
        self.what = what
        self.hint = hint


def suffix(name: str) -> str:
    """Return which house unit a name stands for.

    Parameters
    ----------
    name
        Name of a field or an argument, such as ``flash_s``, ``rh`` or ``dry_um_per_coat``.

    Returns
    -------
    The suffix with its leading underscore, ``share`` for a share of one, or an empty text for a plain number.

    Notes
    -----
    The longest suffix wins, so that ``speed_m_s`` is a speed and not a time.

    Sources
    -------
    Definition.
    """
    if name in _SHARES or name.startswith(_SHARE_STARTS) or name.endswith(_SHARE_ENDS):
        return "" if name in {"water_percent_of", "water_basis"} else "share"
    short = name.removesuffix("_per_coat")
    return next((end for end in _SUFFIXES if short.endswith(end)), "")


def example(name: str) -> str:
    """Return how a value of this name may be written, for hints.

    Parameters
    ----------
    name
        Name of a field or an argument.

    Returns
    -------
    Words such as ``90 or '1.5 min'``.

    Sources
    -------
    Definition.
    """
    return EXAMPLES.get(suffix(name), "1.5")


def house_unit(name: str) -> str:
    """Return the unit in which a bare number of this name is read.

    Parameters
    ----------
    name
        Name of a field or an argument.

    Returns
    -------
    Text such as ``°C``; empty for shares of one and for plain numbers.

    Sources
    -------
    Definition.
    """
    end = suffix(name)
    if end in {"", "share"}:
        return ""
    return {"_pa": "Pa", "_s": "s"}.get(end) or METRIC[end].unit


def parse(value: object, name: str) -> float:
    """Convert a number or a text with a unit into the house unit of a name.

    Parameters
    ----------
    value
        A bare number in the house unit, or a text such as ``"75 °F"``, ``"1.5 min"`` or ``"55 %"``. Decimal
        point or comma; any kind of space, also between thousands.
    name
        Name whose suffix states the unit.

    Returns
    -------
    Value in the house unit.

    Raises
    ------
    UnitError
        Not a number, not finite, a unit that does not belong to the quantity, or a comma that could mean
        thousands as well as a decimal.

    Notes
    -----
    Text is converted in whole fractions and rounded once, so ``"0.6 mil"`` gives exactly 15.24 µm.

    Sources
    -------
    Definition; factors as stated beside each constant.
    """
    hint = f"write {example(name)}"
    if isinstance(value, bool):
        raise UnitError(f"{str(value).lower()} is not a number", hint)
    if isinstance(value, int | float):
        return _finite(value, hint)
    if not isinstance(value, str):
        raise UnitError(f"a {_kind(value)} is not a number", hint)
    if len(value) > _LONGEST_TEXT:
        raise UnitError("this text is too long for a number", hint)
    return _parse_text(value, name, hint)


def _parse_text(value: str, name: str, hint: str) -> float:
    """Split the text into number and unit and convert."""
    number, unit = _split(value, hint)
    if not unit:
        return _finite(float(number), hint)
    scale = _find(unit, suffix(name))
    if scale is None:
        known = ", ".join(UNITS.get(suffix(name), {}))
        raise UnitError(
            f"cannot read '{value}'", f"{hint}; units: {known}" if known else f"{hint}, without a unit"
        )
    _finite(float(number), hint)
    factor, offset = scale
    return _finite(float((Fraction(number) + offset) * factor), hint)


def _kind(value: object) -> str:
    """Say in plain words what stands where a number was expected."""
    return {"dict": "table", "list": "list", "tuple": "list", "NoneType": "null"}.get(
        type(value).__name__, "value of another kind"
    )


def _finite(value: float, hint: str) -> float:
    """Return the value as float, or refuse infinity, not-a-number and integers beyond any float."""
    try:
        number = float(value)
    except OverflowError:
        number = math.inf
    if not math.isfinite(number):
        raise UnitError("is not a finite number", hint)
    return number


def _split(value: str, hint: str) -> tuple[str, str]:
    """Split a text into its number, with a decimal point and without blanks, and its unit."""
    text = unicodedata.normalize("NFKC", value.replace("º", "°").replace("\N{MINUS SIGN}", "-"))
    text = " ".join(text.split())
    match = _NUMBER.fullmatch(text)
    number = match[1] if match else ""
    if not any(letter.isdigit() for letter in number):
        if text.lower().lstrip("+-") in {"nan", "inf", "infinity"}:
            raise UnitError("is not a finite number", hint)
        raise UnitError(f"cannot read '{value}'", hint)
    if _THOUSANDS.fullmatch(number):
        plain = number.replace(",", "")
        raise UnitError(
            f"'{value}' can be read in two ways",
            f"write {plain} or {number.replace(',', '.')}: a comma is a decimal",
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

    Parameters
    ----------
    value
        Value in the house unit of its name, finite.
    name
        Name whose suffix states the unit.
    system
        ``metric``, or ``us`` for degrees Fahrenheit, mil, inch, foot, fluid ounce and psi. Grams stay grams.

    Returns
    -------
    Text such as ``24 °C``, ``1 min 30 s``, ``55 %``; a name without a unit gives the bare number.

    Notes
    -----
    Digits before the decimal point are never rounded away, because a scale shows them.

    Sources
    -------
    Common practice, no source.
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

    Parameters
    ----------
    value
        Any finite number.

    Returns
    -------
    Text without trailing zeros; an exponent only from 1e15 up and below 1e-6.

    Sources
    -------
    Common practice, no source.
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
