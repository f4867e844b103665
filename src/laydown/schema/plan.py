"""The plan: what laydown advises, coat by coat, and what there is to fear."""

from dataclasses import dataclass
from typing import Literal

from laydown.schema.choices import Extent, Reducer
from laydown.schema.clock import BakePlan, ClockLimit, Gate, Step
from laydown.schema.coat import Layer
from laydown.schema.colour import Appearance, ColourVerdict, HidingVerdict
from laydown.schema.figure import Figure
from laydown.schema.message import Finding, Message, Saying
from laydown.schema.side import Side
from laydown.schema.supplies import Cost, Mix


@dataclass(frozen=True, slots=True)
class Verdict:
    """The plan in a word: state, one sentence, and the codes of the findings behind it."""

    state: Literal["go", "caution", "stop"]
    text: Message
    because: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class AdjustmentRunnerUp:
    """The next best adjustment and why it was not taken."""

    reducer: Reducer
    water: float
    hardener: bool
    nozzle_mm: float
    why_not: Saying


@dataclass(frozen=True, slots=True)
class Adjustment:
    """Reducer, water (share of the base), hardener and nozzle [mm] of one layer, with the reason."""

    reducer: Reducer
    water: float
    hardener: bool
    nozzle_mm: float
    fixed_by_user: bool
    reason: Saying
    runner_up: AdjustmentRunnerUp | None


@dataclass(frozen=True, slots=True)
class Adjustments:
    """The adjustment of each layer."""

    ground: Adjustment
    effect: Adjustment
    clear: Adjustment


@dataclass(frozen=True, slots=True)
class Alternative:
    """What changes with one change: state, least margin [s], minutes and cost against the plan."""

    change: Message
    verdict: Literal["go", "caution", "stop"]
    margin_s: float | None
    wet_chance: float | None
    minutes: float
    cost: float | None
    text: Saying


@dataclass(frozen=True, slots=True)
class LimitsOfUse:
    """The air this plan is good for; outside it, plan again."""

    rh_low: float
    rh_high: float
    temperature_low_c: float
    temperature_high_c: float
    text: Saying


@dataclass(frozen=True, slots=True)
class Because:
    """One figure behind a decision.

    Attributes
    ----------
    name
        Name of the figure, such as "effect.open_s"; its suffix states the unit.
    value
        The figure in its house unit, or words.
    source
        Where it comes from.
    """

    name: Saying
    value: float | Saying
    source: Saying


@dataclass(frozen=True, slots=True)
class Explanation:
    """Why one item of a plan is as it is.

    Attributes
    ----------
    item
        What is explained, such as "e1.2" or "adjustment.effect".
    decision
        What the plan says, in one sentence.
    reason
        Why, in one or two sentences.
    figures
        The figures behind it, the weightiest first.
    runner_up
        The next best choice and why it was not taken; empty if there was none.
    sources
        Rules, papers and data sheets it rests on.
    """

    item: str
    decision: Saying
    reason: Saying
    figures: tuple[Because, ...]
    runner_up: Saying
    sources: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Program:
    """What made the plan: version and seed."""

    version: str
    seed: int


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
    reason: Saying


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
class DrySpray:
    """Overspray that lands on set paint, and on parts that are not painted [g]."""

    mass_g: float
    worst_join: str | None
    on_unpainted_g: float


@dataclass(frozen=True, slots=True)
class Assumption:
    """A figure nobody gave: which, its value and where the default comes from."""

    figure: str
    value: float | Saying
    source: Saying


@dataclass(frozen=True, slots=True)
class Caution:
    """A safety text by key."""

    key: str
    title: Saying
    text: Saying


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

    format: Literal["laydown-plan/2"]
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
