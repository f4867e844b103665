"""What there is to fear of air, drying, cooling and start."""

import math
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from laydown.physics.film.course import matt_time_s, open_time_s
from laydown.physics.film.wet_film import HEAVIEST_G_M2, arrive, dry
from laydown.physics.spray.hand import age_spread, wet_chance
from laydown.physics.values import Floats
from laydown.planning.layers.adjustments import water_on_mix
from laydown.planning.layers.layer import LayerResult
from laydown.planning.layers.open_time import EDGE_SHARE
from laydown.planning.process.process import Process
from laydown.planning.setup.setup import Setup
from laydown.planning.setup.weights import WET_CHANCE
from laydown.schema.message import Finding, Name, Range, message
from laydown.schema.plan import LimitsOfUse
from laydown.trade.mixing.paint_classes import ready_mix

BLOW_WARM_C = Range(35.0, 40.0)
"""Air of the blowers that drives water and co-solvent out [°C]; common practice, no source."""

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
    """Return the air in which a plan holds."""
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
    text = message("limits-of-use", low_c=low_t, high_c=high_t, low_rh=low_rh, high_rh=high_rh)
    return LimitsOfUse(low_rh, high_rh, low_t, high_t, text)


def process_findings(setup: Setup, process: Process) -> list[Finding]:
    """Return what there is to fear of air, drying and cooling.

    Source: The sheets; dew point rule of ISO 8502-4, second hand.
    """
    return [
        *_air_findings(setup, process),
        *_drying_findings(setup, process),
        *_cooling_findings(setup, process),
        *(one for layer in process.layers.values() for one in _start_findings(layer)),
    ]


def _air_findings(setup: Setup, process: Process) -> list[Finding]:
    """Air outside a sheet."""
    found: list[Finding] = []
    job = setup.job
    air = job.air
    for name, paint in setup.paints.items():
        allowed = paint.product.allowed
        inside_t = allowed.temperature_low_c <= air.temperature_c.value <= allowed.temperature_high_c
        inside_rh = allowed.rh_low - 1e-9 <= air.rh.value <= allowed.rh_high + 1e-9
        if name in process.layers and not (inside_t and inside_rh):
            found.append(
                Finding(
                    "stop",
                    "air-outside-sheet",
                    f"{name}.air",
                    message(
                        "air-outside-sheet",
                        temperature_c=air.temperature_c.value,
                        rh=air.rh.value,
                        product=Name(paint.product.key),
                    ),
                    message(
                        "air-outside-sheet.why",
                        allowed_c=Range(allowed.temperature_low_c, allowed.temperature_high_c),
                        allowed_rh=Range(allowed.rh_low, allowed.rh_high),
                    ),
                    (message("do.into-the-range"), message("do.another-hour"), message("do.ask-supplier")),
                )
            )
    return found


def _drying_findings(setup: Setup, process: Process) -> list[Finding]:
    """Coats that do not get dry."""
    found: list[Finding] = []
    air = setup.job.air
    for name in ("ground", "effect"):
        layer = process.layers.get(name)
        if layer is not None and not all(math.isfinite(coat.flash_s) for coat in layer.coats):
            found.append(
                Finding(
                    "stop",
                    "never-matt",
                    name,
                    message("never-matt", layer=name),
                    message("never-matt.why", rh=air.rh.value),
                    tuple(map(message, ("do.warm-booth", "do.blowers", "do.thinner-coats", "do.drier-hour"))),
                )
            )
    if not math.isfinite(process.dehydrate_s):
        found.append(
            Finding(
                "stop",
                "never-dehydrated",
                "effect",
                message("never-dehydrated"),
                message("never-dehydrated.why", temperature_c=air.temperature_c.value, rh=air.rh.value),
                (
                    message("do.blow-warm", blower_c=BLOW_WARM_C),
                    message("do.thinner-coats"),
                    message("do.drier-hour"),
                ),
            )
        )
    return found


def _cooling_findings(setup: Setup, process: Process) -> list[Finding]:
    """A panel that is not ready for the effect coat."""
    found: list[Finding] = []
    air = setup.job.air
    cooling = process.cooling
    if cooling is not None and not cooling.gate.open:
        found.append(
            Finding(
                "stop",
                "panel-not-ready",
                "effect",
                message("panel-not-ready", reasons=cooling.gate.reasons),
                cooling.text,
                tuple(map(message, ("do.wait-cool", "do.move-air", "do.measure-panel"))),
            )
        )
    elif cooling is not None and cooling.surface_c > air.temperature_c.value + 5.0:
        found.append(
            Finding(
                "caution",
                "panel-warm",
                "effect",
                message("panel-warm", warmer_k=cooling.surface_c - air.temperature_c.value),
                cooling.text,
                (message("do.cool-to-air"),),
            )
        )
    return found


def _start_findings(layer: LayerResult) -> list[Finding]:
    """A start the user named that this layer does not have."""
    if not layer.start.unknown:
        return []
    name = layer.task.paint.product.kind
    known = tuple(Name(place.id) for place in layer.task.places if place.kind != "open")
    return [
        Finding(
            "caution",
            "start-unknown",
            name,
            message("start-unknown", start=Name(layer.start.unknown), layer=name),
            message("start-unknown.why", features=known),
            (message("do.name-a-feature"),),
        )
    ]
