"""The log of a session: read from the book once, then only what was added to it since."""

import json
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from laydown.desk.book_plans import Ready
from laydown.schema.session import Event, Session
from laydown.store.book import Book


@dataclass(frozen=True, slots=True)
class Log:
    """What the book holds of a session.

    Attributes
    ----------
    session
        What happened.
    painter
        Who sprays.
    version
        Number of the last event; 0 before the first.
    saved_at_s
        When the last event was kept, seconds since 1970; 0 before the first.
    """

    session: Session
    painter: str
    version: int
    saved_at_s: float


def read_log(book: Book, ready: Ready, session_id: str) -> Log | None:
    """Return the log of a session as it stands in the book now.

    Parameters
    ----------
    book
        The book; it is asked every time, for another program may write into it too.
    ready
        What stands ready: events never change and come in the order of their numbers, so those known are not read again.
    session_id
        The session.

    Returns
    -------
    The log; None if there is no such session.
    """
    key = f"log {book.shop_id} {session_id}"
    log: Log | None = ready.get(key)
    if log is None:
        kept = book.session(session_id)
        if kept is None:
            return None
        log = Log(Session(kept.plan_id), kept.painter, 0, 0.0)
    rows = book.events(session_id, log.version)
    if rows:
        # The book holds each tap once, so nothing has to be looked for twice.
        events = (*log.session.events, *(event_in(row.text) for row in rows))
        saved_at_s = datetime.fromisoformat(rows[-1].received_at).timestamp()
        log = Log(Session(log.session.plan_id, events), log.painter, rows[-1].number, saved_at_s)
    ready.put(key, log)
    return log


def event_in(text: str) -> Event:
    """Return the event in a text of the book."""
    raw: dict[str, Any] = json.loads(text)
    return Event(**raw)
