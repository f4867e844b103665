"""What if: a job planned as it is and with changes, side by side."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import product
from pathlib import Path
from typing import Literal

from laydown.desk.papers.files import open_job
from laydown.planning.plan import Stamp, make_plan, plan_from
from laydown.planning.setup.request import Changes, Planned, Request, changed
from laydown.planning.setup.setup import Setup, setup_of, with_job
from laydown.reader.decode import decode
from laydown.reader.papers.job_file import job_rules
from laydown.schema.job import Job
from laydown.schema.plan import Plan
from laydown.schema.problem import InputError, Problem

Progress = Callable[[str, float], None]
"""Told what is being done and how far it is, 0 to 1."""

Standing = Literal["good", "outside the sheet", "no good plan"]
"""How a plan stands: within every limit, outside a limit of a product sheet, or without a good way."""


@dataclass(frozen=True, slots=True)
class Answer:
    """A plan as a door needs it.

    Attributes
    ----------
    planned
        The plan with its maps.
    standing
        How it stands.
    """

    planned: Planned
    standing: Standing


def plan_job(
    path: Path, progress: Progress | None = None, made_at: str | None = None, *, drawn: bool = True
) -> Answer:
    """Plan a job file.

    Parameters
    ----------
    path
        The job file.
    progress
        Told how far the planner is.
    made_at
        Time of making, or None.
    drawn
        Whether the maps for pictures are made.

    Returns
    -------
    The plan and how it stands.

    Raises
    ------
    InputError
        Everything that is wrong with the job and what it names.
    """
    request = open_job(path, made_at)
    planned = make_plan(request, progress=progress, drawn=drawn)
    return Answer(planned, standing(planned.plan))


SHEET_CODES = frozenset(
    {"air-outside-sheet", "water-above-sheet", "reducer-not-on-sheet", "hardener-against-sheet"}
)
"""Findings that say that a plan lies outside a product sheet; definition."""


def standing(plan: Plan) -> Standing:
    """Tell how a plan stands.

    Parameters
    ----------
    plan
        The plan.

    Returns
    -------
    Outside a product sheet comes first, then a verdict of stop.
    """
    codes = {finding.code for finding in plan.findings if finding.level == "stop"}
    if codes & SHEET_CODES:
        return "outside the sheet"
    return "no good plan" if plan.verdict.state == "stop" else "good"


MOST_TRIES = 24
"""Changes tried in one call; assumption, more than a person compares in one table."""


@dataclass(frozen=True, slots=True)
class Tried:
    """One row of the comparison.

    Attributes
    ----------
    change
        What was changed, in words; "as planned" for the job as it is.
    plan
        The plan.
    standing
        How it stands.
    """

    change: str
    plan: Plan
    standing: Standing


def try_changes(
    path: Path, wishes: Mapping[str, Sequence[str]], progress: Progress | None = None
) -> tuple[Tried, ...]:
    """Plan a job as it is and with every combination of the wishes.

    Parameters
    ----------
    path
        The job file; it is not changed.
    wishes
        Values as typed, by the name of the change.
    progress
        Told how far it is.

    Returns
    -------
    The job as it is, then each combination in the order typed.

    Raises
    ------
    InputError
        The job is faulty, or a value is; nothing is planned then.
    """
    request = open_job(path)
    setup = setup_of(request)
    ways = _ways(request.job, wishes)
    rows = [("as planned", request), *((_words(way), replace(request, job=job)) for way, job in ways)]
    return tuple(_planned(row, setup, number / len(rows), progress) for number, row in enumerate(rows))


def _ways(job: Job, wishes: Mapping[str, Sequence[str]]) -> list[tuple[dict[str, str], Job]]:
    """Read every combination of the wishes and change the job by it."""
    combined = [dict(zip(wishes, values, strict=True)) for values in product(*wishes.values())]
    if len(combined) > MOST_TRIES:
        what = f"{len(combined)} combinations are too many for one table"
        raise InputError("", (Problem("values", what, f"give at most {MOST_TRIES}"),))
    problems: list[Problem] = []
    ways: list[tuple[dict[str, str], Job]] = []
    for way in combined:
        raw = {name: _word(value) for name, value in way.items()}
        decoded = decode(Changes, raw, "asked")
        problems += (_worded(problem) for problem in decoded.problems)
        if decoded.noun is not None:
            new = changed(job, decoded.noun)
            problems += job_rules({"choices": new.choices, "gun": new.gun}, {})
            ways.append((way, new))
    if problems:
        raise InputError("", tuple(dict.fromkeys(problems)))
    return ways


def _word(value: str) -> str | bool:
    """Turn yes and no into truth values."""
    return {"yes": True, "no": False}.get(value, value)


def _worded(problem: Problem) -> Problem:
    """Ask for yes or no, as options are typed, where a file would say true or false."""
    return replace(problem, hint="write yes or no") if "true nor false" in problem.what else problem


def _words(way: Mapping[str, str]) -> str:
    """Name a combination as a person would."""
    plain = {
        "temperature_c": "air",
        "rh": "air",
        "nozzle_mm": "nozzle",
        "speed_m_s": "speed",
        "refill_s": "refill",
    }
    return ", ".join(f"{plain.get(name, name).replace('_', ' ')} {value}" for name, value in way.items())


def _planned(row: tuple[str, Request], setup: Setup, share: float, progress: Progress | None) -> Tried:
    """Plan one row; no change here touches the panels, so the side stays set up."""
    name, request = row
    if progress is not None:
        progress(f"trying {name}", share)
    stamp = Stamp(request.version, request.made_at)
    plan = plan_from(with_job(setup, request.job), stamp, thorough=False, drawn=False).plan
    return Tried(name, plan, standing(plan))
