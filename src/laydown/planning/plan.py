"""make_plan: from a request to the plan document; calls the other parts in order, nothing else."""

import hashlib
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from laydown.planning.document.adjustments import adjustment_findings, adjustments_of
from laydown.planning.document.alternatives import ADJUSTED, alternatives_of
from laydown.planning.document.coats import layer_nouns
from laydown.planning.document.inputs import assumptions_of, dry_spray_of, inputs_of, side_of
from laydown.planning.document.maps import maps_of
from laydown.planning.document.mixes import cost_of, mix_findings, mixes_of
from laydown.planning.document.timeline import clocks_of, gates_of, timeline_of
from laydown.planning.document.verdict import coat_findings, no_good_plan, verdict_of
from laydown.planning.process.air import limits_of_use, process_findings
from laydown.planning.process.bake import Baked, bake_of
from laydown.planning.process.process import Process, process_of
from laydown.planning.setup.request import Planned, Request
from laydown.planning.setup.setup import Setup, setup_of
from laydown.schema.clock import Step
from laydown.schema.coat import Layer, Maps
from laydown.schema.message import Finding, Saying, message
from laydown.schema.plan import Alternative, Plan, Program
from laydown.trade.safety import Occasion, caution_keys, cautions

OnProgress = Callable[[Saying, float], None]
"""Told what is being done and the share that is done, 0 to 1."""

_LEVELS = {"stop": 0, "caution": 1, "note": 2}


@dataclass(frozen=True, slots=True)
class Stamp:
    """What made a plan: version of the program, and the time as ISO 8601 text or None."""

    version: str
    made_at: str | None = None


def _silent(_text: Saying, _share: float) -> None:
    """Tell nobody."""


def make_plan(
    request: Request, progress: OnProgress | None = None, *, thorough: bool = True, drawn: bool = True
) -> Planned:
    """Return the plan of a job."""
    tell = progress or _silent
    tell(message("progress.side-and-layers"), 0.0)
    return plan_from(
        setup_of(request), Stamp(request.version, request.made_at), tell, thorough=thorough, drawn=drawn
    )


def plan_from(
    setup: Setup, stamp: Stamp, tell: OnProgress = _silent, *, thorough: bool, drawn: bool
) -> Planned:
    """Return the plan of a job whose side is set up already, as for a change that leaves the panels alone."""
    tell(message("progress.sections-and-coats"), 0.2)
    process = process_of(setup)
    tell(message("progress.alternatives"), 0.5)
    bake = bake_of(setup)
    alternatives = alternatives_of(setup, process, bake[1]) if thorough else ()
    tell(message("progress.clocks-and-grams"), 0.9)
    plan = _plan(stamp, setup, process, bake, alternatives, thorough=thorough)
    maps = maps_of(setup.side, process) if drawn else Maps(())
    tell(message("progress.done"), 1.0)
    return Planned(plan, maps)


def _use_s(steps: Sequence[Step], layer: str) -> float:
    """From mixing to the last stroke of a layer."""
    begin = next((step.start_s for step in steps if step.id == f"mix.{layer}"), 0.0)
    return (
        max((step.end_s for step in steps if step.layer == layer and step.kind == "spray"), default=begin)
        - begin
    )


def _plan(
    stamp: Stamp,
    setup: Setup,
    process: Process,
    baked: Baked,
    alternatives: tuple[Alternative, ...],
    *,
    thorough: bool,
) -> Plan:
    """The document."""
    job = setup.job
    layers = layer_nouns(setup, process)
    bake, bake_times, bake_found, bake_assumed = baked
    steps = timeline_of(process, bake_times)
    mixes, mix_faults = mixes_of(setup, process.layers)
    findings = _findings(setup, process, layers, alternatives)
    findings += [*mix_faults, *bake_found]
    findings += [one for mix in mixes for one in mix_findings(mix, _use_s(steps, mix.layer))]
    findings.sort(key=lambda one: _LEVELS[one.level])
    colour_layers = [process.layers[name] for name in ADJUSTED if name in process.layers]
    occasion = Occasion(
        hardener=any(layer.option.hardener for layer in process.layers.values()),
        clear="clear" in process.layers,
        bake=bake_times.on_s is not None,
        blowers=job.air.blower_speed_m_s.value > 0.0,
        trainee=job.painter.skill == "trainee",
    )
    keys = caution_keys(occasion)
    plan = Plan(
        format="laydown-plan/2",
        id="",
        program=Program(stamp.version, job.job.seed),
        made_at=stamp.made_at,
        verdict=verdict_of(findings, layers),
        inputs=inputs_of(setup),
        side=side_of(setup),
        adjustment=adjustments_of(setup, dict(process.layers)),
        colour=process.colour,
        hiding=process.hiding,
        layers=layers,
        appearance=process.look.appearance,
        dry_spray=dry_spray_of(process, layers),
        mixes=tuple(mixes),
        timeline=steps,
        gates=gates_of(layers),
        bake=bake,
        clocks=clocks_of(setup, mixes, dict(process.layers), bake_times),
        cost=cost_of(setup, mixes, steps),
        alternatives=alternatives,
        limits_of_use=limits_of_use(setup, colour_layers if thorough else []),
        findings=tuple(dict.fromkeys(findings)),
        assumptions=(*assumptions_of(setup, process), *bake_assumed),
        cautions=keys,
        safety=cautions(keys, job.limits.region),
    )
    return replace(plan, id=hashlib.sha256(repr(plan).encode()).hexdigest()[:8])


def _findings(
    setup: Setup, process: Process, layers: Sequence[Layer], alternatives: Sequence[Alternative]
) -> list[Finding]:
    """Findings of extents, counts, adjustment, air, coats; first whether any good plan exists."""
    bad = no_good_plan(process, layers, alternatives)
    return [
        *([bad] if bad is not None else []),
        *setup.extents.findings,
        *process.findings,
        *adjustment_findings(setup, dict(process.layers)),
        *process_findings(setup, process),
        *coat_findings(layers, alternatives),
    ]
