"""Parts of a side and the booth that warms them: which part is slow, which is fast.

Sources: the lumped panel of physics/heat; classes of parts: common practice, no source.
"""

from dataclasses import dataclass

from laydown.physics.heat import (
    SUBSTRATES,
    HeatUp,
    areal_heat_capacity_j_m2_k,
    biot_count,
    effective_c,
    radiation_w_m2_k,
    time_constant_s,
)
from laydown.schema.message import Message, Name, message

BOOTH_S = 300.0
"""Time constant of the booth air [s]; common practice, no source. Two thermometer readings give the shop's."""

BAKE_CONVECTION_W_M2_K = 8.0
"""Heat transfer by air in a booth that bakes [W/(m² K)], 4 to 15; common practice, not measured anywhere seen."""

PAINT_EMISSIVITY_FRACTION = 0.90
"""Emissivity of paint, 0 to 1; from memory."""

SKIN_BACK_SHARE = 0.4
"""Share of the front's heat transfer that the back of a trimmed or closed skin sees, 0 to 1; common practice."""


@dataclass(frozen=True, slots=True)
class HeatedPart:
    """A class of parts that warm alike.

    Attributes
    ----------
    name
        As the painter calls it.
    material
        A key of the table of substrates.
    thickness_mm
        Sheet thickness, a double skin counted twice, above 0 to 20 [mm].
    back_share
        Share of the front's heat transfer that the back sees, 0 (closed) to 1 (hangs free).
    """

    name: str
    material: str
    thickness_mm: float
    back_share: float = SKIN_BACK_SHARE


@dataclass(frozen=True, slots=True)
class Heating:
    """What the booth does to the car.

    Attributes
    ----------
    start_c
        Panel at the start, -20 to 150 [°C].
    air_c
        Air that the controller holds, -20 to 150 [°C].
    wall_c
        Booth walls; ``None``: as warm as the air, an assumption on the warm side [°C].
    air_start_c
        Air at the start; ``None``: as warm as the panel [°C].
    booth_s
        Time constant of the booth air; 0 for air that is warm at once [s].
    convection_w_m2_k
        Heat transfer by air [W/(m² K)].
    """

    start_c: float
    air_c: float
    wall_c: float | None = None
    air_start_c: float | None = None
    booth_s: float = BOOTH_S
    convection_w_m2_k: float = BAKE_CONVECTION_W_M2_K


def parts_of_side(material: str, thickness_mm: float, *, plastic: bool) -> tuple[HeatedPart, ...]:
    """Return the classes of parts that carry paint on a side.

    Parameters
    ----------
    material, thickness_mm
        The skin: a key of the table of substrates and its thickness [mm].
    plastic
        Whether a bumper, cladding or mirror of plastic is painted with it.

    Notes
    -----
    The double skin at folds and bonded edges is taken as twice the sheet, plastic as 3 mm, both without
    trim behind plastic. Assumption; the user's own list wins.
    """
    parts = (
        HeatedPart("skin", material, thickness_mm),
        HeatedPart("folds and double skin", material, 2.0 * thickness_mm),
    )
    return (*parts, HeatedPart("plastic parts", "plastic", 3.0)) if plastic else parts


_SAID = {
    "skin": "heated-part.skin",
    "folds and double skin": "heated-part.folds",
    "plastic parts": "heated-part.plastic",
}


def part_said(name: str) -> Message | Name:
    """Return how a class of parts is called in a sentence; one from somebody's own list by its own name."""
    return message(_SAID[name]) if name in _SAID else Name(name)


def warming(part: HeatedPart, heating: Heating) -> HeatUp:
    """Return the warming, or cooling, of one class of parts.

    Parameters
    ----------
    part, heating
        The part and the booth.

    Returns
    -------
    Start, goal and time constants; the goal counts the walls in.

    Raises
    ------
    ValueError
        If a temperature lies outside -20 to 150 °C, the thickness outside 0 to 20 mm, or the material is
        unknown.

    Notes
    -----
    ``h = (hc + hr)(1 + back_share)``, hr at the mean of the panel's start and the air.     (1)
    """
    wall_c = heating.air_c if heating.wall_c is None else heating.wall_c
    for name, value in (("start_c", heating.start_c), ("air_c", heating.air_c), ("wall_c", wall_c)):
        if not -20.0 <= value <= 150.0:
            raise ValueError(f"{name} must be within -20 to 150")
    if part.material not in SUBSTRATES:
        raise ValueError(f"material must be one of {', '.join(SUBSTRATES)}")
    substrate = SUBSTRATES[part.material]
    middle_c = 0.5 * (heating.start_c + heating.air_c)
    radiation = radiation_w_m2_k(PAINT_EMISSIVITY_FRACTION, middle_c, wall_c)
    transfer = (heating.convection_w_m2_k + radiation) * (1.0 + part.back_share)
    capacity = areal_heat_capacity_j_m2_k(
        substrate.density_g_ml, substrate.heat_capacity_j_g_k, part.thickness_mm
    )
    biot = biot_count(transfer, part.thickness_mm, substrate.conductivity_w_m_k)
    return HeatUp(
        start_c=heating.start_c,
        air_start_c=heating.start_c if heating.air_start_c is None else heating.air_start_c,
        goal_c=effective_c(heating.convection_w_m2_k, radiation, heating.air_c, wall_c),
        panel_s=time_constant_s(capacity, transfer, biot),
        booth_s=heating.booth_s,
    )
