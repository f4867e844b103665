"""What is printed where: the document on stdout, all talk on stderr."""

import json
import sys
from collections.abc import Iterable
from time import monotonic
from types import TracebackType
from typing import Any, Self

import click

from laydown.schema.message import Name, Saying, message
from laydown.schema.problem import InputError, Problem
from laydown.words.show import ENGLISH, Words

PATIENCE_S = 1.0
"""Time after which progress is shown [s]; common practice, no source."""


def say(text: str) -> None:
    """Print a line of talk."""
    click.echo(text, err=True)


def write_out(document: object) -> None:
    """Print exactly one JSON document on stdout."""
    text = (
        document if isinstance(document, str) else json.dumps(document, ensure_ascii=False, indent=1) + "\n"
    )
    click.echo(text.encode(), nl=False)


def say_problems(error: InputError) -> None:
    """Print every problem with its place and hint."""
    count = len(error.problems)
    told = message("cannot-use", count=count, file=Name(error.file))
    say(ENGLISH(told if error.file else message("cannot-use-call", count=count)))
    for problem in error.problems:
        say(f"  {problem_line(problem)}")


def problem_line(problem: Problem) -> str:
    """Say place, what is wrong, and the hint in brackets."""
    where, what = Name(problem.where), problem.what
    if not problem.hint:
        return ENGLISH.say("problem", where=where, what=what)
    return ENGLISH.say("problem-and-hint", where=where, what=what, hint=problem.hint)


def problem_document(found: Iterable[tuple[str, tuple[Problem, ...]]]) -> dict[str, Any]:
    """Return what is wrong with each file as plain tables and lists."""
    return {
        "format": "laydown-problems/1",
        "files": [
            {
                "file": file,
                "problems": [
                    {"where": one.where, "what": ENGLISH(one.what), "hint": ENGLISH(one.hint)}
                    for one in problems
                ],
            }
            for file, problems in found
        ],
    }


class ProgressBar:
    """Shows on a terminal how far a long task is, and nothing anywhere else."""

    def __init__(self, words: Words = ENGLISH) -> None:
        self._words = words
        self._since = monotonic()
        self._bar: Any = None
        self._task: Any = None

    def __enter__(self) -> Self:
        """Begin to count the time."""
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Take the bar away."""
        if self._bar is not None:
            self._bar.stop()

    def __call__(self, label: Saying, share: float) -> None:
        """Tell what is being done and how far it is, 0 to 1."""
        if not sys.stderr.isatty() or monotonic() - self._since < PATIENCE_S:
            return
        if self._bar is None:
            self._start()
        self._bar.update(self._task, description=self._words(label), completed=share)

    def _start(self) -> None:
        from rich.console import Console
        from rich.progress import Progress as Bar

        self._bar = Bar(console=Console(stderr=True), transient=True)
        self._task = self._bar.add_task(self._words.say("progress.planning"), total=1.0)
        self._bar.start()
