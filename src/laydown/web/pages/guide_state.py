"""What a tablet is told of a session: its screens as markup, and what lies behind and ahead of it.

A session stands still between two taps, so all of this is worked out once for each tap, kept under the number of that
tap in the book, and told to every screen that asks.
"""

from dataclasses import asdict, dataclass
from typing import Any

from laydown.booth.standing import Standing, standings_of
from laydown.desk.session import Live
from laydown.desk.session_ahead import Node, present, way_ahead
from laydown.desk.session_place import LAST_PASSED, passed
from laydown.reader.encode import encode
from laydown.report.told import names_of, told
from laydown.units import System
from laydown.web.door import Call
from laydown.web.forms import system_of
from laydown.web.pages.guide_words import Shown, shown, tap_text
from laydown.web.render import environment
from laydown.web.roles import may

RECENT_TAPS = 60
"""Taps named to a tablet that may still think they wait; assumption, more than one batch."""


@dataclass(frozen=True, slots=True)
class View:
    """A session as one visitor sees it.

    Attributes
    ----------
    live
        The session.
    system
        Units its sentences are told in.
    paints
        Whether the visitor may tap.
    """

    live: Live
    system: System
    paints: bool

    @property
    def have(self) -> str:
        """Names what a tablet has once it was told: plan, taps, and the units it shows."""
        return f"{self.live.plan.id} {self.live.version} {self.system}"


def view_of(call: Call, live: Live) -> View:
    """Return a session as the visitor of a call sees it."""
    return View(live, system_of(call), may(call.visitor.role, "painter"))


def told_of(call: Call, view: View) -> dict[str, Any]:
    """Return a session as a tablet takes it, but for the clock; worked out once for each new tap.

    Parameters
    ----------
    call, view
        The call, and the session as its visitor sees it.

    Returns
    -------
    What goes over the wire; not to be changed.
    """
    key = f"told {call.state.book.shop_id} {view.live.id} {view.have} {view.paints}"
    found: dict[str, Any] | None = call.state.courses.get(key)
    if found is None:
        found = _told(view, call.state.clock())
        if view.live.session.events:  # an empty log has no instant of its own
            call.state.courses.put(key, found)
    return found


def ahead_of(call: Call, view: View) -> dict[str, Any]:
    """Return the places lately passed and those ahead, by their names.

    Parameters
    ----------
    call, view
        As in ``told_of``.

    Returns
    -------
    What goes over the wire.
    """
    standings, from_s = _standings(view.live, call.state.clock())
    nodes = way_ahead(standings, from_s)
    return {"version": view.live.version, "nodes": {node.key: _place(view, node) for node in nodes}}


def html_now(told_state: dict[str, Any], now_s: float) -> str:
    """Return the markup of the screen that stands at an instant.

    Parameters
    ----------
    told_state
        A session as a tablet takes it.
    now_s
        The instant, seconds since 1970.

    Returns
    -------
    Markup.
    """
    first, *later = told_state["phases"]
    begun = [phase for phase in later if phase["begins"]["at_s"] <= now_s]
    return str([first, *begun][-1]["html"])


def _told(view: View, now_s: float) -> dict[str, Any]:
    """The session without the clock."""
    standings, from_s = _standings(view.live, now_s)
    behind = passed(standings)
    return {
        "version": view.live.version,
        "have": view.have,
        "saved_s": view.live.saved_at_s,
        **_place(view, present(standings[-1], from_s)),
        "arrivals": behind.arrivals,
        "back": [asdict(step) for step in behind.back],
        "recent": [event.id for event in view.live.session.events[-RECENT_TAPS:]],
    }


def _standings(live: Live, now_s: float) -> tuple[tuple[Standing, ...], float]:
    """Where the log stood lately, and when its course begins: with the last tap, so that it is the same however late asked."""
    from_s = max((event.at_s for event in live.session.events), default=now_s)
    return standings_of(live.plan, live.session, from_s, LAST_PASSED), from_s


def _place(view: View, node: Node) -> dict[str, Any]:
    """One place as the tablet takes it: markup of each phase, and where the buttons lead."""
    phases: list[dict[str, Any]] = []
    drawn: tuple[Shown, str] | None = None
    for phase in node.phases:
        what = shown(view.live.plan, node, phase)
        if drawn is None or drawn[0] != what:  # a phase may differ only in what is heard
            drawn = what, _html(view, what)
        phases.append(
            {
                "begins": encode(phase.begins),
                "html": drawn[1],
                "sound": phase.screen.sound_count,
                "assertive": phase.screen.assertive,
            }
        )
    return {
        "node": node.key,
        "phases": phases,
        "to": {tap_text(button): key for button, key in node.leads},
    }


def _html(view: View, what: Shown) -> str:
    """Markup of one screen."""
    if view.system != "metric":
        what = told(what, view.system, names_of(view.live.plan))
    template = environment().get_template("guide/screen.html")
    return template.render(what=what, live=view.live, may_paint=view.paints)
