"""Instrument readings of a job: typed or taken in, looked at, kept, replaced, taken away."""

from dataclasses import replace
from typing import Any

from starlette.exceptions import HTTPException
from starlette.responses import RedirectResponse, Response

from laydown.desk.book_jobs import open_kept_job, put_back
from laydown.desk.book_readings import Given, answer, keep_readings, let_go, take_away, take_in
from laydown.desk.file_name import name_of_typed
from laydown.desk.job_list import plan_now
from laydown.desk.measured import Measured, measured_of
from laydown.desk.readings_form import mapping_said, typed_text
from laydown.reader.readings_csv import HEADER
from laydown.schema.job import Job
from laydown.schema.problem import InputError, Problem
from laydown.web.door import Call, Door
from laydown.web.forms import LONGEST_FIELD, attachment, fields_of, now_text
from laydown.web.pages.readings_view import EXAMPLE, shown_readings
from laydown.web.render import page


def job_in(call: Call) -> Job:
    """Open the job of the address.

    Parameters
    ----------
    call
        What the page was given.

    Returns
    -------
    The job.

    Raises
    ------
    HTTPException
        404 if there is none.
    """
    job = open_kept_job(call.state.book, call.path["job"])
    if job is None:
        raise HTTPException(404)
    return job


def plan_before(call: Call) -> str:
    """Return the plan that goes with the job as it is now.

    Parameters
    ----------
    call
        What the page was given.

    Returns
    -------
    Its id; empty without one.
    """
    kept = call.state.book.job(call.path["job"])
    plan = plan_now(call.state.book, kept) if kept is not None else None
    return plan.id if plan is not None else ""


def plan_to_undo(call: Call, name: str) -> str:
    """Return an earlier plan of the job that the address offers to go back to.

    Parameters
    ----------
    call
        What the page was given.
    name
        Name of the value in the address.

    Returns
    -------
    Its id; empty where the job has no such plan.
    """
    wanted = call.query.get(name, "")
    return wanted if any(one.id == wanted for one in call.state.book.plans(call.path["job"])) else ""


def _show(call: Call) -> Response:
    """Show what was read."""
    job = job_in(call)
    return _page(call, job, measured_of(call.state.book, call.path["job"], job), None, ())


def _page(
    call: Call,
    job: Job,
    measured: Measured | None,
    answers: dict[str, str] | None,
    problems: tuple[Problem, ...],
) -> Response:
    """Show what was read, and what has to be asked about it."""
    values: dict[str, Any] = {}
    if measured is not None:
        values = shown_readings(measured, job.sample, answers)
    return page(
        call,
        "readings.html",
        422 if problems else 200,
        job_id=call.path["job"],
        name=job.job.name,
        named=job.sample.readings,
        measured=measured,
        problems=problems,
        **values,
    )


def _enter(call: Call) -> Response:
    """Look again with other answers, keep, or let go."""
    job, answers = job_in(call), fields_of(call)
    book, job_id = call.state.book, call.path["job"]
    measured = measured_of(book, job_id, job)
    if measured is None:
        return RedirectResponse(f"/jobs/{job_id}/readings", 303)
    if answers.get("seen") != measured.digest:
        what = "were replaced on another screen while you looked"
        return _page(
            call, job, measured, None, (Problem("readings", what, "look at these before you keep them"),)
        )
    if answers.get("do") == "leave":
        let_go(book, job_id, job, now_text())
        return RedirectResponse(f"/jobs/{job_id}/panel", 303)
    before = plan_before(call)
    try:
        measured = _answered(call, job, measured, answers)
        if answers.get("do") != "keep":
            return RedirectResponse(f"/jobs/{job_id}/readings", 303)
        # Where the page did not ask for a zone, the one of the job stays.
        zone = answers["zone"].strip() or None if "zone" in answers else job.sample.zone
        plan = keep_readings(book, job_id, job, (measured, zone), now_text())
    except InputError as error:
        at_field = {"sample.zone": "zone"}
        problems = tuple(replace(one, where=at_field.get(one.where, one.where)) for one in error.problems)
        return _page(call, job, measured, answers, problems)
    undo = f"?kept_from={before}" if before and before != plan.id else ""
    return RedirectResponse(f"/jobs/{job_id}/panel{undo}", 303)


def _answered(call: Call, job: Job, measured: Measured, answers: dict[str, str]) -> Measured:
    """Take up the answers; the same ones change nothing."""
    said = mapping_said(measured, answers)
    if replace(said, confirmed=measured.mapping.confirmed) == measured.mapping:
        return measured
    answer(call.state.book, call.path["job"], job, said, now_text())
    return measured_of(call.state.book, call.path["job"], job) or measured


def _away(call: Call) -> Response:
    """Take the readings away from the job."""
    job, before = job_in(call), plan_before(call)
    plan = take_away(call.state.book, call.path["job"], job, now_text())
    undo = f"?away_from={before}" if before and before != plan.id else ""
    return RedirectResponse(f"/jobs/{call.path['job']}/panel{undo}", 303)


def _back(call: Call) -> Response:
    """Make the job what it was before its readings were kept or taken away."""
    job_in(call)
    wanted = fields_of(call).get("plan", "")
    if all(one.id != wanted for one in call.state.book.plans(call.path["job"])):
        raise HTTPException(404)
    put_back(call.state.book, wanted, now_text())
    return RedirectResponse(f"/jobs/{call.path['job']}/panel", 303)


def _type(call: Call) -> Response:
    """Ask for numbers by hand."""
    job = job_in(call)
    measured = measured_of(call.state.book, call.path["job"], job)
    text = typed_text(measured) if measured is not None else ""
    return _typing(call, job, text or f"{','.join(HEADER[:9])}\n", ())


def _typing(call: Call, job: Job, text: str, problems: tuple[Problem, ...]) -> Response:
    """Show what is typed, with what is wrong with it."""
    status = 422 if problems else 200
    values = {"job_id": call.path["job"], "name": job.job.name, "text": text, "example": EXAMPLE}
    return page(call, "readings_type.html", status, problems=problems, **values)


def _typed(call: Call) -> Response:
    """Take in numbers that were typed or pasted."""
    job = job_in(call)
    given = call.form.get("text", "")
    text = given.replace("\r\n", "\n") if isinstance(given, str) else ""
    if len(text) > LONGEST_FIELD:
        what = f"has {len(text):,} letters"
        return _typing(call, job, text, (Problem("text", what, "bring in so much as a file"),))
    content = (text.rstrip("\n") + "\n").encode(errors="replace")
    file = Given(name_of_typed(text), content)
    try:
        take_in(call.state.book, call.path["job"], job, file, now_text())
    except InputError as error:
        return _typing(call, job, text, tuple(Problem("text", one.what, one.hint) for one in error.problems))
    return RedirectResponse(f"/jobs/{call.path['job']}/readings", 303)


def _file(call: Call) -> Response:
    """Give the file as it came."""
    measured = measured_of(call.state.book, call.path["job"], job_in(call))
    if measured is None:
        raise HTTPException(404)
    return attachment(measured.content, measured.name, "application/octet-stream")


DOORS = (
    Door("/jobs/{job}/readings", _show, "reader"),
    Door("/jobs/{job}/readings", _enter, "painter", "POST"),
    Door("/jobs/{job}/readings/type", _type, "painter"),
    Door("/jobs/{job}/readings/type", _typed, "painter", "POST"),
    Door("/jobs/{job}/readings/away", _away, "painter", "POST"),
    Door("/jobs/{job}/readings/back", _back, "painter", "POST"),
    Door("/jobs/{job}/readings/file", _file, "reader"),
)
"""Doors of this group."""
