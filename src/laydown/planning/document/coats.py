"""Planned layers as nouns."""

import itertools
import math

import numpy as np

from laydown.physics.spray.strokes import Strokes
from laydown.planning.document.joins import join_nouns, spread_of
from laydown.planning.layers.layer import CoatResult, LayerResult
from laydown.planning.layers.open_time import LONGEST_S
from laydown.planning.process.process import Process
from laydown.planning.sections.coat import PlannedCoat
from laydown.planning.setup.setup import Setup
from laydown.planning.setup.spraying import GunPass
from laydown.planning.setup.weights import CUP_SHARE
from laydown.schema.coat import Coat, Layer, Pass, Refill, Section
from laydown.schema.figure import Spread
from laydown.schema.message import Name, message
from laydown.schema.product import LayerName
from laydown.schema.side import Point, Side

DRAWN_ROWS = 6
"""Rows of a section that a picture shows at most; a choice."""

INSET_M = 0.05
"""How far drawn strokes stay inside their ends, so that neighbouring sections do not touch [m]; a choice."""

_Run = tuple[float, float, float]
"""Left end, right end and height of one drawn stroke [m]."""


def _chains(strokes: Strokes, girth: float) -> list[list[_Run]]:
    """Strokes of a few rows, linked upward where they lie over one another."""
    rows = np.unique(strokes.centre_m)
    keep = rows[np.unique(np.linspace(0, len(rows) - 1, min(DRAWN_ROWS, len(rows))).round().astype(int))]
    chains: list[list[_Run]] = []
    for centre in keep:
        for index in np.flatnonzero(strokes.centre_m == centre):
            left, right = float(strokes.left_m[index]) + INSET_M, float(strokes.right_m[index]) - INSET_M
            if right - left < INSET_M:
                continue
            run = (left, right, float(centre) / girth)
            best = max(chains, key=lambda chain: _overlap(chain[-1], run), default=None)
            linked = best is not None and best[-1][2] < run[2] and _overlap(best[-1], run) > 0.6
            if linked and best is not None:
                best.append(run)
            else:
                chains.append([run])
    return chains


def _overlap(one: _Run, other: _Run) -> float:
    """Overlap of two strokes along the vehicle over the longer of them."""
    common = min(one[1], other[1]) - max(one[0], other[0])
    return common / max(one[1] - one[0], other[1] - other[0])


def _drawn(strokes: Strokes, girth: float) -> tuple[tuple[Point, ...], ...]:
    """The way of the first pass, thinned to a few rows, as serpentines (x_m, y_m)."""
    lines = []
    for chain in _chains(strokes, girth):
        ahead = bool(strokes.ahead[0] > 0)
        line: list[Point] = []
        for left, right, y in chain:
            ends = [(round(left, 3), round(y, 3)), (round(right, 3), round(y, 3))]
            line += ends if ahead else ends[::-1]
            ahead = not ahead
        lines.append(tuple(line))
    return tuple(lines)


def section_nouns(
    planned: PlannedCoat, side: Side, reach_m: float, density_g_ml: float
) -> tuple[Section, ...]:
    """Return the sections of a coat."""
    strokes = planned.made.strokes
    sprayed = strokes.sprayed_g()
    fills = dict(_fills(planned, density_g_ml))
    cup = fills[-1]
    found = []
    for index, used in enumerate(planned.made.cup_g):
        mine = strokes.only(strokes.section == index)
        first = mine.only(mine.light == mine.light.min())
        # Only where no sections are possible is more asked of the cup than it holds.
        cup = cup - used if math.isfinite(planned.cut.cost) else max(0.0, cup - used)
        low, high = sorted(
            float(planned.reach.x_m[bound]) for bound in planned.work.bounds[index : index + 2]
        )
        top = float(first.centre_m.max()) / side.girth
        found.append(
            Section(
                index + 1,
                _panels(planned, side, index),
                low,
                high,
                float(mine.duration_s().sum()),
                planned.made.end_s[index] - planned.made.begin_s[index],
                float(sprayed[strokes.section == index].sum()),
                cup,
                planned.work.passes[0][0].overlap,
                _drawn(first, side.girth),
                top > reach_m,
            )
        )
        if index in fills:
            cup = fills[index]
    return tuple(found)


def _panels(planned: PlannedCoat, side: Side, index: int) -> tuple[str, ...]:
    """Labels of the panels a section lies on, most of it first; a sliver below 8 % is left out."""
    field = planned.work.field
    ends = [float(planned.reach.x_m[bound]) for bound in planned.work.bounds[index : index + 2]]
    low, high = min(ends), max(ends)
    skin = field.skin
    first = max(0, round((low - skin.x0_m) / skin.cell_m))
    cut = slice(first, max(first + 1, round((high - skin.x0_m) / skin.cell_m)))
    found = field.panel[:, cut][field.mask[:, cut]]
    counts = np.bincount(found[found >= 0], minlength=len(side.panels))
    order = np.argsort(-counts, kind="stable")
    return tuple(side.panels[int(one)].label for one in order if counts[one] > 0.08 * counts.sum())


def _fills(planned: PlannedCoat, density_g_ml: float) -> list[tuple[int, float]]:
    """What goes into the cup at the start (-1) and after each refill: what is needed until the next, and a reserve."""
    cups = planned.made.cup_g
    full = float(planned.board.cup_g[0]) / CUP_SHARE
    stops = [-1, *planned.work.refill_after, len(cups) - 1]
    fills = []
    for before, last in itertools.pairwise(stops):
        need = math.fsum(cups[before + 1 : last + 1])
        fills.append((before, min(full, need * 1.10 + 30.0 * density_g_ml)))
    return fills


def first_fill_g(planned: PlannedCoat, density_g_ml: float) -> float:
    """Return what the cup weighs at the start of a coat, less its own weight [g]."""
    return _fills(planned, density_g_ml)[0][1]


def refill_nouns(planned: PlannedCoat, density_g_ml: float) -> tuple[Refill, ...]:
    """Return the refills of a coat.

    Source: The search; reserve of 10 % and 30 mL in the gun: common practice, no source.
    """
    fills = dict(_fills(planned, density_g_ml))
    return tuple(
        Refill(
            index + 1,
            planned.reach.places[planned.work.bounds[index + 1] - 1].label,
            planned.work.refill_s,
            fills[index],
        )
        for index in planned.work.refill_after
    )


LAYERS: tuple[LayerName, ...] = ("ground", "effect", "clear")
"""Layers in the order they are sprayed; definition."""


def layer_nouns(setup: Setup, process: Process) -> tuple[Layer, ...]:
    """Return the layers of a plan."""
    return tuple(_layer(setup, process.layers[name]) for name in LAYERS if name in process.layers)


def _layer(setup: Setup, result: LayerResult) -> Layer:
    """One layer."""
    product = result.task.paint.product
    panel = result.task.panel_c
    coats = tuple(_coat(setup, result, coat) for coat in result.coats)
    return Layer(product.kind, product.key, Spread(panel, panel - 2.0, panel + 2.0), coats)


def pass_noun(setting: GunPass, pressure_bar: float | None) -> Pass:
    """Return how the gun is held as the card prints it."""
    return Pass(
        setting.name,
        setting.fan_m,
        setting.distance_m,
        setting.speed_m_s,
        1.0 / setting.speed_m_s,
        setting.overlap,
        setting.flow_g_s,
        setting.transfer,
        pressure_bar,
    )


def _start_point(coat: CoatResult, girth: float) -> Point:
    """Where the first stroke begins."""
    strokes = coat.planned.made.strokes
    x = float(strokes.left_m[0] if strokes.ahead[0] > 0 else strokes.right_m[0])
    return (round(x, 4), round(float(strokes.centre_m[0]) / girth, 4))


def _coat(setup: Setup, result: LayerResult, coat: CoatResult) -> Coat:
    """One coat."""
    paint, planned = result.task.paint, coat.planned
    filmed, balance = planned.filmed, planned.outcome.balance
    prefix = f"{paint.product.kind[0]}{coat.number}"
    pressure = (
        setup.job.gun.pressure_bar if setup.job.gun.pressure_bar is not None else paint.product.pressure_bar
    )
    walk = planned.task.walk
    backwards = result.start.backwards
    strokes = planned.made.strokes
    return Coat(
        number=coat.number,
        part=coat.plan.part,
        counts=coat.plan.counts,
        film_wet_g_m2=filmed.mean_g_m2,
        film_dry_um=paint.dry_um_of(filmed.mean_g_m2),
        film_cv=filmed.film_cv,
        thin_fraction=filmed.thin_fraction,
        spray_s=float(strokes.duration_s().sum()),
        elapsed_s=planned.made.total_s,
        sprayed_g=balance.sprayed_g,
        flash_s=spread_of(min(coat.flash_s, LONGEST_S), result.conditions.flash_ln_sd),
        open_s=spread_of(min(coat.open_s, LONGEST_S), result.conditions.open_ln_sd),
        pattern="walk" if walk else "sections",
        direction=message("rear-to-front" if backwards else "front-to-rear"),
        start=Name(result.start.feature)
        if result.start.feature
        else message("start.rear" if backwards else "start.front"),
        start_at=_start_point(coat, setup.side.girth),
        passes=tuple(pass_noun(setting, pressure) for setting, _ in planned.work.passes),
        sections=section_nouns(planned, setup.side, setup.job.painter.reach_m, paint.density_g_ml),
        joins=join_nouns(
            planned, prefix, setup.crew, result.conditions.open_ln_sd, planned.work.refill_after
        ),
        refills=refill_nouns(planned, paint.density_g_ml),
        balance=balance,
        reason=message("walked-in-one-stride") if walk else result.start.reason,
        wet_next=coat.wet_next,
        fill_g=first_fill_g(planned, paint.density_g_ml),
    )
