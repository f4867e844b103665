"""The developed skin of a side as a grid: which panel each cell belongs to, and how much of a layer it gets.

Sources: plane geometry; definition.
"""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from laydown.physics.geometry.grid import GridFrame, Mask, fill
from laydown.physics.values import Floats
from laydown.schema.choices import Extent
from laydown.schema.side import Ring, Side
from laydown.trade.side.build import panel_areas
from laydown.trade.side.contact import distance_to_lines
from laydown.trade.side.reach import Fade


@dataclass(frozen=True, slots=True, eq=False)
class Canvas:
    """A side unrolled to the skin (x, s) and cut into square cells.

    Attributes
    ----------
    panel_id
        Place of the cell's panel in `panels` plus one, (rows, columns); 0 = no panel. Row 0 lies lowest.
    skin
        Cells that are painted: on a panel and not masked.
    x0_m, s0_m
        Lower left corner of the first cell: along the vehicle, and tape height over the skin [m].
    cell_m
        Side of a cell [m].
    panels
        Ids of the panels, in the order of the side.
    stretch
        Planned area per skin area of each panel, in the same order; stretches seconds and grams alike.
    """

    panel_id: NDArray[np.uint8]
    skin: Mask
    x0_m: float
    s0_m: float
    cell_m: float
    panels: tuple[str, ...]
    stretch: tuple[float, ...]


def lay_canvas(side: Side, cell_m: float = 0.010) -> Canvas:
    """Unroll a side and cut it into cells.

    Parameters
    ----------
    side
        A checked side with at most 255 panels.
    cell_m
        Side of a cell [m]: 0.01 for masks and pictures, 0.05 for film; > 0.

    Returns
    -------
        The canvas.

    Notes
    -----
    s = girth * y is taken before the cells are filled. One girth is a stretch, not an unrolling: right on average, wrong
    on a crown. Areas come from the outlines, never from counting cells: a thin panel of ten rows misses by up to 3.5 %.
    """
    developed = [[develop(ring, side.girth) for ring in panel.rings] for panel in side.panels]
    frame = GridFrame.around([ring for rings in developed for ring in rings], cell_m)
    panel_id = np.zeros((frame.rows, frame.columns), dtype=np.uint8)
    for number, rings in enumerate(developed, 1):
        panel_id[fill(rings, frame)] = number
    skin = panel_id > 0
    for part in side.masked:
        skin &= ~fill([develop(ring, side.girth) for ring in part.rings], frame)
    areas = panel_areas(side)
    stretch = tuple(areas[panel.id].planned_m2 / areas[panel.id].skin_m2 for panel in side.panels)
    ids = tuple(panel.id for panel in side.panels)
    return Canvas(panel_id, skin, frame.x0, frame.y0, cell_m, ids, stretch)


def develop(ring: Ring, girth: float) -> Floats:
    """Unroll a ring: heights become tape lengths over the skin [m]."""
    skin = np.array(ring, dtype=np.float64)
    skin[:, 1] *= girth
    return skin


def cell_centres(canvas: Canvas) -> tuple[Floats, Floats]:
    """Give the stations of the columns and the tape heights of the rows [m]."""
    rows, columns = canvas.panel_id.shape
    x = np.asarray(canvas.x0_m + (np.arange(columns) + 0.5) * canvas.cell_m, dtype=np.float64)
    s = np.asarray(canvas.s0_m + (np.arange(rows) + 0.5) * canvas.cell_m, dtype=np.float64)
    return x, s


def layer_mask(
    canvas: Canvas, side: Side, extents: Mapping[str, Extent], fades: Mapping[str, tuple[Fade, ...]]
) -> Floats:
    """Give how much of a layer each cell gets.

    Parameters
    ----------
    canvas, side
        The skin and the side it was made from.
    extents
        How far the layer reaches on each panel, by id; a panel left out gets none.
    fades
        For each fading panel the panels it fades away from, with the length; one left out gets all of the layer,
        because where its repair lies is not known.

    Returns
    -------
        Weight of each cell, 0 to 1: 1 on a full panel; on a fading one 1 at the neighbour's edge, falling to 0 at the
        fade length; 0 elsewhere and on masked parts.

    Notes
    -----
    w = 1 - (3 u^2 - 2 u^3), u = distance to the neighbour / fade length, both on the developed skin; with several
    neighbours the largest counts.
    """
    weight = np.zeros(canvas.panel_id.shape)
    for number, name in enumerate(canvas.panels, 1):
        extent = extents.get(name, "none")
        cells = canvas.skin & (canvas.panel_id == number)
        if extent == "full" or (extent == "fade" and not fades.get(name)):
            weight[cells] = 1.0
        elif extent == "fade":
            weight[cells] = _ramp(canvas, side, cells, fades[name])
    return weight


def _ramp(canvas: Canvas, side: Side, cells: Mask, fades: tuple[Fade, ...]) -> Floats:
    """Weights of the cells of one fading panel."""
    x, s = cell_centres(canvas)
    row, column = np.nonzero(cells)
    points = np.column_stack([x[column], s[row]])
    best = np.zeros(len(points))
    for fade in fades:
        rings = next(panel.rings for panel in side.panels if panel.id == fade.away_from)
        lines = [develop((*ring, ring[0]), side.girth) for ring in rings]
        share = np.clip(distance_to_lines(points, lines) / fade.length_m, 0.0, 1.0)
        np.maximum(best, 1.0 - share**2 * (3.0 - 2.0 * share), out=best)
    return best
