"""What was done: every tap with its time, the answers at the gates, and who released without them."""

from datetime import datetime

from starlette.responses import Response

from laydown.desk.session import held_ids
from laydown.schema.session import Event
from laydown.web.door import Call, Door
from laydown.web.pages.guide import live_of
from laydown.web.render import page

WORDS = {
    "mixed": "mix ready",
    "begin": "begun",
    "next": "section ended",
    "refill": "filling the cup",
    "hold": "held",
    "earlier": "it was earlier",
    "matt": "matt",
    "not_yet": "not matt yet",
    "answer": "answer",
    "release": "released",
    "release_anyway": "released without all answers",
    "done": "done",
    "weighed": "cup weighed",
    "fault": "something went wrong",
    "replan": "planned again",
    "note": "note",
    "close": "closed",
    "undo": "taken back",
}
"""What a tap is called in the log."""


def _show(call: Call) -> Response:
    """Show the log."""
    live = live_of(call)
    kept = held_ids(live.session)
    rows = [
        (_clock(event.at_s), WORDS[event.kind], _said(event), event.id not in kept and event.kind != "undo")
        for event in live.session.events
    ]
    return page(call, "guide/log.html", live=live, rows=rows)


def _clock(at_s: float) -> str:
    """Time of day on this computer."""
    return datetime.fromtimestamp(at_s).astimezone().strftime("%H:%M:%S")


def _said(event: Event) -> str:
    """What a tap said besides its kind."""
    parts = [event.step]
    if event.section:
        parts.append(f"section {event.section}")
    if event.layer:
        parts.append(event.layer)
    if event.kind == "answer":
        parts.append(f"question {event.item + 1}: {'yes' if event.yes else 'not yet'}")
    if event.kind == "earlier":
        parts.append(f"{event.seconds_s:.0f} s")
    if event.kind == "weighed":
        parts.append(f"{event.weight_g:.0f} g")
    return ", ".join(part for part in (*parts, event.text) if part)


DOORS = (Door("/guide/{session}/log", _show, "reader"),)
"""Doors of this group."""
