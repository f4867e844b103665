"""Plans that were written before; reading one needs nothing of the planner."""

import json
import secrets
from collections import OrderedDict
from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from threading import Lock
from typing import Any

from laydown.desk.papers.document import plan_json
from laydown.desk.papers.jobs import OF_PLAN, files_of, open_kept_job, request_for
from laydown.planning.plan import Stamp, plan_from
from laydown.planning.setup.request import Changes, changed
from laydown.planning.setup.setup import Setup, setup_of, with_job
from laydown.reader.decode import decode
from laydown.reader.papers.job_file import job_rules
from laydown.reader.papers.other_files import decode_plan, read_plan
from laydown.schema.coat import Maps
from laydown.schema.job import Job
from laydown.schema.message import message
from laydown.schema.plan import Plan
from laydown.schema.problem import InputError, Problem
from laydown.store.book import Book
from laydown.store.kept import Kept, KeptPlan
from laydown.version import VERSION

MOST_SETUPS = 8
"""Sides kept set up; assumption, more jobs than a shop looks at in one hour."""


@dataclass(frozen=True, slots=True)
class TriedPlan:
    """A job with a change, planned but not kept."""

    job: Job
    plan: Plan


@dataclass(slots=True)
class Ready:
    """What stands ready between two calls: sides set up, maps drawn, plans read; the least used goes first."""

    most: int = 3 * MOST_SETUPS
    _kept: OrderedDict[str, Any] = field(default_factory=OrderedDict)
    _lock: Lock = field(default_factory=Lock)

    def get(self, key: str) -> Any:
        """Return what was kept under a key, or None."""
        with self._lock:
            if key in self._kept:
                self._kept.move_to_end(key)
            return self._kept.get(key)

    def put(self, key: str, value: Any) -> None:
        """Keep something, and let go of what was not used for longest."""
        with self._lock:
            self._kept[key] = value
            while len(self._kept) > self.most:
                self._kept.popitem(last=False)

    def forget(self, names: Collection[str]) -> None:
        """Let go of everything that belongs to plans or sessions, because they were deleted."""
        with self._lock:
            for key in [one for one in self._kept if not set(one.split()).isdisjoint(names)]:
                del self._kept[key]


def open_kept_plan(book: Book, ready: Ready, plan_id: str) -> tuple[Plan, str] | None:
    """Return a plan of the book."""
    own = f"plan {book.shop_id} {plan_id}"
    known: tuple[Plan, str] | None = ready.get(own)
    if known is not None:  # a plan of this shop never changes; whether one is still shared must be asked
        return known
    kept = book.plan(plan_id)
    if kept is None:
        return None
    key = f"plan {kept.shop_id} {plan_id}"
    opened: tuple[Plan, str] | None = ready.get(key)
    if opened is None:
        decoded = decode_plan(json.loads(kept.text))
        if decoded.noun is None:
            raise InputError(f"plan {plan_id}", decoded.problems)
        opened = decoded.noun, kept.job_id
        ready.put(key, opened)
    return opened


def job_of_plan(book: Book, plan_id: str) -> Job | None:
    """Return the job a plan was made from."""
    kept = book.plan(plan_id)
    return open_kept_job(book, f"{kept.job_id}{OF_PLAN}{plan_id}") if kept is not None else None


def setup_of_plan(book: Book, ready: Ready, plan_id: str) -> Setup | None:
    """Set up the side of a plan's job, once."""
    key = f"setup {book.shop_id} {plan_id}"
    setup: Setup | None = ready.get(key)
    if setup is None:
        kept, job = book.plan(plan_id), job_of_plan(book, plan_id)
        if kept is None or job is None:
            return None
        setup = setup_of(request_for(book, job, files_of(book, f"{kept.job_id}{OF_PLAN}{plan_id}")))
        ready.put(key, setup)
    return setup


def maps_of_plan(book: Book, ready: Ready, plan_id: str) -> Maps | None:
    """Return films and ages cell by cell, made anew from the job of a plan."""
    key = f"maps {book.shop_id} {plan_id}"
    maps: Maps | None = ready.get(key)
    if maps is None:
        setup = setup_of_plan(book, ready, plan_id)
        if setup is None:
            return None
        maps = plan_from(setup, Stamp(VERSION), thorough=False, drawn=True).maps
        ready.put(key, maps)
    return maps


def try_change(book: Book, ready: Ready, plan_id: str, typed: Mapping[str, str]) -> TriedPlan:
    """Plan the job of a plan with a change; nothing is kept."""
    setup = setup_of_plan(book, ready, plan_id)
    if setup is None:
        raise InputError("", (Problem("plan", message("try.no-job"), message("try.no-job.hint")),))
    raw = {name: _word(text.strip()) for name, text in typed.items() if text.strip()}
    decoded = decode(Changes, raw, "tried")
    if decoded.noun is None:
        raise InputError("", decoded.problems)
    job = changed(setup.job, decoded.noun)
    problems = tuple(job_rules({"choices": job.choices, "gun": job.gun}, {}))
    if problems:
        raise InputError("", problems)
    return TriedPlan(job, plan_from(with_job(setup, job), Stamp(VERSION), thorough=False, drawn=False).plan)


def _word(value: str) -> str | bool:
    """Turn yes and no into truth values."""
    return {"yes": True, "no": False}.get(value, value)


def bring_in_plan(book: Book, raw: dict[str, Any], at: str) -> Plan:
    """Keep a plan document that was made elsewhere."""
    decoded = decode_plan(raw)
    if decoded.noun is None:
        raise InputError("", decoded.problems)
    plan = decoded.noun
    if not plan.id:
        raise InputError("", (Problem("id", message("value-is-missing"), message("do.bring-in-document")),))
    if book.plan(plan.id) is None:
        job_id = secrets.token_hex(4)
        text = plan_json(plan)
        book.put_job(Kept(job_id, plan.inputs.job, plan.format, at, text))
        book.put_plan(KeptPlan(plan.id, job_id, plan.format, at, text))
    return plan


def kept_plan(path: Path) -> Plan | None:
    """Return the plan that a path leads to."""
    return read_plan(path) if path.is_dir() or path.suffix.lower() == ".json" else None
