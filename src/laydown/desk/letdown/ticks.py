"""What a painter says of the let-down panel, turned into the words of the job file."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import get_args

from laydown.reader.values import nearest
from laydown.schema.choices import FieldJudgement
from laydown.schema.problem import Problem

WORDS: tuple[FieldJudgement, ...] = get_args(FieldJudgement)
"""Judgements of a field; definition."""

USUAL_FIELDS = (0.0, 1.0, 2.0, 3.0, 4.0, 5.0)
"""Coats of the fields of a panel that nobody described; common practice, no source."""

MOST_FIELDS = 12
"""Fields of a panel; assumption."""

MOST_COATS = 8.0
"""Coats of a field; as the job file allows."""

_BETWEEN = re.compile(r"\s*between\s+(\S+)\s+and\s+(\S+)\s*", re.IGNORECASE)
_RANGE = re.compile(r"\s*(\d)\s*(?:-|to)\s*(\d)\s*", re.IGNORECASE)
_PARTS = re.compile(r"[\s,;]+")


@dataclass(frozen=True, slots=True)
class Spoken:
    """Fields and judgements as typed; None where nothing was said.

    Attributes
    ----------
    coats
        Coats of the fields.
    face, flop
        Judgements in one of the three ways of saying them.
    """

    coats: str | None = None
    face: str | None = None
    flop: str | None = None


@dataclass(frozen=True, slots=True)
class Heard:
    """Fields and judgements as the job file holds them.

    Attributes
    ----------
    coats
        Coats of the fields; empty where nothing was judged.
    face, flop
        One judgement for each field; empty where nothing was said.
    """

    coats: tuple[float, ...] = ()
    face: tuple[FieldJudgement, ...] = ()
    flop: tuple[FieldJudgement, ...] = ()


def hear(spoken: Spoken, coats: Sequence[float]) -> tuple[Heard, tuple[Problem, ...]]:
    """Turn what was said of a panel into judgements.

    Parameters
    ----------
    spoken
        As typed.
    coats
        Fields that the job names already; may be empty.

    Returns
    -------
    What was heard, and everything that could not be understood.
    """
    problems: list[Problem] = []
    given = _fields(spoken.coats, problems) if spoken.coats is not None else ()
    said = [text for text in (spoken.face, spoken.flop) if text is not None]
    counts = [len(_split(text)) for text in said if _is_list(text)]
    usual = tuple(float(number) for number in range(min(counts))) if counts else USUAL_FIELDS
    fields = given or tuple(coats) or usual
    heard = {
        name: _judged(f"--{name}", text, fields, problems)
        for name, text in (("face", spoken.face), ("flop", spoken.flop))
        if text is not None
    }
    keep = fields if said or spoken.coats is not None else ()
    return Heard(keep, heard.get("face", ()), heard.get("flop", ())), tuple(dict.fromkeys(problems))


def fields_of(text: str) -> tuple[tuple[float, ...], tuple[Problem, ...]]:
    """Read the fields of a panel.

    Parameters
    ----------
    text
        Such as "0-5", "0,2,4" or "0 1 2 2.5 3".

    Returns
    -------
    Coats of each field, rising, and what is wrong with them.
    """
    problems: list[Problem] = []
    return _fields(text, problems, "--fields"), tuple(problems)


def _fields(text: str, problems: list[Problem], where: str = "--coats") -> tuple[float, ...]:
    """Read the fields; on a fault, none."""
    span = _RANGE.fullmatch(text)
    if span:
        low, high = int(span[1]), int(span[2])
        if low < high:
            return tuple(float(number) for number in range(low, high + 1))
        problems.append(Problem(where, f"'{text.strip()}' does not rise", "write 0-5 or 1-6"))
        return ()
    found: list[float] = []
    for part in _split(text):
        number = _number(part)
        if number is None or not 0 <= number <= MOST_COATS:
            hint = "write coats from 0 to 8, such as '0 1 2 3 4 5' or 0-5"
            problems.append(Problem(where, f"'{part[:40]}' is no number of coats", hint))
            continue
        found.append(number)
    if len(problems) == 0 and not 0 < len(found) <= MOST_FIELDS:
        problems.append(
            Problem(where, f"names {len(found)} fields", f"a panel has 1 to {MOST_FIELDS} fields")
        )
    if found != sorted(set(found)):
        problems.append(
            Problem(where, "does not rise from field to field", "name the fields in rising coats")
        )
    return () if problems else tuple(found)


def _judged(
    where: str, text: str, coats: tuple[float, ...], problems: list[Problem]
) -> tuple[FieldJudgement, ...]:
    """Read the judgements of one geometry."""
    between = _BETWEEN.fullmatch(text)
    if between:
        return _between(where, (between[1], between[2]), coats, problems)
    parts = _split(text)
    if len(parts) == 1 and _number(parts[0]) is not None:
        return _matching(where, parts[0], coats, problems)
    judged: list[FieldJudgement] = []
    for number, part in enumerate(parts, start=1):
        word = part.casefold()
        if word in WORDS:
            judged.append(word)
            continue
        near = nearest(part, list(WORDS))
        hint = f"did you mean '{near}'?" if near else "write few, match or many; or 2; or 'between 2 and 3'"
        problems.append(Problem(where, f"word {number}, '{part[:40]}', is no judgement", hint))
    if len(parts) != len(coats):
        what = f"judges {len(parts)} fields, the panel has {len(coats)} ({_listed(coats)})"
        problems.append(Problem(where, what, "one word for each field; --coats names other fields"))
    return tuple(judged)


def _between(
    where: str, ends: tuple[str, str], coats: tuple[float, ...], problems: list[Problem]
) -> tuple[FieldJudgement, ...]:
    """Fields up to the first are few, from the second on many."""
    low, high = (_number(part) for part in ends)
    if low is None or high is None or low >= high:
        problems.append(
            Problem(where, f"'between {ends[0][:20]} and {ends[1][:20]}' names no two fields", "write 'between 2 and 3'")
        )  # fmt: skip
        return ()
    problems += [_no_field(where, end, coats) for end in (low, high) if end not in coats]
    inside = [field for field in coats if low < field < high]
    if inside:
        what = f"field {_listed(tuple(inside))} lies between {low:g} and {high:g}"
        problems.append(Problem(where, what, "judge every field: few, match or many"))
    return tuple("few" if field <= low else "many" for field in coats)


def _matching(
    where: str, text: str, coats: tuple[float, ...], problems: list[Problem]
) -> tuple[FieldJudgement, ...]:
    """Fields below are few, the field itself matches, fields above are many."""
    number = _number(text)
    if number is None or number not in coats:
        problems.append(_no_field(where, number if number is not None else text, coats))
        return ()
    return tuple("few" if field < number else "match" if field == number else "many" for field in coats)


def _no_field(where: str, field: float | str, coats: tuple[float, ...]) -> Problem:
    """Say that the panel has no such field."""
    shown = field if isinstance(field, str) else f"{field:g}"
    return Problem(where, f"the panel has no field {shown}", f"its fields are {_listed(coats)}; see --coats")


def _is_list(text: str) -> bool:
    """Whether a text judges field by field."""
    parts = _split(text)
    return _BETWEEN.fullmatch(text) is None and not (len(parts) == 1 and _number(parts[0]) is not None)


def _split(text: str) -> list[str]:
    """Part a list at blanks, commas and semicolons."""
    return [part for part in _PARTS.split(text.strip()) if part]


def _number(text: str) -> float | None:
    """Read a plain number."""
    return float(text) if re.fullmatch(r"\d{1,2}(\.\d{1,2})?", text) else None


def _listed(coats: tuple[float, ...]) -> str:
    """Name fields."""
    return ", ".join(f"{field:g}" for field in coats)
