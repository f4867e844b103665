"""What to show while a coat is sprayed: the section, the join ahead, the cup."""

from dataclasses import dataclass, replace

from laydown.booth.day_steps import Leg, coat_said
from laydown.booth.progress import EARLIER_STEP_S, Progress
from laydown.booth.waiting_edge import Edge, edge_of, next_gap, planned_next_s
from laydown.schema.coat import Coat, Join, JoinState, Refill
from laydown.schema.message import Message, Name, Said, message
from laydown.schema.session import Button, Deadline, Screen, Sign, Tone

SLOW_SHARE = 1.25
"""A section this much longer than planned is said; common practice, no source."""

LAST_TICK_S = 10.0
"""The last seconds are told by sound [s]; common practice, no source."""

_TONES: dict[JoinState, Tone] = {"wet": "go", "tight": "caution", "dry": "stop"}


@dataclass(frozen=True, slots=True)
class ScreenFrame:
    """What every screen carries: the time, clocks, undo, how many spray, and layers that need fed air."""

    now_s: float
    deadlines: tuple[Deadline, ...]
    undo: str
    painters: int
    fed: frozenset[str]


def earlier_button(leg: Leg) -> Button:
    """The button for a tap that came late."""
    return Button(
        message("button.earlier", earlier_s=EARLIER_STEP_S), "earlier", leg.id, seconds_s=EARLIER_STEP_S
    )


def coat_screen(leg: Leg, coat: Coat, state: Progress, frame: ScreenFrame) -> Screen:
    """Say what to show while a coat is sprayed: section, edge, cup, what comes next."""
    if state.phase == "waiting":
        return _ready(leg, coat, frame)
    if state.phase == "working":
        return _working(leg, coat, state, frame)
    return _standing(leg, coat, state, frame)


def _panels(coat: Coat, section: int) -> Said:
    """Panels of a section."""
    return tuple(map(Name, coat.sections[section - 1].panels)) or message("edge-of-panels")


def _refill_after(coat: Coat, section: int) -> Refill | None:
    """The refill due after a section."""
    return next((one for one in coat.refills if one.after_section == section), None)


def _screen(leg: Leg, coat: Coat, section: int, frame: ScreenFrame) -> Screen:
    """A screen of this coat with nothing on it yet."""
    count = len(coat.sections)
    where = message("at-section", coat=coat_said(leg), section=section, sections=count)
    return Screen(
        leg.id, section, count, where, None, None, "", "", "spray", "go", 0, assertive=False, buttons=(),
        deadlines=frame.deadlines, undo=frame.undo,
    )  # fmt: skip


def _ready(leg: Leg, coat: Coat, frame: ScreenFrame) -> Screen:
    """Before the first stroke."""
    first = coat.sections[0]
    fill = coat.fill_g if coat.fill_g is not None else first.cup_g_after + first.sprayed_g / frame.painters
    second = [message("cup-holds", fill_g=fill)]
    if coat.passes:
        second.append(message("pace-of-pass", pace_s_m=coat.passes[0].seconds_per_m))
    if leg.layer in frame.fed:
        second.append(message("fed-air-on"))
    return replace(
        _screen(leg, coat, 1, frame),
        number_s=first.elapsed_s,
        sentence=message(
            "ready-to-begin", coat=coat_said(leg), panels=_panels(coat, 1), direction=coat.direction
        ),
        second=message("before-the-stroke", items=tuple(second)),
        sign="ready",
        buttons=(Button(message("button.first-stroke"), "begin", leg.id, main=True),),
    )


def _working(leg: Leg, coat: Coat, state: Progress, frame: ScreenFrame) -> Screen:
    """While a section is sprayed."""
    section, began = state.section, state.since_s()
    now = coat.sections[section - 1]
    edge = edge_of(coat, section, began, max(frame.now_s, planned_next_s(coat, section, began)))
    goal = edge.goes_at_s if edge is not None else began + now.elapsed_s
    slow = frame.now_s - began > SLOW_SHARE * now.elapsed_s
    refill = _refill_after(coat, section)
    sentence = _ahead(coat, section, edge, slow=slow)
    tone: Tone = _TONES[edge.state] if edge is not None else "go"
    dry = edge is not None and edge.state == "dry"
    return replace(
        _screen(leg, coat, section, frame),
        number_s=goal - frame.now_s,
        counts_to_s=goal,
        sentence=sentence,
        second=_cup(coat, section, refill),
        sign="refill" if refill is not None and not dry else _sign(edge),
        tone=tone,
        sound_count=_sounds(began, goal, frame.now_s),
        assertive=dry,
        buttons=_buttons(leg, coat, section, refill),
    )


def _ahead(coat: Coat, section: int, edge: Edge | None, *, slow: bool) -> Message:
    """What to do in a section, and what comes after it."""
    if edge is not None and edge.state == "dry":
        return lost_words(coat, edge.join, section)
    panels = _panels(coat, section)
    if edge is None:
        code = "slower-in-last-section" if slow else "in-last-section"
        return message(code, section=section, panels=panels)
    after, ahead = section + 1, _panels(coat, section + 1)
    if slow:
        return message("slower-reach-section", section=after, panels=ahead)
    return message("in-section", section=section, panels=panels, after=after, ahead=ahead)


def lost_words(coat: Coat, join: Join, section: int) -> Message:
    """Return what to do at a join whose edge has gone."""
    if join.kind == "gap":
        return message("edge-dry-at-gap", feature=Name(join.feature))
    return message("edge-dry", gap=next_gap(coat, section))


def _sign(edge: Edge | None) -> Sign:
    """The shape for the join ahead."""
    return edge.state if edge is not None else "spray"


def _cup(coat: Coat, section: int, refill: Refill | None) -> Message:
    """What the cup must weigh after the section, or the refill that is due."""
    after = coat.sections[section - 1].cup_g_after
    if refill is not None:
        return message("fill-at", fill_g=refill.fill_g, feature=Name(refill.feature), after_g=after)
    return message("cup-after-section", after_g=after)


def _sounds(began_s: float, goal_s: float, now_s: float) -> int:
    """Low tones: 1 from half time, 2 in the last ten seconds, 3 when late."""
    if now_s >= goal_s:
        return 3
    if goal_s - now_s <= LAST_TICK_S:
        return 2
    return 1 if now_s - began_s >= 0.5 * (goal_s - began_s) else 0


def _buttons(leg: Leg, coat: Coat, section: int, refill: Refill | None) -> tuple[Button, ...]:
    """What may be tapped while a section is sprayed."""
    if section == len(coat.sections):
        return (Button(message("button.coat-done"), "next", leg.id, section, main=True), earlier_button(leg))
    on = Button(message("button.section", section=section + 1), "next", leg.id, section, main=refill is None)
    fill = Button(message("button.refill"), "refill", leg.id, section, main=refill is not None)
    hold = Button(message("button.hold"), "hold", leg.id, section)
    return (
        (fill, on, hold, earlier_button(leg)) if refill is not None else (on, hold, fill, earlier_button(leg))
    )


def _standing(leg: Leg, coat: Coat, state: Progress, frame: ScreenFrame) -> Screen:
    """At the end of a section, holding or filling: time keeps running."""
    section = state.section
    began = next(
        mark.at_s
        for mark in reversed(state.marks)
        if mark.phase == "working" and mark.step == leg.id and mark.section == section
    )
    edge = edge_of(coat, section, began, frame.now_s)
    dry = edge is not None and edge.state == "dry"
    filling = state.phase == "refilling"
    sentence = message(
        "filling-reach" if filling else "stopped-reach",
        section=section + 1,
        panels=_panels(coat, section + 1),
    )
    if dry and edge is not None:
        sentence = lost_words(coat, edge.join, section)
    refill = _refill_after(coat, section)
    stands = message("stands-at", feature=Name(edge.join.feature)) if edge and edge.join.feature else ""
    goal = edge.goes_at_s if edge is not None else None
    return replace(
        _screen(leg, coat, section, frame),
        number_s=goal - frame.now_s if goal is not None else None,
        counts_to_s=goal,
        sentence=sentence,
        second=message("fill-cup", fill_g=refill.fill_g) if refill is not None and filling else stands,
        sign="dry" if dry else "refill" if filling else "hold",
        tone=_TONES[edge.state] if edge is not None else "caution",
        sound_count=_sounds(began, goal, frame.now_s) if goal is not None else 0,
        assertive=dry,
        buttons=(
            Button(message("button.section", section=section + 1), "next", leg.id, section, main=True),
            earlier_button(leg),
        ),
    )
