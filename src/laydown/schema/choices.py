"""What the user fixed, and what the let-down panel said."""

from dataclasses import dataclass
from typing import Annotated, Literal

from laydown.schema.bounds import SHARE, Within, Words

Reducer = Literal["fast", "standard", "slow"]
"""Speed of the reducer, as the trade orders it."""


@dataclass(frozen=True, slots=True)
class Choices:
    """What the user fixed; what is left out is chosen by laydown.

    Attributes
    ----------
    reducer, water, hardener, nozzle_mm
        Fixed for ground and effect coat; water as share of the base, 0 to 1.
    ground_coats, effect_coats
        Fixed counts, in halves.
    """

    reducer: Reducer | None = None
    water: Annotated[float, SHARE] | None = None
    hardener: bool | None = None
    nozzle_mm: Annotated[float, Within(0.8, 2.2)] | None = None
    ground_coats: Annotated[float, Within(1, 6, "1 to 6 coats, in halves")] | None = None
    effect_coats: Annotated[float, Within(0.5, 8, "0.5 to 8 coats, in halves")] | None = None


FieldJudgement = Literal["few", "match", "many"]
"""What the eye says of one field of the let-down panel."""


@dataclass(frozen=True, slots=True)
class Sample:
    """The let-down panel.

    Attributes
    ----------
    ground_check
        Result of comparing the bare ground coat with the car's.
    readings
        File of instrument readings.
    face, flop
        Judgements by eye, field 0 first.
    same_settings
        Whether the panel was sprayed with the gun, air and adjustment of the job.
    """

    ground_check: Literal["match", "slightly off", "off", "not accessible", "not done"] = "not done"
    readings: Annotated[str, Words(400)] | None = None
    face: tuple[FieldJudgement, ...] = ()
    flop: tuple[FieldJudgement, ...] = ()
    same_settings: bool = True
