"""What was done: every tap with its time, the answers at the gates, and who released without them."""

import json
from collections.abc import Iterator
from datetime import datetime
from typing import Any

from markupsafe import Markup
from starlette.exceptions import HTTPException
from starlette.responses import FileResponse, JSONResponse, RedirectResponse, Response

from laydown.desk.plans.kept import open_kept_plan
from laydown.desk.sessions.session import Live, held_ids, open_session, read_live, take_taps
from laydown.schema.message import Message, Name, message
from laydown.schema.problem import InputError, Problem
from laydown.schema.session import Event
from laydown.web.pages.guide_screen import View, ahead_of, html_now, told_of, view_of
from laydown.web.request.door import Call, Door
from laydown.web.request.forms import words_of
from laydown.web.request.render import HERE, page
from laydown.web.request.watchers import Stream
from laydown.web.security.refused import same_origin

HAVE = "x-laydown-have"
"""Header in which a tablet names the state it has; in the answer it says that nothing else has changed."""

SCOPE = "/guide/"
"""Paths that the service worker looks after."""


def live_of(call: Call) -> Live:
    """Return the session of a call."""
    live = read_live(call.state.book, call.state.courses, str(call.path["session"]))
    if live is None:
        raise HTTPException(404)
    return live


def _open(call: Call) -> Response:
    """Open the live view of a plan: go on with the open session, or begin one."""
    opened = open_kept_plan(call.state.book, call.state.ready, str(call.form.get("plan", "")))
    if opened is None:
        raise HTTPException(404)
    fresh = call.form.get("fresh") == "yes"
    session = open_session(call.state.book, opened[0], call.state.clock(), fresh=fresh)
    return RedirectResponse(f"/guide/{session}", 303)


def _show(call: Call) -> Response:
    """Show the live view."""
    live = live_of(call)
    told = told_of(call, view_of(call, live))
    html = Markup(html_now(told, call.state.clock()))  # noqa: S704 - from a template that escapes every value
    return page(call, "guide/live.html", live=live, html=html)


def _state(call: Call) -> Response:
    """Tell where the work stands, for the tablet's own count-down; only the clock if the tablet has it already."""
    view = view_of(call, live_of(call))
    if call.request.headers.get(HAVE) == view.have:
        clock = {"version": view.live.version, "now_s": call.state.clock(), "same": True}
        return JSONResponse(clock, headers={HAVE: "yes"})
    return JSONResponse(_now(call, view))


def _now(call: Call, view: View) -> dict[str, Any]:
    """A session as the tablet takes it, with the clock."""
    return {**told_of(call, view), "now_s": call.state.clock()}


def _ahead(call: Call) -> Response:
    """Tell the places lately passed and the way ahead."""
    return JSONResponse(ahead_of(call, view_of(call, live_of(call))))


def _tap(call: Call) -> Response:
    """Keep taps; the answer names those that are committed."""
    try:
        raw = json.loads(call.body)
        taps = raw["taps"]
    except (ValueError, KeyError, TypeError, RecursionError):
        hint = '{"taps": [{"id": "...", "at_s": 1.0, "event": {"kind": "next"}}]}'
        raise InputError(
            "", (Problem("taps", message("no-taps"), message("as-given", text=Name(hint))),)
        ) from None
    stored = take_taps(call.state.book, live_of(call).id, taps, call.state.clock())
    live = live_of(call)
    call.state.watchers.told(live.id, live.version)
    return JSONResponse({"stored": stored, "state": _now(call, view_of(call, live))})


def _watch(call: Call) -> Response:
    """Tell a second screen at once when there is something newer; it asks for the rest."""
    # Another site could not read the stream, but hold it open.
    if not same_origin(call.request.headers, call.request.headers.get("host", "")):
        raise HTTPException(403, words_of(call).say("from-another-site"))
    live = live_of(call)
    return Stream(call.state.watchers, live.id, live.version)


def _worker(_call: Call) -> Response:
    """Give the service worker from a path that lets it look after the live view."""
    headers = {"service-worker-allowed": SCOPE, "cache-control": "no-cache"}
    return FileResponse(HERE / "static" / "sw.js", media_type="text/javascript", headers=headers)


def _log(call: Call) -> Response:
    """Show the log."""
    live = live_of(call)
    kept, words = held_ids(live.session), words_of(call)
    rows = [
        (
            _clock(event.at_s),
            words.word("tap", event.kind),
            ", ".join(words(said) for said in _said(event)),
            event.id not in kept and event.kind != "undo",
        )
        for event in live.session.events
    ]
    return page(call, "guide/log.html", live=live, rows=rows)


def _clock(at_s: float) -> str:
    """Time of day on this computer."""
    return datetime.fromtimestamp(at_s).astimezone().strftime("%H:%M:%S")


def _said(event: Event) -> Iterator[Message]:
    """What a tap said besides its kind."""
    if event.step:
        yield message("as-given", text=Name(event.step))
    if event.section:
        yield message("log.section", section=event.section)
    if event.layer:
        yield message(f"short_layer.{event.layer}")
    if event.kind == "answer":
        yield message("log.yes" if event.yes else "log.not-yet", question=event.item + 1)
    if event.kind == "earlier":
        yield message("log.earlier", seconds_s=event.seconds_s)
    if event.kind == "weighed":
        yield message("log.weighed", weight_g=event.weight_g)
    if event.text:
        yield message("as-given", text=Name(event.text))


DOORS = (
    Door("/guide", _open, "painter", "POST"),
    Door("/guide/worker.js", _worker, "anybody"),
    Door("/guide/{session}", _show, "reader"),
    Door("/guide/{session}/state", _state, "reader"),
    Door("/guide/{session}/ahead", _ahead, "reader"),
    Door("/guide/{session}/stream", _watch, "reader"),
    Door("/guide/{session}/taps", _tap, "painter", "POST"),
    Door("/guide/{session}/log", _log, "reader"),
)
"""Doors of this group."""
