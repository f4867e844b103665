"""Sorts the steps of a plan into the rows of the day picture, and steps that overlap into lanes."""

from dataclasses import dataclass

from laydown.schema.clock import Step
from laydown.schema.plan import Plan

ROWS = ("prepare", "ground", "effect", "clear", "air, wait", "bake, finish")
"""Rows from top to bottom."""

_ROW_OF = {
    "prepare": "prepare",
    "mix": "prepare",
    "flash": "air, wait",
    "check": "air, wait",
    "release": "air, wait",
    "dehydrate": "air, wait",
    "bake": "bake, finish",
    "cool": "bake, finish",
    "unmask": "bake, finish",
    "polish": "bake, finish",
}


@dataclass(frozen=True, slots=True)
class Bar:
    """A step in its row.

    Attributes
    ----------
    step
        The step.
    row
        Index of its row.
    lane, lanes
        Its lane from the top, and how many the row has.
    text
        What stands on it; empty for waiting, and for checks, which a gate names.
    """

    step: Step
    row: int
    lane: int
    lanes: int
    text: str


def bars(plan: Plan) -> tuple[Bar, ...]:
    """Lay out every step.

    Parameters
    ----------
    plan
        The plan.

    Returns
    -------
    Bars in the order of the timeline.
    """
    found: list[Bar] = []
    for index, row in enumerate(ROWS):
        steps = [step for step in plan.timeline if row_of(step) == row]
        lanes = _lanes(steps)
        count = max(lanes, default=0) + 1
        found += [
            Bar(step, index, lane, count, _text(plan, step)) for step, lane in zip(steps, lanes, strict=True)
        ]
    return tuple(sorted(found, key=lambda bar: (bar.step.start_s, bar.row)))


def row_of(step: Step) -> str:
    """Row of a step.

    Parameters
    ----------
    step
        A step.

    Returns
    -------
    One of the rows; spraying stands in the row of its layer.
    """
    if step.kind == "spray" and step.layer is not None:
        return step.layer
    return _ROW_OF.get(step.kind, "prepare")


def _lanes(steps: list[Step]) -> list[int]:
    """Lowest free lane of each step."""
    ends: list[float] = []
    lanes = []
    for step in steps:
        lane = next((index for index, end in enumerate(ends) if end <= step.start_s + 0.5), len(ends))
        if lane == len(ends):
            ends.append(0.0)
        ends[lane] = step.end_s
        lanes.append(lane)
    return lanes


def _text(plan: Plan, step: Step) -> str:
    """What stands on a bar."""
    if step.kind in {"flash", "check", "release"}:
        return ""
    if step.kind != "spray":
        return {"bake": "bake", "dehydrate": "dry out"}.get(step.kind, step.kind)
    parts = {(layer.name, coat.number): coat.part for layer in plan.layers for coat in layer.coats}
    control = parts.get((step.layer, step.coat), "full") == "control" if step.layer and step.coat else False
    return "C" if control else str(step.coat or "")
