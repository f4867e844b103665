"""Instrument readings of a job: typed or taken in, looked at, kept, replaced, taken away."""

from dataclasses import replace
from typing import Any, get_args

from starlette.exceptions import HTTPException
from starlette.responses import RedirectResponse, Response

from laydown.desk.letdown.readings_form import LEAVE, mapping_answers, mapping_said, sample_rows, typed_text
from laydown.desk.papers.jobs import open_kept_job, plan_kept, plan_now
from laydown.desk.papers.readings import (
    Given,
    Measured,
    answer,
    at_place,
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
from laydown.schema.message import Message, Name, message
from laydown.schema.problem import InputError, Problem
from laydown.schema.reading import ILLUMINANTS, ReadingRole
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
    words_of,
)
from laydown.web.request.render import page
from laydown.words.letdown import angle_text, read_line, readings_counted
from laydown.words.show import Words

MOST_SPOTS = 80
"""Places shown in the table; assumption, a panel and a car have twenty."""

MOST_OPEN = 8
"""Different questions listed at most; assumption, nobody answers more in one go."""

_UNNAMED = "readings.sample-unknown"

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


def line_of(measured: Measured, words: Words) -> str:
    """Say in one line what was read."""
    found = measured.readings
    return read_line(found, spots_read(found), words) if found is not None else ""


def shown_readings(
    measured: Measured, sample: Sample, answers: dict[str, str] | None, words: Words
) -> dict[str, Any]:
    """Gather what the page shows."""
    kept = mapping_answers(measured) | {"zone": sample.zone or ""}
    return (
        _table(measured, words)
        | _concluded(measured, words)
        | _asked(measured, sample, words)
        | {"answers": kept | (answers or {})}
    )


def _table(measured: Measured, words: Words) -> dict[str, Any]:
    """What was read, place by place."""
    found = measured.readings
    spots = spots_read(found) if found is not None else ()
    angles = sorted({angle for one in spots for angle in one.lab})
    return {
        "line": read_line(found, spots, words) if found is not None else "",
        "spots": [
            (one, words.word("role", one.role), readings_counted(one, words)) for one in spots[:MOST_SPOTS]
        ],
        "further_spots": max(0, len(spots) - MOST_SPOTS),
        "angles": [(angle, angle_text(angle)) for angle in angles],
        "idle": frozenset(angle for one in spots for angle in one.idle_deg),
        "dropped": sum(len(one.dropped) for one in spots),
    }


def _concluded(measured: Measured, words: Words) -> dict[str, Any]:
    """What was concluded from names and tables, and what was left out on the way."""
    found = measured.looked.readings
    understood = found.understood if found is not None else ()
    said = [(one, replace(one, what=words(one.what))) for one in understood]
    return {
        "left_out": [shown for one, shown in said if one.left_out],
        "concluded": [shown for one, shown in said if not one.left_out],
    }


def _open(measured: Measured) -> tuple[Message, ...]:
    """What has to be settled before the readings can be used; what is asked about each sample stands at the sample."""
    looked, problems = measured.looked, measured.problems
    if not looked.only_asked:
        return tuple(_with_hint(one) for one in problems)
    unnamed = sum(one.spot is None for one in looked.samples)
    said = [message("readings.names-unclear", count=unnamed)] if unnamed else []
    # The same question about many lines is one question.
    others = list({one.what: _placed(one) for one in reversed(problems) if not _is_unnamed(one)}.values())
    more = len(others) - MOST_OPEN
    return (
        *said,
        *others[::-1][:MOST_OPEN],
        *([message("readings.further-questions", count=more)] if more > 0 else ()),
    )


def _is_unnamed(problem: Problem) -> bool:
    """Whether a problem is that the name of a sample does not say what was read."""
    return isinstance(problem.what, Message) and problem.what.code == _UNNAMED


def _with_hint(problem: Problem) -> Message:
    """A problem and how to mend it."""
    placed = _placed(problem)
    return message("readings.with-hint", what=placed, hint=problem.hint) if problem.hint else placed


def _placed(problem: Problem) -> Message:
    """A problem in one sentence."""
    return message("readings.the-file", what=problem.what) if problem.where == "file" else at_place(problem)


def _asked(measured: Measured, sample: Sample, words: Words) -> dict[str, Any]:
    """What has to be asked, or can be answered otherwise."""
    looked, rows = measured.looked, sample_rows(measured)
    found = measured.readings.readings if measured.readings is not None else ()
    zones = tuple(dict.fromkeys(one.zone for one in found if one.role == "car"))
    is_unknown = bool(zones) and sample.zone is not None and sample.zone not in zones
    return {
        "samples": rows,
        "further_samples": len(looked.samples) + len(measured.mapping.ignore) - len(rows),
        "roles": tuple((one, words.word("role", one)) for one in get_args(ReadingRole)),
        "leave": LEAVE,
        "open": tuple(words(one) for one in _open(measured)),
        "asks": bool(rows or looked.asked or measured.mapping_name),
        "lights": [(name, name) for name in ILLUMINANTS],
        "zones": zones if len(zones) > 1 or is_unknown else (),
    }


def job_in(call: Call) -> Job:
    """Open the job of the address."""
    job = open_kept_job(call.state.book, call.path["job"])
    if job is None:
        raise HTTPException(404)
    return job


def plan_before(call: Call) -> str:
    """Return the plan that goes with the job as it is now."""
    kept = call.state.book.job(call.path["job"])
    plan = plan_now(call.state.book, kept) if kept is not None else None
    return plan.id if plan is not None else ""


def plan_to_undo(call: Call, name: str) -> str:
    """Return an earlier plan of the job that the address offers to go back to."""
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
        values |= shown_readings(measured, job.sample, answers, words_of(call))
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
        replaced = Problem("readings", message("readings-replaced"), message("readings-replaced.mend"))
        return _page(call, job, measured, None, (replaced,))
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
        again = (Problem("readings", message("readings-not-kept"), message("readings-not-kept.mend")),)
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
        what = message("text-too-long", length=Name(f"{len(text):,}"))
        return _typing(call, job, text, (Problem("text", what, message("text-too-long.mend")),))
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
