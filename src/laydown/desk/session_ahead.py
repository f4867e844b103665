"""The way ahead of a session: the screens that the next taps lead to, so that a tablet goes on without the server.

Every screen changes by itself as time passes, so a node of the way holds its course: which screen from when on. An
instant that hangs on a tap not yet made is written as "so long after it"; the tablet puts in the time of the tap. Which
tap it hangs on is found by moving each assumed tap by its own small amount: what an instant moves by names the tap.
"""

import heapq
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import count

from laydown.booth.guide import add, now, screens
from laydown.booth.legs import legs_of
from laydown.booth.state import replay
from laydown.desk.session_asks import Ask, asks_of
from laydown.desk.session_course import course_of
from laydown.desk.session_place import place_key
from laydown.schema.plan import Plan
from laydown.schema.session import Button, Event, Screen, Session

MOST_NODES = 90
"""Screens prepared at most; assumption, more than half of a day's taps."""

MOST_ASIDE = 1
"""Steps beside the main way that are prepared: a hold, a "not yet"; assumption."""

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
class Phase:
    """One screen of a course: from when on, what it counts to, and its other clocks."""

    begins: Instant
    screen: Screen
    counts_to: Instant | None
    deadlines: tuple[Instant, ...]


@dataclass(frozen=True, slots=True)
class Node:
    """A place on the way.

    Attributes
    ----------
    key
        Names the place; the same place has the same key however it was reached.
    since
        When the present began.
    phases
        Its course, in order of time.
    asks
        Questions of a gate.
    leads
        Where each button leads, as far as that is prepared.
    """

    key: str
    since: Instant
    phases: tuple[Phase, ...]
    asks: tuple[Ask, ...] = ()
    leads: tuple[tuple[Button, str], ...] = ()


@dataclass(frozen=True, slots=True)
class _Path:
    """A log with assumed taps: as assumed, and with each of them moved."""

    session: Session
    moved: Session
    keys: tuple[str, ...]
    times_s: tuple[float, ...]
    at_s: float


def present(plan: Plan, session: Session, now_s: float) -> Node:
    """Return where the work stands, with the course of its screen.

    Parameters
    ----------
    plan
        The plan that is followed now.
    session
        The log.
    now_s
        The clock, seconds since 1970.

    Returns
    -------
    The node, without where its buttons lead.
    """
    return _node(plan, _Path(session, session, (), (), now_s))


def before(plan: Plan, session: Session, now_s: float) -> Node | None:
    """Return where an undo leads.

    Parameters
    ----------
    plan, session, now_s
        As in ``present``.

    Returns
    -------
    The place before the last tap; None where nothing can be taken back.
    """
    screen = now(plan, session, now_s)
    undo = next((button for button in screen.buttons if button.kind == "undo"), None)
    if undo is None:
        return None
    return present(plan, add(session, event_of(undo, "before", now_s)), now_s)


def way_ahead(plan: Plan, session: Session, now_s: float, most: int = MOST_NODES) -> tuple[Node, ...]:
    """Return the places that the next taps lead to.

    Parameters
    ----------
    plan, session, now_s
        As in ``present``.
    most
        How many places at most.

    Returns
    -------
    The present first, then the main way to its end as far as it is prepared, and what lies one step beside it.
    """
    start = _Path(session, session, (), (), now_s)
    ticket = count()
    waiting = [(0, 0, next(ticket), place_key(plan, session, now_s), start)]
    nodes: dict[str, Node] = {}
    while waiting and len(nodes) < most:
        aside, depth, _, key, path = heapq.heappop(waiting)
        if key in nodes:
            continue
        node = _node(plan, path)
        leads = []
        for button, cost in _buttons(node, first=not path.keys):
            if aside + cost > MOST_ASIDE:
                continue
            ahead = _tapped(plan, path, button, node)
            leads.append((button, ahead.keys[-1]))
            if ahead.keys[-1] not in nodes:
                heapq.heappush(waiting, (aside + cost, depth + 1, next(ticket), ahead.keys[-1], ahead))
        nodes[key] = replace(node, leads=tuple(leads))
    return tuple(
        replace(node, leads=tuple(lead for lead in node.leads if lead[1] in nodes)) for node in nodes.values()
    )


def _buttons(node: Node, *, first: bool) -> Iterator[tuple[Button, int]]:
    """Every button of a place once, with 0 for the main way and 1 for a step beside it.

    Only the first undo needs a lead: those after it go back along the tablet's own way.
    """
    open_ask = next((ask for ask in node.asks if not ask.answer), None)
    for ask in node.asks:
        yield ask.yes, int(ask is not open_ask)
        yield ask.no, 1
    seen = set()
    for phase in node.phases:
        for button in phase.screen.buttons:
            if button not in seen and button.kind != "answer" and (first or button.kind != "undo"):
                seen.add(button)
                yield button, int(not button.main)


def event_of(button: Button, tap_id: str, at_s: float) -> Event:
    """Return the tap that a button makes.

    Parameters
    ----------
    button
        The button.
    tap_id, at_s
        Id and time of the tap.

    Returns
    -------
    The event; where a name is asked, one is assumed.
    """
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


def _tapped(plan: Plan, path: _Path, button: Button, node: Node) -> _Path:
    """Assume a tap: when the screen counts to its end, or a second after it appeared."""
    counts = node.phases[0].counts_to
    at_end = counts is not None and (button.main or button.kind == "not_yet")
    at_s = max(path.at_s + 1.0, counts.at_s if at_end and counts is not None else 0.0)
    number = len(path.keys) + 1
    event = event_of(button, f"ahead:{number}", at_s)
    session = add(path.session, event)
    moved = add(path.moved, replace(event, at_s=at_s + number * SHIFT_S))
    key = place_key(plan, session, at_s)
    return _Path(session, moved, (*path.keys, key), (*path.times_s, at_s), at_s)


def _node(plan: Plan, path: _Path) -> Node:
    """Return the node at the end of a path."""
    phases = course_of(screens(plan, path.session, path.at_s), path.at_s)
    moved = now(plan, path.moved, path.at_s + len(path.keys) * SHIFT_S)
    first = phases[0][1]
    counts_shift_s = _shift(first.counts_to_s, moved.counts_to_s)
    shifts = {one.name: one.at_s for one in moved.deadlines}
    since = replay(legs_of(plan), path.session, path.at_s).since_s()
    since_moved = replay(legs_of(plan), path.moved, path.at_s).since_s()
    made: list[Phase] = []
    for begins_s, screen in phases:
        counts_to = None if screen.counts_to_s is None else _instant(screen.counts_to_s, counts_shift_s, path)
        deadlines = tuple(
            _instant(one.at_s, _shift(one.at_s, shifts.get(one.name)), path) for one in screen.deadlines
        )
        begins = _instant(begins_s, counts_shift_s if made else len(path.keys) * SHIFT_S, path)
        made.append(Phase(begins, screen, counts_to, deadlines))
    key = path.keys[-1] if path.keys else place_key(plan, path.session, path.at_s)
    return Node(
        key, _instant(since, since_moved - since, path), tuple(made), asks_of(plan, path.session, path.at_s)
    )


def _shift(before_s: float | None, after_s: float | None) -> float:
    """By how much an instant moved; 0 where there is none."""
    return after_s - before_s if before_s is not None and after_s is not None else 0.0


def _instant(at_s: float, shift_s: float, path: _Path) -> Instant:
    """Hang an instant on the assumed tap that moves it."""
    number = round(shift_s / SHIFT_S)
    if not 1 <= number <= len(path.keys):
        return Instant(at_s)
    return Instant(at_s, path.keys[number - 1], at_s - path.times_s[number - 1])
