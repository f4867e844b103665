"""The plan: what laydown advises, coat by coat, and what there is to fear."""

from dataclasses import dataclass
from typing import Literal

from laydown.schema.figure import Figure, Spread
from laydown.schema.finding import Finding
from laydown.schema.job import Extent, Reducer
from laydown.schema.product import Kind
from laydown.schema.side import Point, Side

JoinState = Literal["wet", "hurry", "late"]
"""wet: chance 0.90 or more that the edge is still open; hurry: 0.50 or more; late: less."""

Part = Literal["closed", "light", "full", "control"]
"""closed: one closed wet pass; light: a lighter one from farther away; full: both, section by section."""

FeatureKind = Literal["gap", "arch", "pillar", "moulding", "body_line", "open"]
"""What lies at a join."""


@dataclass(frozen=True, slots=True)
class Program:
    """What made the plan: version and seed."""

    version: str
    seed: int


@dataclass(frozen=True, slots=True)
class Verdict:
    """The plan in a word: state, one sentence, and the codes of the findings behind it."""

    state: Literal["go", "care", "stop"]
    text: str
    because: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PlannedPanel:
    """One panel: area [m²], how far each layer reaches, fade length [m] and why."""

    name: str
    id: str
    area_m2: float
    ground: Extent
    effect: Extent
    clear: Extent
    fade_m: float | None
    proposed: bool
    reason: str


@dataclass(frozen=True, slots=True)
class PlannedSide:
    """The side that is planned: shape, area that is touched [m²], panels and the outline for pictures."""

    shape: str
    side: Literal["left", "right"]
    status: str
    area_m2: float
    panels: tuple[PlannedPanel, ...]
    outline: Side


@dataclass(frozen=True, slots=True)
class AdjustmentRunnerUp:
    """The next best adjustment and why it was not taken."""

    reducer: Reducer
    water: float
    hardener: bool
    nozzle_mm: float
    why_not: str


@dataclass(frozen=True, slots=True)
class Adjustment:
    """Reducer, water (share of the base), hardener and nozzle [mm] of one layer, with the reason."""

    reducer: Reducer
    water: float
    hardener: bool
    nozzle_mm: float
    fixed_by_user: bool
    reason: str
    runner_up: AdjustmentRunnerUp | None


@dataclass(frozen=True, slots=True)
class Adjustments:
    """The adjustment of each layer."""

    ground: Adjustment
    effect: Adjustment
    clear: Adjustment


ColourWord = Literal[
    "ground_unchecked",
    "ground_wrong",
    "beyond_panel",
    "below_ground",
    "no_fit",
    "either",
    "undecided",
    "clear",
    "no_panel",
]
"""What is known of the number of effect coats."""


@dataclass(frozen=True, slots=True)
class ColourVerdict:
    """How many effect coats, and how sure that is."""

    verdict: ColourWord
    effect_coats: float | None
    low: float
    high: float
    provisional: bool
    reason: str
    next_step: str


@dataclass(frozen=True, slots=True)
class HidingVerdict:
    """How many ground coats hide, and from which coat on the painter sprays blind."""

    ground_coats: float
    low: float
    high: float
    blind_from_coat: int | None
    worst_panel: str
    steps_de: tuple[float, ...]
    reason: str


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
    why_not: str


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
    spare_s
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
    spare_s: Spread
    state: JoinState
    wet_chance: float
    moved_m: float | None
    reason: str
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

    name: Literal["closed", "light", "control"]
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
        Spread of the film, and share of the area whose closed pass stays below the closed film.
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
    direction: str
    start: str
    start_at: Point
    passes: tuple[Pass, ...]
    sections: tuple[Section, ...]
    joins: tuple[Join, ...]
    refills: tuple[Refill, ...]
    balance: Balance
    reason: str


@dataclass(frozen=True, slots=True)
class Layer:
    """One layer: its product, its coats and the panel temperature it is sprayed on [°C]."""

    name: Kind
    product: str
    panel_c: Spread
    coats: tuple[Coat, ...]


@dataclass(frozen=True, slots=True)
class Appearance:
    """How the effect film differs over the side, from the film alone."""

    de_p95: float | None
    share_above_1: float | None
    worst_join: str | None
    label: str


@dataclass(frozen=True, slots=True)
class DrySpray:
    """Overspray that lands on set paint, and on parts that are not painted [g]."""

    mass_g: float
    worst_join: str | None
    on_unpainted_g: float


@dataclass(frozen=True, slots=True)
class PourLine:
    """One line of the pour sheet: its own step and the running total the scale shows [g]."""

    name: str
    role: str
    step_g: float
    running_g: float


@dataclass(frozen=True, slots=True)
class WaterReading:
    """One way to read "x % water": percent of what, and the grams it gives [g]."""

    reading: str
    water_g: float


@dataclass(frozen=True, slots=True)
class Mix:
    """One mix for one layer.

    Attributes
    ----------
    layer, product
        What it is for.
    need_ml, mix_ml, mix_g
        Paint the coats need, and what is mixed with reserve.
    lines
        The pour sheet, cumulative.
    pot_life_s
        Life of the mix at the booth's temperature [s]; None = not on the sheet.
    least_mix_g
        Least amount that can be weighed within tolerance [g].
    voc_material_g_l, voc_regulatory_g_l
        Estimates by both definitions; None = not computable.
    ask
        A question to the data sheet that changes the grams; empty if none.
    readings
        The possible readings of that question.
    """

    layer: Kind
    product: str
    need_ml: float
    mix_ml: float
    mix_g: float
    density_g_ml: float
    lines: tuple[PourLine, ...]
    pot_life_s: float | None
    least_mix_g: float
    left_over_ml: Spread
    voc_material_g_l: float | None
    voc_regulatory_g_l: float | None
    ask: str
    readings: tuple[WaterReading, ...]


@dataclass(frozen=True, slots=True)
class Step:
    """One step on the clock, seconds from the start; low and high are the middle 90 % of its end."""

    id: str
    kind: Literal[
        "prepare",
        "mix",
        "spray",
        "flash",
        "check",
        "release",
        "dehydrate",
        "bake",
        "cool",
        "unmask",
        "polish",
    ]
    layer: Kind | None
    coat: int | None
    start_s: float
    end_s: float
    low_end_s: float
    high_end_s: float
    needs: tuple[str, ...]
    where: Literal["booth", "mixing room", "outside"]
    text: str


@dataclass(frozen=True, slots=True)
class Gate:
    """A check before a step that cannot be taken back."""

    id: str
    before: str
    ask: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class BakePlan:
    """The bake: metal temperature [°C], hold [s], slowest part, when it gets there [s], and how sure that is."""

    metal_c: float
    hold_s: float
    air_c: float
    slowest_part: str
    reaches_s: float | None
    verdict: Literal["measured", "estimated", "guess", "never reached", "ask the vehicle maker", "not needed"]
    text: str


@dataclass(frozen=True, slots=True)
class ClockLimit:
    """A clock that runs out: what it limits, which step starts it, seconds and source."""

    kind: Literal["pot_life", "recoat_max", "clearance", "polish_from"]
    starts: str
    limit_s: float | None
    source: str


@dataclass(frozen=True, slots=True)
class Cost:
    """The job's cost from the user's own prices; what has no price is listed under missing."""

    currency: str
    materials: float | None
    booth: float | None
    labour: float | None
    redo: float | None
    total: float | None
    missing: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Alternative:
    """What changes with one change: state, least spare time [s], minutes and cost against the plan."""

    change: str
    verdict: Literal["go", "care", "stop"]
    spare_s: float | None
    wet_chance: float | None
    minutes: float
    cost: float | None
    text: str


@dataclass(frozen=True, slots=True)
class LimitsOfUse:
    """The air this plan is good for; outside it, plan again."""

    rh_low: float
    rh_high: float
    temperature_low_c: float
    temperature_high_c: float
    text: str


@dataclass(frozen=True, slots=True)
class Assumption:
    """A figure nobody gave: which, its value and where the default comes from."""

    figure: str
    value: float | str
    source: str


@dataclass(frozen=True, slots=True)
class Caution:
    """A safety text by key."""

    key: str
    title: str
    text: str


@dataclass(frozen=True, slots=True)
class Inputs:
    """The inputs a person may doubt, with spread and source."""

    job: str
    painter: str
    painters: int
    invented: bool
    air: dict[str, Figure]
    gun: dict[str, Figure]
    surface: dict[str, Figure]
    ready_by: str | None


@dataclass(frozen=True, slots=True)
class Plan:
    """The plan document."""

    format: Literal["laydown-plan/1"]
    id: str
    program: Program
    made_at: str | None
    verdict: Verdict
    inputs: Inputs
    side: PlannedSide
    adjustment: Adjustments
    colour: ColourVerdict
    hiding: HidingVerdict
    layers: tuple[Layer, ...]
    appearance: Appearance
    dry_spray: DrySpray
    mixes: tuple[Mix, ...]
    timeline: tuple[Step, ...]
    gates: tuple[Gate, ...]
    bake: BakePlan
    clocks: tuple[ClockLimit, ...]
    cost: Cost
    alternatives: tuple[Alternative, ...]
    limits_of_use: LimitsOfUse
    findings: tuple[Finding, ...]
    assumptions: tuple[Assumption, ...]
    cautions: tuple[str, ...]
    safety: tuple[Caution, ...]
