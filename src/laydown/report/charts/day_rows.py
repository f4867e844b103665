"""Sorts the steps of a plan into the rows of the day picture, and steps that overlap into lanes."""

from dataclasses import dataclass

from laydown.schema.clock import Step
from laydown.schema.message import Name
from laydown.schema.plan import Plan
from laydown.words.numbers import minutes
from laydown.words.show import ENGLISH, Words

ROWS = ("prepare", "ground", "effect", "clear", "wait", "finish")
"""Rows from top to bottom."""

_SHORT_S = 60.0
_ROW_OF = {
    "prepare": "prepare",
    "mix": "prepare",
    "flash": "wait",
    "check": "wait",
    "release": "wait",
    "dehydrate": "wait",
    "bake": "finish",
    "cool": "finish",
    "unmask": "finish",
    "polish": "finish",
}


@dataclass(frozen=True, slots=True)
class Bar:
    """A step in its row."""

    step: Step
    row: int
    lane: int
    lanes: int
    text: str


def bars(plan: Plan, words: Words = ENGLISH) -> tuple[Bar, ...]:
    """Lay out every step."""
    found: list[Bar] = []
    for index, row in enumerate(ROWS):
        steps = [step for step in plan.timeline if row_of(step) == row and not _passing(step)]
        lanes = _lanes(steps)
        count = max(lanes, default=0) + 1
        found += [
            Bar(step, index, lane, count, _text(plan, step, words))
            for step, lane in zip(steps, lanes, strict=True)
        ]
    return tuple(sorted(found, key=lambda bar: (bar.step.start_s, bar.row)))


def row_of(step: Step) -> str:
    """Row of a step."""
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


def _text(plan: Plan, step: Step, words: Words) -> str:
    """What stands on a bar."""
    if step.kind in {"flash", "check", "release"}:
        return ""
    if step.kind != "spray":
        return words.word("step_kind", step.kind)
    parts = {(layer.name, coat.number): coat.part for layer in plan.layers for coat in layer.coats}
    drop = parts.get((step.layer, step.coat), "full_light") == "drop" if step.layer and step.coat else False
    return words.say("drop-letter") if drop else str(step.coat or "")


def last_step(plan: Plan) -> Step | None:
    """Give the step after which the vehicle may be unmasked, else the last one."""
    unmask = [step for step in plan.timeline if step.kind == "unmask"]
    return (unmask or sorted(plan.timeline, key=lambda step: step.end_s))[-1] if plan.timeline else None


def end_text(plan: Plan, words: Words) -> str:
    """Say when the vehicle can be unmasked."""
    step = last_step(plan)
    if step is None:
        return words.say("day-no-steps")
    return words.say(
        "day-unmasked-after" if step.kind == "unmask" else "day-done-after",
        end=Name(minutes(step.end_s)),
        low=Name(minutes(step.low_end_s)),
        high=Name(minutes(step.high_end_s)),
    )
