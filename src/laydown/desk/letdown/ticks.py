"""What a painter says of the let-down panel, turned into the words of the job file."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import get_args

from laydown.reader.values import nearest
from laydown.schema.choices import FieldJudgement
from laydown.schema.message import Name, message
from laydown.schema.problem import InputError, Problem

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
    """Fields and judgements as typed; None where nothing was said."""

    coats: str | None = None
    face: str | None = None
    flop: str | None = None


@dataclass(frozen=True, slots=True)
class Heard:
    """Fields and judgements as the job file holds them."""

    coats: tuple[float, ...] = ()
    face: tuple[FieldJudgement, ...] = ()
    flop: tuple[FieldJudgement, ...] = ()


def hear(spoken: Spoken, coats: Sequence[float]) -> Heard:
    """Turn what was said of a panel into judgements."""
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
    if problems:
        raise InputError("", tuple(dict.fromkeys(problems)))
    return Heard(keep, heard.get("face", ()), heard.get("flop", ()))


def fields_of(text: str, job: str) -> tuple[float, ...]:
    """Read the fields of the panel of a job."""
    problems: list[Problem] = []
    found = _fields(text, problems, "--steps")
    if problems:
        raise InputError(job, tuple(problems))
    return found


def _fields(text: str, problems: list[Problem], where: str = "--step-coats") -> tuple[float, ...]:
    """Read the fields; on a fault, none."""
    span = _RANGE.fullmatch(text)
    if span:
        low, high = int(span[1]), int(span[2])
        if low < high:
            return tuple(float(number) for number in range(low, high + 1))
        problems.append(
            Problem(where, message("span-falls", typed=Name(text.strip())), message("span-falls.hint"))
        )
        return ()
    found: list[float] = []
    for part in _split(text):
        number = _number(part)
        if number is None or not 0 <= number <= MOST_COATS:
            what = message("no-number-of-coats", typed=Name(part[:40]))
            problems.append(Problem(where, what, message("no-number-of-coats.hint")))
            continue
        found.append(number)
    if len(problems) == 0 and not 0 < len(found) <= MOST_FIELDS:
        hint = message("fields-of-a-panel", most=MOST_FIELDS)
        problems.append(Problem(where, message("names-fields", count=len(found)), hint))
    if found != sorted(set(found)):
        problems.append(Problem(where, message("fields-fall"), message("fields-fall.hint")))
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
        hint = message("did-you-mean-the-word", near=Name(near)) if near else message("no-judgement.hint")
        what = message("no-judgement", number=number, typed=Name(part[:40]))
        problems.append(Problem(where, what, hint))
    if len(parts) != len(coats):
        what = message("judges-other-fields", count=len(parts), there=len(coats), fields=coats)
        problems.append(Problem(where, what, message("judges-other-fields.hint")))
    return tuple(judged)


def _between(
    where: str, ends: tuple[str, str], coats: tuple[float, ...], problems: list[Problem]
) -> tuple[FieldJudgement, ...]:
    """Fields up to the first are few, from the second on many."""
    low, high = (_number(part) for part in ends)
    if low is None or high is None or low >= high:
        what = message("between-nothing", low=Name(ends[0][:20]), high=Name(ends[1][:20]))
        problems.append(Problem(where, what, message("between-nothing.hint")))
        return ()
    problems += [_no_field(where, end, coats) for end in (low, high) if end not in coats]
    inside = [field for field in coats if low < field < high]
    if inside:
        what = message("fields-between", fields=tuple(inside), low=low, high=high)
        problems.append(Problem(where, what, message("fields-between.hint")))
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
    shown = Name(field if isinstance(field, str) else f"{field:g}")
    return Problem(where, message("no-such-field", field=shown), message("no-such-field.hint", fields=coats))


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
