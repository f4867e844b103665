"""Blowing before the clear until water and co-solvent are out."""

import math
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from laydown.physics.air import vapour_pa
from laydown.physics.film import Course, Surroundings, Wet, arrive, dry_in_two
from laydown.physics.film_course import residual_share
from laydown.physics.film_steps import spread_times_s
from laydown.planning.layers import LayerResult
from laydown.planning.options import water_on_mix
from laydown.planning.setup import Setup
from laydown.planning.wetting import BLOWERS_ON_S, THICK_SHARE, Conditions
from laydown.schema.job import Job
from laydown.trade.paint_class import ready_mix

Floats = NDArray[np.float64]

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
"""Growth of that step; within 3 % of steps ten times as fine (``tests/unit/planning/test_between.py``)."""

LONGEST_STEP_S = 150.0
"""Longest such step [s]; a choice."""


def dehydration_s(setup: Setup, effect: LayerResult, conditions: Conditions) -> float:
    """Return how long to blow before the clear until water and co-solvent are out.

    Parameters
    ----------
    setup
        Job and products.
    effect
        The effect coat.
    conditions
        Its air.

    Returns
    -------
    Time [s] until less than 20 % of volatile matter over solids is left in the thick places; infinite after two
    hours.

    Sources
    -------
    ``residual_share``; the 20 % are an assumption set to common practice.
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
