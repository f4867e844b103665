"""The let-down panel of a job: what was ticked, and what it says."""

from typing import Any

from starlette.exceptions import HTTPException
from starlette.responses import RedirectResponse, Response

from laydown.desk.book_jobs import open_kept_job
from laydown.desk.panel_form import PanelSaid, fields_shown, keep_panel, panel_answers, panel_said
from laydown.report.panel_picture import panel_svg
from laydown.report.panel_words import films_differ, next_words, verdict_line, zone_planned
from laydown.report.strip_text import strip_text
from laydown.report.told import told_plan
from laydown.schema.job import Job
from laydown.schema.problem import InputError, Problem
from laydown.units import System
from laydown.web.door import Call, Door
from laydown.web.forms import fields_of, now_text, system_of
from laydown.web.render import page

GROUNDS = ("match", "slightly off", "off", "not accessible", "not done")
"""Results of the ground check, in the words of the job file."""


def _job(call: Call) -> Job:
    """Open the job of the address."""
    job = open_kept_job(call.state.book, call.path["job"])
    if job is None:
        raise HTTPException(404)
    return job


def _show(call: Call) -> Response:
    """Show what was ticked and what it says."""
    job = _job(call)
    return _page(call, job, panel_answers(job.sample), ())


def _page(call: Call, job: Job, answers: dict[str, str], problems: tuple[Problem, ...]) -> Response:
    """Show the form, and the verdict of what is kept unless something is wrong."""
    said = None if problems else panel_said(call.state.book, job)
    return page(
        call,
        "panel.html",
        422 if problems else 200,
        job_id=call.path["job"],
        name=job.job.name,
        grounds=GROUNDS,
        fields=fields_shown(job.sample),
        answers=answers,
        problems=problems,
        said=said,
        system=system_of(call),
        **({} if said is None else _verdict(said, system_of(call))),
    )


def _verdict(said: PanelSaid, system: System) -> dict[str, Any]:
    """Gather what the panel says, in the painter's words."""
    plan = told_plan(said.plan, system)
    colour = plan.colour
    zone = zone_planned(colour)
    seen = colour.evidence is not None and bool(colour.evidence.fields)
    return {
        "line": verdict_line(colour),
        "next": next_words(colour),
        "because": colour.reason,
        "fixed": said.fixed,
        "chances": zone.chances if zone is not None else (),
        "differ": films_differ(colour),
        "colour": colour,
        "verdict": strip_text(colour, said.fixed),
        "picture": panel_svg(plan) if seen else "",
    }


def _enter(call: Call) -> Response:
    """Keep what was ticked, and plan the job anew."""
    job, answers = _job(call), fields_of(call)
    try:
        keep_panel(call.state.book, call.path["job"], answers, job, now_text())
    except InputError as error:
        return _page(call, job, answers, error.problems)
    return RedirectResponse(f"/jobs/{call.path['job']}/panel", 303)


DOORS = (
    Door("/jobs/{job}/panel", _show, "reader"),
    Door("/jobs/{job}/panel", _enter, "painter", "POST"),
)
"""Doors of this group."""
