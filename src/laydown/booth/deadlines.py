"""The clocks beside the work: pot life, the longest time to the clear, when polishing may begin."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from laydown.booth.day_steps import Leg
from laydown.booth.progress import Progress
from laydown.schema.clock import ClockLimit
from laydown.schema.message import Saying, message
from laydown.schema.plan import Plan
from laydown.schema.session import Deadline, Tone
from laydown.trade.times.clocks import read_wait, read_window

POT_NEAR_S = 900.0
"""Pot life is said aloud from this on [s]; common practice, no source."""

CLEAR_NEAR_S = 7200.0
"""And the longest time to the next layer [s]; common practice, no source."""

ClockKind = Literal["pot_life", "recoat_max", "clearance", "polish_from"]
"""What a clock limits, as in the plan."""

_TONES: dict[str, Tone] = {
    "over": "stop",
    "last coat": "caution",
    "finish this coat": "caution",
    "wait": "caution",
}


@dataclass(frozen=True, slots=True)
class Clock:
    """A clock that runs."""

    kind: ClockKind
    name: Saying
    begun_s: float
    limit_s: float

    @property
    def at_s(self) -> float:
        """When it runs out, seconds since 1970 in UTC."""
        return self.begun_s + self.limit_s


def clocks_of(plan: Plan, legs: Sequence[Leg], state: Progress) -> tuple[Clock, ...]:
    """Return the clocks that run where the work stands, the nearest first."""
    found = [_clock(plan, legs, state, limit) for limit in plan.clocks]
    return tuple(sorted((one for one in found if one is not None), key=lambda one: one.at_s))


def deadlines_of(clocks: Sequence[Clock], now_s: float) -> tuple[Deadline, ...]:
    """Return what clocks say now."""
    return tuple(_deadline(clock, now_s) for clock in clocks)


def _clock(plan: Plan, legs: Sequence[Leg], state: Progress, limit: ClockLimit) -> Clock | None:
    """One clock, if it runs."""
    if limit.kind == "pot_life":
        return _pot_life(plan, legs, state, limit)
    begun = state.ended_s(legs, limit.starts)
    if begun is None or limit.limit_s is None:
        return None
    if limit.kind == "recoat_max":
        layer = limit.starts.partition(".")[0]
        if _next_layer_begun(legs, state, layer):
            return None
        return Clock(limit.kind, message("to-next-layer", layer=layer), begun, limit.limit_s)
    name = message("polish-from" if limit.kind == "polish_from" else "clearing-time")
    return Clock(limit.kind, name, begun, limit.limit_s)


def _deadline(clock: Clock, now_s: float) -> Deadline:
    """A clock in words."""
    passed, left = max(0.0, now_s - clock.begun_s), clock.at_s - now_s
    if clock.kind == "pot_life":
        reading, near = read_window(clock.kind, passed, clock.limit_s), left <= POT_NEAR_S
    elif clock.kind == "recoat_max":
        reading, near = read_window(clock.kind, passed, clock.limit_s), left <= CLEAR_NEAR_S
    else:
        reading, near = read_wait(clock.kind, passed, clock.limit_s), left > 0.0
    return Deadline(clock.name, clock.at_s, reading.text, _TONES.get(reading.state, "go"), near)


def _pot_life(plan: Plan, legs: Sequence[Leg], state: Progress, limit: ClockLimit) -> Clock | None:
    """Pot life of one mix, from the tap or from the plan, until the last coat of its layer is on."""
    layer = limit.starts.removeprefix("mix.")
    sprays = [leg.id for leg in legs if leg.kind == "spray" and leg.layer == layer]
    if limit.limit_s is None or not sprays or state.ended_s(legs, sprays[-1]) is not None:
        return None
    tapped = [at_s for name, at_s in state.mixed_at_s if name == layer]
    if tapped:
        return Clock("pot_life", message("mix-of-layer", short_layer=layer), tapped[-1], limit.limit_s)
    first = next((mark for mark in state.marks if mark.step == sprays[0] and mark.section == 1), None)
    if first is None:
        return None
    begun = first.at_s - _lead_s(plan, layer)
    return Clock("pot_life", message("mix-not-tapped", short_layer=layer), begun, limit.limit_s)


def _lead_s(plan: Plan, layer: str) -> float:
    """How long before the first stroke the plan begins to mix."""
    starts = {step.id: step.start_s for step in plan.timeline}
    return max(0.0, starts.get(f"{layer}.1.spray", 0.0) - starts.get(f"mix.{layer}", 0.0))


def _next_layer_begun(legs: Sequence[Leg], state: Progress, layer: str) -> bool:
    """Whether the first stroke of the layer after this one is made."""
    order = [leg.layer for leg in legs if leg.kind == "spray"]
    later = [name for name in dict.fromkeys(order) if name is not None]
    after = later[later.index(layer) + 1 :] if layer in later else []
    return any(
        mark.section > 0 and mark.step.startswith(f"{name}.") for mark in state.marks for name in after
    )
