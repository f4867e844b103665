"""Two people saved the same job, product or side: both are shown, and somebody decides."""

from collections.abc import Callable
from dataclasses import replace
from typing import get_args
from urllib.parse import quote

from starlette.responses import RedirectResponse, Response

from laydown.desk.papers.jobs import OF_PLAN, plan_now, put_back
from laydown.desk.papers.second_save import (
    Clash,
    Draft,
    PaperKind,
    Take,
    clash_of,
    copy_of_base,
    kept_paper,
    renamed,
    settle,
    version_seen,
)
from laydown.reader.encode import to_json
from laydown.schema.job import Job
from laydown.schema.message import message
from laydown.schema.problem import InputError, Problem
from laydown.store.faults import ChangedError
from laydown.web.request.door import Call, Door
from laydown.web.request.fields import field_words, told_values
from laydown.web.request.forms import age_words, fields_of, now_text, said_made_from, words_of
from laydown.web.request.render import page
from laydown.words.show import Words


def save_or_ask(call: Call, draft: Draft, save: Callable[[int], str]) -> Response:
    """Save something, or show it beside what somebody else saved meanwhile."""
    kept = kept_paper(call.state.book, draft.kind, draft.id)
    made = said_made_from(call)
    try:
        return RedirectResponse(save(version_seen(kept, made.version, made.before)), 303)
    except ChangedError:
        return clash_page(call, replace(draft, before=made.before))


def step_back(call: Call, ids: tuple[str, str], job: Job, place: str) -> Response:
    """Make a job again what it was for one of its plans, unless somebody else changed it meanwhile."""
    job_id, plan_id = ids

    def back(seen: int) -> str:
        put_back(call.state.book, plan_id, now_text(), seen)
        return place

    draft = Draft("job", job_id, to_json(job), files_of=f"{job_id}{OF_PLAN}{plan_id}")
    return save_or_ask(call, draft, back)


def clash_page(call: Call, draft: Draft, problems: tuple[Problem, ...] = ()) -> Response:
    """Show what would be saved beside what stands in the book."""
    book = call.state.book
    if draft.kind == "job" and draft.before and not draft.files_of:
        draft = replace(draft, files_of=copy_of_base(book, draft.id, draft.before))
    clash = clash_of(book, draft)
    if clash.version and not clash.compared.fields:
        return RedirectResponse(_place(draft.kind, draft.id), 303)
    return page(
        call,
        "clash.html",
        422 if problems else 409,
        clash=clash,
        rows=_rows(clash, words_of(call)),
        saved=age_words(clash.saved_at, words_of(call)),
        action=f"/jobs/{draft.id}/settle" if draft.kind == "job" else f"{_PLACES[draft.kind]}/settle",
        place=_place(draft.kind, draft.id) if clash.version else _PLACES[draft.kind],
        is_new=not draft.before and draft.kind != "job",
        problems=problems,
    )


def _rows(clash: Clash, words: Words) -> list[tuple[str, str, tuple[str, ...]]]:
    """Words for each field that differs: its name, who changed it, and what it was, is and would be."""
    rows = []
    for one in clash.compared.fields:
        who = "both" if one.both_changed else "they" if one.theirs_changed else "you"
        told = told_values(one.path, (one.was, one.theirs, one.mine), words)
        field = field_words(one.path, words)
        rows.append((field[:1].upper() + field[1:], who, told))
    return rows


_PLACES: dict[PaperKind, str] = {"job": "/jobs", "product": "/shelf", "side": "/sides"}
"""Where the lists are."""


def _place(kind: PaperKind, name: str) -> str:
    """Address of a job, product or side."""
    return f"{_PLACES[kind]}/{quote(name)}"


def _settle_job(call: Call) -> Response:
    """Keep what somebody decided for of a job."""
    answers = fields_of(call)
    kept = call.state.book.job(call.path["job"])
    draft = Draft(
        "job",
        call.path["job"],
        answers.get("mine", ""),
        answers.get("made_from", ""),
        answers.get("files_of", ""),
    )
    if answers.get("take") == "theirs":
        return RedirectResponse(_place("job", draft.id) if kept is not None else "/jobs", 303)
    return _settled(call, draft)


def _settle_product(call: Call) -> Response:
    """Keep what somebody decided for of a product."""
    return _settle_paper(call, "product")


def _settle_side(call: Call) -> Response:
    """Keep what somebody decided for of a side."""
    return _settle_paper(call, "side")


def _settle_paper(call: Call, kind: PaperKind) -> Response:
    """Keep what somebody decided for, or keep it under another name."""
    answers = fields_of(call)
    draft = Draft(kind, answers.get("id", ""), answers.get("mine", ""), answers.get("made_from", ""))
    take = answers.get("take", "")
    if take == "theirs":
        is_there = kept_paper(call.state.book, kind, draft.id) is not None
        return RedirectResponse(_place(kind, draft.id) if is_there else _PLACES[kind], 303)
    if take != "rename":
        return _settled(call, draft)
    try:
        other = renamed(draft, answers.get("name", ""))
    except InputError as error:
        problems = tuple(replace(one, where="name") for one in error.problems)
        return clash_page(call, draft, problems)
    if kept_paper(call.state.book, kind, other.id) is not None:
        problem = Problem("name", message("name-taken-too"), message("name-taken-too.mend"))
        return clash_page(call, draft, (problem,))
    return _settled(call, other, "mine", 0)


def _settled(call: Call, draft: Draft, take: str = "", seen: int | None = None) -> Response:
    """Keep what somebody decided for; show both again if that is not possible."""
    take = take or fields_of(call).get("take", "")
    if take not in get_args(Take):
        return clash_page(call, draft)
    version = said_made_from(call).version if seen is None else seen
    book = call.state.book
    kept = book.job(draft.id) if draft.kind == "job" else None
    theirs = plan_now(book, kept) if kept is not None else None
    before = theirs.id if theirs is not None else ""
    try:
        clash = clash_of(book, draft)
        name = settle(book, clash, "both" if take == "both" else "mine", version, now_text())
    except ChangedError:
        return clash_page(call, draft)
    except InputError as error:
        return clash_page(call, draft, error.problems)
    if draft.kind != "job":
        return RedirectResponse(_place(draft.kind, name), 303)
    undo = f"?kept_from={before}" if before not in {"", name} else ""
    return RedirectResponse(f"/plans/{name}{undo}", 303)


DOORS = (
    Door("/jobs/{job}/settle", _settle_job, "painter", "POST"),
    Door("/shelf/settle", _settle_product, "painter", "POST"),
    Door("/sides/settle", _settle_side, "painter", "POST"),
)
"""Doors of this group."""
