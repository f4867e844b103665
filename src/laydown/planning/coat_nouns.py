"""Planned layers as nouns."""

from laydown.planning.join_nouns import join_nouns, spread_of
from laydown.planning.layers import CoatResult, LayerResult
from laydown.planning.passes import Setting
from laydown.planning.process import Process
from laydown.planning.section_nouns import first_fill_g, refill_nouns, section_nouns
from laydown.planning.setup import Setup
from laydown.planning.wetting import LONGEST_S
from laydown.schema.coat import Coat, Layer, Pass
from laydown.schema.figure import Spread
from laydown.schema.product import Kind
from laydown.schema.side import Point

LAYERS: tuple[Kind, ...] = ("ground", "effect", "clear")
"""Layers in the order they are sprayed; definition."""


def layer_nouns(setup: Setup, process: Process) -> tuple[Layer, ...]:
    """Return the layers of a plan.

    Parameters
    ----------
    setup, process
        What was asked and what was planned.

    Returns
    -------
    Layers in the order they are sprayed.

    Sources
    -------
    ``laydown.planning.process``.
    """
    return tuple(_layer(setup, process.layers[name]) for name in LAYERS if name in process.layers)


def _layer(setup: Setup, result: LayerResult) -> Layer:
    """One layer."""
    product = result.task.paint.product
    panel = result.task.panel_c
    coats = tuple(_coat(setup, result, coat) for coat in result.coats)
    return Layer(product.kind, product.key, Spread(panel, panel - 2.0, panel + 2.0), coats)


def pass_noun(setting: Setting, pressure_bar: float | None) -> Pass:
    """Return how the gun is held as the card prints it.

    Parameters
    ----------
    setting
        The pass.
    pressure_bar
        Inlet pressure the job or the sheet names [bar].

    Returns
    -------
    The pass with seconds per metre.

    Sources
    -------
    Definition.
    """
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
    ends = ("rear", "front") if result.start.backwards else ("front", "rear")
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
        direction=f"{ends[0]} to {ends[1]}",
        start=result.start.feature or f"{ends[0]} end, at the bottom",
        start_at=_start_point(coat, setup.side.girth),
        passes=tuple(pass_noun(setting, pressure) for setting, _ in planned.work.passes),
        sections=section_nouns(planned, setup.side, setup.job.painter.reach_m, paint.density_g_ml),
        joins=join_nouns(
            planned, prefix, setup.crew, result.conditions.open_ln_sd, planned.work.refill_after
        ),
        refills=refill_nouns(planned, paint.density_g_ml),
        balance=balance,
        reason=result.start.reason if not walk else "walked in one stride: no join across the side",
        wet_next=coat.wet_next,
        fill_g=first_fill_g(planned, paint.density_g_ml),
    )
