"""Adjustments to choose from: reducer, water, hardener, nozzle."""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, replace

from laydown.planning.setup.paint import WATER_DENSITY_G_ML, Paint
from laydown.planning.setup.spraying import GunPass, full_pass
from laydown.schema.choices import Reducer
from laydown.schema.job import Job
from laydown.trade.mixing.paint_classes import MOST_WATER_SHARE

WATER_STEPS = (0.0, 0.05, 0.10)
"""Shares of demineralised water that are tried; common practice, no source."""


@dataclass(frozen=True, slots=True)
class Option:
    """One adjustment: reducer, water as share of the base, hardener, nozzle [mm]."""

    reducer: Reducer
    water: float
    hardener: bool
    nozzle_mm: float


def waters_of(paint: Paint) -> tuple[float, ...]:
    """Return the shares of water that the sheet allows among those tried."""
    most = min(paint.product.water_max or 0.0, WATER_STEPS[-1])
    steps = [step for step in WATER_STEPS if step <= most + 1e-9]
    if most - steps[-1] > 0.02:
        steps.append(most)
    return tuple(steps)


def options_of(job: Job, paint: Paint) -> tuple[Option, ...]:
    """Return the adjustments the search may choose from."""
    fixed = job.choices
    rule = paint.product.hardener.use
    hardeners = {"required": (True,), "optional": (False, True), "none": (False,)}[rule]
    reducers = (fixed.reducer,) if fixed.reducer else paint.product.reducers
    waters = (fixed.water,) if fixed.water is not None else waters_of(paint)
    if fixed.hardener is not None and paint.product.kind == "ground" and rule != "required":
        hardeners = (fixed.hardener,)
    owned = sorted({job.gun.nozzle_mm, *job.gun.nozzles_owned_mm})
    nozzles = (fixed.nozzle_mm,) if fixed.nozzle_mm is not None else tuple(owned)
    return tuple(Option(*choice) for choice in itertools.product(reducers, waters, hardeners, nozzles))


def all_options(job: Job, paint: Paint) -> tuple[Option, ...]:
    """Return the adjustments the search may choose from, and those it might had the user fixed nothing."""
    free = replace(job, choices=replace(job.choices, reducer=None, water=None, hardener=None, nozzle_mm=None))
    return tuple(dict.fromkeys((*options_of(free, paint), *options_of(job, paint))))


def water_on_mix(paint: Paint, water: float) -> float:
    """Return the share of water over the mix before it, by mass.

    A percentage of the base by volume is turned into mass with both densities; base taken as the share that the
    recipe's parts give it.
    """
    parts = sum(line.amount for line in paint.product.recipe if line.role != "water" and line.kind == "parts")
    base = sum(line.amount for line in paint.product.recipe if line.role == "base" and line.kind == "parts")
    percent = sum(
        line.amount for line in paint.product.recipe if line.role != "water" and line.kind == "percent"
    )
    share = base / (parts + base * percent / 100.0) if base > 0.0 else 1.0
    by_mass = WATER_DENSITY_G_ML / paint.density_g_ml if paint.product.water_basis != "mass" else 1.0
    return min(MOST_WATER_SHARE, water * share * by_mass)


def full_passes(job: Job, options: Sequence[Option]) -> tuple[GunPass, ...]:
    """Return the full pass of each option; see ``full_pass``."""
    return tuple(full_pass(job.gun, option.nozzle_mm) for option in options)
