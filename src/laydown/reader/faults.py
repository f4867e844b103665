"""House wording for what is wrong with a file."""

from typing import Any, get_args

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from laydown.reader import values as leaf
from laydown.reader.structure import field_types, noun_at, unwrap
from laydown.schema.problem import Problem
from laydown.units import example

Place = tuple[str | int, ...]
"""Keys and list indices from the top of a document."""

MOST_PROBLEMS = 200
"""Problems listed at most; assumption, nobody mends more in one go."""


def problems_of(error: ValidationError, noun: type) -> list[tuple[Place, Problem]]:
    """Return every fault of a document in house wording.

    Parameters
    ----------
    error
        As raised by pydantic.
    noun
        Noun of the whole document.

    Returns
    -------
    Place and problem of each fault.
    """
    found: list[tuple[Place, Problem]] = []
    for item in error.errors(include_url=False):
        place: Place = item["loc"]
        if item["type"] == leaf.FAULT:
            found += [(place, Problem(at(place) + below, *said)) for below, *said in item["ctx"]["faults"]]
        else:
            found.append((place, Problem(at(place) or "file", *_worded(item, noun))))
    return found


def at(place: Place) -> str:
    """Return a place as people read it.

    Parameters
    ----------
    place
        Keys and list indices from 0.

    Returns
    -------
    Dotted text with lists counted from 1, such as ``panel[2].state``.
    """
    text = ""
    for part in place:
        if isinstance(part, int):
            text += f"[{part + 1}]"
        else:
            shown = part if part.isprintable() and len(part) <= 60 else leaf.short(part)
            text += f".{shown}" if text else shown
    return text


def order(found: list[tuple[Place, Problem]], raw: object) -> tuple[Problem, ...]:
    """Put problems into the order of the file; what is missing stands after what is there.

    Parameters
    ----------
    found
        Place and problem of each fault.
    raw
        The document.

    Returns
    -------
    The problems, at most `MOST_PROBLEMS` and then a last one that tells how many more there are.
    """
    problems = [problem for _, problem in sorted(found, key=lambda item: _rank(item[0], raw))]
    if len(problems) > MOST_PROBLEMS:
        more = Problem("file", f"has {len(problems) - MOST_PROBLEMS} further problems", "mend these first")
        problems = [*problems[:MOST_PROBLEMS], more]
    return tuple(problems)


def _rank(place: Place, raw: object) -> tuple[int, ...]:
    """Return the position of a place in the document as it was written."""
    rank: list[int] = []
    for part in place:
        if isinstance(part, int):
            rank.append(part)
            raw = raw[part] if isinstance(raw, list) and part < len(raw) else None
        elif isinstance(raw, dict) and part in raw:
            rank.append(list(raw).index(part))
            raw = raw[part]
        else:
            rank.append(len(raw) if isinstance(raw, dict) else 0)
            raw = None
    return tuple(rank)


def _worded(item: ErrorDetails, noun: type) -> tuple[str, str]:
    """Return what is wrong and how to mend it for the errors that pydantic itself finds."""
    place: Place = item["loc"]
    match item["type"]:
        case "missing":
            return ("is missing", _missing(place, noun))
        case "extra_forbidden":
            return ("unknown name", _unknown(place, noun))
        case "model_type" | "model_attributes_type" | "dict_type":
            return (
                f"{leaf.short(item['input'])} stands where a table belongs",
                f"write [{at(place)}] above its lines",
            )
        case "tuple_type" | "list_type":
            return (
                f"{leaf.short(item['input'])} stands where a list belongs",
                "write [ ... ], or [[...]] for tables",
            )
        case _:
            return (item["msg"].lower(), "see the description of the file")


def _missing(place: Place, noun: type) -> str:
    """Return how to write a field that is missing."""
    inside = noun_at(noun, place[:-1])
    name = str(place[-1])
    if inside is None:
        return "add it"
    kind = unwrap(field_types(inside)[name]).type
    words = get_args(kind)
    if words and all(isinstance(item, str) for item in words):
        return f'add {name} = "{words[0]}"' + (f" (or {leaf.choices(list(words[1:]))})" if words[1:] else "")
    if noun_at(noun, place) is not None:
        needed = ", ".join(field_types(noun_at(noun, place) or inside))
        return f"add the table [{at(place)}] with {needed}" if kind.__name__ != "Figure" else _example(name)
    if kind is float or getattr(kind, "__name__", "") == "Figure":
        return _example(name)
    return f"add {name}"


def _example(name: str) -> str:
    from_units = example(name)
    return f"add {name} = ..., such as {from_units}"


def _unknown(place: Place, noun: type) -> str:
    """Return what an unknown key may have been meant to be."""
    inside = noun_at(noun, place[:-1])
    name = str(place[-1])
    if inside is None:
        return "take it out"
    known = list(field_types(inside))
    near = leaf.nearest(name, known)
    if near:
        return f"did you mean {near}?"
    for table in field_types(noun):
        other = noun_at(noun, (table,)) or noun_at(noun, (table, 0))
        if other is not None and other is not inside and name in field_types(other):
            return f"it belongs under [{table}]"
    return f"known here: {', '.join(known)}"


def first_line(noun: type) -> str:
    """Return the format a noun is read in.

    Parameters
    ----------
    noun
        A dataclass of the schema.

    Returns
    -------
    Text such as ``laydown-job/1``; empty for a noun without a format.
    """
    words: tuple[Any, ...] = get_args(unwrap(field_types(noun).get("format", str)).type)
    return str(words[0]) if words else ""
