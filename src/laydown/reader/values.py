"""Reading figures: a number, a text with a unit, or a table with spread and source."""

import unicodedata
from collections.abc import Callable
from datetime import date, time
from difflib import get_close_matches
from itertools import pairwise
from typing import Any

from pydantic import ValidationInfo
from pydantic_core import PydanticCustomError

from laydown.schema.figure import Figure, TextLength, Within
from laydown.schema.message import Message, Name, Quantity, Range, Said, Saying, message
from laydown.units import UnitError, figures, house_unit, parse, suffix

ValueProblem = tuple[str, Saying, Saying]
"""Place below the value (may be empty), what is wrong, and how to mend it."""

FAULT = "laydown_fault"
"""Type of the errors that carry house wording."""

_HUGE = 10**15

LONGEST_TEXT = 2000
"""Characters of a text whose field names no limit; assumption, one screenful."""


def faulty(*faults: ValueProblem) -> PydanticCustomError:
    """Return an error that carries one or several faults of a value."""
    return PydanticCustomError(FAULT, "faulty value", {"faults": faults})


def number(name: str, bound: Within | None) -> Callable[[object], float]:
    """Return a reader of numbers for one name."""

    def read(value: object) -> float:
        fault = number_fault(value, name, bound)
        if isinstance(fault, float):
            return fault
        raise faulty(fault)

    return read


def number_fault(value: object, name: str, bound: Within | None) -> float | ValueProblem:
    """Return a number, or what is wrong with it."""
    try:
        read = parse(value, name)
    except UnitError as error:
        return ("", error.what, error.hint)
    if bound is None or bound.low <= read <= bound.high:
        return read
    limits = _limits(bound, name)
    if isinstance(value, str):
        what = message("typed-outside", typed=Name(value), read=_in_house_unit(read, name), limits=limits)
    else:
        what = message("outside", given=Name(figures(read)), limits=limits)
    return "", what, bound.hint or message("write-within", limits=limits)


def _limits(bound: Within, name: str) -> Message:
    """Say the ends of a range, in the unit in which a bare number of the name is read."""
    match house_unit(name):
        case "s":
            return message("the-limits.seconds", limits_s=Range(bound.low, bound.high))
        case "Pa":
            return message("the-limits.pascal", limits=Range(bound.low, bound.high))
        case "":
            return message("the-limits", limits=Range(bound.low, bound.high))
    return message("the-limits", limits=Range(bound.low, bound.high, suffix(name)))


def _in_house_unit(value: float, name: str) -> Message:
    """Say a number in the unit in which a bare number of the name is read."""
    match house_unit(name):
        case "s":
            return message("the-quantity.seconds", quantity_s=value)
        case "Pa":
            return message("the-quantity.pascal", quantity=value)
        case "":
            return message("the-quantity", quantity=value)
    return message("the-quantity", quantity=Quantity(value, suffix(name)))


def integer(name: str, bound: Within | None) -> Callable[[object], int]:
    """Return a reader of whole numbers for one name."""
    read_number = number(name, bound)

    def read(value: object) -> int:
        if isinstance(value, int) and not isinstance(value, bool):
            read_number(value)
            return value
        found = read_number(value)
        if not found.is_integer():
            raise faulty(("", message("not-whole", given=found), message("write-whole")))
        return int(found)

    return read


def text(bound: TextLength | None) -> Callable[[object], str]:
    """Return a reader of texts."""
    longest = bound.longest if bound else LONGEST_TEXT

    def read(value: object) -> str:
        if isinstance(value, date | time):
            return value.isoformat()
        if not isinstance(value, str):
            raise faulty(("", message("not-a-text"), message("write-between-quotes")))
        if len(value) > longest:
            what = message("too-many-characters", characters=len(value), longest=longest)
            raise faulty(("", what, message("shorten-it")))
        odd = next((letter for letter in value if unicodedata.category(letter) in {"Cc", "Cs"}), None)
        if odd is not None:
            what = message("control-character", character=Name(f"U+{ord(odd):04X}"))
            raise faulty(("", what, message("take-it-out")))
        return value

    return read


def yes_no(value: object) -> bool:
    """Read a yes or no."""
    if isinstance(value, bool):
        return value
    raise faulty(("", message("neither-true-nor-false", given=shown(value)), message("write-true-or-false")))


def word(allowed: tuple[object, ...]) -> Callable[[object], object]:
    """Return a reader of a word from a list."""
    names = [str(item) for item in allowed]

    def read(value: object) -> object:
        if isinstance(value, str) and value in names:
            return value
        near = nearest(value, names) if isinstance(value, str) else ""
        words = quoted(names)
        hint = (
            message("did-you-mean-one-of", near=Name(near), words=words)
            if near
            else message("write-one-of", words=words)
        )
        raise faulty(("", message("not-a-known-word", given=shown(value)), hint))

    return read


def nearest(given: str, names: list[str], cutoff: float = 0.6) -> str:
    """Return the name a mistyped one was meant to be."""
    folded = {name.casefold().replace(" ", "_"): name for name in names}
    near = get_close_matches(given[:80].casefold().replace(" ", "_"), folded, n=1, cutoff=cutoff)
    return folded[near[0]] if near else ""


def quoted(names: list[str]) -> tuple[Name, ...]:
    """Return words between quotes, for a list of them."""
    return tuple(Name(f"'{name}'") for name in names)


def shown(value: object) -> Said:
    """Return a raw value as a figure of a message."""
    if isinstance(value, dict | list):
        return message("a-table" if isinstance(value, dict) else "a-list")
    if isinstance(value, int) and abs(value) > _HUGE:
        return message("a-huge-number")
    return Name(short(value))


def short(value: object) -> str:
    """Return a raw value as it can be printed in a message."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, dict | list):
        return "a table" if isinstance(value, dict) else "a list"
    if isinstance(value, int) and abs(value) > _HUGE:
        return "a huge number"
    shown = ascii(value) if isinstance(value, str) and not value.isprintable() else repr(value)
    return shown if len(shown) <= 40 else shown[:38] + ".."


def figure(name: str, bound: Within | None) -> Callable[[object, ValidationInfo], Figure]:
    """Return a reader of figures: a number, a text with a unit, or a table with spread and source."""
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
    faults: list[ValueProblem] = []
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
            place = f".{short(key).strip(chr(39))}"
            faults.append((place, message("unknown-name"), meant(near, ["value", "low", "high", "source"])))
    if "value" not in table:
        faults.append((".value", message("value-is-missing"), message("write-a-figure")))
    faults += _order(numbers)
    if faults:
        raise faulty(*faults)
    return Figure(numbers["value"], numbers.get("low"), numbers.get("high"), source)


def _source(raw: object) -> tuple[str, list[ValueProblem]]:
    """Read the source of a figure."""
    try:
        return text(TextLength(200))(raw), []
    except PydanticCustomError as error:
        _, what, hint = (error.context or {})["faults"][0]
        return "", [(".source", what, hint)]


def _order(numbers: dict[str, float]) -> list[ValueProblem]:
    """Check low <= value <= high as far as they are given."""
    keys = [key for key in ("low", "value", "high") if key in numbers]
    return [
        (
            "",
            message(
                "wrong-order",
                first=Name(first),
                first_value=numbers[first],
                second=Name(second),
                second_value=numbers[second],
            ),
            message("right-order"),
        )
        for first, second in pairwise(keys)
        if numbers[first] > numbers[second]
    ]


def meant(near: str, known: list[str]) -> Message:
    """Say which name an unknown one was meant to be, or which there are."""
    if near:
        return message("did-you-mean", near=Name(near))
    return message("known-here", known=tuple(map(Name, known)))
