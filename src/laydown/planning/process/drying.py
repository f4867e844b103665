"""Blowing before the clear until water and co-solvent are out."""

import math
from dataclasses import dataclass, replace

import numpy as np

from laydown.physics.air import dew_point_c, vapour_pa
from laydown.physics.film.clear import clear_flash_s
from laydown.physics.film.course import residual_share
from laydown.physics.film.steps import spread_times_s
from laydown.physics.film.wet_film import Course, Surroundings, Wet, arrive, dry_in_two
from laydown.physics.heat import cool_time_s
from laydown.physics.values import Floats
from laydown.planning.layers.adjustments import water_on_mix
from laydown.planning.layers.layer import LayerResult
from laydown.planning.layers.open_time import BLOWERS_ON_S, THICK_SHARE, Conditions
from laydown.planning.setup.setup import Setup
from laydown.schema.job import Job
from laydown.schema.message import Saying, message
from laydown.trade.mixing.paint_classes import ready_mix
from laydown.trade.times.gate import CoatGate, DryAndCool, GateAir, dry_and_cool, next_coat_gate
from laydown.trade.times.warming import HeatedPart, Heating, warming

COOL_TO_ABOVE_AIR_K = 3.0
"""How warm the panel may still be, above the air, when the effect coat goes on [K]; assumption: warmer than this
shortens the wet edge noticeably."""

CLEAR_OPEN_SHARE = 0.5
"""Open time of a clear edge over the sheet's flash between coats; assumption."""

CLEAR_FLASH_S = 420.0
"""Flash between clear coats where the sheet names none [s]; common practice, no source (5 to 10 min)."""


@dataclass(frozen=True, slots=True)
class Cooling:
    """The way from the dry ground coat to the effect coat."""

    dry_s: float
    cool_s: float | None
    surface_c: float
    gate: CoatGate
    text: Saying


def panel_start_c(job: Job) -> float:
    """Return the panel temperature before the ground coat [°C]: as measured, else that of the air."""
    given = job.surface.temperature_c
    return min(70.0, max(0.0, given.value if given is not None else job.air.temperature_c.value))


def gate_air(job: Job, surface_max_c: float | None) -> GateAir:
    """Return the booth air as the gate before the next coat sees it."""
    air_c = job.air.temperature_c.value
    rh = max(job.air.rh.value, 0.01)
    return GateAir(air_c, float(dew_point_c(float(vapour_pa(air_c, rh)))), surface_max_c)


def cooling_of(setup: Setup, ground: LayerResult) -> Cooling:
    """Return how the panel gets from the last ground coat to the effect coat."""
    job = setup.job
    air = gate_air(job, setup.paints["effect"].product.surface_max_c)
    measured = job.surface.effect_temperature_c
    if measured is not None:
        return Cooling(
            0.0, 0.0, measured.value, next_coat_gate(measured.value, air), message("panel-as-measured")
        )
    part = HeatedPart("skin", job.surface.material, job.surface.thickness_mm)
    bake = setup.paints["ground"].product.bake
    start_c = ground.coats[-1].warm_c
    dried: DryAndCool | None = None
    if bake is not None:
        heating = Heating(start_c, bake.metal_c + 5.0)
        dried = dry_and_cool(bake.time_s, bake.metal_c, (part,), heating, air)
        start_c = bake.metal_c
    tau = warming(part, Heating(start_c, air.air_c, booth_s=0.0)).panel_s
    goal = min(air.air_c + COOL_TO_ABOVE_AIR_K, next_coat_gate(start_c, air).high_c)
    cool = cool_time_s(start_c, goal, air.air_c, tau) if start_c > goal else 0.0
    if not math.isfinite(cool):
        return Cooling(
            dried.dry_s or 0.0 if dried else 0.0,
            None,
            start_c,
            next_coat_gate(start_c, air),
            message("panel-never-cools"),
        )
    surface = min(start_c, goal) if start_c > goal else start_c
    text = message("panel-cooled", start_c=start_c, surface_c=surface, air_c=air.air_c)
    dry_s = (dried.dry_s or 0.0) if dried is not None else 0.0
    return Cooling(dry_s, cool, surface, next_coat_gate(surface, air), text)


def clear_times(setup: Setup, panel_c: float) -> tuple[float, float]:
    """Return open time of a clear edge and flash between clear coats, moved to this air [s].

    Source: ``clear_flash_s``; share and default: assumptions.
    """
    flash = setup.paints["clear"].product.flash
    if flash is None:
        return CLEAR_FLASH_S * CLEAR_OPEN_SHARE, CLEAR_FLASH_S
    sheet_air = 2.0 if flash.air == "blowers" else 0.3
    middle = math.sqrt(flash.min_s * flash.max_s)
    here = float(
        clear_flash_s(
            middle,
            flash.temperature_c,
            sheet_air,
            min(45.0, max(5.0, panel_c)),
            setup.job.air.speed_m_s.value,
        )
    )
    return here * CLEAR_OPEN_SHARE, here


RESIDUAL_SHARE = 0.20
"""Volatile matter over solids below which clear may go on; assumption, set so that ordinary coats in air of 35 to
40 °C need the 8 to 15 min that are common practice."""

DEHYDRATE_C = 38.0
"""Air for the last dehydration where the job names no temperature of blowers that run [°C]; common practice: 35 to 40 °C."""

LONGEST_S = 7200.0
"""Longest dehydration that is looked at [s]; a choice."""

USUAL_S = 1500.0
"""Dehydration is looked for so long first [s], because most films are dry by then; a choice."""

FIRST_STEP_S = 2.0
"""First time step while a film dries out [s]; a choice, see ``STEP_GROWTH``."""

STEP_GROWTH = 0.25
"""Growth of that step; within 3 % of steps ten times as fine (``tests/unit/planning/process/test_drying.py``)."""

LONGEST_STEP_S = 150.0
"""Longest such step [s]; a choice."""


def dehydration_s(setup: Setup, effect: LayerResult, conditions: Conditions) -> float:
    """Return how long to blow before the clear until water and co-solvent are out.

    Source: ``residual_share``; the 20 % are an assumption set to common practice.
    """
    option = effect.option
    blown = _dehydrating(setup.job, conditions)
    mix = ready_mix(
        option.reducer, water_on_mix(setup.paints["effect"], option.water), activated=option.hardener
    )
    arrived = arrive(mix, conditions.loss_share)
    mass = _standing_g_m2(effect, conditions, arrived)
    # Blowers go on after a minute; without them the booth is warmed once the coat is matt.
    blowing = setup.job.air.blower_speed_m_s.value > 0.0
    switch_s = BLOWERS_ON_S if blowing else min(effect.coats[-1].flash_s, LONGEST_S / 2.0)
    for longest_s in (USUAL_S, LONGEST_S):
        course = dry_in_two(
            mass, arrived, conditions.still, blown, min(switch_s, longest_s), _steps_s(longest_s)
        )
        dry_s = _dry_s(course)
        if math.isfinite(dry_s):
            return dry_s
    return math.inf


def _steps_s(end_s: float) -> Floats:
    """Time steps while a film dries out [s]."""
    return spread_times_s(end_s, FIRST_STEP_S, STEP_GROWTH, LONGEST_STEP_S)


def _dry_s(course: Course) -> float:
    """When little enough volatile matter is left of one film [s]; infinite if it never is."""
    times = course.times_s[1:, 0]
    left = (course.water_g_m2[1:, 0] + course.cosolvent_g_m2[1:, 0]) / course.solids_g_m2[0]
    done = np.flatnonzero(left <= RESIDUAL_SHARE)
    if not done.size:
        return math.inf
    after = int(done[0])
    if after == 0:
        return float(times[0])
    share = (left[after - 1] - RESIDUAL_SHARE) / (left[after - 1] - left[after])
    # The waiting of the flash is drying too, so the whole course counts.
    return float(times[after - 1] + share * (times[after] - times[after - 1]))


def _dehydrating(job: Job, conditions: Conditions) -> Surroundings:
    """The air before the clear: the blowers where there are any, else the booth's own stream, warmed."""
    air = job.air
    blowing = air.blower_speed_m_s.value > 0.0
    named = air.blower_temperature_c if blowing else None
    warm_c = min(45.0, max(named.value if named is not None else DEHYDRATE_C, air.temperature_c.value))
    drier = float(vapour_pa(air.temperature_c.value, air.rh.value)) / float(vapour_pa(warm_c, 1.0))
    return replace(
        conditions.still,
        temperature_c=warm_c,
        rh=min(0.97, drier),
        air_speed_m_s=max(air.blower_speed_m_s.value, air.speed_m_s.value),
    )


def _standing_g_m2(effect: LayerResult, conditions: Conditions, arrived: Wet) -> float:
    """Fresh film that holds as much volatile matter as all coats do when the last is on, in the thick places."""
    standing = 0.0
    volatile = 1.0 - float(np.asarray(arrived.solids_share))
    for number, coat in enumerate(effect.coats):
        mass = min(200.0, standing + THICK_SHARE * coat.planned.work.film_g_m2())
        if number + 1 == len(effect.coats):
            return mass
        # What is sprayed first waits for the rest of its coat, a minute, and the flash; then it is coated again.
        still_s = min(LONGEST_S, coat.planned.made.total_s + BLOWERS_ON_S)
        wait = min(LONGEST_S, coat.planned.made.total_s + coat.flash_s)
        course = dry_in_two(
            mass,
            arrived,
            conditions.still,
            conditions.blown,
            min(still_s, wait),
            _steps_s(wait),
        )
        left = float(residual_share(course, wait)[0]) * mass * (1.0 - volatile)
        standing = left / volatile
    return standing
