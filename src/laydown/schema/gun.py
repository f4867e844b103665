"""The gun as it is set today, and the hand that holds it."""

from dataclasses import dataclass, field
from typing import Annotated, Literal

from laydown.schema.bounds import Within, Words
from laydown.schema.figure import Figure


@dataclass(frozen=True, slots=True)
class Gun:
    """The gun as it is set today.

    Attributes
    ----------
    nozzle_mm
        Nozzle in the gun [mm].
    nozzles_owned_mm
        Nozzles the shop has for it [mm].
    fan_m, distance_m
        Width of the fan on the panel and distance to it [m].
    flow_g_s
        Paint flow with this nozzle [g/s]: 30 s into a cup, weighed, divided by 30.
    speed_m_s
        Hand speed [m/s].
    overlap
        Overlap of neighbouring strokes, 0 to 1.
    cup_ml
        Usable volume of the cup [mL].
    transfer
        Share of the sprayed paint that lands on the panel, 0 to 1.
    pressure_bar
        Inlet pressure, printed on the card [bar].
    """

    nozzle_mm: Annotated[float, Within(0.8, 2.2)] = 1.2
    nozzles_owned_mm: tuple[Annotated[float, Within(0.8, 2.2)], ...] = ()
    fan_m: Annotated[Figure, Within(0.10, 0.45)] = field(default_factory=lambda: Figure(0.25))
    distance_m: Annotated[Figure, Within(0.08, 0.40)] = field(default_factory=lambda: Figure(0.18))
    flow_g_s: Annotated[Figure, Within(0.5, 8)] = field(default_factory=lambda: Figure(3.1))
    speed_m_s: Annotated[Figure, Within(0.15, 1.2)] = field(default_factory=lambda: Figure(0.5))
    overlap: Annotated[Figure, Within(0.30, 0.90, "write 75 % as 0.75 or as '75 %'")] = field(
        default_factory=lambda: Figure(0.75)
    )
    cup_ml: Annotated[float, Within(50, 2000)] = 550.0
    transfer: Annotated[Figure, Within(0.2, 0.85)] = field(
        default_factory=lambda: Figure(0.60, 0.45, 0.65, "common practice, no source")
    )
    pressure_bar: Annotated[float, Within(0.5, 4)] | None = None


@dataclass(frozen=True, slots=True)
class Painter:
    """The hand.

    Attributes
    ----------
    name
        How the shop calls the painter.
    skill
        Skilled or trainee: sets the spreads of speed, pitch, distance and pauses.
    habit
        The end the painter starts from when nothing speaks against it.
    reach_m
        Height that is sprayed from the floor without a step [m].
    """

    name: Annotated[str, Words(40)] = ""
    skill: Literal["skilled", "trainee"] = "skilled"
    habit: Literal["front", "rear"] | None = None
    reach_m: Annotated[float, Within(1.2, 2.6)] = 2.1
