"""The places of a session: each has one name however it was reached, so that two devices mean the same."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from laydown.booth.progress import LogPosition

LAST_PASSED = 24
"""Taps looked back at when a tablet asks what it hangs its clocks on; assumption, three coats."""

MOST_BACK = 12
"""Taps that can be taken back without the network; assumption, more than a painter remembers."""


@dataclass(frozen=True, slots=True)
class StepBack:
    """A tap that can be taken back, and where that leads."""

    tap: str
    node: str
    at_s: float | None


@dataclass(frozen=True, slots=True)
class Passed:
    """What lies behind a session."""

    arrivals: dict[str, float]
    back: tuple[StepBack, ...]


def place_key(standing: LogPosition) -> str:
    """Name the place where a log stands."""
    state = standing.state
    answers = "".join({None: "-", True: "y", False: "n"}[one] for one in state.answers)
    again = "again" if state.again_s > state.since_s() else ""
    mixed = ",".join(sorted({layer for layer, _ in state.mixed_at_s}))
    parts = (
        standing.plan.id,
        standing.legs[state.leg].id,
        str(state.section),
        state.phase,
        answers,
        again,
        mixed,
        state.result,
    )
    return "/".join(parts)


def since_turn(standings: Sequence[LogPosition]) -> tuple[LogPosition, ...]:
    """Return the latest standings that follow the plan at hand, without the empty log before the first tap."""
    plan_id = standings[-1].plan.id
    old = [place for place, one in enumerate(standings[:-1]) if not one.held or one.follows != plan_id]
    return tuple(standings[old[-1] + 1 :] if old else standings)


def passed(standings: Sequence[LogPosition]) -> Passed:
    """Return what lies behind a session, for instants that hang on taps the server has meanwhile, and for undo."""
    reached: dict[str, float] = {}
    back: list[StepBack] = []
    before = standings[0]
    if before.held:
        reached[place_key(before)] = before.held[-1].at_s
    steps_back = len(since_turn(standings)) - 1
    for after in standings[1:]:
        event, here, key = after.held[-1], place_key(before), place_key(after)
        back.append(StepBack(event.id, here, reached.get(here)))
        if event.kind == "earlier" and key in reached:
            reached[key] -= event.seconds_s
        elif key not in reached or _changed(before, after):
            reached[key] = event.at_s
        before = after
    return Passed(reached, tuple(reversed(back))[: min(steps_back, MOST_BACK)])


def _changed(before: LogPosition, after: LogPosition) -> bool:
    """Whether a tap did more than let time pass."""
    return replace(before.state, last_s=after.state.last_s) != after.state
