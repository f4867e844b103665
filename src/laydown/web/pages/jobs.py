"""Jobs: the list, the whole job as a file, in and out."""

from dataclasses import astuple
from urllib.parse import quote, urlencode

from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException
from starlette.responses import RedirectResponse, Response

from laydown.desk.deleting import Goes, delete_job, goes_with, put_away
from laydown.desk.exchange import TakenError, bring_in, job_file, typed_job
from laydown.desk.papers.archive import pack_job
from laydown.desk.papers.jobs import files_of, list_jobs, open_kept_job, plan_kept, plan_now
from laydown.desk.papers.second_save import Draft
from laydown.reader.encode import to_json
from laydown.schema.job import Job
from laydown.schema.message import message
from laydown.schema.problem import InputError, Problem
from laydown.store.faults import ChangedError
from laydown.web.pages.second_save import clash_page, save_or_ask
from laydown.web.request.door import Call, Door
from laydown.web.request.forms import (
    MadeFrom,
    age_words,
    attachment,
    fields_of,
    made_from,
    now_text,
    said_made_from,
    words_of,
)
from laydown.web.request.render import page


def _list_away(call: Call) -> Response:
    """Show what is put away."""
    away = call.state.book.away()
    gone = call.query.get("gone", "")[:60]
    words = words_of(call)
    jobs = [(one, age_words(one.put_at, words)) for one in away]
    return page(call, "away.html", jobs=jobs, gone=gone)


def _put(call: Call) -> Response:
    """Put a job away."""
    job_id = call.path["job"]
    if call.state.book.job(job_id) is None:
        raise HTTPException(404)
    put_away(call.state.book, job_id, now_text(), call.visitor.name)
    return RedirectResponse(f"/jobs?{urlencode({'away': job_id})}", 303)


def _fetch(call: Call) -> Response:
    """Put a job into the list again."""
    job_id = call.path["job"]
    if call.state.book.job(job_id) is None:
        raise HTTPException(404)
    call.state.book.fetch_back(job_id)
    return RedirectResponse(f"/jobs/{quote(job_id)}", 303)


def _ask(call: Call) -> Response:
    """Say what goes with a job, before it is deleted."""
    return _asking(call, _goes(call), ())


def _goes(call: Call) -> Goes:
    """Look what hangs on the job of the address."""
    goes = goes_with(call.state.book, call.path["job"])
    if goes is None:
        raise HTTPException(404)
    return goes


def _asking(call: Call, goes: Goes, problems: tuple[Problem, ...]) -> Response:
    """Show what goes with a job."""
    words = words_of(call)
    works = [(work, age_words(work.begun_at, words), age_words(work.last_at, words)) for work in goes.works]
    status = 422 if problems else 200
    typed = fields_of(call).get("typed", "")
    values = {"goes": goes, "works": works, "seen": _mark(goes), "typed": typed}
    return page(call, "job_delete.html", status, problems=problems, **values)


def _mark(goes: Goes) -> str:
    """Write how much hangs on a job, for the form."""
    return ".".join(str(count) for count in astuple(goes.hanging))


def _delete(call: Call) -> Response:
    """Delete a job for good."""
    answers, goes = fields_of(call), _goes(call)
    if answers.get("seen") != _mark(goes):
        more = Problem("job", message("more-goes"), message("more-goes.mend"))
        return _asking(call, goes, (more,))
    try:
        went = delete_job(call.state.book, goes, answers.get("typed", ""))
    except ChangedError as error:
        return _asking(call, _goes(call), error.problems)
    except InputError as error:
        return _asking(call, goes, error.problems)
    for ready in (call.state.ready, call.state.courses):
        ready.forget(went)
    return RedirectResponse(f"/jobs/away?{urlencode({'gone': goes.name})}", 303)


def _list_jobs(call: Call) -> Response:
    """Show the jobs, latest first."""
    return _shown(call, ())


def _shown(call: Call, problems: tuple[Problem, ...]) -> Response:
    """Show the list, with what was wrong with a file."""
    search = call.query.get("q", "")[:60]
    words = words_of(call)
    jobs = [(job, age_words(job.saved_at, words)) for job in list_jobs(call.state.book, search)]
    away = call.state.book.away()
    just = next((one for one in away if one.job_id == call.query.get("away")), None)
    status = 422 if problems else 200
    values = {"search": search, "away": len(away), "just": just}
    return page(call, "jobs.html", status, jobs=jobs, problems=problems, **values)


def _open(call: Call) -> Response:
    """Lead to the latest plan of a job."""
    kept = call.state.book.job(call.path["job"])
    plan = plan_now(call.state.book, kept) if kept is not None else None
    if plan is None:
        raise HTTPException(404)
    return RedirectResponse(f"/plans/{plan.id}", 303)


def _edit(call: Call) -> Response:
    """Show the whole job as a file that can be changed."""
    job = _job(call)
    made = made_from(call.state.book.job(call.path["job"]))
    return _editing(call, (job.job.name, job_file(job)), made, ())


def _editing(call: Call, named: tuple[str, str], made: MadeFrom, problems: tuple[Problem, ...]) -> Response:
    """Show name and text of a job file, with what is wrong with it."""
    job_id, status = call.path["job"], 422 if problems else 200
    name, text = named
    values = {
        "made": made,
        "job_id": job_id,
        "name": name,
        "text": text,
        "with_files": bool(call.state.book.job_files(job_id)),
    }
    return page(call, "job_edit.html", status, problems=problems, **values)


def _change(call: Call) -> Response:
    """Plan a job as its changed file says."""
    text, job_id = fields_of(call).get("text", ""), call.path["job"]
    book, made = call.state.book, said_made_from(call)
    kept = book.job(job_id)
    if kept is None and not made.before:
        raise HTTPException(404)
    try:
        job = typed_job(book, text)
        return save_or_ask(
            call,
            Draft("job", job_id, to_json(job)),
            lambda seen: f"/plans/{plan_kept(book, job_id, job, now_text(), seen=seen).id}",
        )
    except InputError as error:
        name = kept.name if kept is not None else "job"
        return _editing(call, (name, text), made, error.problems)


def _file(call: Call) -> Response:
    """Give the job as a job file."""
    job = _job(call)
    return attachment(job_file(job), f"{job.job.name}.toml", "application/toml")


def _archive(call: Call) -> Response:
    """Give the job with its readings as one file."""
    job = _job(call)
    files = files_of(call.state.book, call.path["job"])
    return attachment(pack_job(job, files), f"{job.job.name}.zip", "application/zip")


def _bring_in(call: Call) -> Response:
    """Take a job, plan, product or side from a file."""
    given = call.form.get("file")
    if not isinstance(given, UploadFile) or not given.filename:
        return _shown(call, (Problem("file", message("is-missing"), message("choose-file")),))
    try:
        kind, name = bring_in(call.state.book, given.file.read(), given.filename, now_text())
    except TakenError as taken:
        return clash_page(call, Draft(taken.kind, taken.id, taken.text))
    except InputError as error:
        return _shown(call, error.problems)
    where = {"plan": f"/plans/{name}", "product": f"/shelf/{name}", "side": f"/sides/{name}"}
    return RedirectResponse(where[kind], 303)


def _job(call: Call) -> Job:
    """Open the job of the address."""
    job = open_kept_job(call.state.book, call.path["job"])
    if job is None:
        raise HTTPException(404)
    return job


DOORS = (
    Door("/jobs/away", _list_away, "reader"),
    Door("/jobs/{job}/away", _put, "painter", "POST"),
    Door("/jobs/{job}/back", _fetch, "painter", "POST"),
    Door("/jobs/{job}/delete", _ask, "manager"),
    Door("/jobs/{job}/delete", _delete, "manager", "POST"),
    Door("/jobs", _list_jobs, "reader"),
    Door("/jobs/in", _bring_in, "painter", "POST"),
    Door("/jobs/{job}", _open, "reader"),
    Door("/jobs/{job}/edit", _edit, "painter"),
    Door("/jobs/{job}/edit", _change, "painter", "POST"),
    Door("/jobs/{job}/job.toml", _file, "reader"),
    Door("/jobs/{job}/job.zip", _archive, "reader"),
)
"""Doors of this group."""
