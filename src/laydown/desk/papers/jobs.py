"""A step back: a job becomes again what it was for one of its plans."""

import json
import secrets
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from laydown.desk.papers.document import plan_json
from laydown.desk.papers.files import readings_among
from laydown.desk.papers.sheets import named_products, side_for
from laydown.planning.plan import make_plan
from laydown.planning.setup.request import Products, Request
from laydown.reader.encode import given, to_json
from laydown.reader.files import decode_file
from laydown.reader.papers.job_file import SOURCE, job_rules
from laydown.reader.sentence import read_sentence
from laydown.schema.job import Body, Job, ProductNames
from laydown.schema.message import Name, Saying, message
from laydown.schema.plan import Plan
from laydown.schema.problem import InputError, Problem, gathered
from laydown.schema.product import Product
from laydown.schema.reading import Readings
from laydown.schema.side import Side
from laydown.store.book import Book
from laydown.store.kept import NO_FILES, Kept, KeptPlan
from laydown.trade.side.build import panel_problems
from laydown.version import VERSION

OF_PLAN = "."
"""Stands between job and plan in the id of the job a plan was made from; no job in the list has it in its id."""


@dataclass(frozen=True, slots=True)
class Whole:
    """A job with what lies beside it."""

    job: Job
    files: Mapping[str, bytes]
    seen: int | None = None


def read_job(book: Book, raw: dict[str, Any]) -> Job:
    """Read a job and check it against side and shelf of the book."""
    decoded = decode_file(Job, raw, Path("job"), SOURCE)
    problems = [*decoded.problems, *job_rules(decoded.parts, raw)]
    body, panels, names = (decoded.parts.get(key) for key in ("body", "panel", "products"))
    side: Side | None = None
    if isinstance(body, Body):
        with gathered(problems):
            side = side_for(book, body)
    if side is not None and panels:
        problems += panel_problems(side, [work.name for work in panels])
    if isinstance(names, ProductNames):
        with gathered(problems):
            named_products(book, names)
    if decoded.noun is None or problems:
        raise InputError("", tuple(dict.fromkeys(problems)))
    return decoded.noun


def save_job(book: Book, job: Job, at: str, job_id: str = "", files: Mapping[str, bytes] = NO_FILES) -> str:
    """Keep a job with the files that lie beside it."""
    name = job_id or secrets.token_hex(4)
    book.put_job(Kept(name, job.job.name, job.format, at, to_json(job)), files)
    return name


def files_of(book: Book, job_id: str) -> dict[str, bytes]:
    """Return the files that lie beside a job."""
    found = ((one.name, book.job_file(job_id, one.name)) for one in book.job_files(job_id))
    return {name: content for name, content in found if content is not None}


def open_kept_job(book: Book, job_id: str) -> Job | None:
    """Return a job of the book."""
    kept = book.job(job_id)
    if kept is None or not kept.format.startswith("laydown-job/"):
        return None
    return read_job(book, given(json.loads(kept.text)))


def request_for(book: Book, job: Job, files: Mapping[str, bytes]) -> Request:
    """Return what the planner is asked for a job of the book."""
    side = side_for(book, job.body)
    problems: list[Problem] = []
    products: dict[str, Product] = {}
    readings: Readings | None = None
    with gathered(problems):
        products = named_products(book, job.products)
    with gathered(problems):
        readings = readings_among(job.sample, files)
    if problems:
        raise InputError("", tuple(problems))
    return Request(job, side, Products(**products), VERSION, None, readings)


def keep_new_job(book: Book, job: Job, at: str, files: Mapping[str, bytes] = NO_FILES) -> str:
    """Plan a new job, and keep both."""
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
    """Plan a job of the book as it shall be from now on, and keep job and plan together."""
    whole = Whole(job, files_of(book, job_id) if files is None else files, seen)
    plan = make_plan(request_for(book, job, whole.files), drawn=False).plan
    there = book.plan(plan.id)
    if there is not None and there.job_id != job_id:
        what, hint = message("same-job", plan=Name(plan.id)), message("same-job.hint")
        raise InputError("", (Problem("job.name", what, hint),))
    _keep(book, job_id, whole, plan, at)
    return plan


def _keep(book: Book, job_id: str, whole: Whole, plan: Plan, at: str) -> None:
    """Keep a job, its plan, and the job as it was for this plan; nothing if somebody else changed the job."""
    kept = Kept(job_id, whole.job.job.name, whole.job.format, at, to_json(whole.job))
    book.put_job(kept, whole.files, whole.seen)
    save_job(book, whole.job, at, f"{job_id}{OF_PLAN}{plan.id}", whole.files)
    if book.plan(plan.id) is None:
        book.put_plan(KeptPlan(plan.id, job_id, plan.format, at, plan_json(plan)))


@dataclass(frozen=True, slots=True)
class Listed:
    """A job as the list of jobs shows it."""

    id: str
    name: str
    saved_at: str
    plan_id: str
    verdict: str
    text: Saying


def list_jobs(book: Book, search: str = "", most: int = 60) -> tuple[Listed, ...]:
    """Return the jobs of the book, latest first."""
    wanted = search.casefold().strip()
    own = [kept for kept in book.jobs() if OF_PLAN not in kept.id and wanted in kept.name.casefold()]
    return tuple(_listed(book, kept) for kept in own[:most])


def _listed(book: Book, kept: Kept) -> Listed:
    plan = plan_now(book, kept)
    if plan is None:
        return Listed(kept.id, kept.name, kept.saved_at, "", "", "")
    verdict = json.loads(plan.text)["verdict"]
    text = verdict["text"]
    said = text if isinstance(text, str) else read_sentence(text)
    return Listed(kept.id, kept.name, kept.saved_at, plan.id, verdict["state"], said)


def plan_now(book: Book, job: Kept) -> KeptPlan | None:
    """Return the plan that goes with a job as it is."""
    plans = book.plans(job.id, job.shop_id)
    files = book.job_files(job.id, job.shop_id)
    for plan in plans:
        own = book.job(f"{job.id}{OF_PLAN}{plan.id}", job.shop_id)
        if own is not None and own.text == job.text and book.job_files(own.id, job.shop_id) == files:
            return plan
    return plans[0] if plans else None


def put_back(book: Book, plan_id: str, at: str, seen: int | None = None) -> None:
    """Make the job again what it was for one of its plans."""
    kept = book.plan(plan_id)
    own = book.job(f"{kept.job_id}{OF_PLAN}{plan_id}") if kept is not None else None
    if kept is None or own is None:
        what, hint = message("plan-without-own-job"), message("plan-without-own-job.hint")
        raise InputError("", (Problem("plan", what, hint),))
    book.put_job(Kept(kept.job_id, own.name, own.format, at, own.text), files_of(book, own.id), seen)
