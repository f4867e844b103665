"""What changes with one change: reducer, water, nozzle, walking, a second painter, a spare cup, a cooler hour."""

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from laydown.physics.air import psat_pa
from laydown.planning.coat_plan import Ground
from laydown.planning.crew import Crew
from laydown.planning.join_nouns import state_of
from laydown.planning.layers import LayerResult
from laydown.planning.options import Option
from laydown.planning.process import Process
from laydown.planning.setup import Setup
from laydown.planning.walking import stride_chance
from laydown.planning.ways import Tightest, Way, way_of
from laydown.planning.wetting import conditions_of, films_of, wetting_of
from laydown.schema.advice import Alternative
from laydown.schema.job import Job
from laydown.schema.product import Kind

COOLER_K = 5.0
"""How much cooler the cooler hour is [K]; a choice."""

ADJUSTED: tuple[Kind, ...] = ("ground", "effect")
"""Layers whose adjustment laydown chooses; definition."""


@dataclass(frozen=True, slots=True)
class Result:
    """What a change leads to: tightest join of any layer, minutes of the coats with their flashes, number of joins."""

    chance: float
    spare_s: float
    minutes: float
    joins: int


def _together(parts: Sequence[Result]) -> Result:
    """The tightest of several layers; minutes add up."""
    return Result(
        min((part.chance for part in parts), default=1.0),
        min((part.spare_s for part in parts), default=math.inf),
        sum(part.minutes for part in parts),
        sum(part.joins for part in parts),
    )


def _of_option(layer: LayerResult, index: int) -> Result:
    """What one option of a layer leads to."""
    offer = layer.offer
    flash = float(offer.wetting.flash_s[index])
    return _result(offer.tightest(index), flash, len(layer.coats))


def _result(tightest: Tightest, flash_s: float, coats: int) -> Result:
    """The tightest join, and minutes of all coats with their flashes."""
    minutes = coats * (tightest.spray_s + min(flash_s, 7200.0)) / 60.0
    return Result(tightest.chance, tightest.spare_s, minutes, tightest.joins)


def _best_with(layer: LayerResult, wanted: Callable[[Option], bool]) -> int | None:
    """The best option of a layer that has a property, hardener as chosen."""
    offer = layer.offer
    total = offer.total()
    found = [
        index
        for index, option in enumerate(offer.options)
        if wanted(option) and option.hardener == layer.option.hardener and np.isfinite(total[index])
    ]
    return min(found, key=lambda index: float(total[index])) if found else None


def _again(layer: LayerResult, crew: Crew, open_s: float, flash_s: float) -> Result:
    """The chosen adjustment with another crew or in other air."""
    first = layer.coats[0].planned
    base = Ground(
        layer.task.field, layer.task.places, crew, layer.task.paint.density_g_ml, layer.conditions.open_ln_sd
    )
    task = replace(first.task, before=layer.task.before, walk=False)
    way: Way = way_of(base, task, (task.closed,), np.array([open_s]), backwards=layer.start.backwards)
    return _result(way.tightest(0), flash_s, len(layer.coats))


def _first_flash_s(layer: LayerResult) -> float:
    """Time to matt of the first coat with the chosen adjustment."""
    return float(layer.offer.wetting.flash_s[layer.choice.index])


def _walked(layer: LayerResult) -> Result:
    """The first coat walked in one stride."""
    planned = layer.coats[0].planned
    length = layer.task.field.x_to_m() - layer.task.field.x_from_m()
    stroke_s = length / planned.task.closed.speed_m_s
    chance, age = stride_chance(stroke_s, planned.task.open_s, layer.conditions.open_ln_sd, layer.task.crew)
    whole = float(planned.times.elapsed_s[0, 0, -1])
    minutes = len(layer.coats) * (whole + min(_first_flash_s(layer), 7200.0)) / 60.0
    return Result(chance, planned.task.open_s - age, minutes, 0)


def cooler(job: Job) -> Job:
    """Return the job in air some kelvin cooler: its water stays, so its relative humidity rises.

    Parameters
    ----------
    job
        The job.

    Returns
    -------
    The job with the air of a cooler hour and panels that follow it.

    Sources
    -------
    Conservation of water vapour; definition.
    """
    air = job.air
    warm = air.temperature_c.value
    cool = max(10.0, warm - COOLER_K)
    rh = min(0.95, air.rh.value * float(psat_pa(warm)) / float(psat_pa(cool)))
    changed = replace(
        air,
        temperature_c=replace(air.temperature_c, value=cool, low=None, high=None, source="a cooler hour"),
        rh=replace(air.rh, value=rh, low=None, high=None, source="the same water in cooler air"),
    )
    return replace(
        job, air=changed, surface=replace(job.surface, temperature_c=None, effect_temperature_c=None)
    )


def _in_cooler_air(setup: Setup, layer: LayerResult) -> Result:
    """The chosen adjustment in a cooler hour."""
    job = cooler(setup.job)
    first = layer.coats[0].planned.task
    paint = layer.task.paint
    conditions = conditions_of(job, paint, job.air.temperature_c.value)
    films = films_of([first.part], [first.closed])
    wetting = wetting_of([layer.option], films, paint, conditions, np.array([layer.task.base_um]))
    return _again(layer, setup.crew, float(wetting.open_s[0]), float(wetting.flash_s[0]))


@dataclass(frozen=True, slots=True)
class _Row:
    """One change with its result; None where the sheet or the shop does not allow it."""

    name: str
    result: Result | None
    needs: str = ""


def _has_nozzle(nozzle_mm: float) -> Callable[[Option], bool]:
    """Tell whether an option uses a nozzle."""
    return lambda option: abs(option.nozzle_mm - nozzle_mm) < 1e-9


def _option_rows(layers: Sequence[LayerResult], setup: Setup) -> list[_Row]:
    """Changes of the adjustment, read off what the search has tried already."""
    chosen = [layer.option for layer in layers]
    rows: list[_Row] = []

    def row(name: str, wanted: Callable[[Option], bool], needs: str = "") -> None:
        if all(wanted(option) for option in chosen):
            return
        found = [_best_with(layer, wanted) for layer in layers]
        parts = [
            _of_option(layer, index) for layer, index in zip(layers, found, strict=True) if index is not None
        ]
        if len(parts) == len(layers):
            rows.append(_Row(name, _together(parts), needs))

    row("standard reducer", lambda option: option.reducer == "standard")
    row("slow reducer", lambda option: option.reducer == "slow")
    row("no extra water", lambda option: option.water == 0.0)
    row("5 % water", lambda option: abs(option.water - 0.05) < 1e-9)
    row("10 % water", lambda option: abs(option.water - 0.10) < 1e-9)
    for nozzle in sorted({setup.job.gun.nozzle_mm, *setup.job.gun.nozzles_owned_mm}):
        row(f"nozzle {nozzle:g}", _has_nozzle(nozzle))
    return rows


def _other_rows(layers: Sequence[LayerResult], setup: Setup) -> list[_Row]:
    """Changes of crew, way and hour, searched anew with the chosen adjustment."""
    rows = []
    crew = setup.crew
    if not setup.job.job.can_walk:
        rows.append(
            _Row(
                "walk the length",
                _together([_walked(layer) for layer in layers]),
                "a painter who can, a hose that follows, a free aisle",
            )
        )
    if crew.painters == 1:
        two = replace(crew, painters=2)
        parts = [_again(layer, two, layer.coats[0].open_s, _first_flash_s(layer)) for layer in layers]
        rows.append(
            _Row("two painters", _together(parts), "a second gun of the same kind and one mixed batch")
        )
    if not setup.job.job.spare_cup and any(
        coat.planned.cut.refills for layer in layers for coat in layer.coats
    ):
        spare = replace(crew, refill_s=setup.job.job.spare_cup_s)
        parts = [_again(layer, spare, layer.coats[0].open_s, _first_flash_s(layer)) for layer in layers]
        rows.append(_Row("spare cup", _together(parts), "a second cup, filled and at hand"))
    if setup.job.air.temperature_c.value > 15.0:
        parts = [_in_cooler_air(setup, layer) for layer in layers]
        rows.append(_Row(f"an hour {COOLER_K:.0f} K cooler", _together(parts)))
    return rows


def _signed(value: float) -> str:
    """A difference with its sign; nothing where it rounds to nothing."""
    whole = round(value)
    return f"{whole:+d}" if whole else "0"


def _noun(row: _Row, before: Result) -> Alternative:
    """One row as a noun."""
    result = row.result
    if result is None:
        return Alternative(row.name, "stop", None, None, 0.0, None, "not possible")
    state = state_of(result.chance)
    minutes = result.minutes - before.minutes
    possible = math.isfinite(minutes)
    words = []
    if not possible:
        words.append("no possible sections")
    elif math.isfinite(result.spare_s) and math.isfinite(before.spare_s):
        words.append(f"tightest join {_signed(result.spare_s - before.spare_s)} s")
        if result.joins != before.joins:
            words.append(f"{result.joins} instead of {before.joins} joins")
    if possible:
        words.append(f"{_signed(minutes)} min")
    if row.needs:
        words.append(f"needs {row.needs}")
    return Alternative(
        row.name,
        "stop" if state == "late" or not possible else "care" if state == "hurry" else "go",
        result.spare_s if math.isfinite(result.spare_s) else None,
        result.chance,
        minutes if possible else 0.0,
        None,
        "; ".join(words),
    )


def alternatives_of(setup: Setup, process: Process) -> tuple[Alternative, ...]:
    """Return what each change would lead to, safest first.

    Parameters
    ----------
    setup, process
        The job and its plan.

    Returns
    -------
    Alternatives, judged like the plan itself by the tightest join of the first coat of ground and effect layer.

    Sources
    -------
    Each is searched; adjustments are read off what the search has tried.
    """
    wanted: Mapping[Kind, LayerResult] = process.layers
    layers = [wanted[name] for name in ADJUSTED if name in wanted]
    if not layers:
        return ()
    before = _together(
        [_again(layer, setup.crew, layer.coats[0].open_s, _first_flash_s(layer)) for layer in layers]
    )
    rows = _option_rows(layers, setup) + _other_rows(layers, setup)
    found = [_noun(row, before) for row in rows]
    return tuple(sorted(found, key=lambda one: (-(one.wet_chance or 0.0), one.minutes, one.change)))
