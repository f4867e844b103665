"""Jobs: the list, the whole job as a file, in and out."""

from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException
from starlette.responses import RedirectResponse, Response

from laydown.desk.book_files import bring_in, job_file, typed_job
from laydown.desk.book_jobs import files_of, open_kept_job, plan_kept
from laydown.desk.job_archive import pack_job
from laydown.desk.job_list import list_jobs, plan_now
from laydown.schema.job import Job
from laydown.schema.problem import InputError, Problem
from laydown.web.door import Call, Door
from laydown.web.forms import age_words, attachment, fields_of, now_text
from laydown.web.render import page


def _list(call: Call) -> Response:
    """Show the jobs, latest first."""
    return _shown(call, ())


def _shown(call: Call, problems: tuple[Problem, ...]) -> Response:
    """Show the list, with what was wrong with a file."""
    search = call.query.get("q", "")[:60]
    jobs = [(job, age_words(job.saved_at)) for job in list_jobs(call.state.book, search)]
    status = 422 if problems else 200
    return page(call, "jobs.html", status, jobs=jobs, search=search, problems=problems)


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
    return _editing(call, job.job.name, job_file(job), ())


def _editing(call: Call, name: str, text: str, problems: tuple[Problem, ...]) -> Response:
    """Show a job file, with what is wrong with it."""
    job_id, status = call.path["job"], 422 if problems else 200
    values = {
        "job_id": job_id,
        "name": name,
        "text": text,
        "with_files": bool(call.state.book.job_files(job_id)),
    }
    return page(call, "job_edit.html", status, problems=problems, **values)


def _change(call: Call) -> Response:
    """Plan a job as its changed file says."""
    text, job_id = fields_of(call).get("text", ""), call.path["job"]
    kept = call.state.book.job(job_id)
    if kept is None:
        raise HTTPException(404)
    try:
        plan = plan_kept(call.state.book, job_id, typed_job(call.state.book, text), now_text())
    except InputError as error:
        return _editing(call, kept.name, text, error.problems)
    return RedirectResponse(f"/plans/{plan.id}", 303)


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
