"""When the day differs: the rest of a session is planned again, kept, and followed once somebody says so."""

import secrets
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from laydown.booth.changes_today import ChangeKind, DayChange
from laydown.booth.replan import Turn, replanned
from laydown.desk.papers.document import plan_json
from laydown.desk.papers.jobs import OF_PLAN, files_of, save_job
from laydown.desk.plans.kept import Ready, setup_of_plan
from laydown.desk.sessions.session import Live, iso, text_of
from laydown.reader.decode import decode
from laydown.schema.message import Name, message
from laydown.schema.problem import InputError, Problem
from laydown.schema.session import Event
from laydown.store.book import Book
from laydown.store.kept import KeptEvent, KeptPlan

_FIELDS: dict[ChangeKind, tuple[str, ...]] = {
    "air changed": ("temperature_c", "rh"),
    "section took longer": (),
    "ran low": ("left_g",),
    "interrupted": (),
    "painter left": (),
    "coat forgotten": ("layer", "coat"),
}


def turn(book: Book, ready: Ready, live: Live, typed: Mapping[str, str], at_s: float) -> Turn:
    """Plan the rest of a session again; nothing is followed yet."""
    change = _read(typed, at_s)
    setup = setup_of_plan(book, ready, live.plan.id)
    if setup is None:
        raise InputError("", (Problem("plan", message("turn.no-job"), message("turn.no-job.hint")),))
    made = replanned(live.plan, live.session, setup, change)
    if made.changes:
        kept = book.plan(live.plan.id)
        job_id = kept.job_id if kept is not None else ""
        files = files_of(book, f"{job_id}{OF_PLAN}{live.plan.id}")
        save_job(book, made.setup.job, iso(at_s), f"{job_id}{OF_PLAN}{made.plan.id}", files)
        if book.plan(made.plan.id) is None:
            book.put_plan(KeptPlan(made.plan.id, job_id, made.plan.format, iso(at_s), plan_json(made.plan)))
    return made


def _read(typed: Mapping[str, str], at_s: float) -> DayChange:
    """Read what differs."""
    kind = typed.get("kind", "")
    fields = _FIELDS.get(kind)  # type: ignore[call-overload]
    if fields is None:
        hint = message("one-of", known=tuple(map(Name, _FIELDS)))
        raise InputError("", (Problem("kind", message("not-known"), hint),))
    raw: dict[str, Any] = {name: typed[name].strip() for name in fields if typed.get(name, "").strip()}
    if "coat" in raw:
        raw["coat"] = int(raw["coat"]) if raw["coat"].isdigit() else raw["coat"]
    decoded = decode(DayChange, {"kind": kind, "at_s": at_s, **raw}, "read at the booth")
    if decoded.noun is None:
        raise InputError("", decoded.problems)
    missing = [name for name in fields if name not in raw]
    if missing and (kind != "air changed" or len(missing) == len(fields)):
        what, hint = message("value-is-missing"), message("give-the-figure")
        raise InputError("", tuple(Problem(name, what, hint) for name in missing))
    return replace(decoded.noun, at_s=at_s)


def follow(book: Book, live: Live, plan_id: str, at_s: float) -> None:
    """Go by another plan from now on; undo takes it back."""
    old, new = book.plan(live.session.plan_id), book.plan(plan_id)
    if old is None or new is None or new.job_id != old.job_id:
        what, hint = message("plan-of-another-job"), message("plan-of-another-job.hint")
        raise InputError("", (Problem("plan", what, hint),))
    event = Event(secrets.token_hex(16), at_s, "replan", text=plan_id)
    book.add_events(live.id, [KeptEvent(event.id, iso(at_s), iso(at_s), text_of(event))])
