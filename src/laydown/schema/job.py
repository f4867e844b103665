"""The job: what the painter writes down before anything is planned."""

from dataclasses import dataclass, field
from typing import Annotated, Literal

from laydown.schema.choices import Choices, PanelWork, Sample
from laydown.schema.figure import SHARE, Figure, TextLength, Within
from laydown.schema.limits import Limits, Prices
from laydown.schema.message import Name, message


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
    overlap: Annotated[
        Figure, Within(0.30, 0.90, message("write-a-share", percent=75, share=Name("0.75")))
    ] = field(default_factory=lambda: Figure(0.75))
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

    name: Annotated[str, TextLength(40)] = ""
    skill: Literal["skilled", "trainee"] = "skilled"
    habit: Literal["front", "rear"] | None = None
    reach_m: Annotated[float, Within(1.2, 2.6)] = 2.1


ShelfName = Annotated[str, TextLength(120)]
"""A product's key on the shelf or the name of its file."""


@dataclass(frozen=True, slots=True)
class Task:
    """Who paints which side, and how.

    Attributes
    ----------
    name
        The shop's own words for the job.
    side
        Which side of the vehicle, seen by its driver.
    painters
        How many spray at the same time.
    can_walk
        Whether the painter may walk the whole length in one stroke.
    start
        "best", "front", "rear" or the id of a feature of the side.
    spare_cup
        Whether a second filled cup stands ready.
    refill_s, spare_cup_s
        Time one refill takes without and with the spare cup [s].
    seed
        Seed of every random draw.
    """

    name: Annotated[str, TextLength(60)]
    side: Literal["left", "right"]
    painters: Annotated[int, Within(1, 2, message("one-or-two-painters"))] = 1
    can_walk: bool = False
    start: Annotated[str, TextLength(60)] = "best"
    spare_cup: bool = False
    refill_s: Annotated[float, Within(5, 900)] = 90.0
    spare_cup_s: Annotated[float, Within(5, 300)] = 15.0
    seed: Annotated[int, Within(0, 2**31 - 1)] = 1


@dataclass(frozen=True, slots=True)
class Body:
    """Which side is painted: a shipped shape, own measures on it, or an own file.

    Attributes
    ----------
    shape
        Name of a shipped shape.
    file
        A side file, JSON, TOML or SVG; takes the place of the shape.
    measures
        Own tape measures, by name; the others keep their proportion.
    """

    shape: Annotated[str, TextLength(60)] | None = None
    file: Annotated[str, TextLength(400)] | None = None
    measures: dict[str, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class ProductNames:
    """The three products, by key on the shelf or by file name.

    Attributes
    ----------
    ground, effect, clear
        One product for each layer.
    """

    ground: ShelfName
    effect: ShelfName
    clear: ShelfName


@dataclass(frozen=True, slots=True)
class Job:
    """Everything the painter writes down, as in a job file.

    Attributes
    ----------
    format
        Always "laydown-job/1".
    job, body, panel, air, surface, gun, painter, products, choices, sample, limits, prices
        The tables of the file.
    invented
        Whether the job is invented; printed on every page.
    """

    format: Literal["laydown-job/1"]
    job: Task
    body: Body
    panel: tuple[PanelWork, ...]
    air: Air
    products: ProductNames
    surface: Surface = field(default_factory=Surface)
    gun: Gun = field(default_factory=Gun)
    painter: Painter = field(default_factory=Painter)
    choices: Choices = field(default_factory=Choices)
    sample: Sample = field(default_factory=Sample)
    limits: Limits = field(default_factory=Limits)
    prices: Prices = field(default_factory=Prices)
    invented: bool = False
