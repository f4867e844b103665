"""Jobs that are put away: out of the list and back again, and deleted for good in a second step."""

from dataclasses import astuple
from urllib.parse import quote, urlencode

from starlette.exceptions import HTTPException
from starlette.responses import RedirectResponse, Response

from laydown.desk.deleting import Goes, delete_job, goes_with, put_away
from laydown.schema.problem import InputError, Problem
from laydown.store.fault import ChangedError
from laydown.web.door import Call, Door
from laydown.web.forms import age_words, fields_of, now_text
from laydown.web.render import page


def _list(call: Call) -> Response:
    """Show what is put away."""
    away = call.state.book.away()
    gone = call.query.get("gone", "")[:60]
    jobs = [(one, age_words(one.put_at)) for one in away]
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
        raise HTTPException(404, "This job is not put away, so it is not deleted.")
    return goes


def _asking(call: Call, goes: Goes, problems: tuple[Problem, ...]) -> Response:
    """Show what goes with a job."""
    works = [(work, age_words(work.begun_at), age_words(work.last_at)) for work in goes.works]
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
        what = "more is there than you were shown"
        return _asking(call, goes, (Problem("job", what, "look at it again, then delete it"),))
    try:
        went = delete_job(call.state.book, goes, answers.get("typed", ""))
    except ChangedError as error:
        return _asking(call, _goes(call), error.problems)
    except InputError as error:
        return _asking(call, goes, error.problems)
    for ready in (call.state.ready, call.state.courses):
        ready.forget(went)
    return RedirectResponse(f"/jobs/away?{urlencode({'gone': goes.name})}", 303)


DOORS = (
    Door("/jobs/away", _list, "reader"),
    Door("/jobs/{job}/away", _put, "painter", "POST"),
    Door("/jobs/{job}/back", _fetch, "painter", "POST"),
    Door("/jobs/{job}/delete", _ask, "manager"),
    Door("/jobs/{job}/delete", _delete, "manager", "POST"),
)
"""Doors of this group."""
