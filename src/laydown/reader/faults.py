"""House wording for what is wrong with a file."""

from typing import Any, get_args

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from laydown.reader import values as leaf
from laydown.reader.structure import field_types, noun_at, unwrap
from laydown.schema.message import Message, Name, message
from laydown.schema.problem import Problem
from laydown.units import examples

KeyPath = tuple[str | int, ...]
"""Keys and list indices from the top of a document."""

MOST_PROBLEMS = 200
"""Problems listed at most; assumption, nobody mends more in one go."""


def problems_of(error: ValidationError, noun: type) -> list[tuple[KeyPath, Problem]]:
    """Return every fault of a document in house wording."""
    found: list[tuple[KeyPath, Problem]] = []
    for item in error.errors(include_url=False):
        place: KeyPath = item["loc"]
        if item["type"] == leaf.FAULT:
            found += [(place, Problem(at(place) + below, *said)) for below, *said in item["ctx"]["faults"]]
        else:
            found.append((place, Problem(at(place) or "file", *_worded(item, noun))))
    return found


def at(place: KeyPath) -> str:
    """Return a place as people read it."""
    text = ""
    for part in place:
        if isinstance(part, int):
            text += f"[{part + 1}]"
        else:
            shown = part if part.isprintable() and len(part) <= 60 else leaf.short(part)
            text += f".{shown}" if text else shown
    return text


def order(found: list[tuple[KeyPath, Problem]], raw: object) -> tuple[Problem, ...]:
    """Put problems into the order of the file; what is missing stands after what is there."""
    problems = [problem for _, problem in sorted(found, key=lambda item: _rank(item[0], raw))]
    if len(problems) > MOST_PROBLEMS:
        further = message("has-further-problems", further=len(problems) - MOST_PROBLEMS)
        problems = [*problems[:MOST_PROBLEMS], Problem("file", further, message("mend-these-first"))]
    return tuple(problems)


def _rank(place: KeyPath, raw: object) -> tuple[int, ...]:
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


def _worded(item: ErrorDetails, noun: type) -> tuple[Message, Message]:
    """Return what is wrong and how to mend it for the errors that pydantic itself finds."""
    place: KeyPath = item["loc"]
    match item["type"]:
        case "missing":
            return message("value-is-missing"), _missing(place, noun)
        case "extra_forbidden":
            return message("unknown-name"), _unknown(place, noun)
        case "model_type" | "model_attributes_type" | "dict_type":
            what = message("where-a-table-belongs", given=leaf.shown(item["input"]))
            return what, message("write-the-head-of-a-table", place=Name(at(place)))
        case "tuple_type" | "list_type":
            what = message("where-a-list-belongs", given=leaf.shown(item["input"]))
            return what, message("write-a-list")
        case _:
            return message("in-other-words", said=Name(item["msg"].lower())), message("see-the-description")


def _missing(place: KeyPath, noun: type) -> Message:
    """Return how to write a field that is missing."""
    inside = noun_at(noun, place[:-1])
    name = str(place[-1])
    if inside is None:
        return message("add-it")
    kind = unwrap(field_types(inside)[name]).type
    words = get_args(kind)
    if words and all(isinstance(item, str) for item in words):
        first, others = Name(words[0]), leaf.quoted(list(words[1:]))
        if others:
            return message("add-a-word-or-another", name=Name(name), word=first, others=others)
        return message("add-a-word", name=Name(name), word=first)
    if kind is float or getattr(kind, "__name__", "") == "Figure":
        return message("add-a-value", name=Name(name), examples=examples(name))
    table = noun_at(noun, place)
    if table is not None:
        needed = tuple(map(Name, field_types(table)))
        return message("add-a-table", place=Name(at(place)), needed=needed)
    return message("add-a-name", name=Name(name))


def _unknown(place: KeyPath, noun: type) -> Message:
    """Return what an unknown key may have been meant to be."""
    inside = noun_at(noun, place[:-1])
    name = str(place[-1])
    if inside is None:
        return message("take-it-out")
    known = list(field_types(inside))
    near = leaf.nearest(name, known)
    if near:
        return leaf.meant(near, known)
    for table in field_types(noun):
        other = noun_at(noun, (table,)) or noun_at(noun, (table, 0))
        if other is not None and other is not inside and name in field_types(other):
            return message("belongs-under", table=Name(table))
    return leaf.meant("", known)


def first_line(noun: type) -> str:
    """Return the format a noun is read in."""
    words: tuple[Any, ...] = get_args(unwrap(field_types(noun).get("format", str)).type)
    return str(words[0]) if words else ""
