"""A fault in what the user gave: its place, what is wrong and how to mend it."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from laydown.schema.message import Saying


@dataclass(frozen=True, slots=True)
class Problem:
    """One fault.

    Attributes
    ----------
    where
        Dotted place in the file, lists counted from 1, such as "panel[2].state".
    what
        What is wrong.
    hint
        How to mend it.
    """

    where: str
    what: Saying
    hint: Saying = ""


class InputError(Exception):
    """All faults of one file or call at once.

    Attributes
    ----------
    file
        The file they stand in; empty for a call.
    problems
        Every fault found, in the order of the file.
    """

    def __init__(self, file: str, problems: tuple[Problem, ...]) -> None:
        super().__init__(f"{file}: {len(problems)} problem(s)")
        self.file = file
        self.problems = problems


@contextmanager
def gathered(problems: list[Problem]) -> Iterator[None]:
    """Go on behind a refusal, its problems in the list, so that a user learns all of them at once."""
    try:
        yield
    except InputError as error:
        problems += error.problems
