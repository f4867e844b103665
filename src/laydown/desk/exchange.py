"""Files that come into the book and go out of it: the same jobs, products, sides and plans as on the command line."""

from pathlib import Path
from typing import Any, Literal

from laydown.desk.papers.archive import is_archive, unpack_job
from laydown.desk.papers.jobs import keep_new_job, read_job
from laydown.desk.papers.sheets import decoded_side, read_product, save_product, save_side, side_id_of
from laydown.desk.plans.kept import bring_in_plan
from laydown.reader.encode import to_json
from laydown.reader.files import KINDS, LARGEST_PLAN, kind_of, refused, table_of, text_of
from laydown.reader.papers.job_text import job_text
from laydown.reader.papers.side_svg import read_side_svg
from laydown.schema.job import Job
from laydown.schema.plan import Plan
from laydown.schema.problem import InputError, Problem
from laydown.schema.side import Side
from laydown.store.book import Book
from laydown.store.faults import ChangedError

Kind = Literal["job", "product", "side", "plan"]
"""What a file held."""


class TakenError(ChangedError):
    """Another product or side of the same name stands in the book already.

    Attributes
    ----------
    kind, id, text
        What the file held, its id, and itself as JSON text.
    """

    def __init__(self, kind: Literal["product", "side"], name: str, text: str) -> None:
        super().__init__(
            "", (Problem(kind, f"'{name}' is in the book already, with other content", "rename it"),)
        )
        self.kind = kind
        self.id = name
        self.text = text


def bring_in(book: Book, content: bytes, name: str, at: str) -> tuple[str, str]:
    """Keep what a file holds; a job is planned at once.

    Parameters
    ----------
    book
        The book.
    content
        Content of the file.
    name
        Its name; the ending tells SVG, JSON and TOML apart. A ZIP file holds a job with its readings.
    at
        Now, as ISO 8601 text.

    Returns
    -------
    Kind of the file, and the id of the plan, product or side.

    Raises
    ------
    InputError
        Everything that is wrong with it.
    TakenError
        Another product or side of the same name is in the book already.
    """
    path = Path(Path(name.replace("\\", "/")).name or "file")
    if len(content) > LARGEST_PLAN:
        raise refused(path, "is too large", "this is hardly the file that was meant")
    if is_archive(content):
        packed, files = unpack_job(content, path)
        return "plan", keep_new_job(book, read_job(book, packed), at, files)
    if path.suffix.lower() == ".svg":
        return "side", save_new_side(book, drawn_side(content, path.stem), at)
    raw = table_of(text_of(content, path), path)
    kind = kind_of(raw)
    if kind == "job":
        return "plan", keep_new_job(book, read_job(book, raw), at)
    if kind == "product":
        product = read_product(raw)
        try:
            save_product(book, product, at, 0)
        except ChangedError:
            raise TakenError("product", product.key, to_json(product)) from None
        return "product", product.key
    if kind == "side":
        return "side", save_new_side(book, decoded_side(raw), at)
    if kind == "plan":
        return "plan", bring_in_plan(book, raw, at).id
    known = ", ".join(f'format = "{one}/1"' for one in KINDS)
    raise refused(path, "does not say what it is", f"begin it with one of {known}")


def save_new_side(book: Book, side: Side, at: str) -> str:
    """Keep a side that was not in the book before.

    Parameters
    ----------
    book
        The book.
    side
        The side.
    at
        Now, as ISO 8601 text.

    Returns
    -------
    Its id.

    Raises
    ------
    InputError
        It cannot be painted, or its name gives no file name.
    TakenError
        Another side of the same name is in the book already.
    """
    try:
        return save_side(book, side, at, 0)
    except ChangedError:
        raise TakenError("side", side_id_of(side), to_json(side)) from None


def drawn_side(content: bytes, name: str) -> Side:
    """Read a side from a drawing.

    Parameters
    ----------
    content
        SVG.
    name
        What the side shall be called.

    Returns
    -------
    The side.

    Raises
    ------
    InputError
        Everything that is wrong with the drawing.
    """
    side = read_side_svg(content, name)
    if isinstance(side, tuple):
        raise InputError("", side)
    return side


def typed_job(book: Book, text: str) -> Job:
    """Read a job that was typed as a job file.

    Parameters
    ----------
    book
        The book.
    text
        TOML.

    Returns
    -------
    The job.

    Raises
    ------
    InputError
        Everything that is wrong with it.
    """
    return read_job(book, table_of(text, Path("job.toml")))


def typed_table(text: str) -> dict[str, Any]:
    """Read a table that was typed as TOML.

    Parameters
    ----------
    text
        TOML.

    Returns
    -------
    The raw table.

    Raises
    ------
    InputError
        A fault of the notation.
    """
    return table_of(text, Path("text.toml"))


def job_file(job: Job) -> str:
    """Return the job file of a job.

    Parameters
    ----------
    job
        The job.

    Returns
    -------
    TOML with comments.
    """
    return job_text(job)


def plan_file(plan: Plan) -> str:
    """Return the document of a plan.

    Parameters
    ----------
    plan
        The plan.

    Returns
    -------
    JSON, as the command line writes it.
    """
    return to_json(plan)
