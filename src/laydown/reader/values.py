"""Reading figures: a number, a text with a unit, or a table with spread and source."""

import unicodedata
from collections.abc import Callable
from datetime import date, time
from difflib import get_close_matches
from itertools import pairwise
from typing import Any

from pydantic import ValidationInfo
from pydantic_core import PydanticCustomError

from laydown.schema.figure import Figure, Within, Words
from laydown.units import UnitError, figures, house_unit, parse

Fault = tuple[str, str, str]
"""Place below the value (may be empty), what is wrong, and how to mend it."""

FAULT = "laydown_fault"
"""Type of the errors that carry house wording."""

LONGEST_TEXT = 2000
"""Characters of a text whose field names no limit; assumption, one screenful."""


def faulty(*faults: Fault) -> PydanticCustomError:
    """Return an error that carries one or several faults of a value.

    Parameters
    ----------
    faults
        At least one.

    Returns
    -------
    The error to raise.
    """
    return PydanticCustomError(FAULT, "faulty value", {"faults": faults})


def number(name: str, bound: Within | None) -> Callable[[object], float]:
    """Return a reader of numbers for one name.

    Parameters
    ----------
    name
        Its suffix states the unit.
    bound
        Range it may lie in.

    Returns
    -------
    Function from raw value to the house unit; raises a fault.
    """

    def read(value: object) -> float:
        fault = number_fault(value, name, bound)
        if isinstance(fault, float):
            return fault
        raise faulty(fault)

    return read


def number_fault(value: object, name: str, bound: Within | None) -> float | Fault:
    """Return a number, or what is wrong with it.

    Parameters
    ----------
    value
        Raw value.
    name
        Its suffix states the unit.
    bound
        Range it may lie in.

    Returns
    -------
    Value in the house unit, or a fault.
    """
    try:
        read = parse(value, name)
    except UnitError as error:
        return ("", error.what, error.hint)
    if bound is None or bound.low <= read <= bound.high:
        return read
    unit = house_unit(name)
    unit = f" {unit}" if unit else ""
    given = f"'{value}' is {figures(read)}{unit}," if isinstance(value, str) else f"{figures(read)} is"
    return (
        "",
        f"{given} outside {figures(bound.low)} to {figures(bound.high)}{unit}",
        bound.hint or f"write a value from {figures(bound.low)} to {figures(bound.high)}{unit}",
    )


def integer(name: str, bound: Within | None) -> Callable[[object], int]:
    """Return a reader of whole numbers for one name.

    Parameters
    ----------
    name
        Name of the field.
    bound
        Range it may lie in.

    Returns
    -------
    Function from raw value to a whole number; raises a fault.
    """
    read_number = number(name, bound)

    def read(value: object) -> int:
        if isinstance(value, int) and not isinstance(value, bool):
            read_number(value)
            return value
        found = read_number(value)
        if not found.is_integer():
            raise faulty(("", f"{figures(found)} is not a whole number", "write 1, 2, ..."))
        return int(found)

    return read


def text(bound: Words | None) -> Callable[[object], str]:
    """Return a reader of texts.

    Parameters
    ----------
    bound
        Longest text allowed.

    Returns
    -------
    Function from raw value to text; a date becomes ISO 8601; raises a fault.
    """
    longest = bound.longest if bound else LONGEST_TEXT

    def read(value: object) -> str:
        if isinstance(value, date | time):
            return value.isoformat()
        if not isinstance(value, str):
            raise faulty(("", "is not a text", 'write it between quotes, such as "left side"'))
        if len(value) > longest:
            raise faulty(("", f"has {len(value)} characters, {longest} are allowed", "shorten it"))
        odd = next((letter for letter in value if unicodedata.category(letter) in {"Cc", "Cs"}), None)
        if odd is not None:
            raise faulty(("", f"holds the control character U+{ord(odd):04X}", "take it out"))
        return value

    return read


def yes_no(value: object) -> bool:
    """Read a yes or no.

    Parameters
    ----------
    value
        Raw value.

    Returns
    -------
    The same, if it is true or false; anything else is a fault.
    """
    if isinstance(value, bool):
        return value
    raise faulty(("", f"{short(value)} is neither true nor false", "write true or false, without quotes"))


def word(allowed: tuple[object, ...]) -> Callable[[object], object]:
    """Return a reader of a word from a list.

    Parameters
    ----------
    allowed
        The words.

    Returns
    -------
    Function from raw value to the word; raises a fault with the nearest word.
    """
    names = [str(item) for item in allowed]

    def read(value: object) -> object:
        if isinstance(value, str) and value in names:
            return value
        near = nearest(value, names) if isinstance(value, str) else ""
        hint = f"did you mean '{near}'? " if near else ""
        raise faulty(
            ("", f"{short(value)} is not one of the words known here", hint + "write " + choices(names))
        )

    return read


def nearest(given: str, names: list[str], cutoff: float = 0.6) -> str:
    """Return the name a mistyped one was meant to be.

    Parameters
    ----------
    given
        As typed.
    names
        What is known.
    cutoff
        How alike they must be, 0 to 1.

    Returns
    -------
    The nearest name, or an empty text.
    """
    folded = {name.casefold().replace(" ", "_"): name for name in names}
    near = get_close_matches(given[:80].casefold().replace(" ", "_"), folded, n=1, cutoff=cutoff)
    return folded[near[0]] if near else ""


def choices(names: list[str]) -> str:
    """Return words as a person lists them.

    Parameters
    ----------
    names
        At least one.

    Returns
    -------
    Text such as ``'left' or 'right'``.
    """
    quoted = [f"'{name}'" for name in names]
    return quoted[0] if len(quoted) == 1 else ", ".join(quoted[:-1]) + f" or {quoted[-1]}"


def short(value: object) -> str:
    """Return a raw value as it can be printed in a message.

    Parameters
    ----------
    value
        Anything read from a file.

    Returns
    -------
    At most 40 printable characters.
    """
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, dict | list):
        return "a table" if isinstance(value, dict) else "a list"
    if isinstance(value, int) and abs(value) > 10**15:
        return "a huge number"
    shown = ascii(value) if isinstance(value, str) and not value.isprintable() else repr(value)
    return shown if len(shown) <= 40 else shown[:38] + ".."


def figure(name: str, bound: Within | None) -> Callable[[object, ValidationInfo], Figure]:
    """Return a reader of figures: a number, a text with a unit, or a table with spread and source.

    Parameters
    ----------
    name
        Its suffix states the unit.
    bound
        Range for value, low and high.

    Returns
    -------
    Function from raw value to Figure; raises all faults of a table at once.
    """
    plain = number(name, bound)

    def read(value: object, info: ValidationInfo) -> Figure:
        source = (info.context or {}).get("source", "not given")
        if not isinstance(value, dict):
            return Figure(plain(value), None, None, source)
        return _figure_table(value, name, bound, source)

    return read


def _figure_table(table: dict[Any, Any], name: str, bound: Within | None, source: str) -> Figure:
    """Read {value, low, high, source} and report everything that is wrong with it."""
    numbers: dict[str, float] = {}
    faults: list[Fault] = []
    for key, raw in table.items():
        if key in {"value", "low", "high"}:
            if raw is None and key != "value":
                continue
            found = number_fault(raw, name, bound)
            if isinstance(found, float):
                numbers[key] = found
            else:
                faults.append((f".{key}", found[1], found[2]))
        elif key == "source":
            source, more = _source(raw)
            faults += more
        else:
            near = nearest(str(key), ["value", "low", "high", "source"])
            faults.append(
                (f".{short(key).strip(chr(39))}", "unknown name", _meant(near, "value, low, high, source"))
            )
    if "value" not in table:
        faults.append((".value", "is missing", "write { value = 20, low = 19, high = 21 }"))
    faults += _order(numbers)
    if faults:
        raise faulty(*faults)
    return Figure(numbers["value"], numbers.get("low"), numbers.get("high"), source)


def _source(raw: object) -> tuple[str, list[Fault]]:
    """Read the source of a figure."""
    try:
        return text(Words(200))(raw), []
    except PydanticCustomError as error:
        _, what, hint = (error.context or {})["faults"][0]
        return "", [(".source", what, hint)]


def _order(numbers: dict[str, float]) -> list[Fault]:
    """Check low <= value <= high as far as they are given."""
    keys = [key for key in ("low", "value", "high") if key in numbers]
    return [
        (
            "",
            f"{first} {figures(numbers[first])} is above {second} {figures(numbers[second])}",
            "low <= value <= high",
        )
        for first, second in pairwise(keys)
        if numbers[first] > numbers[second]
    ]


def _meant(near: str, known: str) -> str:
    return f"did you mean {near}?" if near else f"known here: {known}"
