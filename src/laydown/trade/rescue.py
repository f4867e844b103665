"""Ways out of a defect at a stage: cheapest sound one first, carrying on always listed.

Sources: common practice, no source, unless a row of data/rescue.toml names another.
"""

import math
from dataclasses import replace

from laydown.schema.figure import Spread
from laydown.schema.message import Message, message
from laydown.schema.rescue import (
    DefectKey,
    LayerFigures,
    RescueContext,
    RescueTable,
    Soundness,
    Stage,
    Way,
    WayOut,
)
from laydown.trade.side.reach import LEAST_FADE_M
from laydown.trade.times.clocks import RECOAT_MAX_S

LATE_WAY = "scuff and one more"
"""Key of the way past the longest time to the clear; printed mid-coat sheets."""

WORK_SHARE = 0.15
"""Middle 90 % of a coat's time to either side, as a share; assumption."""

SECONDS_PER_MINUTE = 60.0
"""Definition."""

_RANK: dict[Soundness, int] = {"sound": 0, "risky": 1, "not possible": 2}


def ways_out(
    defect: DefectKey, stage: Stage, context: RescueContext, table: RescueTable
) -> tuple[WayOut, ...]:
    """Return the ways out of a defect, the cheapest sound one first.

    Parameters
    ----------
    defect
        What is wrong.
    stage
        When it is found.
    context
        Figures of the job.
    table
        Faults and ways.

    Returns
    -------
    Sound ways by price, then risky ones, then what is not possible and why. Carrying on is always there, once, and the
    last of its kind.

    Raises
    ------
    KeyError
        If the table does not know the defect.

    Notes
    -----
    Past the longest time to the clear, 24 h where the sheet is silent, the effect coat is scuffed and gets one
    more coat; every way that leaves it bare is then not possible.
    """
    keys = list(table.defects[defect].ways[stage])
    late = stage == "effect_dry" and is_late(context)
    if late and LATE_WAY not in keys:
        keys.insert(0, LATE_WAY)
    found = [_way_out(table.ways[key], stage, context, table, late=late) for key in keys]
    return tuple(sorted(found, key=_order))


def is_late(context: RescueContext) -> bool:
    """Return whether the longest time from the effect coat to the clear has passed."""
    limit = context.recoat_max_s if context.recoat_max_s is not None else RECOAT_MAX_S
    return context.effect_age_s > limit


def _order(way: WayOut) -> tuple[int, bool, float, float]:
    """Sound before risky, carrying on last of its kind, then price, then time."""
    return _RANK[way.soundness], way.carry_on, sum(way.price_factor), way.minutes.value


def _way_out(way: Way, stage: Stage, context: RescueContext, table: RescueTable, *, late: bool) -> WayOut:
    """One way with the figures of the job."""
    seconds, grams = _effort(way, stage, context, table)
    price = table.prices[way.price]
    judged = _judged(way, context, late=late)
    needs = way.needs if way.reach != "spot" else (*way.needs, _run_out(context))
    return WayOut(
        way.key,
        judged.text,
        Spread(*(one / SECONDS_PER_MINUTE for one in (seconds.value, seconds.low, seconds.high))),
        grams,
        way.ground_coats,
        way.effect_coats,
        judged.consequence,
        judged.soundness,
        (price.low, price.high),
        needs,
        way.carry_on,
        way.source,
    )


def _run_out(context: RescueContext) -> Message:
    """How far the paint over a spot must run."""
    if context.spot_count > 1:
        return message("need.run-out-of-many", fade_m=LEAST_FADE_M)
    return message("need.run-out", fade_m=LEAST_FADE_M)


def _judged(way: Way, context: RescueContext, *, late: bool) -> Way:
    """The way as it stands in this job: hardener, window and number of spots."""
    if way.hardened and not context.ground_hardened:
        return replace(way, soundness="not possible", consequence=message("way-without-hardener"))
    restarts = way.hardened or way.ground_coats > 0.0
    if late and way.key != LATE_WAY and not restarts and way.soundness != "not possible":
        return replace(way, soundness="not possible", consequence=message("way-too-late"))
    if way.reach == "spot" and way.effect_coats > 0.0 and context.spot_count > 1:
        return replace(way, soundness="risky", consequence=message("way-with-patches", then=way.consequence))
    return way


def _effort(way: Way, stage: Stage, context: RescueContext, table: RescueTable) -> tuple[Spread, float]:
    """Seconds on the clock and grams of a way; spreads of its parts add in squares."""
    layer, _, state = stage.partition("_")
    # Nobody waits for a layer that is dry already.
    work = [name for name in way.work if not (state == "dry" and name == f"flash {layer}")]
    parts = [_part(name, stage, context, table) for name in work]
    value = sum(one.value for one, _ in parts)
    low = math.sqrt(sum((one.value - one.low) ** 2 for one, _ in parts))
    high = math.sqrt(sum((one.high - one.value) ** 2 for one, _ in parts))
    return Spread(value, value - low, value + high), sum(grams for _, grams in parts)


def _part(name: str, stage: Stage, context: RescueContext, table: RescueTable) -> tuple[Spread, float]:
    """One piece of work: by hand, or a coat, a flash, a bake of the job."""
    if name in table.works:
        hand = table.works[name]
        return Spread(hand.value_s, hand.low_s, hand.high_s), 0.0
    if name == "dehydrate":
        return _around(context.dehydrate_s, 0.4), 0.0
    if name == "bake":
        return _around(context.bake_s, WORK_SHARE), 0.0
    word, _, rest = name.partition(" ")
    if word == "flash":
        return _layer(stage.partition("_")[0] if rest == "here" else rest, context).flash_s, 0.0
    if word == "all":
        layer = _layer(rest.removesuffix(" coats"), context)
        return _coats(layer, max(layer.coats, 0.5), context.region_share)
    layer = _layer(name.removesuffix(" coat").removeprefix("half "), context)
    return _coats(layer, 0.5 if word == "half" else 1.0, context.region_share)


def _layer(name: str, context: RescueContext) -> LayerFigures:
    """Figures of a layer; after the bake those of the clear."""
    return {"ground": context.ground, "effect": context.effect}.get(name, context.clear)


def _coats(layer: LayerFigures, coats: float, share: float) -> tuple[Spread, float]:
    """Some coats over the region: sprayed for its share, flashed as long as ever."""
    spray = layer.coat_s * coats * share
    flashes = math.ceil(coats)
    flash = layer.flash_s
    low = math.hypot(spray * WORK_SHARE, flashes * (flash.value - flash.low))
    high = math.hypot(spray * WORK_SHARE, flashes * (flash.high - flash.value))
    value = spray + flashes * flash.value
    return Spread(value, max(0.0, value - low), value + high), layer.coat_g * coats * share


def _around(value_s: float, share: float) -> Spread:
    """A time with a share to either side."""
    return Spread(value_s, value_s * (1.0 - share), value_s * (1.0 + share))
