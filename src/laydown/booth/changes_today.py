"""What differs from the plan today, and what that changes in the job."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated, Literal

from laydown.booth.day_steps import Leg
from laydown.booth.progress import State
from laydown.planning.setup.request import Changes
from laydown.planning.setup.setup import Setup
from laydown.schema.figure import SHARE, Figure, Within
from laydown.schema.plan import Plan
from laydown.schema.product import Kind
from laydown.trade.times.clocks import RECOAT_MAX_S

ChangeKind = Literal[
    "air changed", "section took longer", "ran low", "interrupted", "painter left", "coat forgotten"
]
"""What differs from the plan."""

SLOWEST_FACTOR = 3.0
"""A section longer than this many times the plan was interrupted, not slow; a choice."""

_TOO_LATE = "too late to add it: the next layer is begun; look up what went wrong and its ways out"
_SCUFF = "past the longest time to the clear: scuff lightly, tack, one more effect coat, then clear; the colour changes"


@dataclass(frozen=True, slots=True)
class DayChange:
    """What differs from the plan today.

    Attributes
    ----------
    kind
        What happened.
    at_s
        When it is told [s since 1970 in UTC].
    temperature_c, rh
        Booth air now; None = as before.
    left_g
        What the cup holds less its own weight, where it ran low [g].
    layer, coat
        The coat that was forgotten.
    """

    kind: ChangeKind
    at_s: float
    temperature_c: Annotated[Figure, Within(5, 45)] | None = None
    rh: Annotated[Figure, SHARE] | None = None
    left_g: Annotated[float, Within(0, 20_000)] | None = None
    layer: Kind | None = None
    coat: int = 1


def check_change(change: DayChange) -> None:
    """Refuse a change without its figure.

    Parameters
    ----------
    change
        What differs.

    Raises
    ------
    ValueError
        If it lacks the figure it is about.
    """
    if change.kind == "air changed" and change.temperature_c is None and change.rh is None:
        raise ValueError("temperature_c or rh must be given where the air changed")
    if change.kind == "ran low" and change.left_g is None:
        raise ValueError("left_g must be given where the cup ran low")
    if change.kind == "coat forgotten" and change.layer is None:
        raise ValueError("layer must be given where a coat was forgotten")


def changes_of(setup: Setup, legs: Sequence[Leg], state: State, change: DayChange) -> Changes:
    """Return what changes in the job.

    Parameters
    ----------
    setup
        What the planner worked with.
    legs, state
        Where the work stands.
    change
        What differs.

    Returns
    -------
    Changes; none where only time has passed.
    """
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


def pace_factor(legs: Sequence[Leg], state: State, now_s: float) -> float:
    """Return how many times as long the sections took as planned.

    Parameters
    ----------
    legs, state
        Steps, and where the work stands.
    now_s
        The clock, for a section that is over its time [s since 1970 in UTC].

    Returns
    -------
    Factor over all sections sprayed of the coat at hand; 1 where none is known. Interrupted ones are left out.
    """
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
    plan: Plan, legs: Sequence[Leg], state: State, change: DayChange
) -> tuple[dict[Kind, float] | None, str]:
    """Return the coats to be added, and what to say.

    Parameters
    ----------
    plan
        The plan so far.
    legs, state
        Where the work stands.
    change
        What differs.

    Returns
    -------
    Coats by layer, in halves, or None where it is too late to add any; and a sentence.
    """
    layers = {layer.name: layer for layer in plan.layers}
    if change.kind == "coat forgotten" and change.layer is not None:
        layer = layers.get(change.layer)
        coat = next((one for one in layer.coats if one.number == change.coat), None) if layer else None
        if coat is None or layer is None or _begun_after(legs, state, layer.name):
            return None, _TOO_LATE
        return {layer.name: coat.counts}, f"{layer.name} coat {coat.number} is added after the last one"
    if change.kind == "interrupted" and "effect" in layers and not _begun_after(legs, state, "effect"):
        ended = state.ended_s(legs, f"effect.{layers['effect'].coats[-1].number}.spray")
        limits = [
            one.limit_s for one in plan.clocks if one.kind == "recoat_max" and one.starts.startswith("effect")
        ]
        limit = next((one for one in limits if one is not None), RECOAT_MAX_S)
        if ended is not None and change.at_s - ended > limit:
            return {"effect": 1.0}, _SCUFF
    return {}, ""


def _begun_after(legs: Sequence[Leg], state: State, layer: Kind) -> bool:
    """Whether a later layer has its first stroke."""
    order = [leg.layer for leg in legs if leg.kind == "spray"]
    last = max(index for index, name in enumerate(order) if name == layer)
    return any(
        mark.section > 0 and mark.step.startswith(f"{name}.")
        for name in order[last + 1 :]
        for mark in state.marks
    )
