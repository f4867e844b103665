"""What lies between the layers: drying, cooling, the gate, the clear's own times."""

import math
from dataclasses import dataclass

from laydown.physics.air import dew_point_c, vapour_pa
from laydown.physics.clear_film import clear_flash_s
from laydown.physics.heat import cool_time_s
from laydown.planning.layers import LayerResult
from laydown.planning.setup import Setup
from laydown.schema.job import Job
from laydown.trade.gate import CoatGate, DryAndCool, GateAir, dry_and_cool, next_coat_gate
from laydown.trade.warming import Heating, Part, warming

COOL_TO_ABOVE_AIR_K = 3.0
"""How warm the panel may still be, above the air, when the effect coat goes on [K]; assumption: warmer than this
shortens the wet edge noticeably."""

CLEAR_OPEN_SHARE = 0.5
"""Open time of a clear edge over the sheet's flash between coats; assumption."""

CLEAR_OPEN_LN_SD_TEXT = "half the sheet's flash between coats"
"""The assumption about the clear's open time in words."""

CLEAR_FLASH_S = 420.0
"""Flash between clear coats where the sheet names none [s]; common practice, no source (5 to 10 min)."""


@dataclass(frozen=True, slots=True)
class Cooling:
    """The way from the dry ground coat to the effect coat.

    Attributes
    ----------
    dry_s
        Drying after the last ground coat by the sheet's bake [s]; 0 where the flash is all the sheet asks.
    cool_s
        Cooling until the effect coat may go on [s]; None: it never cools so far in this air.
    surface_c
        Panel then [°C].
    gate
        Whether the effect coat may go on.
    text
        What happens, in words.
    """

    dry_s: float
    cool_s: float | None
    surface_c: float
    gate: CoatGate
    text: str


def panel_start_c(job: Job) -> float:
    """Return the panel temperature before the ground coat [°C]: as measured, else that of the air.

    Parameters
    ----------
    job
        The job.

    Returns
    -------
    Degrees Celsius, within the range of the film model.

    Sources
    -------
    The job.
    """
    given = job.surface.temperature_c
    return min(70.0, max(0.0, given.value if given is not None else job.air.temperature_c.value))


def gate_air(job: Job, surface_max_c: float | None) -> GateAir:
    """Return the booth air as the gate before the next coat sees it.

    Parameters
    ----------
    job
        The job.
    surface_max_c
        Warmest panel of the sheet [°C], if it names one.

    Returns
    -------
    Air and its dew point.

    Sources
    -------
    ``dew_point_c``.
    """
    air_c = job.air.temperature_c.value
    rh = max(job.air.rh.value, 0.01)
    return GateAir(air_c, float(dew_point_c(float(vapour_pa(air_c, rh)))), surface_max_c)


def cooling_of(setup: Setup, ground: LayerResult) -> Cooling:
    """Return how the panel gets from the last ground coat to the effect coat.

    Parameters
    ----------
    setup
        Job and products.
    ground
        The ground coat.

    Returns
    -------
    Drying by the sheet's bake where it has one, and cooling until the gate opens and the panel is within 3 K of the
    air. A panel temperature that the user measured is kept.

    Sources
    -------
    ``laydown.trade.gate``.
    """
    job = setup.job
    air = gate_air(job, setup.paints["effect"].product.surface_max_c)
    measured = job.surface.effect_temperature_c
    if measured is not None:
        return Cooling(
            0.0, 0.0, measured.value, next_coat_gate(measured.value, air), "panel temperature as measured"
        )
    part = Part("skin", job.surface.material, job.surface.thickness_mm)
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
            "the panel never cools so far in this air",
        )
    surface = min(start_c, goal) if start_c > goal else start_c
    text = f"panel at {start_c:.0f} °C after drying, cooled to {surface:.0f} °C in air of {air.air_c:.0f} °C"
    dry_s = (dried.dry_s or 0.0) if dried is not None else 0.0
    return Cooling(dry_s, cool, surface, next_coat_gate(surface, air), text)


def clear_times(setup: Setup, panel_c: float) -> tuple[float, float]:
    """Return open time of a clear edge and flash between clear coats, moved to this air [s].

    Parameters
    ----------
    setup
        Job and products.
    panel_c
        Panel temperature [°C].

    Returns
    -------
    Open time and flash [s].

    Sources
    -------
    ``clear_flash_s``; share and default: assumptions.
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
