"""When the next coat may go on a warm panel, and when the car may be touched after the bake.

Sources: the product sheet, and practice of ISO 8502-4, second hand, unless a function names its own.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from laydown.physics.heat import cool_time_s, panel_c, time_to_s
from laydown.schema.message import Message, message
from laydown.trade.times.bake import METAL_TOLERANCE_K
from laydown.trade.times.warming import HeatedPart, Heating, warming

SURFACE_MAX_C = 30.0
"""Warmest panel for the next coat where the sheet is silent [°C]; common practice, no source."""

ABOVE_AIR_MAX_K = 8.0
"""How much warmer than the air the panel may be [K]; common practice, no source."""

ABOVE_DEW_MIN_K = 3.0
"""How much warmer than the dew point the panel must be [K]; practice of ISO 8502-4, second hand."""

HANDLE_MAX_C = 35.0
"""A baked panel is handled below this [°C]; common practice, no source."""

POLISH_MAX_C = 25.0
"""A baked panel is polished below this [°C]; common practice, no source."""

POLISH_MIN_S = 3600.0
"""And not before this after the heat went off [s]; common practice, no source."""


@dataclass(frozen=True, slots=True)
class GateAir:
    """The air of the booth when the next coat is due.

    Attributes
    ----------
    air_c
        Booth air [°C].
    dew_point_c
        Its dew point [°C].
    surface_max_c
        Warmest panel the sheet allows; ``None``: it does not say, 30 °C is used [°C].
    """

    air_c: float
    dew_point_c: float
    surface_max_c: float | None = None


@dataclass(frozen=True, slots=True)
class CoatGate:
    """Whether the next coat may go on.

    Attributes
    ----------
    open
        Whether it may.
    low_c, high_c
        Range in which the panel must be [°C].
    reasons
        Why not, in plain words; empty if open.
    """

    open: bool
    low_c: float
    high_c: float
    reasons: tuple[Message, ...]


@dataclass(frozen=True, slots=True)
class DryAndCool:
    """Drying of a layer and the way back to the next coat.

    Attributes
    ----------
    dry_s
        From the last stroke to dry by the sheet; ``None``: the temperature is never reached [s].
    cool_s
        From there to a panel cool enough; ``None``: it never cools so far in this air [s].
    ready_s
        Sum of the two, where both are known [s].
    surface_c
        Warmest part when the next coat goes on; ``None``: it never may [°C].
    slowest_part
        The part that decides.
    """

    dry_s: float | None
    cool_s: float | None
    ready_s: float | None
    surface_c: float | None
    slowest_part: str


@dataclass(frozen=True, slots=True)
class AfterBake:
    """Clocks from the end of the heat.

    Attributes
    ----------
    handle_s
        When the car may be handled; ``None``: never in this air [s].
    polish_s
        When it may be polished; ``None``: never in this air [s].
    """

    handle_s: float | None
    polish_s: float | None


def next_coat_gate(surface_c: float, air: GateAir) -> CoatGate:
    """Return whether a panel is cool and dry enough for the next coat.

    Parameters
    ----------
    surface_c
        Panel, on the slowest part: wheel arches, double skins and bonded edges lag [°C].
    air
        Booth air, its dew point and the sheet's limit.

    Notes
    -----
    ::

        T <= sheet's limit, or 30 °C                                  (1)
        T - T_air <= 8 K                                              (2)
        T >= T_dew + 3 K                                              (3)

    Sources
    -------
    (1), (2) common practice, no source. (3) ISO 8502-4 as restated in coating guides.
    """
    high = _high_c(air)
    low = air.dew_point_c + ABOVE_DEW_MIN_K
    reasons = []
    if surface_c > high:
        reasons.append(message("warm-car", surface_c=surface_c, high_c=high))
    if surface_c < low:
        reasons.append(
            message("cold-car", surface_c=surface_c, dew_point_c=air.dew_point_c, above_k=ABOVE_DEW_MIN_K)
        )
    return CoatGate(not reasons, low, high, tuple(reasons))


def _high_c(air: GateAir) -> float:
    """Warmest panel that rules (1) and (2) allow."""
    sheet = SURFACE_MAX_C if air.surface_max_c is None else air.surface_max_c
    return min(sheet, air.air_c + ABOVE_AIR_MAX_K)


def dry_and_cool(
    hold_s: float, metal_c: float | None, parts: Sequence[HeatedPart], heating: Heating, air: GateAir
) -> DryAndCool:
    """Return how long a layer dries by its sheet and then cools until the next coat may go on.

    Parameters
    ----------
    hold_s
        Time of the sheet: the flash, or the hold at temperature [s].
    metal_c
        Metal temperature of a drying bake [°C]; ``None``: the layer flashes off in the given air.
    parts
        Classes of parts under the paint; at least one.
    heating
        The air they dry in, blowers counted in.
    air
        Booth air when the next coat is due.

    Raises
    ------
    ValueError
        If there is no part, or the booth or a part is outside its range.

    Notes
    -----
    Drying ends when the slowest part has held its time; cooling ends when the last part is cool enough.
    Time constants of cooling are computed anew, for radiation at lower temperature.
    """
    if not parts:
        raise ValueError("parts must hold at least one part")
    courses = {part: warming(part, heating) for part in parts}
    threshold = -math.inf if metal_c is None else metal_c - METAL_TOLERANCE_K
    reach = {part: time_to_s(threshold, course) for part, course in courses.items()}
    slow_to_warm = max(reach, key=lambda part: (reach[part], courses[part].panel_s))
    if math.isinf(reach[slow_to_warm]):
        return DryAndCool(None, None, None, None, slow_to_warm.name)
    dry_s = reach[slow_to_warm] + hold_s
    ends = {part: panel_c(dry_s, course) for part, course in courses.items()}
    taus = {part: _cooling_s(part, ends[part], heating, air.air_c) for part in parts}
    waits = {part: cool_time_s(ends[part], _high_c(air), air.air_c, taus[part]) for part in parts}
    last = max(waits, key=lambda part: (waits[part], taus[part]))
    cool_s = waits[last]
    if math.isinf(cool_s):
        return DryAndCool(dry_s, None, None, None, last.name)
    surface = max(air.air_c + (ends[part] - air.air_c) * math.exp(-cool_s / taus[part]) for part in parts)
    return DryAndCool(dry_s, cool_s, dry_s + cool_s, surface, last.name)


def _cooling_s(part: HeatedPart, from_c: float, heating: Heating, air_c: float) -> float:
    """Time constant of a part that cools in booth air."""
    cooling = replace(heating, start_c=from_c, air_c=air_c, wall_c=air_c, air_start_c=air_c)
    return warming(part, cooling).panel_s


def after_bake(from_c: float, air_c: float, panel_s: float) -> AfterBake:
    """Return when a baked car may be handled and polished, counted from the end of the heat.

    Parameters
    ----------
    from_c
        Slowest part when the heat goes off [°C].
    air_c
        Air it cools in [°C].
    panel_s
        Its time constant, greater than 0 [s].

    Notes
    -----
    Handled below 35 °C; polished below 25 °C and after an hour at the earliest. The sheet wins.

    Sources
    -------
    Common practice, no source.
    """
    handle = cool_time_s(from_c, HANDLE_MAX_C, air_c, panel_s)
    polish = max(POLISH_MIN_S, cool_time_s(from_c, POLISH_MAX_C, air_c, panel_s))
    return AfterBake(handle if math.isfinite(handle) else None, polish if math.isfinite(polish) else None)
