"""How the gun is held: the full pass, the lighter one from farther away, the drop pass."""

from dataclasses import dataclass, replace
from typing import Literal

from laydown.physics.spray.fan import (
    fan_at_m,
    nozzle_flow_g_s,
    overlap_for_film,
    raster_mean_g_m2,
    transfer_at,
)
from laydown.physics.spray.hand import Hand
from laydown.schema.coat import Part
from laydown.schema.job import Gun


@dataclass(frozen=True, slots=True)
class Crew:
    """Who sprays and how a refill goes."""

    painters: int
    hand: Hand
    refill_s: float
    cup_ml: float


LIGHT_DISTANCE = 1.2
"""Distance of the lighter pass over that of the full one; common practice, no source."""

LIGHT_SPEED = 1.3
"""Hand speed of the lighter pass over that of the full one; common practice, no source."""

LIGHT_OVERLAP = 0.65
"""Overlap of the lighter pass; common practice, no source."""

LIGHT_COUNT = 0.5
"""For how many coats the lighter pass counts; common practice: full and light are a coat and a half."""

DROP_DISTANCE = 1.5
"""Distance of the drop pass over that of the full one; common practice, no source (20 to 30 cm)."""

DROP_SPEED = 1.3
"""Hand speed of the drop pass over that of the full one; common practice, no source."""

DROP_OVERLAP = 0.85
"""Overlap of the drop pass; common practice, no source (0.85 to 0.90)."""

DROP_FLOW = 0.5
"""Flow of the drop pass over that of the full one: the material is turned down; common practice, no source."""

FASTEST_M_S = 0.70
"""Hand speed laydown asks for at most [m/s]; common practice, no source (0.4 to 0.7)."""

SLOWEST_M_S = 0.40
"""Hand speed laydown asks for at least [m/s]; common practice, no source."""

PassName = Literal["full", "light", "drop"]


@dataclass(frozen=True, slots=True)
class GunPass:
    """One way to hold the gun."""

    name: PassName
    fan_m: float
    distance_m: float
    speed_m_s: float
    overlap: float
    flow_g_s: float
    transfer: float

    def film_g_m2(self) -> float:
        """Return the mean wet film of the pass [g/m²]; ``raster_mean_g_m2``."""
        return raster_mean_g_m2(self.flow_g_s, self.transfer, self.fan_m, self.overlap, self.speed_m_s)


def full_pass(gun: Gun, nozzle_mm: float) -> GunPass:
    """Return the full pass with a nozzle, at the film the painter's own setting gives.

    Source: Equal film: flow over speed is kept; the cap is common practice, no source.
    """
    flow = nozzle_flow_g_s(gun.flow_g_s.value, nozzle_mm, gun.nozzle_mm)
    wanted = gun.speed_m_s.value * flow / gun.flow_g_s.value
    speed = min(wanted, max(FASTEST_M_S, gun.speed_m_s.value))
    return GunPass(
        "full", gun.fan_m.value, gun.distance_m.value, speed, gun.overlap.value, flow, gun.transfer.value
    )


def _farther(full: GunPass, name: PassName, distance: float, speed: float, overlap: float) -> GunPass:
    """The same gun held farther away and moved faster."""
    away = full.distance_m * distance
    return GunPass(
        name,
        fan_at_m(full.fan_m, away, full.distance_m),
        away,
        full.speed_m_s * speed,
        overlap,
        full.flow_g_s,
        transfer_at(full.transfer, away, full.distance_m),
    )


def light_pass(full: GunPass) -> GunPass:
    """Return the lighter pass that follows a full one at once.

    Source: Common practice, no source.
    """
    return _farther(full, "light", LIGHT_DISTANCE, LIGHT_SPEED, LIGHT_OVERLAP)


def drop_pass(full: GunPass) -> GunPass:
    """Return the pass that evens out the effect coat.

    Source: Common practice, no source (20 to 30 cm, 85 to 90 % overlap).
    """
    away = _farther(full, "drop", DROP_DISTANCE, DROP_SPEED, DROP_OVERLAP)
    return replace(away, flow_g_s=full.flow_g_s * DROP_FLOW)


def clear_pass(full: GunPass, wanted_g_m2: float) -> GunPass:
    """Return the pass of the clear, set to the sheet's film.

    Source: Mass balance; ranges: common practice, no source.
    """
    overlap = overlap_for_film(wanted_g_m2, full.flow_g_s, full.transfer, full.fan_m, full.speed_m_s)
    overlap = min(0.75, max(0.50, overlap))
    film = raster_mean_g_m2(full.flow_g_s, full.transfer, full.fan_m, overlap, full.speed_m_s)
    speed = min(FASTEST_M_S, max(SLOWEST_M_S, full.speed_m_s * film / wanted_g_m2))
    return GunPass("full", full.fan_m, full.distance_m, speed, overlap, full.flow_g_s, full.transfer)


def settings_of(part: Part, full: GunPass) -> tuple[GunPass, ...]:
    """Return the passes a coat consists of, in order.

    Source: Common practice, no source: each section gets a full wet pass and at once a lighter one.
    """
    if part == "full":
        return (full,)
    if part == "light":
        return (light_pass(full),)
    if part == "drop":
        return (drop_pass(full),)
    return (full, light_pass(full))
