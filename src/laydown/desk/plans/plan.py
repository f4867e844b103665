"""What if: a job planned as it is and with changes, side by side."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import product
from pathlib import Path
from typing import Any, Literal

from laydown.desk.papers.files import open_job
from laydown.planning.document.verdict import NO_GOOD_PLAN
from laydown.planning.plan import OnProgress, Stamp, make_plan, plan_from
from laydown.planning.setup.request import Changes, Planned, Request, changed
from laydown.planning.setup.setup import Setup, setup_of, with_job
from laydown.reader.decode import decode
from laydown.reader.papers.job_file import job_rules
from laydown.schema.job import Job
from laydown.schema.message import Message, Name, message, parts_of
from laydown.schema.plan import Plan
from laydown.schema.problem import InputError, Problem, gathered

PlanStatus = Literal["good", "outside the sheet", "no good plan"]
"""How a plan stands: within every limit, outside a limit of a product sheet, or without a good way."""


@dataclass(frozen=True, slots=True)
class Answer:
    """A plan as a door needs it."""

    planned: Planned
    standing: PlanStatus


def plan_job(
    path: Path, progress: OnProgress | None = None, made_at: str | None = None, *, drawn: bool = True
) -> Answer:
    """Plan a job file."""
    request = open_job(path, made_at)
    planned = make_plan(request, progress=progress, drawn=drawn)
    return Answer(planned, standing(planned.plan))


SHEET_CODES = frozenset(
    {"air-outside-sheet", "water-above-sheet", "reducer-not-on-sheet", "hardener-against-sheet"}
)
"""Findings that say that a plan lies outside a product sheet; definition."""


def standing(plan: Plan) -> PlanStatus:
    """Tell how a plan stands."""
    codes = {finding.code for finding in plan.findings if finding.level == "stop"}
    if codes & SHEET_CODES:
        return "outside the sheet"
    return "no good plan" if plan.verdict.state == "stop" else "good"


def standing_said(plan: Plan) -> Message | None:
    """Say why a plan does not stand well; of a good one there is nothing to say."""
    stands, said = standing(plan), plan.verdict.text
    if stands == "outside the sheet":
        return message("sheet-says-no", verdict=said)
    if stands == "no good plan" and plan.verdict.because[0] == NO_GOOD_PLAN:
        _, tightest = parts_of(said)
        return message("standing-none", tightest=tightest)
    return message("standing-not-good", verdict=said) if stands == "no good plan" else None


MOST_TRIES = 24
"""Changes tried in one call; assumption, more than a person compares in one table."""


@dataclass(frozen=True, slots=True)
class Tried:
    """One row of the comparison."""

    change: Message
    plan: Plan
    standing: PlanStatus


def try_changes(
    path: Path, wishes: Mapping[str, Sequence[str]], progress: OnProgress | None = None
) -> tuple[Tried, ...]:
    """Plan a job as it is and with every combination of the wishes."""
    request = open_job(path)
    setup = setup_of(request)
    ways = _ways(request.job, wishes)
    rows = [
        (message("tried-as-planned"), request),
        *((_words(way), replace(request, job=job)) for way, job in ways),
    ]
    return tuple(_planned(row, setup, number / len(rows), progress) for number, row in enumerate(rows))


def _ways(job: Job, wishes: Mapping[str, Sequence[str]]) -> list[tuple[dict[str, str], Job]]:
    """Read every combination of the wishes and change the job by it."""
    combined = [dict(zip(wishes, values, strict=True)) for values in product(*wishes.values())]
    if len(combined) > MOST_TRIES:
        what = message("too-many-combinations", count=len(combined))
        hint = message("too-many-combinations.hint", most=MOST_TRIES)
        raise InputError("", (Problem("values", what, hint),))
    problems: list[Problem] = []
    ways: list[tuple[dict[str, str], Job]] = []
    for way in combined:
        with gathered(problems):
            ways.append((way, changed_job(job, {name: _word(value) for name, value in way.items()})))
    if problems:
        raise InputError("", tuple(dict.fromkeys(problems)))
    return ways


def changed_job(job: Job, wishes: Mapping[str, Any]) -> Job:
    """Return a job with the changes made that were asked for by the names of `Changes`."""
    decoded = decode(Changes, dict(wishes), "asked")
    if decoded.noun is None or decoded.problems:
        raise InputError("", tuple(_worded(problem) for problem in decoded.problems))
    new = changed(job, decoded.noun)
    problems = job_rules({"choices": new.choices, "gun": new.gun}, {})
    if problems:
        raise InputError("", problems)
    return new


def _word(value: str) -> str | bool:
    """Turn yes and no into truth values."""
    return {"yes": True, "no": False}.get(value, value)


def _worded(problem: Problem) -> Problem:
    """Ask for yes or no, as options are typed, where a file would say true or false."""
    said = problem.what
    typed = isinstance(said, Message) and said.code == "neither-true-nor-false"
    return replace(problem, hint=message("write-yes-or-no")) if typed else problem


def _words(way: Mapping[str, str]) -> Message:
    """Name a combination as a person would."""
    changes = tuple(message("tried-change", wish=name, value=Name(value)) for name, value in way.items())
    return message("tried-changes", changes=changes)


def _planned(row: tuple[Message, Request], setup: Setup, share: float, progress: OnProgress | None) -> Tried:
    """Plan one row; no change here touches the panels, so the side stays set up."""
    name, request = row
    if progress is not None:
        progress(message("progress.trying", change=name), share)
    stamp = Stamp(request.version, request.made_at)
    plan = plan_from(with_job(setup, request.job), stamp, thorough=False, drawn=False).plan
    return Tried(name, plan, standing(plan))
