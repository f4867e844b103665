"""Putting jobs away, fetching them back, and deleting jobs, products and sides for good."""

import json
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from laydown.booth.progress import live
from laydown.desk.papers.jobs import OF_PLAN
from laydown.desk.plans.mix_sheet import mix_keys
from laydown.desk.sessions.session import OPENED
from laydown.reader.papers.shelf import LAYERS
from laydown.schema.message import Message, Name, message
from laydown.schema.problem import InputError, Problem
from laydown.schema.session import Event, Session
from laydown.store.book import Book
from laydown.store.kept import Hanging, Kept


@dataclass(frozen=True, slots=True)
class SprayedSession:
    """A session, as proof of work done."""

    id: str
    painter: str
    begun_at: str
    last_at: str
    tap_count: int
    finished: bool


@dataclass(frozen=True, slots=True)
class Goes:
    """What goes when a job is deleted."""

    job_id: str
    name: str
    hanging: Hanging
    works: tuple[SprayedSession, ...]

    @property
    def needs_name(self) -> bool:
        """Whether somebody sprayed by it: then the job's name is typed before it goes."""
        worked = any(work.finished or work.tap_count for work in self.works)
        return worked or self.hanging.record_count > 0


def put_away(book: Book, job_id: str, at: str, who: str) -> None:
    """Take a job out of the lists."""
    if OF_PLAN in job_id:
        raise InputError("", (Problem("job", message("no-job-of-list"), message("no-job-of-list.hint")),))
    book.put_away(job_id, at, who)


def goes_with(book: Book, job_id: str) -> Goes | None:
    """Return what goes when a job is deleted."""
    away = next((one for one in book.away() if one.job_id == job_id), None)
    if away is None:
        return None
    # Counted before the sessions are read: what comes in between is then missing in the count, and the deed is refused.
    hanging = book.hanging(job_id)
    sessions = [one for plan in book.plans(job_id) for one in book.sessions(plan.id)]
    works = [_work(book, one.id, one.painter, one.saved_at) for one in sessions]
    works.sort(key=lambda work: work.begun_at, reverse=True)
    return Goes(job_id, away.name, hanging, tuple(works))


def _work(book: Book, session_id: str, painter: str, begun_at: str) -> SprayedSession:
    """Read what was done in a session."""
    rows = book.events(session_id)
    held = live(Session("", tuple(Event(**json.loads(row.text)) for row in rows)))
    taps = sum(not row.tap_id.startswith(OPENED) for row in rows)
    last_at = rows[-1].received_at if rows else begun_at
    return SprayedSession(
        session_id, painter, begun_at, last_at, taps, any(one.kind == "close" for one in held)
    )


def delete_job(book: Book, goes: Goes, typed: str) -> frozenset[str]:
    """Delete a job that is put away, with all that hangs on it."""
    if goes.needs_name and typed.strip() != goes.name:
        what = message("other-job-name" if typed.strip() else "nothing-typed")
        hint = message("type-job-name", job=Name(goes.name))
        raise InputError("", (Problem("typed", what, hint),))
    plans = [plan.id for plan in book.plans(goes.job_id)]
    keys = [key for plan_id in plans for key in mix_keys(plan_id)]
    book.delete_job(goes.job_id, goes.hanging, f"{goes.job_id}{OF_PLAN}", keys)
    return frozenset((*plans, *(work.id for work in goes.works)))


def delete_product(book: Book, key: str, seen: int) -> None:
    """Delete a product of the shop's own."""

    def uses(job: Kept) -> bool:
        names = json.loads(job.text).get("products") if job.format.startswith("laydown-job/") else None
        return names is not None and key in {names[layer] for layer in LAYERS}

    _refuse(book, "product", key, book.delete_product(key, seen, uses))


def delete_side(book: Book, side_id: str, seen: int) -> None:
    """Delete a side of the shop's own."""

    def uses(job: Kept) -> bool:
        body = json.loads(job.text).get("body") if job.format.startswith("laydown-job/") else None
        return body is not None and body["file"] == side_id

    _refuse(book, "side", side_id, book.delete_side(side_id, seen, uses))


def _refuse(book: Book, paper: Literal["product", "side"], name: str, users: Sequence[Kept]) -> None:
    """Name the jobs that keep a paper from being deleted; their earlier plans need it too."""
    if not users:
        return
    away = {one.job_id for one in book.away()}
    now = {one.id for one in users if OF_PLAN not in one.id}
    names = {one.id.partition(OF_PLAN)[0]: one.name for one in users}
    hint = message("paper-in-use.hint", paper=paper)
    raise InputError(
        name,
        tuple(
            Problem("job", _use(Name(job_name), is_away=job_id in away, is_now=job_id in now), hint)
            for job_id, job_name in names.items()
        ),
    )


def _use(job: Name, *, is_away: bool, is_now: bool) -> Message:
    """Say how a job uses a paper."""
    if is_now:
        return message("paper-in-use-away" if is_away else "paper-in-use", job=job)
    return message("paper-in-earlier-plan-away" if is_away else "paper-in-earlier-plan", job=job)
