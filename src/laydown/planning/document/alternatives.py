"""What changes with one change: reducer, water, nozzle, walking, a second painter, a spare cup, a cooler hour."""

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from laydown.physics.air import psat_pa
from laydown.planning.document.joins import state_of
from laydown.planning.document.mixes import cost_of, mixes_of
from laydown.planning.document.timeline import timeline_of
from laydown.planning.layers.adjustments import Option, options_of
from laydown.planning.layers.layer import LayerResult
from laydown.planning.layers.tightest_join import Tightest, tightest_of
from laydown.planning.process.bake import BakeTimes, bake_of
from laydown.planning.process.process import Layered, Process, counted_of, layered_of
from laydown.planning.setup.request import Changes, changed
from laydown.planning.setup.setup import Setup, with_job
from laydown.schema.choices import Choices
from laydown.schema.job import Job
from laydown.schema.limits import Prices
from laydown.schema.message import Message, Name, Said, message
from laydown.schema.plan import Alternative
from laydown.schema.product import LayerName

COOLER_K = 5.0
"""How much cooler the cooler hour is [K]; a choice."""

COOLEST_C = 15.0
"""Air below which no cooler hour is offered [°C]; a choice."""

ADJUSTED: tuple[LayerName, ...] = ("ground", "effect")
"""Layers whose adjustment laydown chooses; definition."""


@dataclass(frozen=True, slots=True)
class _Change:
    """One change: its name, the job with it, and what it takes."""

    name: Message
    job: Job
    needs: Message | None = None


@dataclass(frozen=True, slots=True)
class _Worth:
    """What a plan is worth: tightest join, minutes to the end of the day, cost where prices are known."""

    tightest: Tightest
    minutes: float
    cost: float | None


def cooler(job: Job) -> Job:
    """Return the job in air some kelvin cooler: its water stays, so its relative humidity rises.

    Source: Conservation of water vapour; definition.
    """
    air = job.air
    warm = air.temperature_c.value
    cool = max(10.0, warm - COOLER_K)
    rh = min(0.95, air.rh.value * float(psat_pa(warm)) / float(psat_pa(cool)))
    changed = replace(
        air,
        temperature_c=replace(air.temperature_c, value=cool, low=None, high=None, source="a cooler hour"),
        rh=replace(air.rh, value=rh, low=None, high=None, source="the same water in cooler air"),
    )
    return replace(
        job, air=changed, surface=replace(job.surface, temperature_c=None, effect_temperature_c=None)
    )


def _has_nozzle(nozzle_mm: float) -> Callable[[Option], bool]:
    """Tell whether an option uses a nozzle."""
    return lambda option: abs(option.nozzle_mm - nozzle_mm) < 1e-9


def _has_water(share: float) -> Callable[[Option], bool]:
    """Tell whether an option has a share of water."""
    return lambda option: abs(option.water - share) < 1e-9


def _adjusted(setup: Setup, layers: list[LayerResult]) -> list[_Change]:
    """Changes of the adjustment that every sheet allows and the plan does not have already."""
    job = setup.job
    free = replace(job, choices=Choices(hardener=job.choices.hardener))
    allowed = [options_of(free, layer.task.paint) for layer in layers]
    asked: list[tuple[Message, Changes, Callable[[Option], bool]]] = [
        (
            message("change.standard-reducer"),
            Changes(reducer="standard"),
            lambda option: option.reducer == "standard",
        ),
        (message("change.slow-reducer"), Changes(reducer="slow"), lambda option: option.reducer == "slow"),
        (message("change.no-water"), Changes(water=0.0), _has_water(0.0)),
        *(
            (message("change.add-water", water=one), Changes(water=one), _has_water(one))
            for one in (0.05, 0.10)
        ),
    ]
    nozzles = sorted({job.gun.nozzle_mm, *job.gun.nozzles_owned_mm})
    asked += [
        (message("change.nozzle", nozzle_mm=one), Changes(nozzle_mm=one), _has_nozzle(one)) for one in nozzles
    ]
    return [
        _Change(name, changed(job, changes))
        for name, changes, has in asked
        if all(any(has(option) for option in options) for options in allowed)
        and not all(has(layer.option) for layer in layers)
    ]


def _others(setup: Setup, layers: list[LayerResult]) -> list[_Change]:
    """Changes of crew, way and hour."""
    job = setup.job
    found = []
    if not job.job.can_walk:
        walked = changed(job, Changes(can_walk=True))
        found.append(_Change(message("change.walk-length"), walked, message("needs.walk-length")))
    if setup.crew.painters == 1:
        shared = changed(job, Changes(painters=2))
        found.append(_Change(message("change.two-painters"), shared, message("needs.two-painters")))
    filled = any(coat.planned.cut.refills for layer in layers for coat in layer.coats)
    if filled and not job.job.spare_cup:
        spared = changed(job, Changes(spare_cup=True))
        found.append(_Change(message("change.spare-cup"), spared, message("needs.spare-cup")))
    if job.air.temperature_c.value > COOLEST_C:
        found.append(_Change(message("change.cooler-hour", cooler_k=COOLER_K), cooler(job)))
    return found


def _worth(setup: Setup, layered: Layered, bake: BakeTimes) -> _Worth:
    """What a plan is worth."""
    steps = timeline_of(layered, bake)
    minutes = max(step.end_s for step in steps) / 60.0
    cost = (
        cost_of(setup, mixes_of(setup, layered.layers)[0], steps).total if _priced(setup.job.prices) else None
    )
    return _Worth(tightest_of(layered.layers, setup.crew), minutes, cost)


def _priced(prices: Prices) -> bool:
    """Whether the user gave any price."""
    return prices != Prices(currency=prices.currency)


def _cost_moved(cost: float, currency: str) -> Message:
    """What a change costs more or less, in the currency where the user named it."""
    moved = round(cost)
    if not currency:
        return message("moved.cost-bare", cost=moved) if moved else message("same.cost-bare")
    named = Name(currency)
    return (
        message("moved.cost", cost=moved, currency=named) if moved else message("same.cost", currency=named)
    )


def _noun(change: _Change, worth: _Worth, before: _Worth, *, possible: bool) -> Alternative:
    """One change as a noun."""
    tightest, here = worth.tightest, before.tightest
    needs = () if change.needs is None else (change.needs,)
    if not possible:
        text = message("one-after-another", parts=(message("no-possible-sections"), *needs))
        return Alternative(change.name, "stop", None, None, 0.0, None, text)
    said = []
    if math.isfinite(tightest.margin_s) and math.isfinite(here.margin_s):
        moved = round(tightest.margin_s - here.margin_s)
        said.append(message("moved.tightest", moved_s=moved) if moved else message("same.tightest"))
    if tightest.joins != here.joins:
        said.append(message("moved.joins", joins=tightest.joins, before=here.joins))
    minutes = worth.minutes - before.minutes
    whole = round(minutes)
    said.append(message("moved.minutes", minutes=whole) if whole else message("same.minutes"))
    cost = worth.cost - before.cost if worth.cost is not None and before.cost is not None else None
    if cost is not None:
        said.append(_cost_moved(cost, change.job.prices.currency))
    state = state_of(tightest.chance)
    return Alternative(
        change.name,
        "stop" if state == "dry" else "caution" if state == "tight" else "go",
        tightest.margin_s if math.isfinite(tightest.margin_s) else None,
        tightest.chance,
        minutes,
        cost,
        message("one-after-another", parts=(*said, *needs)),
    )


def alternatives_of(setup: Setup, process: Process, bake: BakeTimes) -> tuple[Alternative, ...]:
    """Return what each change would lead to, safest first."""
    layers = [process.layers[name] for name in ADJUSTED if name in process.layers]
    if not layers:
        return ()
    before = _worth(setup, process, bake)
    found = []
    for change in (*_adjusted(setup, layers), *_others(setup, layers)):
        other = with_job(setup, change.job)
        layered = layered_of(other, counted_of(other))
        baked = bake if change.job.air == setup.job.air else bake_of(other)[1]
        found.append(_noun(change, _worth(other, layered, baked), before, possible=layered.is_possible()))
    return tuple(sorted(found, key=_rank))


def _rank(one: Alternative) -> tuple[float, float, str, tuple[tuple[str, Said], ...]]:
    """Safest first, then quickest, then in a fixed order."""
    return -(one.wet_chance or 0.0), one.minutes, one.change.code, one.change.figures
