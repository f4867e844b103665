"""The clocks beside the work: pot life, the longest time to the clear, when polishing may begin."""

from collections.abc import Sequence

from laydown.booth.legs import Leg
from laydown.booth.state import State
from laydown.schema.clock import ClockLimit
from laydown.schema.plan import Plan
from laydown.schema.session import Deadline, Tone
from laydown.trade.clocks import ClockReading, read_wait, read_window

POT_NEAR_S = 900.0
"""Pot life is said aloud from this on [s]; common practice, no source."""

CLEAR_NEAR_S = 7200.0
"""And the longest time to the next layer [s]; common practice, no source."""

_TONES: dict[str, Tone] = {"over": "stop", "last coat": "care", "finish this coat": "care", "wait": "care"}


def deadlines_of(plan: Plan, legs: Sequence[Leg], state: State, now_s: float) -> tuple[Deadline, ...]:
    """Return the clocks that run now, the nearest first.

    Parameters
    ----------
    plan
        Its clocks.
    legs, state
        Where the work stands.
    now_s
        The clock [s since 1970 in UTC].

    Returns
    -------
    Deadlines as absolute times. A pot life whose mix was never tapped counts from the plan's mixing before the
    first stroke, and says so.
    """
    found = [_deadline(plan, legs, state, limit, now_s) for limit in plan.clocks]
    return tuple(sorted((one for one in found if one is not None), key=lambda one: one.at_s))


def _deadline(
    plan: Plan, legs: Sequence[Leg], state: State, limit: ClockLimit, now_s: float
) -> Deadline | None:
    """One clock, if it runs."""
    if limit.kind == "pot_life":
        return _pot_life(plan, legs, state, limit, now_s)
    begun = state.ended_s(legs, limit.starts)
    if begun is None or limit.limit_s is None:
        return None
    at_s = begun + limit.limit_s
    passed = max(0.0, now_s - begun)
    if limit.kind == "recoat_max":
        layer = limit.starts.partition(".")[0]
        if _next_layer_begun(legs, state, layer):
            return None
        reading = read_window("recoat_max", passed, limit.limit_s)
        return _shown(f"{layer} coat to the next layer", at_s, reading, near=at_s - now_s <= CLEAR_NEAR_S)
    name = "polish from" if limit.kind == "polish_from" else "clearing time"
    return _shown(name, at_s, read_wait(limit.kind, passed, limit.limit_s), near=at_s > now_s)


def _shown(name: str, at_s: float, reading: ClockReading, *, near: bool) -> Deadline:
    """A clock in words."""
    return Deadline(name, at_s, reading.text, _TONES.get(reading.state, "go"), near)


def _pot_life(
    plan: Plan, legs: Sequence[Leg], state: State, limit: ClockLimit, now_s: float
) -> Deadline | None:
    """Pot life of one mix, from the tap or from the plan, until the last coat of its layer is on."""
    layer = limit.starts.removeprefix("mix.")
    sprays = [leg.id for leg in legs if leg.kind == "spray" and leg.layer == layer]
    if limit.limit_s is None or not sprays or state.ended_s(legs, sprays[-1]) is not None:
        return None
    tapped = [at_s for name, at_s in state.mixed_at_s if name == layer]
    name = f"{layer} mix"
    if tapped:
        begun = tapped[-1]
    else:
        first = next((mark for mark in state.marks if mark.step == sprays[0] and mark.section == 1), None)
        if first is None:
            return None
        begun = first.at_s - _lead_s(plan, layer)
        name += ", mixing not tapped"
    reading = read_window("pot_life", max(0.0, now_s - begun), limit.limit_s)
    at_s = begun + limit.limit_s
    return _shown(name, at_s, reading, near=at_s - now_s <= POT_NEAR_S)


def _lead_s(plan: Plan, layer: str) -> float:
    """How long before the first stroke the plan begins to mix."""
    starts = {step.id: step.start_s for step in plan.timeline}
    return max(0.0, starts.get(f"{layer}.1.spray", 0.0) - starts.get(f"mix.{layer}", 0.0))


def _next_layer_begun(legs: Sequence[Leg], state: State, layer: str) -> bool:
    """Whether the first stroke of the layer after this one is made."""
    order = [leg.layer for leg in legs if leg.kind == "spray"]
    later = [name for name in dict.fromkeys(order) if name is not None]
    after = later[later.index(layer) + 1 :] if layer in later else []
    return any(
        mark.section > 0 and mark.step.startswith(f"{name}.") for mark in state.marks for name in after
    )
