"""What goes wrong at which stage, and the ways out."""

from dataclasses import dataclass, field
from typing import Literal

from laydown.schema.figure import Spread
from laydown.schema.message import Saying

DefectKey = Literal[
    "clouds",
    "stripes",
    "dry_spray",
    "dark_ring",
    "not_hidden",
    "ground_damp",
    "too_many_effect_coats",
    "too_few_effect_coats",
    "flop_off",
    "dark_edges",
    "dirt",
    "craters",
    "sag",
    "water_marks",
    "solvent_pop",
    "die_back",
    "peeling",
    "cut_through",
    "ran_out",
]
"""What may go wrong."""

Stage = Literal["ground_wet", "ground_dry", "effect_wet", "effect_dry", "clear_wet", "baked"]
"""When it is found; the price of a defect rises with the stage."""

Soundness = Literal["sound", "risky", "not possible"]
"""Whether a way out holds, may hold, or is named only so that nobody tries it."""

RepairExtent = Literal["none", "spot", "gap to gap", "fade"]
"""How far a way goes: nowhere, over the spot and its fade, from gap to gap, or out to a fade of at least 61 cm."""


@dataclass(frozen=True, slots=True)
class Price:
    """A step of the price ladder, against one more ground coat.

    Attributes
    ----------
    key
        Its name.
    low, high
        How many times dearer than one more ground coat.
    source
        Where that comes from.
    """

    key: str
    low: float
    high: float
    source: str


@dataclass(frozen=True, slots=True)
class HandWork:
    """Work by hand that a way needs: seconds with the middle 90 %; common practice, no source."""

    key: str
    low_s: float
    value_s: float
    high_s: float


@dataclass(frozen=True, slots=True)
class Way:
    """A way out as the table holds it, without figures of a job.

    Attributes
    ----------
    key, text
        Its name, and what to do.
    price
        Step of the price ladder.
    soundness, consequence
        Whether it holds, and what it leads to.
    work
        Work in order: hand work of the table, or coats, flashes and bakes of the job.
    needs
        What must be true or at hand.
    ground_coats, effect_coats
        Coats it adds where it is done.
    hardened
        Whether it needs hardener in the ground coat.
    reach
        How far it goes.
    carry_on
        Whether it is carrying on.
    source
        Where the row comes from.
    """

    key: str
    text: Saying
    price: str
    soundness: Soundness
    consequence: Saying
    work: tuple[str, ...] = ()
    needs: tuple[Saying, ...] = ()
    ground_coats: float = 0.0
    effect_coats: float = 0.0
    hardened: bool = False
    reach: RepairExtent = "none"
    carry_on: bool = False
    source: str = "common practice, no source"


@dataclass(frozen=True, slots=True)
class Defect:
    """Something that may go wrong: how it is seen and where it comes from.

    Attributes
    ----------
    key, title
        Its name, and as it is shown.
    sign
        How the painter notices it.
    causes
        Where it comes from.
    ways
        Keys of its ways at each stage.
    """

    key: DefectKey
    title: Saying
    sign: Saying
    causes: Saying
    ways: dict[Stage, tuple[str, ...]]


@dataclass(frozen=True, slots=True)
class RescueTable:
    """All defects, ways, prices and hand work by key."""

    defects: dict[str, Defect]
    ways: dict[str, Way]
    prices: dict[str, Price]
    works: dict[str, HandWork]


@dataclass(frozen=True, slots=True)
class LayerFigures:
    """One layer of the job in figures, over the whole side.

    Attributes
    ----------
    coats
        Coats planned, in halves.
    coat_s, coat_g
        Time on the clock [s] and paint [g] of one whole coat.
    flash_s
        Until matt, or the sheet's flash [s].
    """

    coats: float
    coat_s: float
    coat_g: float
    flash_s: Spread


@dataclass(frozen=True, slots=True)
class RescueContext:
    """What a way out is reckoned from.

    Attributes
    ----------
    ground, effect, clear
        The layers.
    region_share
        Share of the side that the remedy goes over from gap to gap, 0 to 1.
    dehydrate_s
        Blowing before the clear [s].
    bake_s
        Heating up, hold and cooling [s].
    ground_hardened
        Whether the ground coat has hardener.
    effect_age_s
        Time since the last effect coat [s].
    recoat_max_s
        Longest time from the effect coat to the clear [s]; None: the sheet is silent, 24 h hold.
    spot_count
        How many spots there are.
    """

    ground: LayerFigures
    effect: LayerFigures
    clear: LayerFigures
    region_share: float
    dehydrate_s: float
    bake_s: float
    ground_hardened: bool
    effect_age_s: float = 0.0
    recoat_max_s: float | None = None
    spot_count: int = 1


@dataclass(frozen=True, slots=True)
class WayOut:
    """A way out for this job.

    Attributes
    ----------
    key, text
        Its name, and what to do.
    minutes
        Time on the clock, with the middle 90 %.
    sprayed_g
        Paint it takes [g].
    ground_coats, effect_coats
        Coats it adds where it is done.
    consequence, needs
        What it leads to, and what must be true or at hand.
    soundness
        Whether it holds.
    price_factor
        How many times dearer than one more ground coat, low and high.
    carry_on
        Whether it is carrying on.
    source
        Where it comes from.
    """

    key: str
    text: Saying
    minutes: Spread
    sprayed_g: float
    ground_coats: float
    effect_coats: float
    consequence: Saying
    soundness: Soundness
    price_factor: tuple[float, float]
    needs: tuple[Saying, ...] = field(default=())
    carry_on: bool = False
    source: str = "common practice, no source"
