"""What is printed where: the document on stdout, all talk on stderr."""

import json
import sys
from collections.abc import Iterable
from time import monotonic
from types import TracebackType
from typing import Any, Self

import click

from laydown.schema.problem import InputError, Problem

PATIENCE_S = 1.0
"""Time after which progress is shown [s]; common practice, no source."""


def say(text: str) -> None:
    """Print a line of talk.

    Parameters
    ----------
    text
        Without a line break at its end.
    """
    click.echo(text, err=True)


def write_out(document: object) -> None:
    """Print exactly one JSON document on stdout.

    Parameters
    ----------
    document
        JSON text, or plain tables and lists.
    """
    text = (
        document if isinstance(document, str) else json.dumps(document, ensure_ascii=False, indent=1) + "\n"
    )
    click.echo(text.encode(), nl=False)


def say_problems(error: InputError) -> None:
    """Print every problem with its place and hint.

    Parameters
    ----------
    error
        Problems of a file, or of the call if it names no file.
    """
    count = len(error.problems)
    say(f"cannot use {error.file or 'this call'}: {count} problem{'s' if count > 1 else ''}")
    for problem in error.problems:
        say(f"  {problem_line(problem)}")


def problem_line(problem: Problem) -> str:
    """Return a problem as one line.

    Parameters
    ----------
    problem
        The problem.

    Returns
    -------
    Place, what is wrong, and the hint in brackets.
    """
    return f"{problem.where}: {problem.what}" + (f" ({problem.hint})" if problem.hint else "")


def problem_document(found: Iterable[tuple[str, tuple[Problem, ...]]]) -> dict[str, Any]:
    """Return problems as a document.

    Parameters
    ----------
    found
        Files and their problems.

    Returns
    -------
    Plain tables and lists.
    """
    return {
        "format": "laydown-problems/1",
        "files": [
            {"file": file, "problems": [{"where": p.where, "what": p.what, "hint": p.hint} for p in problems]}
            for file, problems in found
        ],
    }


class Progress:
    """Shows on a terminal how far a long task is, and nothing anywhere else."""

    def __init__(self) -> None:
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

    def __call__(self, label: str, share: float) -> None:
        """Tell what is being done and how far it is, 0 to 1."""
        if not sys.stderr.isatty() or monotonic() - self._since < PATIENCE_S:
            return
        if self._bar is None:
            self._start()
        self._bar.update(self._task, description=label, completed=share)

    def _start(self) -> None:
        from rich.console import Console
        from rich.progress import Progress as Bar

        self._bar = Bar(console=Console(stderr=True), transient=True)
        self._task = self._bar.add_task("planning", total=1.0)
        self._bar.start()
