"""Sorts the steps of a plan into the rows of the day picture, and steps that overlap into lanes."""

from dataclasses import dataclass

from laydown.schema.clock import Step
from laydown.schema.plan import Plan
from laydown.words.numbers import minutes

ROWS = ("prepare", "ground", "effect", "clear", "air, wait", "bake, finish")
"""Rows from top to bottom."""

_SHORT_S = 60.0
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
        steps = [step for step in plan.timeline if row_of(step) == row and not _passing(step)]
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


def _passing(step: Step) -> bool:
    """Whether a step is too short to be seen: metal that cools for less than a minute."""
    return step.kind == "cool" and step.end_s - step.start_s < _SHORT_S


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


def last_step(plan: Plan) -> Step | None:
    """Give the step after which the vehicle may be unmasked, else the last one.

    Parameters
    ----------
    plan
        The plan.

    Returns
    -------
    The step, or None for an empty timeline.
    """
    unmask = [step for step in plan.timeline if step.kind == "unmask"]
    return (unmask or sorted(plan.timeline, key=lambda step: step.end_s))[-1] if plan.timeline else None


def end_text(plan: Plan) -> str:
    """Say when the vehicle can be unmasked.

    Parameters
    ----------
    plan
        The plan.

    Returns
    -------
    Such as "unmasked after 2:48 (2:39 to 3:02)".
    """
    step = last_step(plan)
    if step is None:
        return "no steps"
    word = "unmasked" if step.kind == "unmask" else "done"
    return f"{word} after {minutes(step.end_s)} h ({minutes(step.low_end_s)} to {minutes(step.high_end_s)})"
