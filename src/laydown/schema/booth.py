"""The air at the panel and the sheet under the paint."""

from dataclasses import dataclass, field
from typing import Annotated, Literal

from laydown.schema.bounds import SHARE, Within
from laydown.schema.figure import Figure


@dataclass(frozen=True, slots=True)
class Air:
    """The air at the panel.

    Attributes
    ----------
    temperature_c
        Booth air [°C].
    rh
        Relative humidity, 0 to 1.
    speed_m_s
        Air speed at the panel without blowers [m/s].
    blower_speed_m_s, blower_temperature_c
        Air of the blowers at the panel [m/s], [°C]; speed 0 = no blowers.
    pressure_pa
        Air pressure [Pa].
    """

    temperature_c: Annotated[Figure, Within(5, 45)]
    rh: Annotated[Figure, SHARE]
    speed_m_s: Annotated[Figure, Within(0.05, 3)] = field(
        default_factory=lambda: Figure(0.3, 0.2, 0.5, "default, not measured")
    )
    blower_speed_m_s: Annotated[Figure, Within(0, 8)] = field(
        default_factory=lambda: Figure(2.0, 1.5, 4.0, "default, not measured")
    )
    blower_temperature_c: Annotated[Figure, Within(5, 70)] | None = None
    pressure_pa: Annotated[Figure, Within(60_000, 110_000)] = field(
        default_factory=lambda: Figure(101_325.0, None, None, "standard atmosphere")
    )


@dataclass(frozen=True, slots=True)
class Surface:
    """The sheet under the paint.

    Attributes
    ----------
    material
        Steel, aluminium or plastic.
    thickness_mm
        Thickness of the sheet [mm].
    temperature_c
        Measured on the metal before the ground coat [°C]; left out = booth air.
    effect_temperature_c
        The same before the effect coat; left out = computed.
    """

    material: Literal["steel", "aluminium", "plastic"] = "steel"
    thickness_mm: Annotated[float, Within(0.3, 20)] = 0.8
    temperature_c: Annotated[Figure, Within(-5, 80)] | None = None
    effect_temperature_c: Annotated[Figure, Within(-5, 80)] | None = None
