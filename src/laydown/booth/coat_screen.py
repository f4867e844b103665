"""What to show while a coat is sprayed: the section, the join ahead, the cup."""

from dataclasses import dataclass, replace

from laydown.booth.day_steps import Leg
from laydown.booth.progress import EARLIER_STEP_S, State
from laydown.booth.waiting_edge import Edge, edge_of, next_gap, planned_next_s
from laydown.schema.coat import Coat, Join, JoinState, Refill
from laydown.schema.session import Button, Deadline, Screen, Sign, Tone

SLOW_SHARE = 1.25
"""A section this much longer than planned is said; common practice, no source."""

LAST_TICK_S = 10.0
"""The last seconds are told by sound [s]; common practice, no source."""

_TONES: dict[JoinState, Tone] = {"wet": "go", "hurry": "care", "late": "stop"}


@dataclass(frozen=True, slots=True)
class Frame:
    """What every screen carries: the time, clocks, undo, how many spray, and layers that need fed air."""

    now_s: float
    deadlines: tuple[Deadline, ...]
    undo: str
    painters: int
    fed: frozenset[str]


def earlier_button(leg: Leg) -> Button:
    """The button for a tap that came late."""
    return Button("started 5 s earlier", "earlier", leg.id, seconds_s=EARLIER_STEP_S)


def coat_screen(leg: Leg, coat: Coat, state: State, frame: Frame) -> Screen:
    """Return the screen of a coat.

    Parameters
    ----------
    leg, coat
        The step and its coat.
    state
        Where the work stands.
    frame
        Clocks, undo and the time.

    Returns
    -------
    One number: seconds until the next section must begin, else until the section ends.
    """
    if state.phase == "waiting":
        return _ready(leg, coat, frame)
    if state.phase == "working":
        return _working(leg, coat, state, frame)
    return _standing(leg, coat, state, frame)


def _where(leg: Leg, coat: Coat, section: int) -> str:
    """Where the work stands, in words."""
    return f"{leg.layer} coat {coat.number}, section {section} of {len(coat.sections)}"


def _panels(coat: Coat, section: int) -> str:
    """Panels of a section."""
    return ", ".join(coat.sections[section - 1].panels) or "edge"


def _refill_after(coat: Coat, section: int) -> Refill | None:
    """The refill due after a section."""
    return next((one for one in coat.refills if one.after_section == section), None)


def _screen(leg: Leg, coat: Coat, section: int, frame: Frame) -> Screen:
    """A screen of this coat with nothing on it yet."""
    count = len(coat.sections)
    where = _where(leg, coat, section)
    return Screen(
        leg.id, section, count, where, None, None, "", "", "spray", "go", 0, assertive=False, buttons=(),
        deadlines=frame.deadlines, undo=frame.undo,
    )  # fmt: skip


def _ready(leg: Leg, coat: Coat, frame: Frame) -> Screen:
    """Before the first stroke."""
    first = coat.sections[0]
    fill = coat.fill_g if coat.fill_g is not None else first.cup_g_after + first.sprayed_g / frame.painters
    pace = f", {coat.passes[0].seconds_per_m:.1f} s per metre" if coat.passes else ""
    return replace(
        _screen(leg, coat, 1, frame),
        number_s=first.elapsed_s,
        sentence=f"ready: {leg.layer} coat {coat.number}, begin in section 1, {_panels(coat, 1)}, {coat.direction}",
        second=f"cup {fill:.0f} g{pace}{', fed air on' if leg.layer in frame.fed else ''}",
        sign="ready",
        buttons=(Button("first stroke", "begin", leg.id, main=True),),
    )


def _working(leg: Leg, coat: Coat, state: State, frame: Frame) -> Screen:
    """While a section is sprayed."""
    section, began = state.section, state.since_s()
    now = coat.sections[section - 1]
    edge = edge_of(coat, section, began, max(frame.now_s, planned_next_s(coat, section, began)))
    goal = edge.goes_at_s if edge is not None else began + now.elapsed_s
    slow = frame.now_s - began > SLOW_SHARE * now.elapsed_s
    refill = _refill_after(coat, section)
    sentence = _ahead(coat, section, edge, slow=slow)
    tone: Tone = _TONES[edge.state] if edge is not None else "go"
    late = edge is not None and edge.state == "late"
    return replace(
        _screen(leg, coat, section, frame),
        number_s=goal - frame.now_s,
        counts_to_s=goal,
        sentence=sentence,
        second=_cup(coat, section, refill),
        sign="refill" if refill is not None and not late else _sign(edge),
        tone=tone,
        sound_count=_sounds(began, goal, frame.now_s),
        assertive=late,
        buttons=_buttons(leg, coat, section, refill),
    )


def _ahead(coat: Coat, section: int, edge: Edge | None, *, slow: bool) -> str:
    """What to do in a section, and what comes after it."""
    if edge is not None and edge.state == "late":
        return lost_words(coat, edge.join, section)
    here = f"section {section}, {_panels(coat, section)}"
    if edge is None:
        return (
            f"slower than the plan: {here}, then the coat is done"
            if slow
            else f"{here}, then the coat is done"
        )
    then = f"reach section {section + 1}, {_panels(coat, section + 1)}"
    return f"slower than the plan: {then}" if slow else f"{here}; {then}"


def lost_words(coat: Coat, join: Join, section: int) -> str:
    """Return what to do at a join whose edge has gone.

    Parameters
    ----------
    coat, join, section
        The coat, its lost join and the section before it.

    Returns
    -------
    At a gap the next panel may begin anew; in open panel nothing is joined any more.
    """
    if join.kind == "gap":
        return f"the edge is dry: begin anew beyond the gap {join.feature}, do not spray back over it"
    return (
        f"dry, do not join here: go on at the next gap, {next_gap(coat, section)}; "
        "what is left out gets its paint after the flash"
    )


def _sign(edge: Edge | None) -> Sign:
    """The shape for the join ahead."""
    return edge.state if edge is not None else "spray"


def _cup(coat: Coat, section: int, refill: Refill | None) -> str:
    """What the cup must weigh after the section, or the refill that is due."""
    after = coat.sections[section - 1].cup_g_after
    if refill is not None:
        return f"fill {refill.fill_g:.0f} g at {refill.feature}; cup before it {after:.0f} g"
    return f"cup after this section {after:.0f} g"


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
        return (Button("coat done", "next", leg.id, section, main=True), earlier_button(leg))
    on = Button(f"section {section + 1}", "next", leg.id, section, main=refill is None)
    fill = Button("filling the cup", "refill", leg.id, section, main=refill is not None)
    hold = Button("hold at the gap", "hold", leg.id, section)
    return (
        (fill, on, hold, earlier_button(leg)) if refill is not None else (on, hold, fill, earlier_button(leg))
    )


def _standing(leg: Leg, coat: Coat, state: State, frame: Frame) -> Screen:
    """At the end of a section, holding or filling: time keeps running."""
    section = state.section
    began = next(
        mark.at_s
        for mark in reversed(state.marks)
        if mark.phase == "working" and mark.step == leg.id and mark.section == section
    )
    edge = edge_of(coat, section, began, frame.now_s)
    late = edge is not None and edge.state == "late"
    then = f"section {section + 1}, {_panels(coat, section + 1)}"
    words = (
        "filling"
        if state.phase == "refilling"
        else "stopped at the end of the section; the time keeps running"
    )
    refill = _refill_after(coat, section)
    fill = f"fill {refill.fill_g:.0f} g" if refill is not None and state.phase == "refilling" else ""
    gap = edge.join.feature if edge is not None else ""
    goal = edge.goes_at_s if edge is not None else None
    return replace(
        _screen(leg, coat, section, frame),
        number_s=goal - frame.now_s if goal is not None else None,
        counts_to_s=goal,
        sentence=lost_words(coat, edge.join, section)
        if late and edge is not None
        else f"{words}: reach {then}",
        second=fill or (f"stands at {gap}" if gap else ""),
        sign="late" if late else "refill" if state.phase == "refilling" else "hold",
        tone=_TONES[edge.state] if edge is not None else "care",
        sound_count=_sounds(began, goal, frame.now_s) if goal is not None else 0,
        assertive=late,
        buttons=(Button(f"section {section + 1}", "next", leg.id, section, main=True), earlier_button(leg)),
    )
