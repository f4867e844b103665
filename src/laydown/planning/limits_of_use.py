"""The air a plan is good for: outside it, plan again."""

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from laydown.physics.film import HEAVIEST_G_M2, arrive, dry
from laydown.physics.film_course import matt_time_s, open_time_s
from laydown.physics.hand import age_spread, wet_chance
from laydown.planning.layers import LayerResult
from laydown.planning.options import water_on_mix
from laydown.planning.setup import Setup
from laydown.planning.weights import WET_CHANCE
from laydown.planning.wetting import EDGE_SHARE
from laydown.schema.advice import LimitsOfUse
from laydown.trade.paint_class import ready_mix

Floats = NDArray[np.float64]

SLOWER = 1.5
"""How many times longer than planned a flash may take before the plan is made anew; a choice."""

QUICKER = 0.80
"""Share of the planned open time that must be left, even where every join is wet by far; a choice."""

LESS_SURE = 0.10
"""By how much the chance of the tightest join may fall below what it is, or below wet, before the plan is made anew."""

_TEMPERATURE_STEPS_K = np.arange(-10.0, 10.5, 0.5)
_RH_STEPS = np.arange(-0.40, 0.405, 0.01)


def _good(layer: LayerResult, temperature_c: Floats, rh: Floats) -> NDArray[np.bool_]:
    """Where a layer's first coat keeps the state of its joins and its flash, shape (n,)."""
    first = layer.coats[0].planned
    count = len(temperature_c)
    both_t, both_rh = np.tile(temperature_c, 2), np.tile(rh, 2)
    mix = ready_mix(
        layer.option.reducer,
        water_on_mix(layer.task.paint, layer.option.water),
        activated=layer.option.hardener,
    )
    still = replace(
        layer.conditions.still,
        temperature_c=both_t,
        rh=both_rh,
        panel_start_c=np.clip(
            layer.conditions.still.panel_start_c + both_t - layer.conditions.still.temperature_c, 0.0, 70.0
        ),
        base_um=layer.task.base_um,
    )
    edge = min(HEAVIEST_G_M2, first.work.passes[0][0].film_g_m2() * EDGE_SHARE)
    whole = min(HEAVIEST_G_M2, sum(setting.film_g_m2() for setting, _ in first.work.passes))
    course = dry(np.repeat([edge, whole], count), arrive(mix, layer.conditions.loss_share), still)
    opening = open_time_s(course)[:count]
    matt = matt_time_s(course)[count:]
    here = int(
        np.argmin(
            np.abs(temperature_c - layer.conditions.still.temperature_c) * 100.0
            + np.abs(rh - layer.conditions.still.rh)
        )
    )
    good = (matt <= SLOWER * matt[here]) & (opening >= QUICKER * opening[here])
    ages = np.array([join.age_s for join in first.joined.joins if np.isfinite(join.age_s)])
    if ages.size:
        spread = age_spread(layer.task.crew.hand, 10.0, layer.conditions.open_ln_sd)
        chance = wet_chance(np.array([ages.max()]), np.clip(opening, 1e-3, 1e6), spread, layer.task.crew.hand)
        good &= chance >= min(float(chance[here]), WET_CHANCE) - LESS_SURE
    return np.asarray(good, bool)


def _around(values: Floats, good: NDArray[np.bool_], here: float) -> tuple[float, float]:
    """Ends of the unbroken good range about a value."""
    at = int(np.argmin(np.abs(values - here)))
    low = high = at
    while low > 0 and good[low - 1]:
        low -= 1
    while high + 1 < len(values) and good[high + 1]:
        high += 1
    return float(values[low]), float(values[high])


def limits_of_use(setup: Setup, layers: list[LayerResult]) -> LimitsOfUse:
    """Return the air in which a plan holds.

    Parameters
    ----------
    setup
        The job and the sheets.
    layers
        Layers of waterborne paint.

    Returns
    -------
    Ranges of temperature at the job's humidity and of humidity at its temperature, within what the sheets allow:
    the tightest join stays about as sure as it is, the open time does not fall below 80 % and the flash does not pass
    1.5 times the plan.

    Sources
    -------
    ``laydown.physics.film``; the factors are choices.
    """
    air = setup.job.air
    temperature, rh = air.temperature_c.value, min(air.rh.value, 0.97)
    temperatures = np.round(temperature + _TEMPERATURE_STEPS_K, 2)
    temperatures = temperatures[(temperatures >= 5.0) & (temperatures <= 45.0)]
    shares = np.round(rh + _RH_STEPS, 4)
    shares = shares[(shares >= 0.02) & (shares <= 0.97)]
    grid_t = np.concatenate([temperatures, np.full(len(shares), temperature)])
    grid_rh = np.concatenate([np.full(len(temperatures), rh), shares])
    good = np.ones(len(grid_t), bool)
    for layer in layers:
        good &= _good(layer, grid_t, grid_rh)
    count = len(temperatures)
    low_t, high_t = _around(temperatures, good[:count], temperature)
    low_rh, high_rh = _around(shares, good[count:], rh)
    for layer in layers:
        allowed = layer.task.paint.product.allowed
        low_t, high_t = (
            max(low_t, min(allowed.temperature_low_c, temperature)),
            min(high_t, max(allowed.temperature_high_c, temperature)),
        )
        low_rh, high_rh = max(low_rh, min(allowed.rh_low, rh)), min(high_rh, max(allowed.rh_high, rh))
    text = (
        f"plan again when the air is below {low_t:.1f} °C or above {high_t:.1f} °C, or below {low_rh * 100:.0f} or above "
        f"{high_rh * 100:.0f} % humidity"
    )
    return LimitsOfUse(low_rh, high_rh, low_t, high_t, text)
