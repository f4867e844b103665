"""A save that came second: shown beside what the other saved, and settled by whoever looks at both."""

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Literal

from laydown.desk.papers.jobs import OF_PLAN, files_of, plan_kept, read_job
from laydown.desk.papers.sheets import decoded_side, read_product, save_product, save_side, side_id_of
from laydown.desk.papers.sides import panel_rows
from laydown.reader.decode import decode
from laydown.reader.encode import given
from laydown.schema.job import Job
from laydown.schema.message import message
from laydown.schema.problem import InputError, Problem
from laydown.schema.product import Product
from laydown.store.book import Book
from laydown.store.faults import ChangedError
from laydown.store.kept import Kept

Path = tuple[str, ...]
"""Where a field stands: its tables from the outside in, and its own name."""

BY_NAME = ("panel",)
"""Lists whose entries bear a name, so that an entry is the same one wherever it stands."""

BY_NUMBER = ("recipe",)
"""Lists whose order matters: an entry is what stands at its place."""


@dataclass(frozen=True, slots=True)
class Differs:
    """A field in which two papers differ."""

    path: Path
    was: Any
    theirs: Any
    mine: Any
    both_changed: bool
    theirs_changed: bool


@dataclass(frozen=True, slots=True)
class Compared:
    """How two papers differ."""

    fields: tuple[Differs, ...]
    both: dict[str, Any] | None


def fields_of_paper(raw: Mapping[str, Any]) -> dict[Path, Any]:
    """Take a paper apart."""
    return {path: value for key, item in raw.items() for path, value in _leaves((key,), item)}


def _leaves(path: Path, value: Any) -> Iterator[tuple[Path, Any]]:
    """Give the fields at and below a path."""
    if path[0] in BY_NAME and len(path) == 1:
        value = {item["name"]: item for item in value}
    elif path[0] in BY_NUMBER and len(path) == 1:
        value = {str(number): item for number, item in enumerate(value, 1)}
    if isinstance(value, Mapping) and "value" not in value:
        for key, item in value.items():
            yield from _leaves((*path, str(key)), item)
    elif value is not None:
        yield path, value


def paper_of_fields(found: Mapping[Path, Any]) -> dict[str, Any]:
    """Put a paper together again."""
    raw: dict[str, Any] = {}
    for path, value in found.items():
        table = raw
        for key in path[:-1]:
            table = table.setdefault(key, {})
        table[path[-1]] = value
    for key in BY_NAME:
        if key in raw:
            raw[key] = list(raw[key].values())
    for key in BY_NUMBER:
        if key in raw:
            raw[key] = [line for _, line in sorted(raw[key].items(), key=lambda pair: int(pair[0]))]
    return raw


def compare(
    before: Mapping[Path, Any] | None, theirs: Mapping[Path, Any], mine: Mapping[Path, Any]
) -> Compared:
    """Compare what another saved with what one would save oneself."""
    known = before or {}
    paths = [path for path in dict.fromkeys((*theirs, *mine)) if theirs.get(path) != mine.get(path)]
    fields = tuple(_differs(path, before, theirs, mine) for path in paths)
    fields = tuple(sorted(fields, key=lambda one: (not one.both_changed, not one.theirs_changed)))
    if before is None or any(one.both_changed for one in fields):
        return Compared(fields, None)
    merged = dict(theirs)
    for one in fields:
        if one.mine == known.get(one.path):
            continue
        if one.mine is None:
            del merged[one.path]
        else:
            merged[one.path] = one.mine
    return Compared(fields, paper_of_fields(merged) if _is_whole(merged) else None)


def _differs(
    path: Path, before: Mapping[Path, Any] | None, theirs: Mapping[Path, Any], mine: Mapping[Path, Any]
) -> Differs:
    """Compare one field."""
    other, own = theirs.get(path), mine.get(path)
    if before is None:
        return Differs(path, None, other, own, both_changed=True, theirs_changed=True)
    was = before.get(path)
    theirs_changed, mine_changed = other != was, own != was
    return Differs(path, was, other, own, theirs_changed and mine_changed, theirs_changed)


def _is_whole(found: Mapping[Path, Any]) -> bool:
    """Whether every entry of a list still has its name: one took it away where the other changed it."""
    entries = {path[:2] for path in found if path[0] in BY_NAME}
    return all((*entry, "name") in found for entry in entries)


PaperKind = Literal["job", "product", "side", "plan"]
"""What a file or a page holds; a plan is never saved by two."""

Take = Literal["mine", "both"]
"""What is kept: one's own instead of the other's, or what either changed."""


@dataclass(frozen=True, slots=True)
class Draft:
    """What somebody would save, and what that was made from."""

    kind: PaperKind
    id: str
    mine: str
    before: str = ""
    files_of: str = ""


@dataclass(frozen=True, slots=True)
class Clash:
    """A save that came second, beside what stands in the book."""

    draft: Draft
    name: str
    version: int
    saved_at: str
    compared: Compared


def kept_paper(book: Book, kind: PaperKind, name: str) -> Kept | None:
    """Return a job, product or side as it stands in the book."""
    if kind == "job":
        return book.job(name)
    papers = book.products() if kind == "product" else book.sides()
    return next((one for one in papers if one.id == name), None)


def version_seen(kept: Kept | None, seen: int, before: str) -> int:
    """Return the version that a save goes by."""
    if kept is None or not before:
        return seen
    now = _table(kept.text)
    # Readings of the same name may have been replaced by others; the text does not tell.
    is_same = now is not None and now == _table(before) and "readings" not in now.get("sample", {})
    return kept.version if is_same else seen


def clash_of(book: Book, draft: Draft) -> Clash:
    """Return what somebody would save beside what stands in the book."""
    kept = kept_paper(book, draft.kind, draft.id)
    mine = _fields(draft.kind, draft.mine)
    if mine is None:
        raise InputError("", (Problem(draft.kind, message("draft-unread"), message("draft-unread.hint")),))
    theirs = _fields(draft.kind, kept.text) if kept is not None else {}
    before = _fields(draft.kind, draft.before) if draft.before else None
    # A side is drawn or measured anew each time: nothing of it is half of another.
    compared = compare(None if draft.kind == "side" else before, theirs or {}, mine)
    name = kept.name if kept is not None else _name_of(draft.kind, mine)
    return Clash(draft, name, kept.version if kept else 0, kept.saved_at if kept else "", compared)


def settle(book: Book, clash: Clash, take: Take, seen: int, at: str) -> str:
    """Keep what somebody decided for."""
    draft = clash.draft
    raw = clash.compared.both if take == "both" else _table(draft.mine)
    if raw is None or seen != clash.version:
        what = message("saved-once-more")
        raise ChangedError("", (Problem(draft.kind, what, message("do.look-there")),))
    if draft.kind == "job":
        job = read_job(book, raw)
        files = _files(book, draft, take)
        return plan_kept(book, draft.id, job, at, files, seen).id
    if draft.kind == "product":
        product = read_product(raw)
        save_product(book, product, at, seen)
        return product.key
    return save_side(book, decoded_side(raw), at, seen)


def renamed(draft: Draft, name: str) -> Draft:
    """Return a new product or side under another name, because somebody else took the first one."""
    if not name.strip():
        raise InputError("", (Problem("name", message("nothing-typed"), message("do.new-name")),))
    raw = (_table(draft.mine) or {}) | {("key" if draft.kind == "product" else "name"): name.strip()}
    if draft.kind == "product":
        return Draft("product", read_product(raw).key, json.dumps(raw))
    return Draft("side", side_id_of(decoded_side(raw)), json.dumps(raw))


def copy_of_base(book: Book, job_id: str, before: str) -> str:
    """Return the job beside which the files lie that a job had when its form was filled in."""
    wanted = _table(before)
    ids = [f"{job_id}{OF_PLAN}{plan.id}" for plan in book.plans(job_id)]
    rows = ((name, book.job(name)) for name in ids)
    return next((name for name, row in rows if row is not None and _table(row.text) == wanted), "")


def _files(book: Book, draft: Draft, take: Take) -> dict[str, bytes]:
    """Find the files of a settled job; of two with the same name that of the one whose word counts first."""
    theirs = files_of(book, draft.id)
    mine = files_of(book, draft.files_of) if draft.files_of else {}
    return theirs | mine if take == "mine" else mine | theirs


def _table(text: str) -> dict[str, Any] | None:
    """Read JSON that a form carried; what is not given is left out."""
    try:
        raw = json.loads(text)
    except (ValueError, RecursionError):
        return None
    return dict(given(raw)) if isinstance(raw, dict) else None


def _fields(kind: PaperKind, text: str) -> dict[Path, Any] | None:
    """Take a paper apart that a form carried; None if it is none."""
    raw = _table(text)
    if raw is None:
        return None
    if kind == "side":
        return _side_fields(raw)
    noun: type[Job | Product] = Job if kind == "job" else Product
    return None if decode(noun, raw).noun is None else fields_of_paper(raw)


def _side_fields(raw: dict[str, Any]) -> dict[Path, Any] | None:
    """What tells one side from another: tape measures and the areas of the panels."""
    try:
        side = decoded_side(raw)
    except InputError:
        return None
    found: dict[Path, Any] = {("name",): side.name, ("status",): side.status}
    found |= {("measures", name): value for name, value in side.measures.items()}
    # Outlines are too much for a person to compare: their areas tell.
    found |= {("panels", label, "area_m2"): float(f"{area:.4g}") for label, area in panel_rows(side)}
    return found


def _name_of(kind: PaperKind, found: Mapping[Path, Any]) -> str:
    """What people call it."""
    place: Path = {"job": ("job", "name"), "product": ("key",), "side": ("name",)}[kind]
    return str(found[place])
