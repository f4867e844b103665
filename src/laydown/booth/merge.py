"""One plan out of what is done and what was planned again from here."""

import hashlib
from collections.abc import Sequence
from dataclasses import replace

from laydown.booth.again import Again
from laydown.booth.low_cup import rejudged
from laydown.booth.timeline import timeline_from
from laydown.planning.judge import coat_findings, verdict_of
from laydown.schema.advice import Adjustments
from laydown.schema.clock import ClockLimit
from laydown.schema.coat import Coat, Layer
from laydown.schema.finding import Finding
from laydown.schema.plan import Plan
from laydown.schema.product import Kind
from laydown.schema.supplies import Mix

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
_LEVELS = {"stop": 0, "care": 1, "note": 2}


def merged(again: Again) -> Plan:
    """Return the plan of the whole job: what is done as it was, the rest as planned again.

    Parameters
    ----------
    again
        What was planned again.

    Returns
    -------
    A plan with its own id. Counts, cost, alternatives and limits of use are those of the plan so far.
    """
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


def layer_of(plan: Plan, name: Kind) -> Layer:
    """Return a layer of a plan by its name."""
    return next(layer for layer in plan.layers if layer.name == name)


def _source(again: Again, name: Kind) -> Plan:
    """Where mix and adjustment of a layer come from: as they were if the mix is in use, else as planned again."""
    return again.old if again.rests[name].begun else again.runs[name]


def _mix(again: Again, name: Kind) -> tuple[Mix, ...]:
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


def _renumbered(coat: Coat, layer: Kind, before: Coat | None, number: int) -> Coat:
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
