"""Rings onto a grid of square cells, and rings onto each other: even-odd, exact to the cell centre.

Sources: plane geometry; definition.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from laydown.physics.values import Floats

Mask = NDArray[np.bool_]
"""Grid of cells, (rows, columns); row 0 lies lowest."""

_POINTS_AT_ONCE = 1024
"""Points looked at together, so that points times sides stay in the cache; a choice."""


@dataclass(frozen=True, slots=True)
class GridFrame:
    """Where a grid lies.

    Attributes
    ----------
    x0, y0
        Lower left corner of cell (0, 0).
    cell
        Side of a cell, > 0.
    rows, columns
        Size of the grid.
    """

    x0: float
    y0: float
    cell: float
    rows: int
    columns: int

    @classmethod
    def around(cls, rings: Sequence[Floats], cell: float) -> "GridFrame":
        """Lay the smallest frame on whole cells around rings."""
        points = np.vstack(list(rings))
        low = np.floor(points.min(axis=0) / cell + 1e-9)
        high = np.ceil(points.max(axis=0) / cell - 1e-9)
        columns, rows = (int(n) for n in high - low)
        return cls(float(low[0] * cell), float(low[1] * cell), cell, rows, columns)


def fill(rings: Sequence[Floats], frame: GridFrame) -> Mask:
    """Mark the cells whose centres lie inside rings.

    Parameters
    ----------
    rings
        Closed rings; a point is inside when a ray from it crosses them an odd number of times, so holes need no
        orientation.
    frame
        The grid.

    Returns
    -------
        Mask (rows, columns).

    Notes
    -----
    Every side of a ring toggles all cells right of its crossing with a row's centre line; the parity of the running
    sum is the inside. Rows and columns are half-open, so neighbours that share a side share no cell and leave none out.
    The area of the cells misses that of the ring by at most half a cell along the outline.
    """
    a = np.vstack(list(rings))
    b = np.vstack([np.roll(ring, -1, axis=0) for ring in rings])
    falls = (a[:, 1] > b[:, 1])[:, None]
    low, high = np.where(falls, b, a), np.where(falls, a, b)
    first, last = (
        np.clip(np.ceil((end[:, 1] - frame.y0) / frame.cell - 0.5), 0, frame.rows).astype(np.int64)
        for end in (low, high)
    )
    count = last - first
    side = np.repeat(np.arange(len(count)), count)
    row = np.arange(int(count.sum())) - np.repeat(np.cumsum(count) - count, count) + first[side]
    y = frame.y0 + (row + 0.5) * frame.cell
    rise = high[side, 1] - low[side, 1]
    x = low[side, 0] + (y - low[side, 1]) * (high[side, 0] - low[side, 0]) / rise
    column = np.clip(np.ceil((x - frame.x0) / frame.cell - 0.5), 0, frame.columns).astype(np.int64)
    toggles = np.zeros((frame.rows, frame.columns + 1), dtype=np.int32)
    np.add.at(toggles, (row, column), 1)
    return np.asarray(np.cumsum(toggles, axis=1)[:, : frame.columns] & 1, dtype=np.bool_)


def inside(points: Floats, rings: Sequence[Floats]) -> NDArray[np.bool_]:
    """Say which points lie inside rings, even-odd.

    Parameters
    ----------
    points
        Points, (n, 2).
    rings
        Closed rings.

    Returns
    -------
        One truth per point; on the outline itself either answer may come.
    """
    p = np.asarray(points, dtype=np.float64)
    odd = np.zeros(len(p), dtype=np.bool_)
    if not rings:
        return odd
    a, b = _sides(rings)
    rise = np.where(a[:, 1] == b[:, 1], 1.0, b[:, 1] - a[:, 1])
    slant = (b[:, 0] - a[:, 0]) / rise
    for first in range(0, len(p), _POINTS_AT_ONCE):
        x, y = p[first : first + _POINTS_AT_ONCE, :1], p[first : first + _POINTS_AT_ONCE, 1:]
        spans = (a[:, 1] > y) != (b[:, 1] > y)
        left_of = x < a[:, 0] + (y - a[:, 1]) * slant
        odd[first : first + _POINTS_AT_ONCE] = (spans & left_of).sum(axis=1) & 1
    return odd


def overlap_area(first: Sequence[Floats], second: Sequence[Floats]) -> float:
    """Give the area that two sets of rings share.

    Parameters
    ----------
    first, second
        Rings of the two shapes, even-odd.

    Returns
    -------
        Area >= 0, in the square of the unit of the points.

    Notes
    -----
    Between two neighbouring heights at which a corner or a crossing lies, the shared width is linear in height, so its
    value half-way times the height of the strip is exact:
    A = sum over strips of (sum of the widths where both parities are odd) * dy.
    """
    heights = _strip_heights(first, second)
    if len(heights) < 2:
        return 0.0
    middle, step = (heights[1:] + heights[:-1]) / 2, np.diff(heights)
    x_first, x_second = _crossings(first, middle), _crossings(second, middle)
    x = np.hstack([x_first, x_second])
    owner = np.hstack([np.ones_like(x_first, dtype=np.int64), np.zeros_like(x_second, dtype=np.int64)])
    order = np.argsort(x, axis=1, kind="stable")
    x, owner = np.take_along_axis(x, order, axis=1), np.take_along_axis(owner, order, axis=1)
    both = (np.cumsum(owner, axis=1) & np.cumsum(1 - owner, axis=1) & 1)[:, :-1].astype(np.bool_)
    finite = np.isfinite(x[:, 1:])
    width = np.where(both & finite, np.where(finite, x[:, 1:], 0.0) - np.where(finite, x[:, :-1], 0.0), 0.0)
    return float((width.sum(axis=1) * step).sum())


def _sides(rings: Sequence[Floats]) -> tuple[Floats, Floats]:
    """Start and end points of all sides."""
    return np.vstack(list(rings)), np.vstack([np.roll(ring, -1, axis=0) for ring in rings])


def _strip_heights(first: Sequence[Floats], second: Sequence[Floats]) -> Floats:
    """Sorted heights of all corners and crossings within the range both shapes have in common."""
    (a, b), (c, d) = _sides(first), _sides(second)
    if (a.max(axis=0) <= c.min(axis=0)).any() or (c.max(axis=0) <= a.min(axis=0)).any():
        return np.empty(0)
    u, v = (b - a)[:, None], (d - c)[None]
    gap = c[None] - a[:, None]
    slant = u[..., 0] * v[..., 1] - u[..., 1] * v[..., 0]
    level = np.abs(slant) < 1e-15
    safe = np.where(level, 1.0, slant)
    along = (gap[..., 0] * v[..., 1] - gap[..., 1] * v[..., 0]) / safe
    across = (gap[..., 0] * u[..., 1] - gap[..., 1] * u[..., 0]) / safe
    hit = ~level & (along > 0) & (along < 1) & (across > 0) & (across < 1)
    cut = (a[:, None, 1] + along * u[..., 1])[hit]
    heights = np.unique(np.concatenate([a[:, 1], c[:, 1], cut]))
    low, high = max(a[:, 1].min(), c[:, 1].min()), min(a[:, 1].max(), c[:, 1].max())
    return np.asarray(heights[(heights >= low) & (heights <= high)], dtype=np.float64)


def _crossings(rings: Sequence[Floats], heights: Floats) -> Floats:
    """Where each height crosses the rings, sorted along a row; infinity fills the row."""
    a, b = _sides(rings)
    y = heights[:, None]
    spans = (a[None, :, 1] > y) != (b[None, :, 1] > y)
    rise = np.where(a[:, 1] == b[:, 1], 1.0, b[:, 1] - a[:, 1])[None]
    x = np.where(spans, a[None, :, 0] + (y - a[None, :, 1]) * (b - a)[None, :, 0] / rise, np.inf)
    most = int(spans.sum(axis=1).max(initial=0))
    return np.asarray(np.sort(x, axis=1)[:, :most], dtype=np.float64)
