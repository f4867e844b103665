"""A step back: a job becomes again what it was for one of its plans."""

import json
import secrets
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from laydown.desk.papers.files import readings_among
from laydown.desk.papers.sheets import named_products, side_for
from laydown.planning.plan import make_plan
from laydown.planning.setup.request import Products, Request
from laydown.reader.encode import given, to_json
from laydown.reader.files import decode_file
from laydown.reader.papers.job_file import SOURCE, job_rules
from laydown.schema.choices import PanelWork
from laydown.schema.job import Body, Job, ProductNames
from laydown.schema.plan import Plan
from laydown.schema.problem import InputError, Problem
from laydown.schema.side import Side
from laydown.store.book import Book
from laydown.store.kept import NO_FILES, Kept, KeptPlan
from laydown.trade.side.build import find_panel
from laydown.version import VERSION

OF_PLAN = "."
"""Stands between job and plan in the id of the job a plan was made from; no job in the list has it in its id."""


@dataclass(frozen=True, slots=True)
class Whole:
    """A job with what lies beside it.

    Attributes
    ----------
    job
        The job.
    files
        Contents by the names the job gives them.
    seen
        Version of the job it replaces, as somebody read it; None: whatever stands there.
    """

    job: Job
    files: Mapping[str, bytes]
    seen: int | None = None


def read_job(book: Book, raw: dict[str, Any]) -> Job:
    """Read a job and check it against side and shelf of the book.

    Parameters
    ----------
    book
        The book.
    raw
        As read from a form or a file.

    Returns
    -------
    The job.

    Raises
    ------
    InputError
        Everything that is wrong with the job, its side and its products.
    """
    decoded = decode_file(Job, raw, Path("job"), SOURCE)
    problems = [*decoded.problems, *job_rules(decoded.parts, raw)]
    body, panels, names = (decoded.parts.get(key) for key in ("body", "panel", "products"))
    side: Side | None = None
    if isinstance(body, Body):
        try:
            side = side_for(book, body)
        except InputError as error:
            problems += error.problems
    if side is not None and panels:
        problems += _panel_problems(panels, side)
    if isinstance(names, ProductNames):
        problems += named_products(book, names)[1]
    if decoded.noun is None or problems:
        raise InputError("", tuple(dict.fromkeys(problems)))
    return decoded.noun


def _panel_problems(works: tuple[PanelWork, ...], side: Side) -> Iterator[Problem]:
    """List panels that the side does not have."""
    for number, work in enumerate(works, start=1):
        found = find_panel(side, work.name)
        if isinstance(found, Problem):
            yield Problem(f"panel[{number}].name", found.what, found.hint)


def save_job(book: Book, job: Job, at: str, job_id: str = "", files: Mapping[str, bytes] = NO_FILES) -> str:
    """Keep a job with the files that lie beside it.

    Parameters
    ----------
    book
        The book.
    job
        The job, checked.
    at
        Now, as ISO 8601 text.
    job_id
        Id of the job it replaces; empty for a new one.
    files
        Contents by the names the job gives them; what lay there before goes.

    Returns
    -------
    Its id.
    """
    name = job_id or secrets.token_hex(4)
    book.put_job(Kept(name, job.job.name, job.format, at, to_json(job)), files)
    return name


def files_of(book: Book, job_id: str) -> dict[str, bytes]:
    """Return the files that lie beside a job.

    Parameters
    ----------
    book
        The book.
    job_id
        Its id.

    Returns
    -------
    Contents by the names the job gives them.
    """
    found = ((one.name, book.job_file(job_id, one.name)) for one in book.job_files(job_id))
    return {name: content for name, content in found if content is not None}


def open_kept_job(book: Book, job_id: str) -> Job | None:
    """Return a job of the book.

    Parameters
    ----------
    book
        The book.
    job_id
        Its id.

    Returns
    -------
    The job; None if there is none, or if only a plan of it came in.

    Raises
    ------
    InputError
        It cannot be read any more, for instance because its side is gone.
    """
    kept = book.job(job_id)
    if kept is None or not kept.format.startswith("laydown-job/"):
        return None
    return read_job(book, given(json.loads(kept.text)))


def request_for(book: Book, job: Job, files: Mapping[str, bytes]) -> Request:
    """Return what the planner is asked for a job of the book.

    Parameters
    ----------
    book
        The book.
    job
        The job.
    files
        What lies beside it.

    Returns
    -------
    The request, without a time of making.

    Raises
    ------
    InputError
        Side, products or readings are faulty, or side or products are missing.
    """
    side = side_for(book, job.body)
    products, problems = named_products(book, job.products)
    readings, unread = readings_among(job.sample, files)
    if problems or unread:
        raise InputError("", (*problems, *unread))
    return Request(job, side, Products(**products), VERSION, None, readings)


def keep_new_job(book: Book, job: Job, at: str, files: Mapping[str, bytes] = NO_FILES) -> str:
    """Plan a new job, and keep both.

    Parameters
    ----------
    book
        The book.
    job
        The job, checked.
    at
        Now, as ISO 8601 text.
    files
        What lies beside the job.

    Returns
    -------
    Id of the plan; a job that is sent twice is kept once, and fetched back if it was put away.

    Raises
    ------
    InputError
        Something that lies beside the job is faulty.
    """
    plan = make_plan(request_for(book, job, files), drawn=False).plan
    there = book.plan(plan.id)
    if there is None:
        _keep(book, secrets.token_hex(4), Whole(job, files, 0), plan, at)
    else:
        book.fetch_back(there.job_id)
    return plan.id


def plan_kept(
    book: Book,
    job_id: str,
    job: Job,
    at: str,
    files: Mapping[str, bytes] | None = None,
    seen: int | None = None,
) -> Plan:
    """Plan a job of the book as it shall be from now on, and keep job and plan together.

    Parameters
    ----------
    book
        The book.
    job_id
        Id of the job in the book.
    job
        The job as it shall be from now on.
    at
        Now, as ISO 8601 text.
    files
        What shall lie beside it from now on; left out, what lies there stays.
    seen
        Version of the job that was read before; left out, whatever stands there is replaced.

    Returns
    -------
    The plan; the same job gives the same plan and nothing is kept twice.

    Raises
    ------
    InputError
        Another job of the book is word for word the same, or something that lies beside the job is faulty.
    ChangedError
        Somebody else saved or deleted the job since; nothing is kept then.
    """
    whole = Whole(job, files_of(book, job_id) if files is None else files, seen)
    plan = make_plan(request_for(book, job, whole.files), drawn=False).plan
    there = book.plan(plan.id)
    if there is not None and there.job_id != job_id:
        what = f"another job is the same word for word: plan {plan.id}"
        raise InputError("", (Problem("job.name", what, "open that one, or give this one another name"),))
    _keep(book, job_id, whole, plan, at)
    return plan


def _keep(book: Book, job_id: str, whole: Whole, plan: Plan, at: str) -> None:
    """Keep a job, its plan, and the job as it was for this plan; nothing if somebody else changed the job."""
    kept = Kept(job_id, whole.job.job.name, whole.job.format, at, to_json(whole.job))
    book.put_job(kept, whole.files, whole.seen)
    save_job(book, whole.job, at, f"{job_id}{OF_PLAN}{plan.id}", whole.files)
    if book.plan(plan.id) is None:
        book.put_plan(KeptPlan(plan.id, job_id, plan.format, at, to_json(plan)))


@dataclass(frozen=True, slots=True)
class Listed:
    """A job as the list of jobs shows it.

    Attributes
    ----------
    id, name, saved_at
        As kept.
    plan_id, verdict, text
        Its latest plan and what that says; empty without one.
    """

    id: str
    name: str
    saved_at: str
    plan_id: str
    verdict: str
    text: str


def list_jobs(book: Book, search: str = "", most: int = 60) -> tuple[Listed, ...]:
    """Return the jobs of the book, latest first.

    Parameters
    ----------
    book
        The book.
    search
        Part of the name; empty for all.
    most
        How many at most.

    Returns
    -------
    One for each, with its latest plan.
    """
    wanted = search.casefold().strip()
    own = [kept for kept in book.jobs() if OF_PLAN not in kept.id and wanted in kept.name.casefold()]
    return tuple(_listed(book, kept) for kept in own[:most])


def _listed(book: Book, kept: Kept) -> Listed:
    plan = plan_now(book, kept)
    if plan is None:
        return Listed(kept.id, kept.name, kept.saved_at, "", "", "")
    verdict = json.loads(plan.text)["verdict"]
    return Listed(kept.id, kept.name, kept.saved_at, plan.id, verdict["state"], verdict["text"])


def plan_now(book: Book, job: Kept) -> KeptPlan | None:
    """Return the plan that goes with a job as it is.

    Parameters
    ----------
    book
        The book.
    job
        The job as kept.

    Returns
    -------
    The plan made from it, which is an older one after a step back; else the latest; None without plans.
    """
    plans = book.plans(job.id, job.shop_id)
    files = book.job_files(job.id, job.shop_id)
    for plan in plans:
        own = book.job(f"{job.id}{OF_PLAN}{plan.id}", job.shop_id)
        if own is not None and own.text == job.text and book.job_files(own.id, job.shop_id) == files:
            return plan
    return plans[0] if plans else None


def put_back(book: Book, plan_id: str, at: str, seen: int | None = None) -> None:
    """Make the job again what it was for one of its plans.

    Parameters
    ----------
    book
        The book.
    plan_id
        The plan.
    at
        Now, as ISO 8601 text.
    seen
        Version of the job that was read before; left out, whatever stands there is replaced.

    Raises
    ------
    InputError
        There is no such plan, or the job it was made from did not come with it.
    ChangedError
        Somebody else saved or deleted the job since.
    """
    kept = book.plan(plan_id)
    own = book.job(f"{kept.job_id}{OF_PLAN}{plan_id}") if kept is not None else None
    if kept is None or own is None:
        raise InputError("", (Problem("plan", "has no job of its own in the book", "import its job file"),))
    book.put_job(Kept(kept.job_id, own.name, own.format, at, own.text), files_of(book, own.id), seen)
