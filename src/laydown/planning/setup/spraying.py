"""How the gun is held: the closed pass, the lighter one from farther away, the control pass."""

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
    """Who sprays and how a refill goes.

    Attributes
    ----------
    painters
        1 or 2.
    hand
        Spreads of the hand.
    refill_s
        What a refill takes [s].
    cup_ml
        Usable cup [mL].
    """

    painters: int
    hand: Hand
    refill_s: float
    cup_ml: float


LIGHT_DISTANCE = 1.2
"""Distance of the lighter pass over that of the closed one; common practice, no source."""

LIGHT_SPEED = 1.3
"""Hand speed of the lighter pass over that of the closed one; common practice, no source."""

LIGHT_OVERLAP = 0.65
"""Overlap of the lighter pass; common practice, no source."""

LIGHT_COUNT = 0.5
"""For how many coats the lighter pass counts; common practice: closed and light are a coat and a half."""

CONTROL_DISTANCE = 1.5
"""Distance of the control pass over that of the closed one; common practice, no source (20 to 30 cm)."""

CONTROL_SPEED = 1.3
"""Hand speed of the control pass over that of the closed one; common practice, no source."""

CONTROL_OVERLAP = 0.85
"""Overlap of the control pass; common practice, no source (0.85 to 0.90)."""

CONTROL_FLOW = 0.5
"""Flow of the control pass over that of the closed one: the material is turned down; common practice, no source."""

FASTEST_M_S = 0.70
"""Hand speed laydown asks for at most [m/s]; common practice, no source (0.4 to 0.7)."""

SLOWEST_M_S = 0.40
"""Hand speed laydown asks for at least [m/s]; common practice, no source."""

PassName = Literal["closed", "light", "control"]


@dataclass(frozen=True, slots=True)
class Setting:
    """One way to hold the gun.

    Attributes
    ----------
    name
        Closed, light or control.
    fan_m, distance_m, speed_m_s, overlap, flow_g_s, transfer
        As in the job, moved for this pass.
    """

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


def closed_pass(gun: Gun, nozzle_mm: float) -> Setting:
    """Return the closed pass with a nozzle, at the film the painter's own setting gives.

    Parameters
    ----------
    gun
        The gun as measured, with its own nozzle.
    nozzle_mm
        Nozzle to be used [mm].

    Returns
    -------
    The setting. A bigger nozzle is moved faster for the same film, up to 0.7 m/s; beyond that the film grows.

    Sources
    -------
    Equal film: flow over speed is kept; the cap is common practice, no source.
    """
    flow = nozzle_flow_g_s(gun.flow_g_s.value, nozzle_mm, gun.nozzle_mm)
    wanted = gun.speed_m_s.value * flow / gun.flow_g_s.value
    speed = min(wanted, max(FASTEST_M_S, gun.speed_m_s.value))
    return Setting(
        "closed", gun.fan_m.value, gun.distance_m.value, speed, gun.overlap.value, flow, gun.transfer.value
    )


def _farther(closed: Setting, name: PassName, distance: float, speed: float, overlap: float) -> Setting:
    """The same gun held farther away and moved faster."""
    away = closed.distance_m * distance
    return Setting(
        name,
        fan_at_m(closed.fan_m, away, closed.distance_m),
        away,
        closed.speed_m_s * speed,
        overlap,
        closed.flow_g_s,
        transfer_at(closed.transfer, away, closed.distance_m),
    )


def light_pass(closed: Setting) -> Setting:
    """Return the lighter pass that follows a closed one at once.

    Parameters
    ----------
    closed
        The closed pass.

    Returns
    -------
    The same gun from 1.2 times the distance, 1.3 times as fast, at 65 % overlap.

    Sources
    -------
    Common practice, no source.
    """
    return _farther(closed, "light", LIGHT_DISTANCE, LIGHT_SPEED, LIGHT_OVERLAP)


def control_pass(closed: Setting) -> Setting:
    """Return the pass that evens out the effect coat.

    Parameters
    ----------
    closed
        The closed pass.

    Returns
    -------
    The same gun from 1.5 times the distance, 1.3 times as fast, at 85 % overlap and half the flow.

    Sources
    -------
    Common practice, no source (20 to 30 cm, 85 to 90 % overlap).
    """
    away = _farther(closed, "control", CONTROL_DISTANCE, CONTROL_SPEED, CONTROL_OVERLAP)
    return replace(away, flow_g_s=closed.flow_g_s * CONTROL_FLOW)


def clear_pass(closed: Setting, wanted_g_m2: float) -> Setting:
    """Return the pass of the clear, set to the sheet's film.

    Parameters
    ----------
    closed
        The closed pass of the gun.
    wanted_g_m2
        Wet film of one coat by the sheet [g/m²].

    Returns
    -------
    The pass with overlap 0.50 to 0.75 and hand speed 0.4 to 0.7 m/s that comes nearest to the film.

    Sources
    -------
    Mass balance; ranges: common practice, no source.
    """
    overlap = overlap_for_film(wanted_g_m2, closed.flow_g_s, closed.transfer, closed.fan_m, closed.speed_m_s)
    overlap = min(0.75, max(0.50, overlap))
    film = raster_mean_g_m2(closed.flow_g_s, closed.transfer, closed.fan_m, overlap, closed.speed_m_s)
    speed = min(FASTEST_M_S, max(SLOWEST_M_S, closed.speed_m_s * film / wanted_g_m2))
    return Setting(
        "closed", closed.fan_m, closed.distance_m, speed, overlap, closed.flow_g_s, closed.transfer
    )


def settings_of(part: Part, closed: Setting) -> tuple[Setting, ...]:
    """Return the passes a coat consists of, in order.

    Parameters
    ----------
    part
        What the coat consists of.
    closed
        The closed pass.

    Returns
    -------
    One pass, or the closed and the lighter one.

    Sources
    -------
    Common practice, no source: each section gets a closed wet pass and at once a lighter one.
    """
    if part == "closed":
        return (closed,)
    if part == "light":
        return (light_pass(closed),)
    if part == "control":
        return (control_pass(closed),)
    return (closed, light_pass(closed))
