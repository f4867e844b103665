"""What if: a job planned as it is and with changes, side by side."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import product
from pathlib import Path

from laydown.desk.job import open_job
from laydown.desk.plan import Progress, Standing, standing
from laydown.planning.change import Changes, changed
from laydown.planning.plan import Stamp, plan_from
from laydown.planning.request import Request
from laydown.planning.setup import Setup, setup_of, with_job
from laydown.reader.decode import decode
from laydown.reader.job_rules import job_rules
from laydown.schema.job import Job
from laydown.schema.plan import Plan
from laydown.schema.problem import InputError, Problem

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
