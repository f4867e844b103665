"""Where a log stands in its plan, worked out once and asked many times."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from laydown.booth.day_steps import Leg, legs_of
from laydown.schema.plan import Plan
from laydown.schema.product import LayerName
from laydown.schema.session import Event, EventKind, Session

Phase = Literal["waiting", "working", "held", "refilling"]
"""waiting: before the first stroke or the metal's temperature; held, refilling: at the end of a section."""

AGAIN_SHARE = 0.2
"""After "not yet" the film is looked at again after this share of the flash; assumption."""

AGAIN_LEAST_S = 30.0
"""And not before this [s]; assumption."""

EARLIER_STEP_S = 5.0
"""Steps in which a tap is moved back [s]; a choice."""

CLOSED = "closed"
"""How a job came out that was closed without a word; definition."""

_RUNS_BY_ITSELF = {"prepare", "flash", "release", "cool", "dehydrate", "dry", "unmask", "close"}
_DONE_BY_TAP = {"prepare", "cool", "dehydrate", "dry", "unmask"}


@dataclass(frozen=True, slots=True)
class Mark:
    """A step, a section or a pause began: which and when, seconds since 1970 in UTC."""

    step: str
    section: int
    phase: Phase
    at_s: float


@dataclass(frozen=True, slots=True)
class Progress:
    """Where the work stands."""

    leg: int
    section: int
    phase: Phase
    marks: tuple[Mark, ...]
    again_s: float
    answers: tuple[bool | None, ...]
    mixed_at_s: tuple[tuple[LayerName, float], ...]
    last_s: float
    result: str

    def since_s(self) -> float:
        """When the present began [s]."""
        return self.marks[-1].at_s

    def ended_s(self, legs: Sequence[Leg], step: str) -> float | None:
        """When a step ended, seconds since 1970 in UTC; None while it has not."""
        places = {leg.id: index for index, leg in enumerate(legs)}
        at = places.get(step, len(legs))
        return next((mark.at_s for mark in self.marks if places.get(mark.step, -1) > at), None)


def live(session: Session) -> tuple[Event, ...]:
    """Return the taps that hold: without undone ones and without the undoing; an undo can itself be undone."""
    gone: set[str] = set()
    held = []
    for event in reversed(session.events):
        if event.id in gone:
            continue
        if event.kind == "undo":
            gone.add(event.target)
        else:
            held.append(event)
    return tuple(reversed(held))


def replay(legs: Sequence[Leg], session: Session, now_s: float) -> Progress:
    """Return where the work stands after the log."""
    return states(legs, live(session), now_s)[-1]


def states(legs: Sequence[Leg], held: Sequence[Event], now_s: float) -> tuple[Progress, ...]:
    """Return where the work stood before the first tap and after each one."""
    start = held[0].at_s if held else now_s
    found = [_enter(legs, Progress(0, 0, "waiting", (), 0.0, (), (), start, ""), 0, start)]
    for event in held:
        found.append(after_tap(legs, found[-1], event))
    return tuple(found)


def after_tap(legs: Sequence[Leg], state: Progress, event: Event) -> Progress:
    """Return where the work stands after one more tap."""
    at_s = max(event.at_s, state.last_s)
    if at_s != state.last_s:
        state = replace(state, last_s=at_s)
    leg = legs[state.leg]
    if event.step not in {"", leg.id} or event.section not in {0, state.section}:
        return state
    return _TAPS.get(event.kind, _kept)(legs, state, event, at_s)


def _enter(legs: Sequence[Leg], state: Progress, place: int, at_s: float) -> Progress:
    """Go on to a step; the last one is never left."""
    place = min(place, len(legs) - 1)
    leg = legs[place]
    phase: Phase = "working" if leg.kind in _RUNS_BY_ITSELF else "waiting"
    asked = len(leg.gate.ask) if leg.gate is not None else 0
    return replace(
        state,
        leg=place,
        section=0,
        phase=phase,
        marks=(*state.marks, Mark(leg.id, 0, phase, at_s)),
        again_s=at_s,
        answers=(None,) * asked,
    )


def _mark(legs: Sequence[Leg], state: Progress, section: int, phase: Phase, at_s: float) -> Progress:
    """Begin a section or a pause within a step."""
    mark = Mark(legs[state.leg].id, section, phase, at_s)
    return replace(state, section=section, phase=phase, marks=(*state.marks, mark))


def _kept(_legs: Sequence[Leg], state: Progress, _event: Event, _at_s: float) -> Progress:
    """A tap that is only kept in the log."""
    return state


def _begin(legs: Sequence[Leg], state: Progress, _event: Event, at_s: float) -> Progress:
    """First stroke of a coat, or metal at its temperature."""
    if state.phase != "waiting":
        return state
    return _mark(legs, state, 1 if legs[state.leg].kind == "spray" else 0, "working", at_s)


def _next(legs: Sequence[Leg], state: Progress, _event: Event, at_s: float) -> Progress:
    """The next section begins; after the last one the coat ends."""
    coat = legs[state.leg].coat
    if legs[state.leg].kind != "spray" or coat is None or state.phase == "waiting":
        return state
    if state.section >= len(coat.sections):
        return _enter(legs, state, state.leg + 1, at_s)
    return _mark(legs, state, state.section + 1, "working", at_s)


def _pause(legs: Sequence[Leg], state: Progress, event: Event, at_s: float) -> Progress:
    """The section has ended; the painter stands at its end, or fills the cup there."""
    coat = legs[state.leg].coat
    if coat is None or legs[state.leg].kind != "spray" or state.phase == "waiting":
        return state
    phase: Phase = "refilling" if event.kind == "refill" else "held"
    if state.phase == phase or state.section >= len(coat.sections):
        return state
    if state.phase != "working":  # from holding to filling: the section ended when it was held
        return replace(state, phase=phase)
    return _mark(legs, state, state.section, phase, at_s)


def _earlier(_legs: Sequence[Leg], state: Progress, event: Event, _at_s: float) -> Progress:
    """What is at hand began earlier than tapped, never before what came before it."""
    last = state.marks[-1]
    floor = state.marks[-2].at_s if len(state.marks) > 1 else last.at_s
    moved = max(floor, last.at_s - max(0.0, event.seconds_s))
    return replace(state, marks=(*state.marks[:-1], replace(last, at_s=moved)))


def _matt(legs: Sequence[Leg], state: Progress, _event: Event, at_s: float) -> Progress:
    """The film is matt: the painter's eye decides, not the clock."""
    return _enter(legs, state, state.leg + 1, at_s) if legs[state.leg].kind == "flash" else state


def _not_yet(legs: Sequence[Leg], state: Progress, _event: Event, at_s: float) -> Progress:
    """Look again later."""
    leg = legs[state.leg]
    if leg.kind != "flash":
        return state
    return replace(state, again_s=at_s + max(AGAIN_LEAST_S, AGAIN_SHARE * leg.length_s))


def _answer(_legs: Sequence[Leg], state: Progress, event: Event, _at_s: float) -> Progress:
    """One answer at a gate."""
    if not 0 <= event.item < len(state.answers):
        return state
    answers = list(state.answers)
    answers[event.item] = event.yes
    return replace(state, answers=tuple(answers))


def _release(legs: Sequence[Leg], state: Progress, event: Event, at_s: float) -> Progress:
    """Through the gate: with every answer yes, or by a name."""
    named = event.kind == "release_anyway" and event.text.strip() != ""
    open_now = event.kind == "release" and all(state.answers)
    if legs[state.leg].kind != "release" or not (named or open_now):
        return state
    return _enter(legs, state, state.leg + 1, at_s)


def _done(legs: Sequence[Leg], state: Progress, _event: Event, at_s: float) -> Progress:
    """Any other step is done; a bake only once its metal was warm."""
    leg = legs[state.leg]
    if leg.kind in _DONE_BY_TAP or (leg.kind == "bake" and state.phase == "working"):
        return _enter(legs, state, state.leg + 1, at_s)
    return state


def _mixed(_legs: Sequence[Leg], state: Progress, event: Event, at_s: float) -> Progress:
    """A mix stands ready: its pot life runs."""
    return (
        replace(state, mixed_at_s=(*state.mixed_at_s, (event.layer, at_s)))
        if event.layer is not None
        else state
    )


def _close(legs: Sequence[Leg], state: Progress, event: Event, _at_s: float) -> Progress:
    """The job is closed."""
    return replace(state, result=event.text or CLOSED) if legs[state.leg].kind == "close" else state


_TAPS: dict[EventKind, Callable[[Sequence[Leg], Progress, Event, float], Progress]] = {
    "mixed": _mixed,
    "begin": _begin,
    "next": _next,
    "refill": _pause,
    "hold": _pause,
    "earlier": _earlier,
    "matt": _matt,
    "not_yet": _not_yet,
    "answer": _answer,
    "release": _release,
    "release_anyway": _release,
    "done": _done,
    "close": _close,
}


@dataclass(frozen=True, slots=True)
class LogPosition:
    """A plan, the taps that hold, and where the work stands after them."""

    plan: Plan
    legs: tuple[Leg, ...]
    first_plan_id: str
    held: tuple[Event, ...]
    state: Progress

    @property
    def follows(self) -> str:
        """Id of the plan the log goes by now: that of the last plan that was made anew, else its first."""
        return followed(self.first_plan_id, self.held)

    @property
    def undo(self) -> str:
        """Id of the tap that an undo would take back; empty where nothing was tapped."""
        return self.held[-1].id if self.held else ""

    def after(self, event: Event) -> "LogPosition":
        """Where the work stands after one more tap, which is no undo."""
        return replace(self, held=(*self.held, event), state=after_tap(self.legs, self.state, event))


def standing_of(plan: Plan, session: Session, now_s: float) -> LogPosition:
    """Return where a log stands."""
    return standings_of(plan, session, now_s, last=0)[-1]


def standings_of(plan: Plan, session: Session, now_s: float, last: int) -> tuple[LogPosition, ...]:
    """Return where a log stands now and stood before its latest taps."""
    legs, held = legs_of(plan), live(session)
    found = states(legs, held, now_s)
    first = max(0, len(held) - last)
    return tuple(
        LogPosition(plan, legs, session.plan_id, held[:count], found[count])
        for count in range(first, len(held) + 1)
    )


def followed(first_plan_id: str, held: tuple[Event, ...]) -> str:
    """Return the id of the plan that a log goes by."""
    again = (event.text for event in reversed(held) if event.kind == "replan" and event.text)
    return next(again, first_plan_id)
