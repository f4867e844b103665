"""The let-down panel of a job: what was ticked, and what it says."""

from typing import Any

from starlette.datastructures import UploadFile
from starlette.responses import RedirectResponse, Response

from laydown.desk.letdown.panel import PanelSaid, fields_shown, panel_answers, panel_said, with_panel
from laydown.desk.papers.jobs import plan_kept
from laydown.desk.papers.readings import Given, measured_of, take_in, understand
from laydown.desk.papers.second_save import Draft
from laydown.reader.encode import to_json
from laydown.reader.instrument.raw import LARGEST_READINGS
from laydown.report.charts.letdown_panel import panel_svg
from laydown.report.text.letdown import strip_text
from laydown.schema.job import Job
from laydown.schema.message import message
from laydown.schema.problem import InputError, Problem
from laydown.web.pages.readings import job_in, line_of, plan_to_undo
from laydown.web.pages.second_save import save_or_ask
from laydown.web.request.door import Call, Door
from laydown.web.request.forms import (
    fields_of,
    job_before,
    made_from,
    now_text,
    said_made_from,
    system_of,
    words_of,
)
from laydown.web.request.render import page
from laydown.words.letdown import films_differ, next_words, verdict_line, zone_planned
from laydown.words.show import Words

GROUNDS = ("match", "slightly off", "off", "not accessible", "not done")
"""Results of the ground check, in the words of the job file."""


def _show(call: Call) -> Response:
    """Show what was ticked and what it says."""
    job = job_in(call)
    return _page(call, job, panel_answers(job.sample), ())


def _page(call: Call, job: Job, answers: dict[str, str], problems: tuple[Problem, ...]) -> Response:
    """Show the form, and the verdict of what is kept unless something is wrong."""
    job_id = call.path["job"]
    said = None if problems else panel_said(call.state.book, job_id, job)
    measured = measured_of(call.state.book, job_id, job)
    return page(
        call,
        "panel.html",
        422 if problems else 200,
        job_id=job_id,
        made=said_made_from(call) if problems else made_from(call.state.book.job(job_id)),
        name=job.job.name,
        grounds=GROUNDS,
        fields=fields_shown(job.sample),
        answers=answers,
        problems=problems,
        said=said,
        system=system_of(call),
        measured=measured,
        read_line=line_of(measured, words_of(call)) if measured is not None else "",
        named=job.sample.readings,
        largest=LARGEST_READINGS,
        kept_from=plan_to_undo(call, "kept_from"),
        away_from=plan_to_undo(call, "away_from"),
        **({} if said is None else _verdict(said, words_of(call))),
    )


def _verdict(said: PanelSaid, words: Words) -> dict[str, Any]:
    """Gather what the panel says, in the painter's words."""
    colour = said.plan.colour
    zone = zone_planned(colour)
    seen = colour.evidence is not None and bool(colour.evidence.fields)
    return {
        "line": verdict_line(colour, words),
        "next": next_words(colour, words),
        "because": colour.reason,
        "fixed": said.fixed,
        "chances": zone.chances if zone is not None else (),
        "differ": films_differ(colour),
        "colour": colour,
        "verdict": strip_text(colour, said.fixed, words=words),
        "picture": panel_svg(said.plan, words) if seen else "",
    }


def _enter(call: Call) -> Response:
    """Keep what was ticked and plan the job anew; a file that came with it waits to be looked at."""
    job, answers = job_in(call), fields_of(call)
    book, job_id, given = call.state.book, call.path["job"], _given(call)
    wish = answers.get("do", "keep")
    problems: list[Problem] = []
    # Ticks are meant for the job that was on the screen.
    ticked = begun = job_before(said_made_from(call)) or job
    try:
        ticked = with_panel(begun, answers)
    except InputError as error:
        problems += error.problems
    try:
        if given is not None:
            understand(book, job_id, job, given)
        elif wish == "read":
            problems.append(Problem("file", message("is-missing"), message("choose-readings")))
    except InputError as error:
        problems += error.problems
    if problems:
        return _page(call, job, answers, tuple(problems))
    follows = "readings" if given is not None else "readings/type" if wish == "type" else "panel"
    answer: Response = RedirectResponse(f"/jobs/{job_id}/{follows}", 303)

    def keep(seen: int) -> str:
        plan_kept(book, job_id, ticked, now_text(), seen=seen)
        return f"/jobs/{job_id}/{follows}"

    if ticked != begun or (given is None and wish == "keep"):
        try:
            answer = save_or_ask(call, Draft("job", job_id, to_json(ticked)), keep)
        except InputError as error:
            return _page(call, job, answers, error.problems)
    if given is not None:
        # It waits beside the job, whoever changed that meanwhile.
        take_in(book, job_id, ticked, given, now_text())
    return answer


def _given(call: Call) -> Given | None:
    """Return the file that was chosen, with its mapping."""
    file, mapping = (call.form.get(name) for name in ("file", "mapping"))
    if not isinstance(file, UploadFile) or not file.filename:
        return None
    told = None
    if isinstance(mapping, UploadFile) and mapping.filename:
        told = (mapping.filename, mapping.file.read())
    return Given(file.filename, file.file.read(), told)


DOORS = (
    Door("/jobs/{job}/panel", _show, "reader"),
    Door("/jobs/{job}/panel", _enter, "painter", "POST"),
)
"""Doors of this group."""
