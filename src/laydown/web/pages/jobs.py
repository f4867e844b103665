"""Jobs: the list, the whole job as a file, in and out."""

from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException
from starlette.responses import RedirectResponse, Response

from laydown.desk.book_files import TakenError, bring_in, job_file, typed_job
from laydown.desk.book_jobs import files_of, open_kept_job, plan_kept
from laydown.desk.job_archive import pack_job
from laydown.desk.job_list import list_jobs, plan_now
from laydown.desk.settling import Draft
from laydown.reader.encode import to_json
from laydown.schema.job import Job
from laydown.schema.problem import InputError, Problem
from laydown.web.door import Call, Door
from laydown.web.forms import age_words, attachment, fields_of, now_text
from laydown.web.made_from import MadeFrom, made_from, said_made_from
from laydown.web.pages.two_saves import clash_page, save_or_ask
from laydown.web.render import page


def _list(call: Call) -> Response:
    """Show the jobs, latest first."""
    return _shown(call, ())


def _shown(call: Call, problems: tuple[Problem, ...]) -> Response:
    """Show the list, with what was wrong with a file."""
    search = call.query.get("q", "")[:60]
    jobs = [(job, age_words(job.saved_at)) for job in list_jobs(call.state.book, search)]
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
        return _shown(call, (Problem("file", "is missing", "choose a file first"),))
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
    Door("/jobs", _list, "reader"),
    Door("/jobs/in", _bring_in, "painter", "POST"),
    Door("/jobs/{job}", _open, "reader"),
    Door("/jobs/{job}/edit", _edit, "painter"),
    Door("/jobs/{job}/edit", _change, "painter", "POST"),
    Door("/jobs/{job}/job.toml", _file, "reader"),
    Door("/jobs/{job}/job.zip", _archive, "reader"),
)
"""Doors of this group."""
