"""Steps on the clock, gates, the bake and the clocks that run out."""

from dataclasses import dataclass
from typing import Literal

from laydown.schema.message import Saying
from laydown.schema.product import LayerName


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
    layer: LayerName | None
    coat: int | None
    start_s: float
    end_s: float
    low_end_s: float
    high_end_s: float
    needs: tuple[str, ...]
    where: Literal["booth", "mixing room", "outside"]
    text: Saying


@dataclass(frozen=True, slots=True)
class Gate:
    """A check before a step that cannot be taken back."""

    id: str
    before: str
    ask: tuple[Saying, ...]


@dataclass(frozen=True, slots=True)
class BakePlan:
    """The bake: metal temperature [°C], hold [s], slowest part, when it gets there [s], and how sure that is."""

    metal_c: float
    hold_s: float
    air_c: float
    slowest_part: str
    reaches_s: float | None
    verdict: Literal["measured", "estimated", "guess", "never reached", "ask the vehicle maker", "not needed"]
    text: Saying


@dataclass(frozen=True, slots=True)
class ClockLimit:
    """A clock that runs out: what it limits, which step starts it, seconds and source."""

    kind: Literal["pot_life", "recoat_max", "clearance", "polish_from"]
    starts: str
    limit_s: float | None
    source: Saying
