"""The day as plain text: when each layer begins and is ready, what follows, and the checks between."""

from laydown.report.lines import paragraph
from laydown.report.text_words import minutes
from laydown.schema.clock import Step
from laydown.schema.plan import Plan

_AFTER = ("bake", "cool", "unmask", "polish")
_LEAST_S = 60.0
_KEY = "h:min from the first mix; in 9 of 10 cases between the two in brackets"


def day_lines(plan: Plan, width: int) -> list[str]:
    """Write the day in its order.

    Parameters
    ----------
    plan
        The plan.
    width
        Columns there are.

    Returns
    -------
    Lines; times are hours and minutes from the first mix.
    """
    rows = [*_layers(plan), *(row for step in plan.timeline if (row := _step(step)) is not None)]
    told = [text for _, text in sorted(rows, key=lambda row: row[0])]
    lines = paragraph("DAY      ", _KEY, width)
    lines += [f"         {text}" for text in told]
    for gate in plan.gates:
        lines += paragraph(" " * 9 + "check    ", f"{gate.id}: {', '.join(gate.ask)}?", width)
    return lines


def _layers(plan: Plan) -> list[tuple[float, str]]:
    """First and last moment of each layer."""
    rows = []
    for layer in plan.layers:
        steps = [
            step for step in plan.timeline if step.layer == layer.name and step.kind in {"spray", "flash"}
        ]
        if steps:
            last = max(steps, key=lambda step: step.end_s)
            begin = min(step.start_s for step in steps)
            word = "ready" if layer.name == "clear" else "matt"
            rows.append((begin, f"{layer.name:8} from {minutes(begin):>5}   {word:5} {_end(last)}"))
    return rows


def _step(step: Step) -> tuple[float, str] | None:
    """One step after the coats; a pause under a minute is left out."""
    if step.kind not in _AFTER:
        return None
    if step.kind == "polish":
        return step.start_s, f"{step.kind:8} from {_end(step)}"
    if step.end_s - step.start_s < _LEAST_S:
        return None
    return step.start_s, f"{step.kind:8} from {minutes(step.start_s):>5}   done  {_end(step)}"


def _end(step: Step) -> str:
    """End of a step with its interval."""
    return f"{minutes(step.end_s):>5} ({minutes(step.low_end_s)}-{minutes(step.high_end_s)})"
