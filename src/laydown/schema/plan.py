"""The plan: what laydown advises, coat by coat, and what there is to fear."""

from dataclasses import dataclass
from typing import Literal

from laydown.schema.advice import (
    Adjustments,
    Alternative,
    LimitsOfUse,
    Verdict,
)
from laydown.schema.clock import BakePlan, ClockLimit, Gate, Step
from laydown.schema.coat import Layer
from laydown.schema.colour import Appearance, ColourVerdict, HidingVerdict
from laydown.schema.figure import Figure
from laydown.schema.finding import Finding
from laydown.schema.panel import Extent
from laydown.schema.side import Side
from laydown.schema.supplies import Cost, Mix


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
class DrySpray:
    """Overspray that lands on set paint, and on parts that are not painted [g]."""

    mass_g: float
    worst_join: str | None
    on_unpainted_g: float


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
