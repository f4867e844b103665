"""From the side and its extents to the field of one layer."""

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from laydown.physics.passage import Sheet
from laydown.planning.field import FULL_WEIGHT, Field
from laydown.schema.panel import Extent
from laydown.schema.side import Side
from laydown.trade.canvas import Canvas, layer_mask
from laydown.trade.reach import Fade

PAD_UP_M = 0.32
"""Margin above and below the side, so that every fan lies on the sheet [m]; a choice."""

PAD_ALONG_M = 0.10
"""Margin in front of and behind the side [m]; a choice."""


def field_of(
    canvas: Canvas, side: Side, extents: Mapping[str, Extent], fades: Mapping[str, tuple[Fade, ...]]
) -> Field | None:
    """Return where a layer goes.

    Parameters
    ----------
    canvas, side
        The developed side.
    extents
        How far the layer reaches, by panel id.
    fades
        Where it fades, by panel id.

    Returns
    -------
    The field, or None where the layer is nowhere wanted.

    Sources
    -------
    Definition.
    """
    weight = layer_mask(canvas, side, extents, fades)
    if not weight.any():
        return None
    up = round(PAD_UP_M / canvas.cell_m)
    along = round(PAD_ALONG_M / canvas.cell_m)
    pads = ((up, up), (along, along))
    padded = np.pad(weight, pads)
    panel = np.pad(canvas.panel_id.astype(np.int64), pads) - 1
    by_panel = np.asarray(canvas.stretch, np.float64)
    mean = float((by_panel[panel] * padded)[panel >= 0].sum() / padded[panel >= 0].sum())
    stretch = np.where(panel >= 0, by_panel[panel], mean)
    rows, columns = padded.shape
    sheet = Sheet(
        canvas.x0_m - along * canvas.cell_m, canvas.s0_m - up * canvas.cell_m, canvas.cell_m, rows, columns
    )
    return Field(sheet, padded > 0.0, padded, stretch, panel, side.girth)


EFFECT_INSIDE_M = 0.30
"""How far the effect coat ends inside a ground coat that ends on open panel [m]; common practice, no source: one to
one and a half fans."""


def kept_inside(effect: Field, ground: Field) -> Field:
    """Return the effect coat drawn back from a ground coat that ends on open panel.

    Parameters
    ----------
    effect, ground
        Where both go, on the same sheet.

    Returns
    -------
    The effect coat, ended 30 cm inside the closed ground coat on every panel where the ground coat fades.

    Sources
    -------
    Common practice, no source: the effect coat stays inside the closed ground coat.
    """
    fading = np.unique(ground.panel[(ground.weight > 0.0) & (ground.weight < FULL_WEIGHT)])
    if not fading.size:
        return effect
    on = np.isin(effect.panel, fading)
    unsafe = on & (ground.weight < FULL_WEIGHT)
    cells = round(EFFECT_INSIDE_M / ground.sheet.cell_m)
    count = np.cumsum(np.pad(unsafe.astype(np.int64), ((0, 0), (cells + 1, cells))), axis=1)
    near = count[:, 2 * cells + 1 :] - count[:, : -2 * cells - 1] > 0
    weight = np.where(on & near, 0.0, effect.weight)
    return replace(effect, weight=weight, mask=weight > 0.0)
