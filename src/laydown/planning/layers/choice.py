"""What every adjustment of a layer leads to, and which of them is chosen."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from laydown.physics.values import Floats
from laydown.planning.layers.adjustments import Option
from laydown.planning.layers.open_time import Wetting
from laydown.planning.setup.spraying import GunPass
from laydown.planning.setup.weights import SIMPLER_MINUTES, SIMPLER_SHARE, WEIGHTS


@dataclass(frozen=True, slots=True)
class Offer:
    """The options of a layer and what they lead to, each array of shape (n,)."""

    options: tuple[Option, ...]
    full: tuple[GunPass, ...]
    wetting: Wetting
    forward: Floats
    backward: Floats
    own: Floats

    def total(self) -> Floats:
        """Return minutes of work of each option with its better direction; definition."""
        return np.asarray(np.minimum(self.forward, self.backward) + self.own, np.float64)


@dataclass(frozen=True, slots=True)
class Choice:
    """What was chosen."""

    index: int
    runner_up: int | None
    kept_simple: bool
    gain: float


def own_cost(options: Sequence[Option], flash_s: Floats, coats: int, own_nozzle_mm: float) -> Floats:
    """Return what each adjustment costs by itself."""
    weights = WEIGHTS
    plain = [
        {"fast": weights.fast, "standard": 0.0, "slow": weights.slow}[option.reducer]
        + weights.water_square * option.water**2
        + weights.nozzle_step * abs(option.nozzle_mm - own_nozzle_mm) / 0.1
        + (weights.hardener if option.hardener else 0.0)
        for option in options
    ]
    waiting = weights.flash_minute * coats * np.minimum(flash_s, 7200.0) / 60.0
    return np.asarray(np.asarray(plain) + waiting, np.float64)


def departures(option: Option, own_nozzle_mm: float) -> int:
    """Return how many steps an adjustment lies from the plain one.

    Source: Common practice, no source.
    """
    water_steps = round(option.water / 0.05)
    if option.reducer == "slow":
        water_steps = max(0, water_steps - 1)
    return (
        (option.reducer != "standard")
        + water_steps
        + (abs(option.nozzle_mm - own_nozzle_mm) > 1e-9)
        + option.hardener
    )


def choose(offer: Offer, own_nozzle_mm: float) -> Choice:
    """Choose an option: the cheapest, or a simpler one where the gain is noise."""
    total = offer.total()
    order = np.argsort(total, kind="stable")
    best = int(order[0])
    if not np.isfinite(total[best]):
        return Choice(best, None, kept_simple=False, gain=0.0)
    slack = max(SIMPLER_MINUTES, SIMPLER_SHARE * float(total[best]))
    near = [int(index) for index in order if total[index] <= total[best] + slack]
    chosen = min(near, key=lambda index: (departures(offer.options[index], own_nozzle_mm), total[index]))
    others = [int(index) for index in order if index != chosen]
    runner_up = others[0] if others else None
    return Choice(chosen, runner_up, chosen != best, float(total[chosen] - total[best]))
