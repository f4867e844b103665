"""The whole process: ground coat, drying and cooling, effect coat, dehydration, clear."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from laydown.physics.spray.fan import PROFILE_EXPONENT
from laydown.physics.spray.hand import film_cv
from laydown.planning.counts.effect_count import ColourCount, ColourTask, count_colour
from laydown.planning.counts.ground_count import hiding_of
from laydown.planning.layers.layer import LayerResult, LayerTask, joins_of, plan_clear, plan_layer
from laydown.planning.process.drying import Cooling, clear_times, cooling_of, dehydration_s, panel_start_c
from laydown.planning.process.look import Look, look_of
from laydown.planning.setup.coat_parts import CoatPlan, composition
from laydown.planning.setup.setup import Setup
from laydown.planning.setup.spraying import clear_pass, full_pass
from laydown.schema.choices import Choices, PanelWork
from laydown.schema.colour import ColourVerdict, HidingVerdict
from laydown.schema.message import Finding, message
from laydown.schema.product import LayerName

CLEAR_OPEN_LN_SD = 0.5
"""Standard deviation of ln(open time) of the clear; assumption."""


@dataclass(frozen=True, slots=True)
class CoatCounts:
    """How many coats, and why."""

    hiding: HidingVerdict
    colour: ColourCount
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class Layered:
    """All layers and what lies between them."""

    layers: Mapping[LayerName, LayerResult]
    cooling: Cooling | None
    dehydrate_s: float

    def is_possible(self) -> bool:
        """Return whether every coat has possible sections; definition."""
        return all(
            math.isfinite(coat.planned.cut.cost) for layer in self.layers.values() for coat in layer.coats
        )


@dataclass(frozen=True, slots=True)
class Process(Layered):
    """All layers, what lies between them, and how they look."""

    hiding: HidingVerdict
    colour: ColourVerdict
    look: Look
    findings: tuple[Finding, ...]


def counted_of(setup: Setup) -> CoatCounts:
    """Return how many coats of ground and effect are sprayed."""
    job = setup.job
    full = full_pass(job.gun, job.choices.nozzle_mm or job.gun.nozzle_mm)
    # What is mixed changes no count, so a change of it asks for the same counts again.
    choices = replace(job.choices, reducer=None, water=None, hardener=None, nozzle_mm=None)
    by_hand = film_cv(setup.crew.hand, full.fan_m, full.overlap, PROFILE_EXPONENT)
    panels = tuple(
        (reach.label, setup.works[reach.panel])
        for reach in setup.extents.panels
        if reach.ground != "none" and reach.panel in setup.works
    )
    film = (setup.paints["ground"].dry_um_of(full.film_g_m2()), by_hand)
    hiding, found = _hiding(setup, panels, film, choices)
    task = ColourTask(job.sample, choices, job.gun, setup.readings, setup.paints["effect"], full)
    return CoatCounts(hiding, count_colour(task), found)


def layered_of(setup: Setup, counted: CoatCounts) -> Layered:
    """Return all layers and what lies between them."""
    layers: dict[LayerName, LayerResult] = {}
    start_c = panel_start_c(setup.job)
    if "ground" in setup.fields:
        coats = composition(counted.hiding.ground_coats, "ground")
        layers["ground"] = plan_layer(_task(setup, "ground", coats, (start_c, 0.0), ()))
    cooling = cooling_of(setup, layers["ground"]) if "ground" in layers else None
    panel_c = cooling.surface_c if cooling is not None else start_c
    dehydrate = 0.0
    if "effect" in setup.fields:
        below = _standing_um(layers["ground"]) if "ground" in layers else 0.0
        before = joins_of(layers.get("ground"))
        task = _task(setup, "effect", counted.colour.coats, (min(70.0, panel_c), below), before)
        layers["effect"] = plan_layer(task)
        dehydrate = dehydration_s(setup, layers["effect"], layers["effect"].conditions)
    if "clear" in setup.fields:
        layers["clear"] = _clear(setup, joins_of(layers.get("effect")))
    return Layered(layers, cooling, dehydrate)


def process_of(setup: Setup) -> Process:
    """Return all layers, what lies between them, and how they look."""
    counted = counted_of(setup)
    layered = layered_of(setup, counted)
    colour, effect = counted.colour, layered.layers.get("effect")
    look = look_of(effect, colour.sight)
    findings = (*counted.findings, *colour.findings, *look.findings, *half_strength(effect))
    return Process(
        layered.layers,
        layered.cooling,
        layered.dehydrate_s,
        counted.hiding,
        colour.verdict,
        look,
        findings,
    )


def _standing_um(layer: LayerResult) -> float:
    """Dry film of a layer [µm]."""
    paint = layer.task.paint
    return sum(paint.dry_um_of(coat.planned.work.film_g_m2()) for coat in layer.coats)


def _hiding(
    setup: Setup,
    panels: tuple[tuple[str, PanelWork], ...],
    film: tuple[float, float],
    choices: Choices,
) -> tuple[HidingVerdict, tuple[Finding, ...]]:
    """Hiding of the ground coat, or an empty verdict where there is none."""
    if not panels:
        return HidingVerdict(0.0, 0.0, 0.0, None, "", (), message("no-ground-wanted")), ()
    return hiding_of(panels, setup.paints["ground"], film, choices, setup.job.sample.card_gone_after)


def half_strength(layer: LayerResult | None) -> tuple[Finding, ...]:
    """Return how a half-strength effect coat is mixed, where one is planned."""
    if layer is None:
        return ()
    return tuple(
        Finding(
            "note",
            "half-strength-coat",
            f"effect.{coat.number}",
            message("half-strength-coat", coat=coat.number, each_g=grams),
            message("half-strength-coat.why"),
            (message("do.ask-clear-blender"),),
        )
        for coat in layer.coats
        if coat.plan.strength < 1.0
        for grams in (coat.planned.outcome.balance.sprayed_g * coat.plan.strength,)
    )


def _task(
    setup: Setup,
    layer: LayerName,
    coats: tuple[CoatPlan, ...],
    below: tuple[float, float],
    before: tuple[tuple[float, bool], ...],
) -> LayerTask:
    """One layer of waterborne paint as a task."""
    panel_c, base_um = below
    return LayerTask(
        setup.job,
        setup.paints[layer],
        setup.fields[layer],
        setup.places[layer],
        setup.crew,
        coats,
        panel_c,
        min(base_um, 500.0),
        before,
    )


def _clear(setup: Setup, before: tuple[tuple[float, bool], ...]) -> LayerResult:
    """The clear coat."""
    job, paint = setup.job, setup.paints["clear"]
    air_c = job.air.temperature_c.value
    task = _task(setup, "clear", composition(paint.coats_min, "clear"), (air_c, 0.0), before)
    full = clear_pass(full_pass(job.gun, job.gun.nozzle_mm), paint.sheet_g_m2())
    return plan_clear(task, full, clear_times(setup, air_c), CLEAR_OPEN_LN_SD)
