"""One plan out of what is done and what was planned again from here."""

import hashlib
from collections.abc import Iterator, Sequence
from dataclasses import replace

from laydown.booth.low_cup import rejudged
from laydown.booth.remaining import Again
from laydown.planning.document.verdict import coat_findings, verdict_of
from laydown.schema.clock import ClockLimit, Step
from laydown.schema.coat import Coat, Layer
from laydown.schema.message import Finding
from laydown.schema.plan import Adjustments, Plan
from laydown.schema.product import LayerName
from laydown.schema.supplies import Mix

SECOND_TIME = ".again"
"""Ending of the name of a step that is done a second time; definition."""

_BESIDE_OR_COAT = {"mix", "spray", "flash"}


def timeline_from(again: Again, layers: Sequence[Layer]) -> tuple[Step, ...]:
    """Return the timeline of a plan that was made anew from here."""
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


def _lead_start(plan: Plan, name: LayerName, mix: Step, starts: dict[str, float]) -> float:
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


_COUNTS = {
    "angles-left-out",
    "blind",
    "coats-provisional",
    "effect-beyond-sheet",
    "fields-uneven",
    "film-per-coat",
    "fixed-against-panel",
    "ground-beyond-sheet",
    "ground-not-hiding",
    "ground-wrong",
    "islands",
    "panel-not-read",
    "panel-rough",
    "panel-settings",
    "readings-dropped",
    "readings-unusable",
    "undercoat-choice",
    "zones-differ",
}  # how the counts were found; on the day they are fixed, so the planner would judge them as the user's wish
_LEVELS = {"stop": 0, "caution": 1, "note": 2}


def merged(again: Again) -> Plan:
    """Return the plan of the whole job: what is done as it was, the rest as planned again."""
    old = again.old
    layers = tuple(_layer(again, layer) for layer in old.layers)
    last = again.runs[old.layers[-1].name]
    findings = _findings(again, last, layers)
    plan = replace(
        old,
        id="",
        made_at=last.made_at,
        verdict=verdict_of(findings, layers),
        inputs=last.inputs,
        adjustment=_adjustments(again),
        layers=layers,
        mixes=tuple(mix for name in again.rests for mix in _mix(again, name)),
        timeline=timeline_from(again, layers),
        appearance=last.appearance,
        bake=last.bake,
        clocks=_clocks(again, last, layers),
        findings=tuple(dict.fromkeys(findings)),
    )
    return with_id(plan)


def with_id(plan: Plan) -> Plan:
    """Return a plan under an id of its own content."""
    return replace(plan, id=hashlib.sha256(repr(replace(plan, id="")).encode()).hexdigest()[:8])


def layer_of(plan: Plan, name: LayerName) -> Layer:
    """Return a layer of a plan by its name."""
    return next(layer for layer in plan.layers if layer.name == name)


def _source(again: Again, name: LayerName) -> Plan:
    """Where mix and adjustment of a layer come from: as they were if the mix is in use, else as planned again."""
    return again.old if again.rests[name].begun else again.runs[name]


def _mix(again: Again, name: LayerName) -> tuple[Mix, ...]:
    """The mix of a layer, if it has one."""
    return tuple(mix for mix in _source(again, name).mixes if mix.layer == name)


def _adjustments(again: Again) -> Adjustments:
    """The adjustment of each layer; a layer that is not painted keeps what it had."""
    found = again.old.adjustment
    for name in again.rests:
        one = getattr(_source(again, name).adjustment, name)
        found = replace(found, **{name: one})
    return found


def _layer(again: Again, old: Layer) -> Layer:
    """Coats that are on, the one at hand judged anew, the rest as planned again, and what is added."""
    rest = again.rests[old.name]
    if not rest.open:
        return old
    new = layer_of(again.runs[old.name], old.name)
    kept = list(old.coats[: rest.kept])
    if rest.at_hand:
        kept[-1] = _judged_anew(kept[-1], new.coats[rest.kept - 1], again)
    fresh = [*new.coats[rest.kept : rest.whole], *old.coats[max(rest.whole, rest.kept) :]]
    if old.name in again.added:
        fresh += layer_of(again.added[old.name], old.name).coats
    for coat in fresh:
        kept.append(_renumbered(coat, old.name, kept[-1] if kept else None, len(kept) + 1))
    panel = new.panel_c if rest.kept == 0 else old.panel_c
    return replace(old, panel_c=panel, coats=tuple(kept))


def _judged_anew(coat: Coat, like: Coat, again: Again) -> Coat:
    """The coat at hand with the times of the air as it is now; joins behind it are done."""
    if coat.flash_s == like.flash_s and coat.open_s == like.open_s:
        return coat
    here = again.legs[again.state.leg]
    section = again.state.section if here.kind == "spray" else len(coat.sections)
    joins = tuple(
        rejudged(join, join.age_s, like.open_s) if join.between[0] >= section else join for join in coat.joins
    )
    return replace(coat, flash_s=like.flash_s, open_s=like.open_s, joins=joins)


def _renumbered(coat: Coat, layer: LayerName, before: Coat | None, number: int) -> Coat:
    """A coat under its number in the whole layer; its joins measured against the coat before."""
    if coat.number == number and number > 1 and before is not None:
        coat = replace(
            coat, joins=tuple(replace(join, moved_m=_moved_m(join.x_m, before)) for join in coat.joins)
        )
    elif coat.number != number:
        joins = tuple(
            replace(
                join,
                id=f"{layer[0]}{number}.{index}",
                moved_m=_moved_m(join.x_m, before) if before is not None else join.moved_m,
            )
            for index, join in enumerate(coat.joins, start=1)
        )
        coat = replace(coat, number=number, joins=joins)
    return coat


def _moved_m(x_m: float, before: Coat) -> float | None:
    """Distance to the nearest join of the coat before."""
    return min((abs(x_m - join.x_m) for join in before.joins), default=None)


def _findings(again: Again, last: Plan, layers: Sequence[Layer]) -> list[Finding]:
    """Findings of counts from the plan so far, of coats from the merged layers, all others from the newest."""
    of_new_coats = set(coat_findings(last.layers, last.alternatives))
    found = [one for one in again.old.findings if one.code in _COUNTS]
    found += [one for one in last.findings if one.code not in _COUNTS and one not in of_new_coats]
    found += coat_findings(layers, ())
    return sorted(found, key=lambda one: _LEVELS[one.level])


def _clocks(again: Again, last: Plan, layers: Sequence[Layer]) -> tuple[ClockLimit, ...]:
    """Clocks of the newest plan, started by the coats as they are numbered now; a running pot life is kept."""
    ends = {layer.name: f"{layer.name}.{layer.coats[-1].number}.spray" for layer in layers}
    begun = {f"mix.{name}" for name, rest in again.rests.items() if rest.begun}
    running = [one for one in again.old.clocks if one.kind == "pot_life" and one.starts in begun]
    fresh = [one for one in last.clocks if not (one.kind == "pot_life" and one.starts in begun)]
    return tuple(
        replace(
            one,
            starts=next((end for name, end in ends.items() if one.starts.startswith(f"{name}.")), one.starts),
        )
        for one in (*running, *fresh)
    )
