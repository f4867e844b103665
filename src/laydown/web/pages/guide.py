"""The live view: what to do now, taps, and the way ahead without the network."""

import json
from typing import Any

from markupsafe import Markup
from starlette.exceptions import HTTPException
from starlette.responses import FileResponse, JSONResponse, RedirectResponse, Response

from laydown.desk.book_plans import open_kept_plan
from laydown.desk.session import Live, open_session, read_live, take_taps
from laydown.desk.session_ahead import Node, Phase, before, present, way_ahead
from laydown.desk.session_place import passed
from laydown.reader.encode import encode
from laydown.report.told import names_of, told
from laydown.schema.problem import InputError, Problem
from laydown.web.door import Call, Door
from laydown.web.forms import system_of
from laydown.web.pages.guide_words import Shown, shown, tap_text
from laydown.web.render import HERE, environment, page

HAVE = "x-laydown-have"
"""Header in which a tablet names the state it has; in the answer it says that nothing else has changed."""

SCOPE = "/guide/"
"""Paths that the service worker looks after."""


def live_of(call: Call) -> Live:
    """Return the session of a call.

    Parameters
    ----------
    call
        The call; its path names the session.

    Returns
    -------
    The session as it stands.

    Raises
    ------
    HTTPException
        404: there is none.
    """
    live = read_live(call.state.book, call.state.ready, str(call.path["session"]))
    if live is None:
        raise HTTPException(404, "There is no such session.")
    return live


def _open(call: Call) -> Response:
    """Open the live view of a plan: go on with the open session, or begin one."""
    opened = open_kept_plan(call.state.book, call.state.ready, str(call.form.get("plan", "")))
    if opened is None:
        raise HTTPException(404, "There is no such plan.")
    fresh = call.form.get("fresh") == "yes"
    session = open_session(call.state.book, opened[0], call.state.clock(), fresh=fresh)
    return RedirectResponse(f"/guide/{session}", 303)


def _show(call: Call) -> Response:
    """Show the live view."""
    live = live_of(call)
    node = _present(call, live)
    first = _phase_now(node, call.state.clock())
    html = Markup(_html(call, live, node, first))  # noqa: S704 - from a template that escapes every value
    return page(call, "guide/live.html", live=live, html=html)


def _state(call: Call) -> Response:
    """Tell where the work stands, for the tablet's own count-down; only the clock if the tablet has it already."""
    live = live_of(call)
    if call.request.headers.get(HAVE) == _have(call, live):
        clock = {"version": live.version, "now_s": call.state.clock(), "same": True}
        return JSONResponse(clock, headers={HAVE: "yes"})
    return JSONResponse(_state_of(call, live))


def _have(call: Call, live: Live) -> str:
    """Name what a tablet has: plan, taps, and the units it shows."""
    return f"{live.plan.id} {live.version} {system_of(call)}"


def _state_of(call: Call, live: Live) -> dict[str, Any]:
    """The state as the tablet takes it."""
    now_s = call.state.clock()
    node = _present(call, live)
    return {
        "version": live.version,
        "have": _have(call, live),
        "now_s": now_s,
        "saved_s": live.saved_at_s,
        **_wire(call, live, node),
        "before": _before(call, live),
        "arrivals": _arrivals(call, live),
    }


def _arrivals(call: Call, live: Live) -> dict[str, float]:
    """When the latest places were reached; worked out once for each new tap."""
    key = f"passed {call.state.book.shop_id} {live.id} {live.plan.id} {live.version}"
    found: dict[str, float] | None = call.state.courses.get(key)
    if found is None:
        found = passed(live.plan, live.session, _from_s(call, live))
        call.state.courses.put(key, found)
    return found


def _before(call: Call, live: Live) -> dict[str, Any] | None:
    """Where an undo leads, so that it works without the network too; worked out once for each new tap."""
    key = f"before {call.state.book.shop_id} {live.id} {live.plan.id} {live.version}"
    node: Node | None = call.state.courses.get(key)
    if node is None:
        node = before(live.plan, live.session, _from_s(call, live))
        if node is None:
            return None
        call.state.courses.put(key, node)
    return _wire(call, live, node)


def _present(call: Call, live: Live) -> Node:
    """Return where the work stands; worked out once for each new tap."""
    key = f"present {call.state.book.shop_id} {live.id} {live.plan.id} {live.version}"
    node: Node | None = call.state.courses.get(key)
    if node is None or not live.session.events:
        node = present(live.plan, live.session, _from_s(call, live))
        call.state.courses.put(key, node)
    return node


def _from_s(call: Call, live: Live) -> float:
    """When the course of the present begins: with the last tap, so that it is the same however late it is asked."""
    taps = [event.at_s for event in live.session.events]
    return max(taps) if taps else float(call.state.clock())


def _ahead(call: Call) -> Response:
    """Tell the way ahead."""
    live = live_of(call)
    nodes = way_ahead(live.plan, live.session, _from_s(call, live))
    wires = {node.key: _wire(call, live, node) for node in nodes}
    return JSONResponse({"version": live.version, "nodes": wires})


def _wire(call: Call, live: Live, node: Node) -> dict[str, Any]:
    """One place as the tablet takes it: markup of each phase, and where the buttons lead."""
    return {
        "node": node.key,
        "phases": [
            {
                "begins": encode(phase.begins),
                "html": _html(call, live, node, phase),
                "sound": phase.screen.sound_count,
                "assertive": phase.screen.assertive,
            }
            for phase in node.phases
        ],
        "to": {tap_text(button): key for button, key in node.leads},
    }


def _html(call: Call, live: Live, node: Node, phase: Phase) -> str:
    """Markup of one screen."""
    what: Shown = told(shown(live.plan, node, phase), system_of(call), names_of(live.plan))
    template = environment().get_template("guide/screen.html")
    return template.render(what=what, live=live, may_paint=call.visitor.role in {"manager", "painter"})


def _phase_now(node: Node, now_s: float) -> Phase:
    """The screen of a course that stands now."""
    return [phase for phase in node.phases if phase.begins.at_s <= now_s or phase is node.phases[0]][-1]


def _tap(call: Call) -> Response:
    """Keep taps; the answer names those that are committed."""
    try:
        raw = json.loads(call.body)
        taps = raw["taps"]
    except (ValueError, KeyError, TypeError, RecursionError):
        hint = '{"taps": [{"id": "...", "at_s": 1.0, "event": {"kind": "next"}}]}'
        raise InputError("", (Problem("taps", "is not a list of taps in JSON", hint),)) from None
    live = live_of(call)
    stored = take_taps(call.state.book, live.id, taps, call.state.clock())
    return JSONResponse({"stored": stored, "state": _state_of(call, live_of(call))})


def _worker(_call: Call) -> Response:
    """Give the service worker from a path that lets it look after the live view."""
    headers = {"service-worker-allowed": SCOPE, "cache-control": "no-cache"}
    return FileResponse(HERE / "static" / "sw.js", media_type="text/javascript", headers=headers)


DOORS = (
    Door("/guide", _open, "painter", "POST"),
    Door("/guide/worker.js", _worker, "anybody"),
    Door("/guide/{session}", _show, "reader"),
    Door("/guide/{session}/state", _state, "reader"),
    Door("/guide/{session}/ahead", _ahead, "reader"),
    Door("/guide/{session}/taps", _tap, "painter", "POST"),
)
"""Doors of this group."""
