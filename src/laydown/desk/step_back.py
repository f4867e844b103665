"""A step back: a job becomes again what it was for one of its plans."""

from laydown.desk.book_jobs import OF_PLAN, files_of
from laydown.schema.problem import InputError, Problem
from laydown.store.book import Book
from laydown.store.kept import Kept


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
