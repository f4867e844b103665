"""The way through the day: the booth's steps one after the other, each with its coat and its gate."""

from dataclasses import dataclass
from typing import Literal

from laydown.schema.clock import Gate
from laydown.schema.coat import Coat
from laydown.schema.message import Message, Saying, message
from laydown.schema.plan import Plan
from laydown.schema.product import LayerName

LegKind = Literal[
    "prepare", "spray", "flash", "release", "cool", "dehydrate", "dry", "bake", "unmask", "close"
]
"""What kind of step; dry: drying of a coat by its sheet; bake: the last one, judged by the metal."""

CAR_GATE = "car.release"
"""Step of the last gate; definition."""

CLOSE = "close"
"""Step at which the job is closed; definition."""

_NOT_IN_BOOTH = {"mix", "polish", "check"}


@dataclass(frozen=True, slots=True)
class Leg:
    """One step at the booth."""

    id: str
    kind: LegKind
    layer: LayerName | None
    coat: Coat | None
    length_s: float
    text: Saying
    gate: Gate | None = None
    last: bool = False


def coat_said(leg: Leg) -> Message:
    """Return which coat a step works on."""
    return message(
        "numbered-coat", layer=leg.layer or "", number=leg.coat.number if leg.coat is not None else 0
    )


def legs_of(plan: Plan) -> tuple[Leg, ...]:
    """Return the booth's steps of a plan in order."""
    coats = {
        f"{layer.name}.{coat.number}": (coat, coat is layer.coats[-1])
        for layer in plan.layers
        for coat in layer.coats
    }
    steps = [step for step in plan.timeline if step.kind not in _NOT_IN_BOOTH]
    found = []
    for index, step in enumerate(steps):
        coat, last = coats.get(f"{step.layer}.{step.coat}", (None, False))
        kind: LegKind = "dry" if step.kind == "bake" and step.id != "bake" else step.kind  # type: ignore[assignment]
        gate = None
        if kind == "release":
            after = next((one.id for one in steps[index:] if one.kind == "spray"), "")
            gate = next((one for one in plan.gates if one.before == after), None)
        found.append(Leg(step.id, kind, step.layer, coat, step.end_s - step.start_s, step.text, gate, last))
    car = next((gate for gate in plan.gates if gate.before == "polish"), None)
    if car is not None:
        found.append(Leg(CAR_GATE, "release", None, None, 0.0, message("car-released"), car))
    found.append(Leg(CLOSE, "close", None, None, 0.0, message("close-the-job")))
    return tuple(found)
