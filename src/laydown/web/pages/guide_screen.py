"""What a tablet is told of a session: its screens as markup, and what lies behind and ahead of it.

A session stands still between two taps, so all of this is worked out once for each tap, kept under the number of that
tap in the book, and told to every screen that asks.
"""

import json
from dataclasses import asdict, dataclass, fields, replace
from functools import lru_cache
from typing import Any, Literal

from laydown.booth.progress import LogPosition, standings_of
from laydown.desk.sessions.ahead import Ask, CoursePhase, Instant, Node, present, way_ahead
from laydown.desk.sessions.places import LAST_PASSED, passed
from laydown.desk.sessions.session import OPENED, Live
from laydown.reader.encode import encode
from laydown.schema.message import Name, Saying, message
from laydown.schema.plan import Plan
from laydown.schema.session import Button, Screen
from laydown.web.request.door import Call
from laydown.web.request.forms import words_of
from laydown.web.request.render import environment
from laydown.web.request.visitor import may
from laydown.words.show import Words

ScreenTone = Literal["plain", "wait", "wet", "tight", "dry"]
"""Tone of the whole screen: paper, pale for waiting, and the three states of a join."""

_AT_REST = {"ready", "gate", "done", "hand"}
_WAITING = {"flash", "look", "clock", "heat", "cool"}
_NOT_DRAWN: dict[str, Any] = {
    "number_s": None,
    "counts_to_s": None,
    "sound_count": 0,
    "assertive": False,
    "buttons": (),
    "deadlines": (),
}
_NOTED = ("undo", "hold", "refill", "not_yet")
_LEFT = ("undo", "earlier", "hold", "refill", "not_yet")


@dataclass(frozen=True, slots=True)
class ScreenClock:
    """A clock on the screen: its instant, and where that hangs on a tap, the node and the seconds after it."""

    at_s: float
    after: str
    plus_s: float


@dataclass(frozen=True, slots=True)
class Touch:
    """A button: its words, a second line, the tap it sends, its key, and whether a name is asked."""

    text: Saying
    note: Saying
    tap: str
    key: str
    asks_name: bool


@dataclass(frozen=True, slots=True)
class GuideScreen:
    """A screen ready for its template."""

    screen: Screen
    tone: ScreenTone
    word: Saying
    counts_to: ScreenClock | None
    since: ScreenClock
    still_s: float | None
    clocks: tuple[tuple[Saying, Saying, bool, ScreenClock], ...]
    main: Touch | None
    beside: tuple[Touch, ...]
    anyway: Touch | None
    asks: tuple[tuple[Ask, Touch, Touch], ...]
    locked: Saying
    weigh_g: float | None


def shown(plan: Plan, node: Node, phase: CoursePhase) -> GuideScreen:
    """Prepare a screen for its template."""
    screen = phase.screen
    touches = {button: _touch(plan, button) for button in screen.buttons if not _hidden(button)}
    main = next((touch for one, touch in touches.items() if one.main), None)
    beside = [one for one in touches if not one.main and not one.asks_name]
    beside.sort(key=lambda one: _LEFT.index(one.kind) if one.kind in _LEFT else len(_LEFT))
    return GuideScreen(
        replace(screen, **_NOT_DRAWN),
        tone_of(screen),
        message(f"sign-word.{screen.sign.replace(' ', '-')}"),
        _clock(phase.counts_to),
        _clock(node.since) or ScreenClock(0.0, "", 0.0),
        screen.number_s if phase.counts_to is None else None,
        tuple(
            (one.name, one.text, one.near, ScreenClock(at.at_s, at.after, at.plus_s))
            for one, at in zip(screen.deadlines, phase.deadlines, strict=True)
        ),
        main,
        tuple(touches[one] for one in beside),
        next((touch for one, touch in touches.items() if one.asks_name), None),
        tuple((ask, _touch(plan, ask.yes), _touch(plan, ask.no)) for ask in node.asks),
        _locked(node),
        _weigh_g(plan, screen),
    )


def tone_of(screen: Screen) -> ScreenTone:
    """Return the tone of the whole screen; amber is kept for a join that hurries."""
    if screen.tone == "stop":
        return "dry"
    if screen.sign in _AT_REST:
        return "plain"
    if screen.tone == "go":
        return "wet"
    return "wait" if screen.sign in _WAITING else "tight"


@lru_cache(maxsize=2048)
def tap_text(button: Button) -> str:
    """Return what a button sends, as the text by which its lead is found."""
    names = ("step", "section", "layer", "item", "yes", "seconds_s", "target")
    defaults = {one.name: one.default for one in fields(Button)}
    said = {name: getattr(button, name) for name in names if getattr(button, name) != defaults[name]}
    text = {"text": button.says} if button.says else {}
    return json.dumps({"kind": button.kind, **said, **text}, separators=(",", ":"))


def _weigh_g(plan: Plan, screen: Screen) -> float | None:
    """What the plan says is left in the cup after the coat that flashes."""
    coats = (
        coat
        for layer in plan.layers
        for coat in layer.coats
        if screen.step == f"{layer.name}.{coat.number}.flash" and coat.sections
    )
    return next((coat.sections[-1].cup_g_after for coat in coats), None)


def _hidden(button: Button) -> bool:
    """Whether a button stands elsewhere (answers, beside their question) or undoes nothing anybody did."""
    return button.kind == "answer" or (button.kind == "undo" and button.target.startswith(OPENED))


def _locked(node: Node) -> Saying:
    """Say which questions of a gate are still to be answered with yes."""
    missing = tuple(number for number, ask in enumerate(node.asks, 1) if not ask.answer)
    return message("answer-first", questions=missing) if missing else ""


def _touch(plan: Plan, button: Button) -> Touch:
    """Return a button as it stands on the screen."""
    text, note = _touch_words(plan, button)
    return Touch(text, note, tap_text(button), _key(button), button.asks_name)


def _touch_words(plan: Plan, button: Button) -> tuple[Saying, Saying]:
    """What stands on a button, and its second line."""
    if button.kind in _NOTED:
        return message(f"touch.{button.kind}"), message(f"touch.{button.kind}.note")
    if button.kind == "earlier":
        return message("touch.earlier"), message("touch.earlier.note", seconds_s=button.seconds_s)
    if button.kind == "mixed" and button.layer is not None:
        return message("mix-of", layer=button.layer), message("touch.mixed.note")
    panels = _next_panels(plan, button) if button.kind == "next" else ""
    if panels:
        return message("touch.started", section=button.section + 1), message("as-given", text=Name(panels))
    return button.text, ""


def _next_panels(plan: Plan, button: Button) -> str:
    """Panels of the section that a tap begins."""
    for layer in plan.layers:
        for coat in layer.coats:
            if button.step == f"{layer.name}.{coat.number}.spray" and button.section < len(coat.sections):
                return ", ".join(coat.sections[button.section].panels)
    return ""


def _key(button: Button) -> str:
    """Key on a keyboard."""
    if button.main:
        return "enter"
    return {"undo": "u", "hold": "h", "refill": "f", "earlier": "e", "not_yet": "n"}.get(button.kind, "")


def _clock(instant: Instant | None) -> ScreenClock | None:
    """An instant for the template."""
    return None if instant is None else ScreenClock(instant.at_s, instant.after, instant.plus_s)


RECENT_TAPS = 60
"""Taps named to a tablet that may still think they wait; assumption, more than one batch."""


@dataclass(frozen=True, slots=True)
class View:
    """A session as one visitor sees it."""

    live: Live
    words: Words
    paints: bool

    @property
    def have(self) -> str:
        """Names what a tablet has once it was told: plan, taps, and the language and units it shows."""
        return f"{self.live.plan.id} {self.live.version} {self.words.language} {self.words.system}"


def view_of(call: Call, live: Live) -> View:
    """Return a session as the visitor of a call sees it."""
    return View(live, words_of(call), may(call.visitor.role, "painter"))


def told_of(call: Call, view: View) -> dict[str, Any]:
    """Return a session as a tablet takes it, but for the clock; worked out once for each new tap."""
    key = f"told {call.state.book.shop_id} {view.live.id} {view.have} {view.paints}"
    found: dict[str, Any] | None = call.state.courses.get(key)
    if found is None:
        found = _told(view, call.state.clock())
        if view.live.session.events:  # an empty log has no instant of its own
            call.state.courses.put(key, found)
    return found


def ahead_of(call: Call, view: View) -> dict[str, Any]:
    """Return the places lately passed and those ahead, by their names."""
    standings, from_s = _standings(view.live, call.state.clock())
    nodes = way_ahead(standings, from_s)
    return {"version": view.live.version, "nodes": {node.key: _place(view, node) for node in nodes}}


def html_now(told_state: dict[str, Any], now_s: float) -> str:
    """Return the markup of the screen that stands at an instant."""
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


def _standings(live: Live, now_s: float) -> tuple[tuple[LogPosition, ...], float]:
    """Where the log stood lately, and when its course begins: with the last tap, so that it is the same however late asked."""
    from_s = max((event.at_s for event in live.session.events), default=now_s)
    return standings_of(live.plan, live.session, from_s, LAST_PASSED), from_s


def _place(view: View, node: Node) -> dict[str, Any]:
    """One place as the tablet takes it: markup of each phase, and where the buttons lead."""
    phases: list[dict[str, Any]] = []
    drawn: tuple[GuideScreen, str] | None = None
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


def _html(view: View, what: GuideScreen) -> str:
    """Markup of one screen."""
    template = environment(view.words).get_template("guide/screen.html")
    return template.render(what=what, live=view.live, may_paint=view.paints)
