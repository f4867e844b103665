"""The clock of the day, laid anew: done steps stay where they were, the others follow one after the other."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from laydown.booth.again import Again
from laydown.schema.clock import Step
from laydown.schema.coat import Layer
from laydown.schema.plan import Plan
from laydown.schema.product import Kind

SECOND_TIME = ".again"
"""Ending of the name of a step that is done a second time; definition."""

_BESIDE_OR_COAT = {"mix", "spray", "flash"}


def timeline_from(again: Again, layers: Sequence[Layer]) -> tuple[Step, ...]:
    """Return the timeline of a plan that was made anew from here.

    Parameters
    ----------
    again
        What was planned again.
    layers
        All layers as they are now.

    Returns
    -------
    Done steps and the coat being sprayed as they were; all others after them, in the order of the plan.
    """
    kept = _kept(again)
    now_s = max((step.end_s for step in kept), default=0.0)
    found = list(kept)
    for step in _ahead(again, layers, {step.id for step in kept}):
        length = step.end_s - step.start_s
        end = now_s + length
        found.append(
            replace(
                step,
                start_s=now_s,
                end_s=end,
                low_end_s=max(now_s, end - (step.end_s - step.low_end_s)),
                high_end_s=end + step.high_end_s - step.end_s,
                needs=(found[-1].id,) if found else (),
            )
        )
        now_s = end
    found += _beside(again, found)
    return tuple(sorted(found, key=lambda step: (step.start_s, step.id)))


def _kept(again: Again) -> list[Step]:
    """Steps at the booth that are done, the coat being sprayed, and its flash where it is not judged anew."""
    done = {leg.id for leg in again.legs[: again.state.leg]}
    here = again.legs[again.state.leg]
    judged = any(rest.at_hand for rest in again.rests.values())
    if (here.kind == "spray" and again.state.phase != "waiting") or here.kind == "prepare":
        done.add(here.id)
    if here.kind == "flash" and not judged:
        done.add(here.id)
    elif here.kind == "spray" and here.id in done and not judged and here.coat is not None:
        done.add(f"{here.layer}.{here.coat.number}.flash")
    return [step for step in again.old.timeline if step.id in done]


def _ahead(again: Again, layers: Sequence[Layer], kept: set[str]) -> Iterator[Step]:
    """Steps still to come, in order, under the numbers of the whole plan."""
    names = [layer.name for layer in layers]
    for layer in layers[names.index(again.at) :]:
        if again.rests[layer.name].open:
            yield from _of_coats(again, layer, kept)
            yield from _after_coats(again, layer, kept)
    for step in again.runs[names[-1]].timeline:
        if step.layer is None and step.kind == "unmask" and step.id not in kept:
            yield step


def _of_coats(again: Again, layer: Layer, kept: set[str]) -> Iterator[Step]:
    """Spraying and flashing of every coat still to come: added ones, planned again, or as they were."""
    known = {step.id: step for step in again.old.timeline}
    known |= {step.id: step for step in again.runs[layer.name].timeline}
    known |= _added(again, layer)
    for coat in layer.coats:
        for kind in ("spray", "flash"):
            name = f"{layer.name}.{coat.number}.{kind}"
            if name not in kept:
                yield known[name]


def _after_coats(again: Again, layer: Layer, kept: set[str]) -> Iterator[Step]:
    """Drying, gates, bake of a layer; a second time where coats are added after them."""
    for step in again.runs[layer.name].timeline:
        if step.layer != layer.name or step.kind in _BESIDE_OR_COAT:
            continue
        if step.id not in kept:
            yield step
        elif again.rests[layer.name].added_count > 0.0:
            yield replace(step, id=_second(step.id, kept))


def _second(name: str, kept: set[str]) -> str:
    """A name for a step that is done once more."""
    while name in kept:
        name += SECOND_TIME
    return name


def _added(again: Again, layer: Layer) -> dict[str, Step]:
    """Steps of added coats under the numbers they have in the whole layer."""
    plan = again.added.get(layer.name)
    if plan is None:
        return {}
    steps = {step.id: step for step in plan.timeline}
    count = max(step.coat or 0 for step in plan.timeline if step.layer == layer.name)
    first = len(layer.coats) - count
    return {
        f"{layer.name}.{first + number}.{kind}": replace(
            steps[f"{layer.name}.{number}.{kind}"],
            id=f"{layer.name}.{first + number}.{kind}",
            coat=first + number,
        )
        for number in range(1, count + 1)
        for kind in ("spray", "flash")
    }


def _beside(again: Again, found: Sequence[Step]) -> Iterator[Step]:
    """Mixing beside the booth, and polishing after it."""
    starts = {step.id: step.start_s for step in found}
    for name, rest in again.rests.items():
        plan = again.old if rest.begun or name not in again.runs else again.runs[name]
        mix = next((step for step in plan.timeline if step.id == f"mix.{name}"), None)
        if mix is not None:
            yield mix if rest.begun else _moved(mix, _lead_start(plan, name, mix, starts))
    steps = {step.id: step for step in again.runs[again.old.layers[-1].name].timeline}
    if "polish" in steps and "unmask" in steps:
        yield _moved(
            steps["polish"], starts.get("unmask", 0.0) + steps["polish"].start_s - steps["unmask"].start_s
        )


def _lead_start(plan: Plan, name: Kind, mix: Step, starts: dict[str, float]) -> float:
    """When mixing begins: as long before the first stroke as planned."""
    first = next(step for step in plan.timeline if step.id == f"{name}.1.spray")
    return max(0.0, starts.get(first.id, 0.0) - (first.start_s - mix.start_s))


def _moved(step: Step, start_s: float) -> Step:
    """A step at another start."""
    by = start_s - step.start_s
    return replace(
        step,
        start_s=start_s,
        end_s=step.end_s + by,
        low_end_s=step.low_end_s + by,
        high_end_s=step.high_end_s + by,
    )
