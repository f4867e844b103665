"""Sessions of the book: open one for a plan, take taps, read what happened so far."""

import json
import secrets
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from laydown.booth.guide import plan_id_of
from laydown.booth.progress import live
from laydown.desk.plans.kept import Ready, open_kept_plan
from laydown.reader.decode import decode
from laydown.reader.encode import encode
from laydown.schema.message import message
from laydown.schema.plan import Plan
from laydown.schema.problem import InputError, Problem
from laydown.schema.session import Event, Session
from laydown.store.book import Book
from laydown.store.kept import KeptEvent, KeptSession


@dataclass(frozen=True, slots=True)
class SessionLog:
    """What the book holds of a session."""

    session: Session
    painter: str
    version: int
    saved_at_s: float


def read_log(book: Book, ready: Ready, session_id: str) -> SessionLog | None:
    """Return the log of a session as it stands in the book now."""
    key = f"log {book.shop_id} {session_id}"
    log: SessionLog | None = ready.get(key)
    if log is None:
        kept = book.session(session_id)
        if kept is None:
            return None
        log = SessionLog(Session(kept.plan_id), kept.painter, 0, 0.0)
    rows = book.events(session_id, log.version)
    if rows:
        # The book holds each tap once, so nothing has to be looked for twice.
        events = (*log.session.events, *(event_in(row.text) for row in rows))
        saved_at_s = datetime.fromisoformat(rows[-1].received_at).timestamp()
        log = SessionLog(Session(log.session.plan_id, events), log.painter, rows[-1].number, saved_at_s)
    ready.put(key, log)
    return log


def event_in(text: str) -> Event:
    """Return the event in a text of the book."""
    raw: dict[str, Any] = json.loads(text)
    return Event(**raw)


FORMAT = "laydown-session/1"
"""Format of a session in the book."""

OPENED = "opened-"
"""Begins the id of the first event, from which the clock of a session counts; undo does not take it back."""

MOST_TAPS = 200
"""Taps of one batch; a whole day offline has fewer; assumption."""

LONGEST_TEXT = 500
"""Characters of a name or note in a tap; assumption."""

LATEST_S = 4e9
"""Latest time of a tap, seconds since 1970: the year 2096; keeps a faulty clock from making an impossible date."""


@dataclass(frozen=True, slots=True)
class Live:
    """A session as it stands."""

    id: str
    plan: Plan
    session: Session
    version: int
    painter: str
    saved_at_s: float


def open_session(book: Book, plan: Plan, at_s: float, *, fresh: bool = False) -> str:
    """Open a session for a plan of the book, or go on with the one that is open."""
    for kept in () if fresh else book.sessions(plan.id):
        if not _is_closed(book, kept.id):
            return kept.id
    name = secrets.token_hex(4)
    text = json.dumps({"format": FORMAT, "plan_id": plan.id})
    book.put_session(KeptSession(name, plan.id, plan.inputs.painter, FORMAT, iso(at_s), text))
    opened = Event(f"{OPENED}{name}", at_s, "note", text="opened")
    book.add_events(name, [_kept(opened, at_s)])
    return name


def _is_closed(book: Book, session_id: str) -> bool:
    """Whether a session was closed and the closing not undone."""
    events = tuple(event_in(one.text) for one in book.events(session_id))
    return any(event.kind == "close" for event in live(Session("", events)))


def read_live(book: Book, ready: Ready, session_id: str) -> Live | None:
    """Return a session as it stands."""
    log = read_log(book, ready, session_id)
    if log is None:
        return None
    opened = open_kept_plan(book, ready, plan_id_of(log.session))
    if opened is None:
        raise InputError(f"session {session_id}", (Problem("plan", message("plan-not-in-book")),))
    return Live(session_id, opened[0], log.session, log.version, log.painter, log.saved_at_s)


def held_ids(session: Session) -> frozenset[str]:
    """Return the ids of the taps that hold: without undone ones and without the undoing."""
    return frozenset(event.id for event in live(session))


def take_taps(book: Book, session_id: str, raw: object, received_at_s: float) -> tuple[str, ...]:
    """Keep taps, all or none; the answer means that they are committed."""
    if not isinstance(raw, list) or len(raw) > MOST_TAPS:
        hint = message("no-list-of-taps.hint", most=MOST_TAPS)
        raise InputError("", (Problem("taps", message("no-list-of-taps"), hint),))
    return book.add_events(session_id, [_kept(one, received_at_s) for one in _read_taps(raw)])


def _kept(event: Event, received_at_s: float) -> KeptEvent:
    """Return an event as a row of the book."""
    return KeptEvent(event.id, iso(event.at_s), iso(received_at_s), text_of(event))


def _read_taps(raw: Sequence[object]) -> list[Event]:
    """Read taps; what is wrong with any of them is refused at once."""
    events: list[Event] = []
    problems: list[Problem] = []
    for number, tap in enumerate(raw, 1):
        try:
            events.append(read_tap(tap))
        except InputError as error:
            problems += [Problem(f"taps[{number}].{one.where}", one.what, one.hint) for one in error.problems]
    if problems:
        raise InputError("", tuple(problems))
    return events


def read_tap(raw: object) -> Event:
    """Read what a screen sent of one tap; every problem of it is refused at once."""
    if not isinstance(raw, dict) or not isinstance(raw.get("event"), dict):
        raise InputError("", (Problem("event", message("value-is-missing"), message("tap-has")),))
    decoded = decode(Event, {**raw["event"], "id": raw.get("id"), "at_s": raw.get("at_s")}, "tap")
    if decoded.noun is None:
        raise InputError("", decoded.problems)
    event = decoded.noun
    faults = []
    if not event.id or len(event.id) > 64:
        faults.append(Problem("id", message("tap-id"), message("tap-id.hint")))
    if not 0 < event.at_s < LATEST_S:
        faults.append(Problem("at_s", message("tap-instant", number=event.at_s), message("tap-instant.hint")))
    if max(len(event.text), len(event.step), len(event.target)) > LONGEST_TEXT:
        faults.append(Problem("text", message("tap-text"), message("tap-text.hint", most=LONGEST_TEXT)))
    if faults:
        raise InputError("", tuple(faults))
    return event


def text_of(event: Event) -> str:
    """Return an event as the book keeps it."""
    return json.dumps(encode(event), ensure_ascii=False, separators=(",", ":"))


def iso(at_s: float) -> str:
    """Write an instant as ISO 8601 text."""
    return datetime.fromtimestamp(at_s, UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")
