"""What no database of the two could keep is refused before it is tried, in the same words for both."""

from collections.abc import Iterable
from dataclasses import fields
from typing import Any

from laydown.schema.problem import InputError, Problem

LONGEST_WORD = 200
"""Characters of an id, name or other short word; assumption, far below the size of a key in either database."""

LONG = frozenset({"text", "password_hash"})
"""Fields that may be longer."""

_NEEDED = frozenset({"id", "job_id", "plan_id", "session_id", "tap_id", "key", "format", "saved_at"})


def check_sound(place: str, nouns: Iterable[Any]) -> None:
    """Check every text of what is to be kept.

    Parameters
    ----------
    place
        Name of the book in messages.
    nouns
        Dataclasses whose texts are columns.

    Raises
    ------
    InputError
        Every text that is empty and must not be, too long, or holds a character that no database keeps.
    """
    problems = [
        Problem(item.name, *fault)
        for noun in nouns
        for item in fields(noun)
        if isinstance(value := getattr(noun, item.name), str) and (fault := _fault(item.name, value))
    ]
    if problems:
        raise InputError(place, tuple(problems))


def _fault(name: str, value: str) -> tuple[str, str] | None:
    """Return what is wrong with a text and how to mend it."""
    if not value and name in _NEEDED:
        return "is empty", "give it at least one character"
    if len(value) > LONGEST_WORD and name not in LONG:
        return f"has {len(value)} characters", f"at most {LONGEST_WORD} are kept"
    if "\0" in value or any("\ud800" <= letter <= "\udfff" for letter in value):
        return "holds a character that is no text", "take out zero characters and halves of a pair"
    return None
