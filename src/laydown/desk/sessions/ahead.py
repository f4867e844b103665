"""The way ahead of a session: the screens that the next taps lead to, so that a tablet goes on without the server.

Every screen changes by itself as time passes, so a node of the way holds its course: which screen from when on. An
instant that hangs on a tap not yet made is written as "so long after it"; the tablet puts in the time of the tap. Which
tap it hangs on is found by moving each assumed tap by its own small amount: what an instant moves by names the tap.
"""

import heapq
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, fields, replace
from itertools import count
from operator import attrgetter

from laydown.booth.guide import screens
from laydown.booth.progress import LogPosition
from laydown.desk.sessions.places import MOST_BACK, place_key, since_turn
from laydown.schema.message import Saying, message
from laydown.schema.session import Button, Event, Screen

FINEST_S = 0.4
"""How exactly the instant of a change is found [s]; assumption, about as often as the tablet looks at its clock."""

SOON_S = 10800.0
"""Other clocks that run out within this time change the course [s]; assumption, beyond it the server is asked again."""

LEAST_COURSE_S = 180.0
"""How far a course reaches at least [s]; assumption."""

AFTER_S = 600.0
"""And how far beyond what it counts to [s]; assumption: a painter who is later than that looks at the card."""

_LOOKS = attrgetter(*(one.name for one in fields(Screen) if one.name != "number_s"))


def course_of(show: Callable[[float], Screen], from_s: float) -> list[tuple[float, Screen]]:
    """Return which screen stands from when on, while nobody taps."""
    first = show(from_s)
    course = [(from_s, first)]
    before = _At(from_s, first)
    for later_s in _grid(first, from_s)[1:]:
        later = _At(later_s, show(later_s))
        _find(show, before, later, course)
        before = later
    return course


class _At:
    """A screen at one instant, and what it looks like but for the number that changes every second."""

    __slots__ = ("at_s", "looks", "screen")

    def __init__(self, at_s: float, screen: Screen) -> None:
        self.at_s, self.screen, self.looks = at_s, screen, _LOOKS(screen)


def _find(
    show: Callable[[float], Screen], earlier: _At, later: _At, course: list[tuple[float, Screen]]
) -> None:
    """Add every change between two instants to a course."""
    if earlier.looks == later.looks:
        return
    if later.at_s - earlier.at_s <= FINEST_S:
        course.append((later.at_s, later.screen))
        return
    middle_s = 0.5 * (earlier.at_s + later.at_s)
    middle = _At(middle_s, show(middle_s))
    _find(show, earlier, middle, course)
    _find(show, middle, later, course)


def _grid(first: Screen, from_s: float) -> list[float]:
    """Instants between which changes are looked for; a screen never turns back to what it was."""
    ends = [first.counts_to_s or from_s, *(one.at_s for one in first.deadlines if one.at_s < from_s + SOON_S)]
    last_s = max(from_s + LEAST_COURSE_S, max(ends) + AFTER_S)
    return sorted({from_s, last_s, *(end for end in ends if end > from_s)})


@dataclass(frozen=True, slots=True)
class Ask:
    """A question of a gate, its answer so far, and the two buttons that answer it."""

    text: Saying
    answer: bool | None
    yes: Button
    no: Button


def asks_of(standing: LogPosition) -> tuple[Ask, ...]:
    """Return the questions of the gate at hand with their answers."""
    state = standing.state
    leg = standing.legs[state.leg]
    if leg.gate is None:
        return ()
    return tuple(
        Ask(
            text,
            state.answers[item],
            Button(message("button.yes"), "answer", leg.id, item=item, yes=True),
            Button(message("button.not-yet"), "answer", leg.id, item=item),
        )
        for item, text in enumerate(leg.gate.ask)
    )


MOST_NODES = 90
"""Screens prepared at most; assumption, more than half of a day's taps."""

MOST_ASIDE = 1
"""Steps beside the main way that are prepared: a hold, a "not yet"; assumption."""

ASIDE_DEPTH = 30
"""Such a step is prepared like the main way so many taps further on; assumption: what is near is wanted first."""

SHIFT_S = 0.001
"""By how much the first assumed tap is moved to see what hangs on it [s]; far above the rounding of a clock."""

NAMED = "a name"
"""Stands for the name behind a release while nobody has given one."""


@dataclass(frozen=True, slots=True)
class Instant:
    """A point in time, seconds since 1970; ``after`` names the node whose tap it hangs on, ``plus_s`` the time since."""

    at_s: float
    after: str = ""
    plus_s: float = 0.0


@dataclass(frozen=True, slots=True)
class CoursePhase:
    """One screen of a course: from when on, what it counts to, and its other clocks."""

    begins: Instant
    screen: Screen
    counts_to: Instant | None
    deadlines: tuple[Instant, ...]


@dataclass(frozen=True, slots=True)
class Node:
    """A place on the way."""

    key: str
    since: Instant
    phases: tuple[CoursePhase, ...]
    asks: tuple[Ask, ...] = ()
    leads: tuple[tuple[Button, str], ...] = ()


@dataclass(frozen=True, slots=True)
class _Path:
    """Where a log with assumed taps stands: as assumed, and with each of them moved."""

    standing: LogPosition
    moved: LogPosition
    keys: tuple[str, ...]
    times_s: tuple[float, ...]
    at_s: float

    @property
    def key(self) -> str:
        """Name of the place at its end."""
        return self.keys[-1] if self.keys else place_key(self.standing)

    def after(self, event: Event) -> "_Path":
        """The path with one more tap; one that says it was earlier moves the tap before it, as the tablet does."""
        standing, at_s = self.standing.after(event), max(self.at_s, event.at_s)
        key = place_key(standing)
        if event.kind == "earlier" and key == self.key:
            times_s = (*self.times_s[:-1], *(at - event.seconds_s for at in self.times_s[-1:]))
            return _Path(standing, self.moved.after(event), self.keys, times_s, at_s)
        moved = self.moved.after(replace(event, at_s=event.at_s + (len(self.keys) + 1) * SHIFT_S))
        return _Path(standing, moved, (*self.keys, key), (*self.times_s, at_s), at_s)


def present(standing: LogPosition, now_s: float) -> Node:
    """Return where the work stands, with the course of its screen."""
    return _node(_Path(standing, standing, (), (), now_s))


def way_ahead(standings: Sequence[LogPosition], now_s: float, most: int = MOST_NODES) -> tuple[Node, ...]:
    """Return the places behind and the places that the next taps lead to."""
    ticket = count()
    waiting = [(0, next(ticket), 0, path) for path in _made(standings, now_s)]
    heapq.heapify(waiting)
    nodes: dict[str, Node] = {}
    while waiting and len(nodes) < most:
        depth, _, aside, path = heapq.heappop(waiting)
        if path.key in nodes:
            continue
        node = _node(path)
        leads = []
        for button, cost in _buttons(node):
            if aside + cost > MOST_ASIDE:
                continue
            ahead = _tapped(path, button, node)
            leads.append((button, ahead.key))
            if ahead.key not in nodes:
                heapq.heappush(waiting, (depth + 1 + cost * ASIDE_DEPTH, next(ticket), aside + cost, ahead))
        nodes[path.key] = replace(node, leads=tuple(leads))
    return tuple(
        replace(node, leads=tuple(lead for lead in node.leads if lead[1] in nodes)) for node in nodes.values()
    )


def _made(standings: Sequence[LogPosition], now_s: float) -> Iterator[_Path]:
    """The way that was gone lately, as if its taps were assumed: what comes after them hangs on them, not on a time."""
    standings = since_turn(standings)[-MOST_BACK - 1 :]
    first = standings[0]
    path = _Path(first, first, (), (), first.state.last_s if first.held else now_s)
    yield path
    for standing in standings[1:]:
        path = path.after(standing.held[-1])
        yield path


def _buttons(node: Node) -> Iterator[tuple[Button, int]]:
    """Every button of a place once, with 0 for the main way and 1 for a step beside it.

    Undo needs no lead: it goes back along the way that was gone.
    """
    open_ask = next((ask for ask in node.asks if not ask.answer), None)
    for ask in node.asks:
        yield ask.yes, int(ask is not open_ask)
        yield ask.no, 1
    seen = set()
    for phase in node.phases:
        for button in phase.screen.buttons:
            if button not in seen and button.kind not in {"answer", "undo"}:
                seen.add(button)
                yield button, int(not button.main)


def event_of(button: Button, tap_id: str, at_s: float) -> Event:
    """Return the tap that a button makes."""
    return Event(
        tap_id,
        at_s,
        button.kind,
        button.step,
        button.section,
        button.layer,
        item=button.item,
        yes=button.yes,
        seconds_s=button.seconds_s,
        text=NAMED if button.asks_name else button.says,
        target=button.target,
    )


def _tapped(path: _Path, button: Button, node: Node) -> _Path:
    """Assume a tap: when the screen counts to its end, or a second after it appeared."""
    counts = node.phases[0].counts_to
    at_end = counts is not None and (button.main or button.kind == "not_yet")
    at_s = max(path.at_s + 1.0, counts.at_s if at_end and counts is not None else 0.0)
    return path.after(event_of(button, f"ahead:{len(path.keys) + 1}", at_s))


def _node(path: _Path) -> Node:
    """Return the node at the end of a path."""
    phases = course_of(screens(path.standing), path.at_s)
    first = phases[0][1]
    moved = screens(path.moved)(path.at_s + len(path.keys) * SHIFT_S) if path.keys else first
    counts_shift_s = _shift(first.counts_to_s, moved.counts_to_s)
    shifts = {one.name: one.at_s for one in moved.deadlines}
    since, since_moved = path.standing.state.since_s(), path.moved.state.since_s()
    made: list[CoursePhase] = []
    for begins_s, screen in phases:
        counts_to = None if screen.counts_to_s is None else _instant(screen.counts_to_s, counts_shift_s, path)
        deadlines = tuple(
            _instant(one.at_s, _shift(one.at_s, shifts.get(one.name)), path) for one in screen.deadlines
        )
        begins = _instant(begins_s, counts_shift_s if made else len(path.keys) * SHIFT_S, path)
        made.append(CoursePhase(begins, screen, counts_to, deadlines))
    return Node(path.key, _instant(since, since_moved - since, path), tuple(made), asks_of(path.standing))


def _shift(before_s: float | None, after_s: float | None) -> float:
    """By how much an instant moved; 0 where there is none."""
    return after_s - before_s if before_s is not None and after_s is not None else 0.0


def _instant(at_s: float, shift_s: float, path: _Path) -> Instant:
    """Hang an instant on the assumed tap that moves it."""
    number = round(shift_s / SHIFT_S)
    if not 1 <= number <= len(path.keys):
        return Instant(at_s)
    return Instant(at_s, path.keys[number - 1], at_s - path.times_s[number - 1])
