"""Planning a job."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from laydown.desk.job import open_job
from laydown.planning.plan import make_plan
from laydown.planning.request import Planned
from laydown.schema.plan import Plan

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
