"""Instrument readings of a job: typed or taken in, looked at, kept, replaced, taken away."""

from dataclasses import replace
from typing import Any

from starlette.exceptions import HTTPException
from starlette.responses import RedirectResponse, Response

from laydown.desk.letdown.readings_form import LEAVE, mapping_answers, mapping_said, sample_rows, typed_text
from laydown.desk.papers.jobs import open_kept_job, plan_kept, plan_now
from laydown.desk.papers.readings import (
    Given,
    Measured,
    answer,
    keep_readings,
    let_go,
    measured_of,
    name_of_typed,
    take_in,
    without_readings,
)
from laydown.desk.papers.second_save import Draft, version_seen
from laydown.desk.plans.kept import job_of_plan
from laydown.planning.counts.readings import spots_read
from laydown.reader.encode import to_json
from laydown.reader.instrument.csv_table import HEADER
from laydown.schema.choices import Sample
from laydown.schema.job import Job
from laydown.schema.problem import InputError, Problem
from laydown.schema.reading import ILLUMINANTS
from laydown.store.faults import ChangedError
from laydown.web.pages.second_save import save_or_ask, step_back
from laydown.web.request.door import Call, Door
from laydown.web.request.forms import (
    LONGEST_FIELD,
    attachment,
    fields_of,
    job_before,
    made_from,
    now_text,
    said_made_from,
)
from laydown.web.request.render import page
from laydown.words.letdown import ROLE_WORDS, angle_text, read_line, spot_count_words

MOST_SPOTS = 80
"""Places shown in the table; assumption, a panel and a car have twenty."""

MOST_OPEN = 8
"""Different questions listed at most; assumption, nobody answers more in one go."""

_UNNAMED = "does not say what was read"

EXAMPLE = """panel,role,coats,zone,reading,angle_deg,L,a,b
p1,ground_ref,,,1,15,92.4,-0.8,1.1
p1,ground_ref,,,1,45,91.2,-0.8,1.0
p1,field,1,,1,15,94.1,-0.9,1.8
p1,field,1,,1,45,86.0,-1.0,1.2
p1,field,2,,1,15,97.3,-1.0,2.0
p1,field,2,,1,45,83.1,-1.0,1.6
p1,car,,front door,1,15,96.2,-1.0,1.9
p1,car,,front door,1,45,84.0,-1.0,1.5
"""
"""A small table, invented."""


def line_of(measured: Measured) -> str:
    """Say in one line what was read.

    Parameters
    ----------
    measured
        The readings.

    Returns
    -------
    The line; empty where they cannot be used yet.
    """
    found = measured.readings
    return read_line(found, spots_read(found)) if found is not None else ""


def shown_readings(measured: Measured, sample: Sample, answers: dict[str, str] | None) -> dict[str, Any]:
    """Gather what the page shows.

    Parameters
    ----------
    measured
        The readings.
    sample
        What the job says of the panel.
    answers
        What was just answered, if that was faulty; else what is kept is shown.

    Returns
    -------
    Values for the template.
    """
    kept = mapping_answers(measured) | {"zone": sample.zone or ""}
    return (
        _table(measured)
        | _concluded(measured)
        | _asked(measured, sample)
        | {"answers": kept | (answers or {})}
    )


def _table(measured: Measured) -> dict[str, Any]:
    """What was read, place by place."""
    found = measured.readings
    spots = spots_read(found) if found is not None else ()
    angles = sorted({angle for one in spots for angle in one.lab})
    return {
        "line": read_line(found, spots) if found is not None else "",
        "spots": [(one, ROLE_WORDS[one.role], spot_count_words(one)) for one in spots[:MOST_SPOTS]],
        "further_spots": max(0, len(spots) - MOST_SPOTS),
        "angles": [(angle, angle_text(angle)) for angle in angles],
        "idle": frozenset(angle for one in spots for angle in one.idle_deg),
        "dropped": sum(len(one.dropped) for one in spots),
    }


def _concluded(measured: Measured) -> dict[str, Any]:
    """What was concluded from names and tables, and what was left out on the way."""
    found = measured.looked.readings
    understood = found.understood if found is not None else ()
    left_out = [one for one in understood if "left out" in one.what and not one.what.startswith("'")]
    return {"left_out": left_out, "concluded": [one for one in understood if one not in left_out]}


def _open(measured: Measured) -> tuple[str, ...]:
    """What has to be settled before the readings can be used; what is asked about each sample stands at the sample."""
    looked, problems = measured.looked, measured.problems
    if not looked.only_asked:
        return tuple(f"{_placed(one)}{'; ' if one.hint else ''}{one.hint}" for one in problems)
    unnamed = sum(one.spot is None for one in looked.samples)
    said = [f"{unnamed} name{'s do' if unnamed > 1 else ' does'} not say what was read"] if unnamed else []
    # The same question about many lines is one question.
    others = list({one.what: _placed(one) for one in reversed(problems) if _UNNAMED not in one.what}.values())
    more = len(others) - MOST_OPEN
    return (
        *said,
        *others[::-1][:MOST_OPEN],
        *([f"{more} further questions of the kind"] if more > 0 else ()),
    )


def _placed(problem: Problem) -> str:
    """A problem in one sentence."""
    return f"the file {problem.what}" if problem.where == "file" else f"{problem.where}: {problem.what}"


def _asked(measured: Measured, sample: Sample) -> dict[str, Any]:
    """What has to be asked, or can be answered otherwise."""
    looked, rows = measured.looked, sample_rows(measured)
    found = measured.readings.readings if measured.readings is not None else ()
    zones = tuple(dict.fromkeys(one.zone for one in found if one.role == "car"))
    is_unknown = bool(zones) and sample.zone is not None and sample.zone not in zones
    return {
        "samples": rows,
        "further_samples": len(looked.samples) + len(measured.mapping.ignore) - len(rows),
        "roles": [*ROLE_WORDS.items(), (LEAVE, "leave out")],
        "open": _open(measured),
        "asks": bool(rows or looked.asked or measured.mapping_name),
        "lights": [("", "as the file says"), *((name, name) for name in ILLUMINANTS)],
        "zones": zones if len(zones) > 1 or is_unknown else (),
    }


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
    # Answers that are shown again belong to the job that was on the screen before.
    made = said_made_from(call) if answers else made_from(call.state.book.job(call.path["job"]))
    values: dict[str, Any] = {"made": made}
    if measured is not None:
        values |= shown_readings(measured, job.sample, answers)
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
    try:
        measured = _answered(call, job, measured, answers)
        if answers.get("do") != "keep":
            return RedirectResponse(f"/jobs/{job_id}/readings", 303)
        return _keep(call, job, measured, answers)
    except InputError as error:
        at_field = {"sample.zone": "zone"}
        problems = tuple(replace(one, where=at_field.get(one.where, one.where)) for one in error.problems)
        return _page(call, job, measured, answers, problems)


def _keep(call: Call, job: Job, measured: Measured, answers: dict[str, str]) -> Response:
    """Keep readings with their job, unless somebody else saved that while they were looked at: they wait on."""
    book, job_id, before = call.state.book, call.path["job"], plan_before(call)
    try:
        # Where the page did not ask for a zone, the one of the job stays.
        zone = answers["zone"].strip() or None if "zone" in answers else job.sample.zone
        made = said_made_from(call)
        seen = version_seen(book.job(job_id), made.version, made.before)
        plan = keep_readings(book, job_id, job, (measured, zone), now_text(), seen)
    except ChangedError:
        what = "were not kept: somebody else saved this job while you looked"
        again = (Problem("readings", what, "look at the plan, then keep them here"),)
        return _page(call, job_in(call), measured, None, again)
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
    book, job_id, before = call.state.book, call.path["job"], plan_before(call)
    job = without_readings(job_before(said_made_from(call)) or job_in(call))

    def take(seen: int) -> str:
        plan = plan_kept(book, job_id, job, now_text(), {}, seen)
        undo = f"?away_from={before}" if before and before != plan.id else ""
        return f"/jobs/{job_id}/panel{undo}"

    return save_or_ask(call, Draft("job", job_id, to_json(job)), take)


def _back(call: Call) -> Response:
    """Make the job what it was before its readings were kept or taken away."""
    wanted, job_id = fields_of(call).get("plan", ""), call.path["job"]
    job = job_of_plan(call.state.book, wanted)
    if job is None or all(one.id != wanted for one in call.state.book.plans(job_id)):
        raise HTTPException(404)
    return step_back(call, (job_id, wanted), job, f"/jobs/{job_id}/panel")


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
