"""How long an edge stays open and when a coat is matt, for many adjustments at once."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from laydown.physics.air import psat_pa
from laydown.physics.film import Surroundings, arrive, dry, dry_in_two, stack
from laydown.physics.film_course import matt_time_s, open_time_s, panel_c_at
from laydown.physics.fit import (
    FLASH_LN_SD_BEFORE,
    OPEN_LN_SD_BEFORE,
    TRANSFER_LN_SD_FROM_SHEET,
    transfer_factor_from_matt,
)
from laydown.physics.inflight import water_loss_share
from laydown.planning.options import Option, water_on_mix
from laydown.planning.paint import Paint
from laydown.planning.passes import Setting, settings_of
from laydown.schema.job import Job
from laydown.schema.plan import Part
from laydown.trade.paint_class import back_w_m2_k, panel_capacity_j_m2_k, ready_mix

Floats = NDArray[np.float64]

EDGE_SHARE = 0.5
"""Film of a feathered edge over that of the closed pass; common practice, no source: the thinner side decides."""

BLOWERS_ON_S = 60.0
"""When the blowers go on after the last stroke [s]; common practice, no source: first let it lie a minute."""

THICK_SHARE = 1.15
"""Film of the thick places, which are matt last, over the mean; assumption."""

OPEN_LN_SD_WITH_SHEET = 0.37
"""Standard deviation of ln(open time) once the sheet's flash time has set the transfer; judged, not measured."""


@dataclass(frozen=True, slots=True)
class Conditions:
    """What a layer dries in.

    Attributes
    ----------
    still, blown
        Air without and with blowers; the same where there are none.
    loss_share
        Share of the water lost in flight.
    open_ln_sd, flash_ln_sd
        Standard deviations of the logarithms of open time and flash time.
    """

    still: Surroundings
    blown: Surroundings
    loss_share: float
    open_ln_sd: float
    flash_ln_sd: float


@dataclass(frozen=True, slots=True)
class Wetting:
    """Open and flash times of options, each of shape (n,).

    Attributes
    ----------
    open_s
        Open time of the feathered edge [s].
    coat_open_s
        Open time of the whole coat [s].
    flash_s
        Time to matt everywhere [s]; infinite if it never comes.
    warm_c
        Panel temperature when matt [°C].
    """

    open_s: Floats
    coat_open_s: Floats
    flash_s: Floats
    warm_c: Floats


def conditions_of(job: Job, paint: Paint, panel_c: float) -> Conditions:
    """Return the air, the panel and the standing of the film model for a layer.

    Parameters
    ----------
    job
        Air, surface and gun.
    paint
        The product; its sheet's flash time sets the transfer where it has one.
    panel_c
        Panel temperature at the start [°C].

    Returns
    -------
    Conditions with a bare panel below.

    Sources
    -------
    See ``laydown.physics.film`` and ``laydown.physics.fit``.
    """
    air, surface = job.air, job.surface
    capacity = panel_capacity_j_m2_k(surface.material, surface.thickness_mm)
    back = back_w_m2_k(surface.material)
    temperature, rh = air.temperature_c.value, min(air.rh.value, 0.97)
    still = Surroundings(
        temperature, rh, air.speed_m_s.value, panel_c, capacity, back, pressure_pa=air.pressure_pa.value
    )
    blown = still
    if air.blower_speed_m_s.value > 0.0:
        warm = air.blower_temperature_c.value if air.blower_temperature_c is not None else temperature
        warm = min(max(warm, 5.0), 45.0)
        drier = min(0.97, rh * float(psat_pa(temperature)) / float(psat_pa(warm)))
        blown = replace(
            still, temperature_c=warm, rh=drier, air_speed_m_s=max(air.blower_speed_m_s.value, 0.05)
        )
    loss = float(water_loss_share(job.gun.distance_m.value, temperature, rh))
    factor, known = _sheet_factor(paint, still)
    return Conditions(
        replace(still, transfer_factor=factor),
        replace(blown, transfer_factor=factor),
        loss,
        OPEN_LN_SD_WITH_SHEET if known else OPEN_LN_SD_BEFORE,
        TRANSFER_LN_SD_FROM_SHEET if known else FLASH_LN_SD_BEFORE,
    )


def _sheet_factor(paint: Paint, still: Surroundings) -> tuple[float, bool]:
    """Transfer factor from the sheet's flash time, and whether there is one that the model can explain."""
    flash = paint.product.flash
    if flash is None or paint.product.kind == "clear":
        return 1.0, False
    speed = 2.0 if flash.air == "blowers" else 0.3
    sheet_air = replace(
        still,
        temperature_c=flash.temperature_c,
        rh=flash.rh,
        air_speed_m_s=speed,
        panel_start_c=flash.temperature_c,
    )
    wet = ready_mix("standard", 0.0, activated=paint.product.hardener.use == "required")
    try:
        return transfer_factor_from_matt(flash.min_s, flash.max_s, paint.sheet_g_m2(), wet, sheet_air), True
    except ValueError:
        return 1.0, False


def wetting_of(
    options: Sequence[Option],
    part: Part,
    closed: Sequence[Setting],
    paint: Paint,
    air: tuple[Conditions, float],
) -> Wetting:
    """Return open and flash times of many options.

    Parameters
    ----------
    options
        n adjustments.
    part
        What the coat consists of.
    closed
        Closed pass of each option.
    paint
        The product.
    air
        Conditions, and the dry layer below that absorbs [µm].

    Returns
    -------
    Times of shape (n,).

    Sources
    -------
    ``laydown.physics.film``.
    """
    conditions, base_um = air
    mixes = [ready_mix(o.reducer, water_on_mix(paint, o.water), activated=o.hardener) for o in options]
    wets = arrive(stack(mixes), conditions.loss_share)
    both = arrive(stack(mixes + mixes), conditions.loss_share)
    edge = np.array([settings_of(part, setting)[0].film_g_m2() for setting in closed]) * EDGE_SHARE
    whole = np.array([sum(one.film_g_m2() for one in settings_of(part, setting)) for setting in closed])
    count = len(options)
    still = replace(conditions.still, base_um=base_um)
    blown = replace(conditions.blown, base_um=base_um)
    opens = open_time_s(dry(np.minimum(np.concatenate([edge, whole]), 200.0), both, still))
    heavy = np.minimum(whole * THICK_SHARE, 200.0)
    course = (
        dry(heavy, wets, still)
        if conditions.blown == conditions.still
        else dry_in_two(heavy, wets, still, blown, BLOWERS_ON_S)
    )
    flash = matt_time_s(course)
    longest = float(course.times_s[-1].min())
    warm = panel_c_at(course, np.minimum(np.where(np.isfinite(flash), flash, longest), course.times_s[-1]))
    return Wetting(opens[:count], opens[count:], flash, warm)
