"""The list of jobs in the book, each with the plan that goes with it."""

import json
from dataclasses import dataclass

from laydown.desk.book_jobs import OF_PLAN
from laydown.store.book import Book
from laydown.store.kept import Kept, KeptPlan


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
