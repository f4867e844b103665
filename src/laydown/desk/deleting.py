"""Putting jobs away, fetching them back, and deleting jobs, products and sides for good."""

import json
from collections.abc import Sequence
from dataclasses import dataclass

from laydown.booth.progress import live
from laydown.desk.papers.jobs import OF_PLAN
from laydown.desk.plans.pour import pour_keys
from laydown.desk.sessions.session import OPENED
from laydown.reader.papers.shelf import LAYERS
from laydown.schema.problem import InputError, Problem
from laydown.schema.session import Event, Session
from laydown.store.book import Book
from laydown.store.kept import Hanging, Kept


@dataclass(frozen=True, slots=True)
class Work:
    """A session, as proof of work done.

    Attributes
    ----------
    id, painter
        Which session, and who sprayed.
    begun_at, last_at
        When it was opened and when the last tap was kept, as ISO 8601 text.
    tap_count
        Taps, without the opening.
    finished
        Whether it was closed.
    """

    id: str
    painter: str
    begun_at: str
    last_at: str
    tap_count: int
    finished: bool


@dataclass(frozen=True, slots=True)
class Goes:
    """What goes when a job is deleted.

    Attributes
    ----------
    job_id, name
        The job.
    hanging
        How much hangs on it.
    works
        Its sessions, latest first.
    """

    job_id: str
    name: str
    hanging: Hanging
    works: tuple[Work, ...]

    @property
    def needs_name(self) -> bool:
        """Whether somebody sprayed by it: then the job's name is typed before it goes."""
        worked = any(work.finished or work.tap_count for work in self.works)
        return worked or self.hanging.record_count > 0


def put_away(book: Book, job_id: str, at: str, who: str) -> None:
    """Take a job out of the lists.

    Parameters
    ----------
    book
        The book.
    job_id
        Its id.
    at
        Now, as ISO 8601 text.
    who
        Name of the user; empty where nobody signs in.

    Raises
    ------
    InputError
        This shop has no such job.
    """
    if OF_PLAN in job_id:
        raise InputError("", (Problem("job", "is no job of the list", "choose one of the list"),))
    book.put_away(job_id, at, who)


def goes_with(book: Book, job_id: str) -> Goes | None:
    """Return what goes when a job is deleted.

    Parameters
    ----------
    book
        The book.
    job_id
        Its id.

    Returns
    -------
    The job with all that hangs on it; None if it is not put away.
    """
    away = next((one for one in book.away() if one.job_id == job_id), None)
    if away is None:
        return None
    # Counted before the sessions are read: what comes in between is then missing in the count, and the deed is refused.
    hanging = book.hanging(job_id)
    sessions = [one for plan in book.plans(job_id) for one in book.sessions(plan.id)]
    works = [_work(book, one.id, one.painter, one.saved_at) for one in sessions]
    works.sort(key=lambda work: work.begun_at, reverse=True)
    return Goes(job_id, away.name, hanging, tuple(works))


def _work(book: Book, session_id: str, painter: str, begun_at: str) -> Work:
    """Read what was done in a session."""
    rows = book.events(session_id)
    held = live(Session("", tuple(Event(**json.loads(row.text)) for row in rows)))
    taps = sum(not row.tap_id.startswith(OPENED) for row in rows)
    last_at = rows[-1].received_at if rows else begun_at
    return Work(session_id, painter, begun_at, last_at, taps, any(one.kind == "close" for one in held))


def delete_job(book: Book, goes: Goes, typed: str) -> frozenset[str]:
    """Delete a job that is put away, with all that hangs on it.

    Parameters
    ----------
    book
        The book.
    goes
        What somebody was shown that goes.
    typed
        Name of the job as it was typed.

    Returns
    -------
    Ids of the plans and sessions that went: nothing of them may stand ready any more.

    Raises
    ------
    InputError
        Somebody sprayed by it and its name was not typed.
    ChangedError
        It is not put away any more, or more hangs on it than was shown.
    """
    if goes.needs_name and typed.strip() != goes.name:
        what = "is not the name of this job" if typed.strip() else "is missing"
        raise InputError("", (Problem("typed", what, f"type it as it stands here: {goes.name}"),))
    plans = [plan.id for plan in book.plans(goes.job_id)]
    keys = [key for plan_id in plans for key in pour_keys(plan_id)]
    book.delete_job(goes.job_id, goes.hanging, f"{goes.job_id}{OF_PLAN}", keys)
    return frozenset((*plans, *(work.id for work in goes.works)))


def delete_product(book: Book, key: str, seen: int) -> None:
    """Delete a product of the shop's own.

    Parameters
    ----------
    book
        The book.
    key
        Its key.
    seen
        Version that somebody saw.

    Raises
    ------
    InputError
        Jobs use it; they are named.
    ChangedError
        It was changed or deleted meanwhile.
    """

    def uses(job: Kept) -> bool:
        names = json.loads(job.text).get("products") if job.format.startswith("laydown-job/") else None
        return names is not None and key in {names[layer] for layer in LAYERS}

    _refuse(book, "product", key, book.delete_product(key, seen, uses))


def delete_side(book: Book, side_id: str, seen: int) -> None:
    """Delete a side of the shop's own.

    Parameters
    ----------
    book
        The book.
    side_id
        Its id.
    seen
        Version that somebody saw.

    Raises
    ------
    InputError
        Jobs use it; they are named.
    ChangedError
        It was changed or deleted meanwhile.
    """

    def uses(job: Kept) -> bool:
        body = json.loads(job.text).get("body") if job.format.startswith("laydown-job/") else None
        return body is not None and body["file"] == side_id

    _refuse(book, "side", side_id, book.delete_side(side_id, seen, uses))


def _refuse(book: Book, kind: str, name: str, users: Sequence[Kept]) -> None:
    """Name the jobs that keep a paper from being deleted; their earlier plans need it too."""
    if not users:
        return
    away = {one.job_id for one in book.away()}
    now = {one.id for one in users if OF_PLAN not in one.id}
    names = {one.id.partition(OF_PLAN)[0]: one.name for one in users}
    hint = f"leave the {kind}, or put that job away and delete it first"
    raise InputError(
        name,
        tuple(
            Problem(
                "job",
                f"'{job_name}'{' (put away)' if job_id in away else ''} "
                f"{'uses it' if job_id in now else 'has an earlier plan that uses it'}",
                hint,
            )
            for job_id, job_name in names.items()
        ),
    )
