"""What differs from the plan today, and what that changes in the job."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated, Literal

from laydown.booth.day_steps import Leg
from laydown.booth.progress import Progress
from laydown.planning.setup.request import Changes
from laydown.planning.setup.setup import Setup
from laydown.schema.figure import SHARE, Figure, Within
from laydown.schema.message import Message, message
from laydown.schema.plan import Plan
from laydown.schema.product import LayerName
from laydown.trade.times.clocks import RECOAT_MAX_S

ChangeKind = Literal[
    "air changed", "section took longer", "ran low", "interrupted", "painter left", "coat forgotten"
]
"""What differs from the plan."""

SLOWEST_FACTOR = 3.0
"""A section longer than this many times the plan was interrupted, not slow; a choice."""


@dataclass(frozen=True, slots=True)
class DayChange:
    """What differs from the plan today."""

    kind: ChangeKind
    at_s: float
    temperature_c: Annotated[Figure, Within(5, 45)] | None = None
    rh: Annotated[Figure, SHARE] | None = None
    left_g: Annotated[float, Within(0, 20_000)] | None = None
    layer: LayerName | None = None
    coat: int = 1


def check_change(change: DayChange) -> None:
    """Refuse a change without its figure."""
    if change.kind == "air changed" and change.temperature_c is None and change.rh is None:
        raise ValueError("temperature_c or rh must be given where the air changed")
    if change.kind == "ran low" and change.left_g is None:
        raise ValueError("left_g must be given where the cup ran low")
    if change.kind == "coat forgotten" and change.layer is None:
        raise ValueError("layer must be given where a coat was forgotten")


def changes_of(setup: Setup, legs: Sequence[Leg], state: Progress, change: DayChange) -> Changes:
    """Return what changes in the job."""
    if change.kind == "air changed":
        return Changes(temperature_c=change.temperature_c, rh=change.rh)
    if change.kind == "painter left":
        return Changes(painters=1)
    if change.kind == "section took longer":
        factor = pace_factor(legs, state, change.at_s)
        speed = setup.job.gun.speed_m_s.value / factor
        return Changes(
            speed_m_s=Figure(speed, None, None, f"seen at the booth: {factor:.2f} times the plan's time")
        )
    return Changes()


def pace_factor(legs: Sequence[Leg], state: Progress, now_s: float) -> float:
    """Return how many times as long the sections took as planned."""
    coats = {leg.id: leg.coat for leg in legs if leg.coat is not None and leg.kind == "spray"}
    ends = [mark.at_s for mark in state.marks[1:]] + [now_s]
    seen, planned = 0.0, 0.0
    for number, (mark, end) in enumerate(zip(state.marks, ends, strict=True)):
        coat = coats.get(mark.step)
        if coat is None or mark.phase != "working" or mark.section == 0:
            continue
        usual = coat.sections[mark.section - 1].elapsed_s
        took = end - mark.at_s
        unfinished = number == len(state.marks) - 1 and took <= usual
        if not unfinished and 0.0 < took <= SLOWEST_FACTOR * usual:
            seen, planned = seen + took, planned + usual
    return seen / planned if planned > 0.0 else 1.0


def extra_coats(
    plan: Plan, legs: Sequence[Leg], state: Progress, change: DayChange
) -> tuple[dict[LayerName, float] | None, Message | None]:
    """Return the coats to be added, and what to say."""
    layers = {layer.name: layer for layer in plan.layers}
    if change.kind == "coat forgotten" and change.layer is not None:
        layer = layers.get(change.layer)
        coat = next((one for one in layer.coats if one.number == change.coat), None) if layer else None
        if coat is None or layer is None or _begun_after(legs, state, layer.name):
            return None, message("too-late-to-add")
        again = message("numbered-coat", layer=layer.name, number=coat.number)
        return {layer.name: coat.counts}, message("coat-is-added", coat=again)
    if change.kind == "interrupted" and "effect" in layers and not _begun_after(legs, state, "effect"):
        ended = state.ended_s(legs, f"effect.{layers['effect'].coats[-1].number}.spray")
        limits = [
            one.limit_s for one in plan.clocks if one.kind == "recoat_max" and one.starts.startswith("effect")
        ]
        limit = next((one for one in limits if one is not None), RECOAT_MAX_S)
        if ended is not None and change.at_s - ended > limit:
            return {"effect": 1.0}, message("scuff-and-recoat")
    return {}, None


def _begun_after(legs: Sequence[Leg], state: Progress, layer: LayerName) -> bool:
    """Whether a later layer has its first stroke."""
    order = [leg.layer for leg in legs if leg.kind == "spray"]
    last = max(index for index, name in enumerate(order) if name == layer)
    return any(
        mark.section > 0 and mark.step.startswith(f"{name}.")
        for name in order[last + 1 :]
        for mark in state.marks
    )
