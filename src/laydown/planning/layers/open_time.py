"""How long an edge stays open and when a coat is matt, for many adjustments at once."""

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace
from functools import lru_cache

import numpy as np

from laydown.physics.air import psat_pa
from laydown.physics.film.calibration import (
    FLASH_LN_SD_BEFORE,
    OPEN_LN_SD_BEFORE,
    TRANSFER_LN_SD_FROM_SHEET,
    transfer_factor_from_matt,
)
from laydown.physics.film.course import matt_time_s, open_time_s, panel_c_at
from laydown.physics.film.in_flight import water_loss_share
from laydown.physics.film.wet_film import HEAVIEST_G_M2, Surroundings, arrive, dry, dry_in_two, stack
from laydown.physics.values import Floats
from laydown.planning.layers.adjustments import Option, water_on_mix
from laydown.planning.setup.paint import Paint
from laydown.planning.setup.spraying import GunPass, settings_of
from laydown.schema.coat import Part
from laydown.schema.job import Job
from laydown.schema.product import Flash
from laydown.trade.mixing.paint_classes import back_w_m2_k, panel_capacity_j_m2_k, ready_mix

EDGE_SHARE = 0.5
"""Film of a feathered edge over that of the full pass; common practice, no source: the thinner side decides."""

BLOWERS_ON_S = 60.0
"""When the blowers go on after the last stroke [s]; common practice, no source: first let it lie a minute."""

THICK_SHARE = 1.15
"""Film of the thick places, which are matt last, over the mean; assumption."""

LONGEST_S = 7200.0
"""Longest open time or flash that is written down [s]; a film that never gets matt is said in a finding; a choice."""

THICKEST_UM = 500.0
"""Thickest dry, absorbing layer below that the film model knows [µm]; see ``laydown.physics.film.wet_film``."""

OPEN_LN_SD_WITH_SHEET = 0.37
"""Standard deviation of ln(open time) once the sheet's flash time has set the transfer; judged, not measured."""


@dataclass(frozen=True, slots=True)
class Conditions:
    """What a layer dries in."""

    still: Surroundings
    blown: Surroundings
    loss_share: float
    open_ln_sd: float
    flash_ln_sd: float


@dataclass(frozen=True, slots=True, eq=False)
class Wetting:
    """Open and flash times of options, each of shape (n,)."""

    open_s: Floats
    coat_open_s: Floats
    flash_s: Floats
    gloss_s: Floats
    warm_c: Floats

    def of(self, chosen: slice | Sequence[int]) -> "Wetting":
        """Return those of some options; definition."""
        return Wetting(*(getattr(self, one.name)[chosen] for one in fields(self)))

    def only(self, index: int) -> "Wetting":
        """Return one of them; definition."""
        return self.of(slice(index, index + 1))


def conditions_of(job: Job, paint: Paint, panel_c: float) -> Conditions:
    """Return the air, the panel and the standing of the film model for a layer."""
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
    loss = _loss(job.gun.distance_m.value, temperature, rh)
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
    panel = (float(np.asarray(still.panel_capacity_j_m2_k)), float(np.asarray(still.back_w_m2_k)))
    factor = _factor_of(flash, paint.sheet_g_m2(), panel, activated=paint.product.hardener.use == "required")
    return (1.0, False) if factor is None else (factor, True)


@lru_cache(maxsize=64)
def _factor_of(
    flash: Flash, mass_g_m2: float, panel: tuple[float, float], *, activated: bool
) -> float | None:
    """Transfer factor that explains a sheet's flash time; the same sheet is asked for again and again."""
    speed = 2.0 if flash.air == "blowers" else 0.3
    sheet_air = Surroundings(flash.temperature_c, min(flash.rh, 0.97), speed, flash.temperature_c, *panel)
    try:
        return transfer_factor_from_matt(
            flash.min_s, flash.max_s, mass_g_m2, ready_mix("standard", 0.0, activated=activated), sheet_air
        )
    except ValueError:
        return None


@lru_cache(maxsize=64)
def _loss(distance_m: float, temperature_c: float, rh: float) -> float:
    """Water lost in flight; the same air is asked for by every layer."""
    return float(water_loss_share(distance_m, temperature_c, rh))


@dataclass(frozen=True, slots=True)
class Films:
    """Wet film of feathered edge and of the whole coat, each of shape (n,) [g/m²]."""

    edge_g_m2: Floats
    whole_g_m2: Floats


def films_of(parts: Sequence[Part], full: Sequence[GunPass]) -> Films:
    """Return the films of coats.

    Source: ``raster_mean_g_m2``; share of the edge: common practice, no source.
    """
    passes = [settings_of(part, setting) for part, setting in zip(parts, full, strict=True)]
    edge = np.array([one[0].film_g_m2() for one in passes]) * EDGE_SHARE
    whole = np.array([sum(setting.film_g_m2() for setting in one) for one in passes])
    return Films(np.minimum(edge, HEAVIEST_G_M2), np.minimum(whole, HEAVIEST_G_M2))


def wetting_of(
    options: Sequence[Option], films: Films, paint: Paint, conditions: Conditions, base_um: Floats
) -> Wetting:
    """Return open and flash times of many coats.

    Edges and whole coats dry in still air; the thick places that decide the flash get the blowers after a minute. All
    are integrated side by side.
    """
    mixes = [ready_mix(o.reducer, water_on_mix(paint, o.water), activated=o.hardener) for o in options]
    wets = arrive(stack(mixes * 3), conditions.loss_share)
    count = len(options)
    heavy = np.minimum(films.whole_g_m2 * THICK_SHARE, HEAVIEST_G_M2)
    masses = np.concatenate([films.edge_g_m2, films.whole_g_m2, heavy])
    blown = np.arange(3 * count) >= 2 * count
    still = replace(conditions.still, base_um=np.tile(base_um, 3))
    if conditions.blown == conditions.still:
        course = dry(masses, wets, still)
    else:
        second = replace(
            still,
            **{
                name: np.where(blown, getattr(conditions.blown, name), getattr(conditions.still, name))
                for name in ("temperature_c", "rh", "air_speed_m_s")
            },
        )
        course = dry_in_two(masses, wets, still, second, BLOWERS_ON_S)
    opens = open_time_s(course)
    matt = matt_time_s(course)
    last = course.times_s[-1]
    warm = panel_c_at(course, np.minimum(np.where(np.isfinite(matt), matt, last), last))
    heavy_at = slice(2 * count, None)
    return Wetting(opens[:count], opens[count : 2 * count], matt[heavy_at], opens[heavy_at], warm[heavy_at])
