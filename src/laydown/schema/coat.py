"""Maps of one coat over the developed side, for pictures."""

from dataclasses import dataclass
from typing import Literal

from laydown.schema.figure import Spread
from laydown.schema.message import Saying
from laydown.schema.product import LayerName
from laydown.schema.side import Point

JoinState = Literal["wet", "tight", "dry"]
"""wet: chance 0.90 or more that the edge is still open; tight: 0.50 or more; dry: less."""

Part = Literal["full", "light", "full_light", "drop"]
"""full: one closed wet pass; light: a lighter one from farther away; full_light: both, section by section; drop: a drop coat."""

FeatureKind = Literal["gap", "arch", "pillar", "moulding", "body_line", "open"]
"""What lies at a join."""


@dataclass(frozen=True, slots=True)
class Section:
    """One section of a coat.

    Attributes
    ----------
    order
        Place in the order of work, from 1.
    panels
        Labels of the panels it lies on.
    x_from_m, x_to_m
        Its ends along the vehicle, smaller first [m].
    spray_s
        Trigger time [s]; sprayed_g = flow_g_s * spray_s.
    elapsed_s
        Time from the first stroke to the end of the section, turns included [s].
    sprayed_g
        Paint sprayed [g].
    cup_g_after
        What the cup should weigh less its own weight after the section [g].
    edge_overlap
        Overlap of the first strokes at the edge.
    path
        Way of the gun as drawn: one polyline per unbroken way, points (x_m, y_m).
    needs_step
        Whether a part lies above the painter's reach.
    """

    order: int
    panels: tuple[str, ...]
    x_from_m: float
    x_to_m: float
    spray_s: float
    elapsed_s: float
    sprayed_g: float
    cup_g_after: float
    edge_overlap: float
    path: tuple[tuple[Point, ...], ...]
    needs_step: bool


@dataclass(frozen=True, slots=True)
class JoinRunnerUp:
    """The next best place for a join and why it was not taken."""

    x_m: float
    kind: FeatureKind
    feature: str
    why_not: Saying


@dataclass(frozen=True, slots=True)
class Join:
    """Where two sections meet.

    Attributes
    ----------
    id
        Such as "g1.1": layer, coat, join in the order of work.
    between
        Orders of the two sections.
    x_m, x_bottom_m, x_top_m
        Place at mid-height, at the bottom and at the top [m].
    feature, kind
        What lies there.
    age_s
        Age of the edge when the next section reaches it, at its worst height [s].
    open_s
        How long the feathered edge stays open [s].
    margin_s
        Difference of the two [s].
    state, wet_chance
        See JoinState.
    moved_m
        Distance to the nearest join of the coat before [m]; None for the first coat.
    reason, runner_up
        Why here, and where else.
    """

    id: str
    between: tuple[int, int]
    x_m: float
    x_bottom_m: float
    x_top_m: float
    feature: str
    kind: FeatureKind
    age_s: Spread
    open_s: Spread
    margin_s: Spread
    state: JoinState
    wet_chance: float
    moved_m: float | None
    reason: Saying
    runner_up: JoinRunnerUp | None


@dataclass(frozen=True, slots=True)
class Refill:
    """A refill at the end of a section; grams the cup then takes [g] and the stop it costs [s]."""

    after_section: int
    feature: str
    takes_s: float
    fill_g: float


@dataclass(frozen=True, slots=True)
class Pass:
    """How the gun is held in one pass.

    Attributes
    ----------
    name
        Closed or light.
    fan_m, distance_m, speed_m_s, overlap, flow_g_s, transfer
        Fan on the panel, distance, hand speed, overlap, flow and share that lands.
    seconds_per_m
        Hand speed as the card prints it [s/m].
    pressure_bar
        Inlet pressure where somebody named one [bar].
    """

    name: Literal["full", "light", "drop"]
    fan_m: float
    distance_m: float
    speed_m_s: float
    seconds_per_m: float
    overlap: float
    flow_g_s: float
    transfer: float
    pressure_bar: float | None


@dataclass(frozen=True, slots=True)
class Balance:
    """Where the sprayed paint of a coat goes [g]: sprayed = on_panel + edges + overspray."""

    sprayed_g: float
    on_panel_g: float
    edges_g: float
    overspray_g: float


@dataclass(frozen=True, slots=True)
class Coat:
    """One coat of a layer.

    Attributes
    ----------
    number, part, counts
        Number from 1, what it consists of, and for how many coats it counts.
    film_wet_g_m2, film_dry_um
        Mean film of the coat where it is full.
    film_cv, thin_fraction
        Spread of the film, and share of the area whose full pass stays below the closed film.
    spray_s, elapsed_s, sprayed_g
        Trigger time, time on the clock [s] and paint [g].
    flash_s
        Time until uniformly matt [s].
    open_s
        How long the feathered edge stays open [s].
    pattern, direction, start
        How the side is worked.
    passes, sections, joins, refills, balance
        The work itself.
    reason
        Why this order and start.
    wet_next
        Whether the next coat goes on wet, as soon as the gloss is gone, instead of on a matt film.
    fill_g
        What the cup weighs at the start, less its own weight [g]; with two painters the fuller cup.
    """

    number: int
    part: Part
    counts: float
    film_wet_g_m2: float
    film_dry_um: float
    film_cv: float
    thin_fraction: float
    spray_s: float
    elapsed_s: float
    sprayed_g: float
    flash_s: Spread
    open_s: Spread
    pattern: Literal["sections", "walk"]
    direction: Saying
    start: Saying
    start_at: Point
    passes: tuple[Pass, ...]
    sections: tuple[Section, ...]
    joins: tuple[Join, ...]
    refills: tuple[Refill, ...]
    balance: Balance
    reason: Saying
    wet_next: bool = False
    fill_g: float | None = None


@dataclass(frozen=True, slots=True)
class Layer:
    """One layer: its product, its coats and the panel temperature it is sprayed on [°C]."""

    name: LayerName
    product: str
    panel_c: Spread
    coats: tuple[Coat, ...]


@dataclass(frozen=True, slots=True)
class CoatMap:
    """One field over the side.

    Attributes
    ----------
    layer, coat, kind
        What is shown: "film" [g/m²], "age" (age over open time), "dry spray" [g/m²], or "appearance" (CIEDE2000 from
        the wanted colour at the most sensitive angle, all coats of the layer together).
    cell_m
        Size of a cell on the developed sheet [m].
    x0_m, y0_m
        Lower left corner; y is height above ground as seen [m], one cell is cell_m / girth high.
    cell_height_m
        Height of a cell as seen [m].
    values
        Rows from the bottom, None where nothing is painted.
    target
        The value aimed at; 0 for age and dry spray.
    worst, worst_at
        Worst value and its place (x_m, y_m).
    unit
        Unit as printed.
    """

    layer: str
    coat: int
    kind: Literal["film", "age", "dry spray", "appearance"]
    cell_m: float
    cell_height_m: float
    x0_m: float
    y0_m: float
    values: tuple[tuple[float | None, ...], ...]
    target: float
    worst: float
    worst_at: tuple[float, float]
    worst_where: Saying
    unit: str


@dataclass(frozen=True, slots=True)
class Maps:
    """All maps of a plan."""

    coats: tuple[CoatMap, ...]
