"""Layers: the adjustment, the direction, and coat after coat, each staggered against the one before."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from laydown.physics.values import Floats
from laydown.planning.layers.adjustments import Option, all_options, full_passes, options_of
from laydown.planning.layers.choice import Choice, Offer, choose, own_cost
from laydown.planning.layers.coat_wetness import goes_on_wet, layer_wetting, on_matt, still_wet_s, wait_s
from laydown.planning.layers.open_time import Conditions, Wetting, conditions_of
from laydown.planning.layers.way import Start, resolve_start, walks_better
from laydown.planning.sections.coat import CoatBase, CoatTask, PlannedCoat, plan_coat, rules_of
from laydown.planning.sections.costs import Opening, board_of
from laydown.planning.sections.search import best_cuts
from laydown.planning.sections.stretches import lattice_of, times_of
from laydown.planning.setup.coat_parts import CoatPlan
from laydown.planning.setup.field import Field
from laydown.planning.setup.paint import Paint
from laydown.planning.setup.places import Place
from laydown.planning.setup.spraying import Crew, GunPass, settings_of
from laydown.schema.coat import Part
from laydown.schema.job import Job


def offer_of(
    base: CoatBase,
    task: CoatTask,
    options: tuple[tuple[Option, ...], tuple[GunPass, ...]],
    wetting: Wetting,
    coats: tuple[int, float],
) -> Offer:
    """Return what every option of a layer leads to, in both directions."""
    count, nozzle_mm = coats
    adjustments, full = options
    ahead = least_cost(base, task, full, wetting.open_s, backwards=False)
    back = least_cost(base, task, full, wetting.open_s, backwards=True)
    own = own_cost(adjustments, wetting.flash_s, count, nozzle_mm)
    return Offer(
        adjustments,
        full,
        wetting,
        count * ahead,
        count * back,
        own,
    )


def least_cost(
    base: CoatBase, task: CoatTask, full: Sequence[GunPass], open_s: Floats, *, backwards: bool
) -> Floats:
    """Return what the best sections of one coat in one direction cost with every option."""
    lattice = lattice_of(base.field, base.places, settings_of(task.part, full[0]), backwards=backwards)
    settings = tuple(dict.fromkeys(full))
    times = times_of(lattice, task.part, settings, base.crew)
    opening = Opening(open_s, np.array([settings.index(one) for one in full], np.int64))
    board = board_of(lattice, times, opening, base.crew, rules_of(base, lattice.reach, task))
    return best_cuts(board)[0]


def task_of(part: Part, full: GunPass, wetting: Wetting, index: int) -> CoatTask:
    """Return the first coat of a layer as a task, front to rear, free of rules."""
    return CoatTask(
        part,
        full,
        float(wetting.open_s[index]),
        float(wetting.coat_open_s[index]),
        (),
        backwards=False,
        start="",
        walk=False,
    )


@dataclass(frozen=True, slots=True)
class LayerTask:
    """One layer to be planned."""

    job: Job
    paint: Paint
    field: Field
    places: tuple[Place, ...]
    crew: Crew
    coats: tuple[CoatPlan, ...]
    panel_c: float
    base_um: float
    before: tuple[tuple[float, bool], ...]


@dataclass(frozen=True, slots=True)
class CoatResult:
    """One planned coat with its times."""

    number: int
    plan: CoatPlan
    planned: PlannedCoat
    open_s: float
    flash_s: float
    warm_c: float
    wet_next: bool = False


@dataclass(frozen=True, slots=True)
class LayerResult:
    """One planned layer."""

    task: LayerTask
    conditions: Conditions
    offer: Offer
    choice: Choice
    option: Option
    start: Start
    coats: tuple[CoatResult, ...]


def _base(task: LayerTask, conditions: Conditions) -> CoatBase:
    """What every coat of the layer stands on."""
    return CoatBase(task.field, task.places, task.crew, task.paint.density_g_ml, conditions.open_ln_sd)


def plan_layer(task: LayerTask) -> LayerResult:
    """Return a layer of waterborne paint with its best adjustment."""
    job, paint = task.job, task.paint
    options = options_of(job, paint)
    full = full_passes(job, options)
    conditions = conditions_of(job, paint, task.panel_c)
    first = task.coats[0]
    every = _wettings(task, conditions, options)
    wetting = every[0]
    base = _base(task, conditions)
    start = resolve_start(job, task.places)
    asked = replace(task_of(first.part, full[0], wetting, 0), before=task.before, start=start.feature)
    offer = offer_of(base, asked, (options, full), wetting, (len(task.coats), job.gun.nozzle_mm))
    offer = start.keep(offer)
    choice = choose(offer, job.gun.nozzle_mm)
    start = start.settle(offer, choice.index, job.painter.habit)
    option = options[choice.index]
    times = tuple(one.only(choice.index) for one in every)
    coats = _coats(task, conditions, (option, full[choice.index]), start, times)
    return LayerResult(task, conditions, offer, choice, option, start, coats)


def _coats(
    task: LayerTask,
    conditions: Conditions,
    way: tuple[Option, GunPass],
    start: Start,
    times: tuple[Wetting, ...],
) -> tuple[CoatResult, ...]:
    """Coat after coat with the chosen adjustment and its times."""
    base, full = _base(task, conditions), way[1]
    before = task.before
    found: list[CoatResult] = []
    for index, (plan, expected) in enumerate(zip(task.coats, times, strict=True)):
        wetting, opening = expected, float(expected.open_s[0])
        if found and found[-1].wet_next:
            # On a film that is still wet an edge cannot close before that film does.
            below = found[-1]
            left_s = still_wet_s(times[index - 1], below.planned.made.total_s, below.flash_s)
            opening = max(opening, left_s)
        elif found and goes_on_wet(task.paint, task.coats, index, full):
            wetting = on_matt(task.paint, conditions, task.base_um, task.coats[: index + 1], way)
            opening = float(wetting.open_s[0])
        asked = CoatTask(
            plan.part,
            full,
            opening,
            float(wetting.coat_open_s[0]),
            before,
            backwards=start.backwards,
            start=start.feature,
            walk=False,
        )
        planned = plan_coat(base, asked)
        if task.job.job.can_walk:
            walked = plan_coat(base, replace(asked, walk=True))
            planned = walked if walks_better(planned, walked, conditions.open_ln_sd, task.crew) else planned
        found.append(_result(task, index, planned, wetting))
        before = planned.joins()
    return tuple(found)


def _wettings(task: LayerTask, conditions: Conditions, options: Sequence[Option]) -> tuple[Wetting, ...]:
    """Times of every coat of the layer with every option that may be chosen."""
    known = all_options(task.job, task.paint)
    full = full_passes(task.job, known)
    times = layer_wetting(
        task.paint, conditions, task.base_um, task.coats, tuple(zip(known, full, strict=True))
    )
    chosen = [known.index(option) for option in options]
    return tuple(one.of(chosen) for one in times)


def _result(task: LayerTask, index: int, planned: PlannedCoat, wetting: Wetting) -> CoatResult:
    """One coat with its times; wet on wet it only waits for the gloss to go."""
    wet = goes_on_wet(task.paint, task.coats, index + 1, planned.task.full)
    short = wait_s(wetting, planned.made.total_s) if wet else None
    flash = float(wetting.flash_s[0])
    return CoatResult(
        index + 1,
        task.coats[index],
        planned,
        planned.task.open_s,
        flash if short is None else min(flash, short),
        float(wetting.warm_c[0]),
        short is not None,
    )


def plan_clear(task: LayerTask, full: GunPass, times: tuple[float, float], open_ln_sd: float) -> LayerResult:
    """Return the clear coat, whose adjustment is the sheet's."""
    open_s, flash_s = times
    option = Option("standard", 0.0, task.paint.product.hardener.use != "none", task.job.gun.nozzle_mm)
    conditions = replace(conditions_of(task.job, task.paint, task.panel_c), open_ln_sd=open_ln_sd)
    one = np.array([open_s])
    wetting = Wetting(one, one * 2.0, np.array([flash_s]), one * 2.0, np.array([task.panel_c]))
    base = _base(task, conditions)
    start = resolve_start(task.job, task.places)
    asked = replace(task_of("full", full, wetting, 0), before=task.before, start=start.feature)
    offer = offer_of(base, asked, ((option,), (full,)), wetting, (len(task.coats), task.job.gun.nozzle_mm))
    offer = start.keep(offer)
    choice = choose(offer, task.job.gun.nozzle_mm)
    start = start.settle(offer, 0, task.job.painter.habit)
    coats: list[CoatResult] = []
    before = task.before
    for number, plan in enumerate(task.coats, start=1):
        planned = plan_coat(base, replace(asked, before=before, backwards=start.backwards))
        coats.append(CoatResult(number, plan, planned, open_s, flash_s, task.panel_c))
        before = planned.joins()
    return LayerResult(task, conditions, offer, choice, option, start, tuple(coats))


def joins_of(result: LayerResult | None) -> tuple[tuple[float, bool], ...]:
    """Return the joins of the last coat of a layer; none without a layer."""
    return result.coats[-1].planned.joins() if result is not None else ()
