"""What laydown advises and how sure it is: adjustment, counts, alternatives, limits of use."""

from dataclasses import dataclass
from typing import Literal

from laydown.schema.choices import Reducer


@dataclass(frozen=True, slots=True)
class Verdict:
    """The plan in a word: state, one sentence, and the codes of the findings behind it."""

    state: Literal["go", "care", "stop"]
    text: str
    because: tuple[str, ...]


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
