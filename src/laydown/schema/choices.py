"""What is done to a panel, and how far each layer reaches on it."""

from dataclasses import dataclass
from typing import Annotated, Literal

from laydown.schema.figure import SHARE, Figure, TextLength, Within
from laydown.schema.message import Name, message

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
    half_coat
        How half an effect coat is sprayed: a lighter pass, or a full one of half-strength paint where the sheet
        allows that.
    drop_coat
        Whether a light, far pass evens out the effect coat at the end; it counts for somewhat less than half a coat.
    """

    reducer: Reducer | None = None
    water: Annotated[float, SHARE] | None = None
    hardener: bool | None = None
    nozzle_mm: Annotated[float, Within(0.8, 2.2)] | None = None
    ground_coats: Annotated[float, Within(1, 6, message("coats-in-halves", low=1, high=6))] | None = None
    effect_coats: Annotated[float, Within(0.5, 8, message("coats-in-halves", low=0.5, high=8))] | None = None
    half_coat: Literal["light", "half strength"] = "light"
    drop_coat: bool = False


FieldJudgement = Literal["few", "match", "many"]
"""What the eye says of one field of the let-down panel."""


GroundCheck = Literal["match", "slightly off", "off", "not accessible", "not done"]
"""Result of comparing the bare ground coat of the panel with the car's, by eye."""


@dataclass(frozen=True, slots=True)
class Sample:
    """The let-down panel.

    Attributes
    ----------
    ground_check
        Result of comparing the bare ground coat with the car's.
    ground_check_batch, ground_batch
        Batch the check was made on, and batch that will be sprayed; a check on another batch does not count.
    readings
        File of instrument readings.
    readings_map
        File that says how the readings are to be understood.
    zone
        Zone of the readings whose count is planned.
    coats
        Coats of each field that was judged by eye; left out = 0, 1, 2 and so on.
    face, flop
        Judgements by eye, one for each field.
    strips
        Panels that were sprayed and compared alike.
    same_settings
        Whether the panel was sprayed with the gun, air and adjustment of the job.
    coat_g_m2
        Wet film of one coat of the panel [g/m²], weighed.
    flow_g_s, speed_m_s, overlap, fan_m
        How the panel was sprayed, where its coat was not weighed; what is left out was as in the job.
    card_gone_after
        Ground coat after which black and white of a hiding card looked alike.
    """

    ground_check: GroundCheck = "not done"
    ground_check_batch: Annotated[str, TextLength(40)] | None = None
    ground_batch: Annotated[str, TextLength(40)] | None = None
    readings: Annotated[str, TextLength(400)] | None = None
    readings_map: Annotated[str, TextLength(400)] | None = None
    zone: Annotated[str, TextLength(60)] | None = None
    coats: tuple[Annotated[float, Within(0, 8, message("coats-from-to", low=0, high=8))], ...] = ()
    face: tuple[FieldJudgement, ...] = ()
    flop: tuple[FieldJudgement, ...] = ()
    strips: Annotated[int, Within(1, 9)] = 1
    same_settings: bool = True
    coat_g_m2: Annotated[Figure, Within(5, 200)] | None = None
    flow_g_s: Annotated[Figure, Within(0.3, 12)] | None = None
    speed_m_s: Annotated[Figure, Within(0.15, 1.2)] | None = None
    overlap: (
        Annotated[Figure, Within(0.3, 0.95, message("write-a-share", percent=70, share=Name("0.70")))] | None
    ) = None
    fan_m: Annotated[Figure, Within(0.08, 0.5)] | None = None
    card_gone_after: Annotated[int, Within(1, 8, message("first-whole-coat"))] | None = None


Extent = Literal["full", "fade", "none"]
"""How far a layer reaches on a panel: all of it, fading out on it, or not at all."""

PanelState = Literal["new", "repaired", "sound"]
"""What was done to a panel before painting."""


@dataclass(frozen=True, slots=True)
class PanelWork:
    """What is done to one panel.

    Attributes
    ----------
    name
        Label or id of the panel on the side.
    state
        New, repaired or sound.
    undercoat_lightness
        CIE L* of what the ground coat must hide.
    undercoat
        The same in words.
    ground, effect, clear
        How far each layer reaches; left out = laydown proposes.
    """

    name: Annotated[str, TextLength(60)]
    state: PanelState = "sound"
    undercoat_lightness: (
        Annotated[Figure, Within(0, 100, message("lightness-from-black-to-white"))] | None
    ) = None
    undercoat: Literal["white", "light grey", "dark grey", "black"] | None = None
    ground: Extent | None = None
    effect: Extent | None = None
    clear: Extent | None = None
