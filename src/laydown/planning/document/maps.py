"""Fields of the coats as maps for pictures."""

import numpy as np
from numpy.typing import NDArray

from laydown.physics.values import Floats
from laydown.planning.document.coats import LAYERS
from laydown.planning.layers.layer import CoatResult, LayerResult
from laydown.planning.process.process import Process
from laydown.planning.sections.outcome import FOG_CELLS
from laydown.planning.setup.field import FULL_WEIGHT, Field
from laydown.schema.coat import CoatMap, Maps
from laydown.schema.side import Side

CELLS = 2
"""Cells of the film grid per cell of a map; a choice of resolution."""


def _values(field: Floats) -> tuple[tuple[float | None, ...], ...]:
    """Rows of rounded numbers, None where nothing is painted."""
    plain = np.round(field, 3).astype(object)
    plain[np.isnan(field)] = None
    return tuple(map(tuple, plain.tolist()))


def _reduced(values: Floats, mask: NDArray[np.bool_], cells: int, *, largest: bool) -> Floats:
    """Means or maxima of blocks of cells inside the mask; NaN where a block is outside."""
    rows, columns = (size // cells for size in values.shape)
    shape = (rows, cells, columns, cells)
    inside = mask[: rows * cells, : columns * cells].reshape(shape)
    block = np.where(inside, values[: rows * cells, : columns * cells].reshape(shape), np.nan)
    painted = inside.any(axis=(1, 3))
    if largest:
        top = np.nan_to_num(block, nan=-np.inf).max(axis=(1, 3))
        top = np.where(np.isfinite(top), top, 0.0)
        return np.where(painted, top, np.nan)
    count = inside.sum(axis=(1, 3))
    total = np.nansum(block, axis=(1, 3))
    return np.where(painted, total / np.maximum(count, 1), np.nan)


def _map(
    kind: str, unit: str, field: Field, side: Side, coat: tuple[str, int], data: tuple[Floats, float, float]
) -> CoatMap:
    """One map from block values, its target and the sign of what counts as worst."""
    values, target, cell_m = data
    skin = field.skin
    off = np.abs(np.log(np.maximum(values, 1e-6) / target)) if kind == "film" else values
    at = np.unravel_index(int(np.nanargmax(off)), off.shape) if np.isfinite(off).any() else (0, 0)
    x = skin.x0_m + (float(at[1]) + 0.5) * cell_m
    s = skin.s0_m + (float(at[0]) + 0.5) * cell_m
    row = min(int((s - skin.s0_m) / skin.cell_m), skin.rows - 1)
    column = min(int((x - skin.x0_m) / skin.cell_m), skin.columns - 1)
    near = field.panel[max(0, row - 6) : row + 7, max(0, column - 6) : column + 7]
    near = near[near >= 0]
    where = side.panels[int(np.bincount(near).argmax())].label if near.size else ""
    worst = float(values[at]) if np.isfinite(values[at]) else 0.0
    return CoatMap(
        coat[0],
        coat[1],
        kind,  # type: ignore[arg-type]
        cell_m,
        cell_m / side.girth,
        skin.x0_m,
        skin.s0_m / side.girth,
        _values(values),
        target,
        worst,
        (round(x, 3), round(s / side.girth, 3)),
        where,
        unit,
    )


def _coat_maps(side: Side, layer: LayerResult, coat: CoatResult) -> list[CoatMap]:
    """Film, age and dry spray of one coat."""
    outcome, field = coat.planned.outcome, layer.task.field
    name = (layer.task.paint.product.kind, coat.number)
    cell = field.skin.cell_m * CELLS
    # A fade has no target film, so it is left out of the film's map.
    film = _reduced(outcome.filmed.film_g_m2, field.weight >= FULL_WEIGHT, CELLS, largest=False)
    ratio = np.nan_to_num(outcome.joined.age_s / max(coat.open_s, 1e-3), nan=0.0)
    age = _reduced(ratio, field.mask, CELLS, largest=True)
    fog = outcome.dry_g_m2.repeat(FOG_CELLS, axis=0).repeat(FOG_CELLS, axis=1)
    fog = fog[: field.mask.shape[0], : field.mask.shape[1]]
    dry = _reduced(fog, field.mask, CELLS, largest=False)
    return [
        _map("film", "g/m²", field, side, name, (film, outcome.filmed.mean_g_m2, cell)),
        _map("age", "of open time", field, side, name, (age, 0.0, cell)),
        _map("dry spray", "g/m²", field, side, name, (dry, 0.0, cell)),
    ]


def maps_of(side: Side, process: Process) -> Maps:
    """Return the maps of every coat, and how the whole effect coat looks."""
    coats = [
        one
        for name in LAYERS
        if name in process.layers
        for coat in process.layers[name].coats
        for one in _coat_maps(side, process.layers[name], coat)
    ]
    return Maps((*coats, *_appearance(side, process)))


def _appearance(side: Side, process: Process) -> list[CoatMap]:
    """How the whole effect coat looks at its most sensitive angle."""
    layer, shown = process.layers.get("effect"), process.look.difference
    if layer is None or shown is None:
        return []
    field = layer.task.field
    inside = np.isfinite(shown)
    values = _reduced(np.nan_to_num(shown, nan=0.0), inside, CELLS, largest=False)
    name = ("effect", layer.coats[-1].number)
    return [_map("appearance", "dE00", field, side, name, (values, 0.0, field.skin.cell_m * CELLS))]
