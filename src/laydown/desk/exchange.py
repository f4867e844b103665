"""Files that come into the book and go out of it: the same jobs, products, sides and plans as on the command line."""

from pathlib import Path
from typing import Literal

from laydown.desk.papers.archive import is_archive, unpack_job
from laydown.desk.papers.document import plan_json
from laydown.desk.papers.files import kind_unsaid
from laydown.desk.papers.jobs import keep_new_job, read_job
from laydown.desk.papers.sheets import decoded_side, read_product, save_product, save_side, side_id_of
from laydown.desk.plans.kept import bring_in_plan
from laydown.reader.encode import to_json
from laydown.reader.files import LARGEST_PLAN, kind_of, refused, table_of, text_of
from laydown.reader.papers.job_text import job_text
from laydown.reader.papers.side_svg import read_side_svg
from laydown.schema.job import Job
from laydown.schema.message import Name, message
from laydown.schema.plan import Plan
from laydown.schema.problem import InputError, Problem
from laydown.schema.side import Side
from laydown.store.book import Book
from laydown.store.faults import ChangedError
from laydown.words.show import ENGLISH


class TakenError(ChangedError):
    """Another product or side of the same name stands in the book already."""

    def __init__(self, kind: Literal["product", "side"], name: str, text: str) -> None:
        what = message("paper-taken", name=Name(name))
        super().__init__("", (Problem(kind, what, message("paper-taken.hint")),))
        self.kind = kind
        self.id = name
        self.text = text


def bring_in(book: Book, content: bytes, name: str, at: str) -> tuple[str, str]:
    """Keep what a file holds; a job is planned at once."""
    path = Path(Path(name.replace("\\", "/")).name or "file")
    if len(content) > LARGEST_PLAN:
        raise refused(path, message("import-too-large"), message("do.another-file"))
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
    raise kind_unsaid(path)


def save_new_side(book: Book, side: Side, at: str) -> str:
    """Keep a side that was not in the book before."""
    try:
        return save_side(book, side, at, 0)
    except ChangedError:
        raise TakenError("side", side_id_of(side), to_json(side)) from None


def drawn_side(content: bytes, name: str) -> Side:
    """Read a side from a drawing."""
    try:
        return read_side_svg(content, name)
    except InputError as error:
        raise InputError("", error.problems) from None


def typed_job(book: Book, text: str) -> Job:
    """Read a job that was typed as a job file."""
    return read_job(book, table_of(text, Path("job.toml")))


def job_file(job: Job) -> str:
    """Return a job as the text of a job file."""
    return job_text(job, ENGLISH)


def plan_file(plan: Plan) -> str:
    """Return the document of a plan."""
    return plan_json(plan)
