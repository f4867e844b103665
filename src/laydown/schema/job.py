"""The job: what the painter writes down before anything is planned."""

from dataclasses import dataclass, field
from typing import Annotated, Literal

from laydown.schema.booth import Air, Surface
from laydown.schema.bounds import Within, Words
from laydown.schema.choices import Choices, Sample
from laydown.schema.gun import Gun, Painter
from laydown.schema.panel import PanelWork
from laydown.schema.terms import Limits, Prices

ShelfName = Annotated[str, Words(120)]
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

    name: Annotated[str, Words(60)]
    side: Literal["left", "right"]
    painters: Annotated[int, Within(1, 2, "one or two painters")] = 1
    can_walk: bool = False
    start: Annotated[str, Words(60)] = "best"
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

    shape: Annotated[str, Words(60)] | None = None
    file: Annotated[str, Words(400)] | None = None
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
