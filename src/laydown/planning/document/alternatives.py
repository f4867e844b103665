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
from laydown.schema.plan import Alternative
from laydown.schema.product import Kind

COOLER_K = 5.0
"""How much cooler the cooler hour is [K]; a choice."""

COOLEST_C = 15.0
"""Air below which no cooler hour is offered [°C]; a choice."""

ADJUSTED: tuple[Kind, ...] = ("ground", "effect")
"""Layers whose adjustment laydown chooses; definition."""


@dataclass(frozen=True, slots=True)
class _Change:
    """One change: its name, the job with it, and what it takes."""

    name: str
    job: Job
    needs: str = ""


@dataclass(frozen=True, slots=True)
class _Worth:
    """What a plan is worth: tightest join, minutes to the end of the day, cost where prices are known."""

    tightest: Tightest
    minutes: float
    cost: float | None


def cooler(job: Job) -> Job:
    """Return the job in air some kelvin cooler: its water stays, so its relative humidity rises.

    Parameters
    ----------
    job
        The job.

    Returns
    -------
    The job with the air of a cooler hour and panels that follow it.

    Sources
    -------
    Conservation of water vapour; definition.
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
    asked: list[tuple[str, Changes, Callable[[Option], bool]]] = [
        ("standard reducer", Changes(reducer="standard"), lambda option: option.reducer == "standard"),
        ("slow reducer", Changes(reducer="slow"), lambda option: option.reducer == "slow"),
        ("no extra water", Changes(water=0.0), _has_water(0.0)),
        ("5 % water", Changes(water=0.05), _has_water(0.05)),
        ("10 % water", Changes(water=0.10), _has_water(0.10)),
    ]
    nozzles = sorted({job.gun.nozzle_mm, *job.gun.nozzles_owned_mm})
    asked += [(f"nozzle {one:g}", Changes(nozzle_mm=one), _has_nozzle(one)) for one in nozzles]
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
        needs = "a painter who can, a hose that follows, a free aisle"
        found.append(_Change("walk the length", changed(job, Changes(can_walk=True)), needs))
    if setup.crew.painters == 1:
        needs = "a second gun of the same kind and one mixed batch"
        found.append(_Change("two painters", changed(job, Changes(painters=2)), needs))
    filled = any(coat.planned.cut.refills for layer in layers for coat in layer.coats)
    if filled and not job.job.spare_cup:
        needs = "a second cup, filled and at hand"
        found.append(_Change("spare cup", changed(job, Changes(spare_cup=True)), needs))
    if job.air.temperature_c.value > COOLEST_C:
        found.append(_Change(f"an hour {COOLER_K:.0f} K cooler", cooler(job)))
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


def _signed(value: float) -> str:
    """A difference with its sign; nothing where it rounds to nothing."""
    whole = round(value)
    return f"{whole:+d}" if whole else "0"


def _noun(change: _Change, worth: _Worth, before: _Worth, *, possible: bool) -> Alternative:
    """One change as a noun."""
    tightest, here = worth.tightest, before.tightest
    needs = [f"needs {change.needs}"] if change.needs else []
    if not possible:
        text = "; ".join(["no possible sections", *needs])
        return Alternative(change.name, "stop", None, None, 0.0, None, text)
    words = []
    if math.isfinite(tightest.spare_s) and math.isfinite(here.spare_s):
        words.append(f"tightest join {_signed(tightest.spare_s - here.spare_s)} s")
    if tightest.joins != here.joins:
        words.append(f"{tightest.joins} instead of {here.joins} joins")
    minutes = worth.minutes - before.minutes
    words.append(f"{_signed(minutes)} min")
    cost = worth.cost - before.cost if worth.cost is not None and before.cost is not None else None
    if cost is not None:
        words.append(f"cost {_signed(cost)} {change.job.prices.currency}".rstrip())
    state = state_of(tightest.chance)
    return Alternative(
        change.name,
        "stop" if state == "late" else "care" if state == "hurry" else "go",
        tightest.spare_s if math.isfinite(tightest.spare_s) else None,
        tightest.chance,
        minutes,
        cost,
        "; ".join([*words, *needs]),
    )


def alternatives_of(setup: Setup, process: Process, bake: BakeTimes) -> tuple[Alternative, ...]:
    """Return what each change would lead to, safest first.

    Parameters
    ----------
    setup, process
        The job and its plan.
    bake
        Its bake.

    Returns
    -------
    Alternatives, each planned like the job itself and judged by the tightest join of ground and effect coat; minutes
    to the end of the day against the plan's. So what is told here is what a plan of the changed job says.

    Sources
    -------
    ``layered_of``.
    """
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
    return tuple(sorted(found, key=lambda one: (-(one.wet_chance or 0.0), one.minutes, one.change)))
