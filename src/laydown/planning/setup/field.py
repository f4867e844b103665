"""From the side and its extents to the field of one layer."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from laydown.physics.spray.strokes import SkinGrid
from laydown.physics.values import Bools, Floats, Ints
from laydown.schema.choices import Extent
from laydown.schema.side import Side
from laydown.trade.side.reach import Fade
from laydown.trade.side.skin import Canvas, layer_mask

BRIDGE_M = 0.15
"""Holes narrower than this, such as a masked handle, are sprayed across [m]; assumption."""

TALL_M = 0.20
"""Parts at least this high get strokes beyond their edge, so that the edge is not thin [m]; assumption."""

FULL_WEIGHT = 0.999
"""From this weight on a cell gets the whole layer; a choice for rounding."""

GOLDEN = 0.6180339887498949
"""Step of the sequence that spreads the ends of rows evenly without a pattern; definition."""


@dataclass(frozen=True, slots=True, eq=False)
class Field:
    """Where one layer goes."""

    skin: SkinGrid
    mask: Bools
    weight: Floats
    stretch: Floats
    panel: Ints
    girth: float

    def x_from_m(self) -> float:
        """Return where the layer begins along the vehicle [m]; definition."""
        columns = np.flatnonzero(self.mask.any(axis=0))
        return self.skin.x0_m + float(columns[0]) * self.skin.cell_m

    def x_to_m(self) -> float:
        """Return where the layer ends along the vehicle [m]; definition."""
        columns = np.flatnonzero(self.mask.any(axis=0))
        return self.skin.x0_m + float(columns[-1] + 1) * self.skin.cell_m

    def area_m2(self) -> float:
        """Return the planned area [m²]: cells times weight and stretch; definition."""
        return float((self.weight * self.stretch).sum()) * self.skin.cell_m**2


@dataclass(frozen=True, slots=True, eq=False)
class GunRows:
    """Rows of one pass, bottom first."""

    centre_m: Floats
    on: Bools
    stretch: Floats
    pitch_m: float

    def lower(self) -> Bools:
        """Return which rows the lower of two painters takes, shape (n,): those up to half the way of the whole side.

        The height at which they part is the same in every section, so that each meets the edge he left himself, in
        the order in which he left it; common practice, no source.
        """
        each = np.where(self.on, self.stretch, 0.0).sum(axis=1)
        way = np.cumsum(each)
        return np.asarray(way - each / 2.0 <= way[-1] / 2.0, bool)


def _tall(mask: Bools, cells: int) -> Bools:
    """True where the mask is at least so many cells high without a break."""
    run = np.zeros(mask.shape, np.int64)
    up = np.zeros(mask.shape[1], np.int64)
    for row in range(mask.shape[0]):
        up = np.where(mask[row], up + 1, 0)
        run[row] = up
    best = run.copy()
    for row in range(mask.shape[0] - 2, -1, -1):
        best[row] = np.where(mask[row] & mask[row + 1], best[row + 1], best[row])
    return mask & (best >= cells)


@dataclass(frozen=True, slots=True, eq=False)
class _Heights:
    """How many cells are painted below each edge between rows, shape (rows + 1, columns): all, and those of tall parts."""

    full: Ints
    tall: Ints


@lru_cache(maxsize=12)
def _heights(field: Field) -> _Heights:
    """Sums up a field that every lattice of rows over it asks for."""
    full = field.weight >= FULL_WEIGHT
    return _Heights(_summed(full), _summed(_tall(full, round(TALL_M / field.skin.cell_m))))


def _summed(mask: Bools) -> Ints:
    """Cells of the mask below each edge between rows."""
    return np.vstack([np.zeros((1, mask.shape[1]), np.int64), np.cumsum(mask, axis=0)])


def _any_within(total: Ints, centre: Floats, skin: SkinGrid, reach_m: float) -> Bools:
    """For each row centre: columns where something is painted within a reach above and below."""
    low = np.clip(np.rint((centre - reach_m - skin.s0_m) / skin.cell_m).astype(int), 0, skin.rows)
    high = np.clip(np.rint((centre + reach_m - skin.s0_m) / skin.cell_m).astype(int), 0, skin.rows)
    return np.asarray(total[high] > total[low], bool)


def _bridged(on: Bools, cells: int) -> Bools:
    """Fill holes between two painted parts of a row that are narrower than so many cells."""
    columns = np.arange(on.shape[1])
    before = np.maximum.accumulate(np.where(on, columns, -(10**6)), axis=1)
    after = np.flip(np.minimum.accumulate(np.flip(np.where(on, columns, 10**6), 1), axis=1), 1)
    return np.asarray(on | (after - before <= cells), bool)


@lru_cache(maxsize=24)
def rows_of(field: Field, fan_m: float, overlap: float, *, past_edge: bool = True) -> GunRows:
    """Return the rows a pass needs to cover a field.

    Source: Common practice, no source: past the edge of a panel, straight across a handle.
    """
    skin = field.skin
    pitch = fan_m * (1.0 - overlap)
    painted = np.flatnonzero(field.mask.any(axis=1))
    bottom = skin.s0_m + float(painted[0]) * skin.cell_m
    top = skin.s0_m + float(painted[-1] + 1) * skin.cell_m
    past = fan_m / 8.0 if past_edge else 0.0
    count = max(1, math.ceil((top - bottom + 2.0 * past) / pitch - 1e-9))
    pitch = (top - bottom + 2.0 * past) / count
    centre: Floats = np.asarray(bottom - past + (np.arange(count) + 0.5) * pitch, float)
    heights = _heights(field)
    on = _any_within(heights.full, centre, skin, pitch / 2.0)
    on |= _any_within(heights.tall, centre, skin, pitch / 2.0 + past)
    row = np.clip(((centre - skin.s0_m) / skin.cell_m).astype(int), 0, skin.rows - 1)
    # In a fade every row ends at another place, so that their mean follows the wanted weight.
    on |= field.weight[row] > ((np.arange(1, count + 1) * GOLDEN) % 1.0)[:, None]
    used = on.any(axis=1)
    on = _bridged(on[used], round(BRIDGE_M / skin.cell_m))
    return GunRows(centre[used], on, field.stretch[row[used]], pitch)


PAD_UP_M = 0.32
"""Margin above and below the side, so that every fan lies on the skin [m]; a choice."""

PAD_ALONG_M = 0.10
"""Margin in front of and behind the side [m]; a choice."""


def field_of(
    canvas: Canvas, side: Side, extents: Mapping[str, Extent], fades: Mapping[str, tuple[Fade, ...]]
) -> Field | None:
    """Return where a layer goes."""
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
    skin = SkinGrid(
        canvas.x0_m - along * canvas.cell_m, canvas.s0_m - up * canvas.cell_m, canvas.cell_m, rows, columns
    )
    return Field(skin, padded > 0.0, padded, stretch, panel, side.girth)


EFFECT_INSIDE_M = 0.30
"""How far the effect coat ends inside a ground coat that ends on open panel [m]; common practice, no source: one to
one and a half fans."""


def kept_inside(effect: Field, ground: Field) -> Field:
    """Return the effect coat drawn back from a ground coat that ends on open panel.

    Source: Common practice, no source: the effect coat stays inside the closed ground coat.
    """
    fading = np.unique(ground.panel[(ground.weight > 0.0) & (ground.weight < FULL_WEIGHT)])
    if not fading.size:
        return effect
    on = np.isin(effect.panel, fading)
    unsafe = on & (ground.weight < FULL_WEIGHT)
    cells = round(EFFECT_INSIDE_M / ground.skin.cell_m)
    count = np.cumsum(np.pad(unsafe.astype(np.int64), ((0, 0), (cells + 1, cells))), axis=1)
    near = count[:, 2 * cells + 1 :] - count[:, : -2 * cells - 1] > 0
    weight = np.where(on & near, 0.0, effect.weight)
    return replace(effect, weight=weight, mask=weight > 0.0)
