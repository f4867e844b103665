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
class Appearance:
    """How the effect film differs over the side, from the film alone."""

    de_p95: float | None
    share_above_1: float | None
    worst_join: str | None
    label: str


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
