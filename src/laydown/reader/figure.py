"""Reading figures: a number, a text with a unit, or a table with spread and source."""

from collections.abc import Callable
from itertools import pairwise
from typing import Any

from pydantic import ValidationInfo
from pydantic_core import PydanticCustomError

from laydown.reader.leaf import Fault, faulty, nearest, number, number_fault, short, text
from laydown.schema.bounds import Within, Words
from laydown.schema.figure import Figure
from laydown.units import figures


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
