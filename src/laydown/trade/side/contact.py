"""Where panels touch: gaps of a side that was drawn without them, and who neighbours whom.

Sources: plane geometry; definition.
"""

from collections.abc import Sequence
from itertools import combinations, pairwise

import numpy as np

from laydown.physics.geometry.grid import Mask, inside
from laydown.physics.geometry.rings import polyline_length
from laydown.physics.values import Floats
from laydown.schema.side import Cut, Side, SidePanel
from laydown.trade.side.drawing import polyline

_NEAR_M = 0.008
"""Outlines closer than this are the two sides of one gap [m]; common practice, no source: gaps are 3 to 6 mm."""

_SHORTEST_M = 0.15
"""A shorter run is a corner, not a gap [m]; assumption."""

_STEP_M = 0.01
"""Spacing at which an outline is looked at [m]."""

_POINTS_AT_ONCE = 1024
"""Points looked at together, so that points times sides stay in the cache; a choice."""


def distance_to_lines(points: Floats, lines: Sequence[Floats]) -> Floats:
    """Give the shortest distance from points to polylines.

    Parameters
    ----------
    points
        Points, (n, 2) [m].
    lines
        Open polylines; a ring must repeat its first point.

    Returns
    -------
        One distance per point [m].
    """
    begin = np.vstack([line[:-1] for line in lines])
    side = np.vstack([np.diff(line, axis=0) for line in lines])
    square = np.maximum((side**2).sum(axis=1), 1e-300)  # a side of no length is its own nearest point
    nearest = np.empty(len(points))
    for first in range(0, len(points), _POINTS_AT_ONCE):
        to = points[first : first + _POINTS_AT_ONCE, None] - begin
        share = np.clip((to * side).sum(axis=2) / square, 0.0, 1.0)
        gap = to - share[:, :, None] * side
        nearest[first : first + _POINTS_AT_ONCE] = np.sqrt((gap**2).sum(axis=2).min(axis=1))
    return nearest


def closed(panel: SidePanel) -> list[Floats]:
    """Give a panel's rings as polylines that return to their start."""
    return [np.array([*ring, ring[0]], dtype=np.float64) for ring in panel.rings]


def derive_cuts(side: Side) -> tuple[Cut, ...]:
    """Find the gaps of a side from its panels.

    Parameters
    ----------
    side
        A side whose panels may have been drawn edge to edge or with the gap between them.

    Returns
    -------
        One gap for each run of more than 0.15 m along which two panels are closer than 8 mm; the front panel first,
        points from the bottom or from the front.
    """
    cuts: list[Cut] = []
    for first, second in combinations(side.panels, 2):
        runs = _runs(first, second)
        for number, run in enumerate(runs, 1):
            pair = (first.id, second.id) if _leads(first, run) else (second.id, first.id)
            name = f"gap.{'.'.join(pair)}" + (f".{number}" if len(runs) > 1 else "")
            cuts.append(Cut(name, "gap", pair, polyline(_bottom_first(run))))
    return tuple(cuts)


def _leads(panel: SidePanel, run: Floats) -> bool:
    """Say whether a panel lies in front of an upright run; along a level one the order of the file stays."""
    if abs(run[-1, 1] - run[0, 1]) < abs(run[-1, 0] - run[0, 0]):
        return True
    before = run[len(run) // 2] - np.array((0.03, 0.0))
    return bool(inside(before[None], [np.array(ring) for ring in panel.rings])[0])


def _bottom_first(run: Floats) -> Floats:
    """Turn a run so that it rises, or leads rearwards when it lies level."""
    rise, along = run[-1, 1] - run[0, 1], run[-1, 0] - run[0, 0]
    turned = rise < 0 if abs(rise) >= abs(along) else along < 0
    return run[::-1] if turned else run


def _runs(first: SidePanel, second: SidePanel) -> list[Floats]:
    """Pieces of the first panel's outline that lie along the second panel."""
    found = []
    lines = closed(second)
    low, high = (np.vstack(lines).min(axis=0) - _NEAR_M, np.vstack(lines).max(axis=0) + _NEAR_M)
    for ring in closed(first):
        points = _dense(ring)
        near = ((points >= low) & (points <= high)).all(axis=1)
        near[near] = distance_to_lines(points[near], lines) < _NEAR_M
        found += [run for run in _pieces(points, near) if polyline_length(run) > _SHORTEST_M]
    return found


def _dense(ring: Floats) -> Floats:
    """Put points on an outline so that none is further than a step from the next; its corners stay."""
    pieces = []
    for a, b in pairwise(ring):
        count = max(1, int(np.ceil(np.hypot(*(b - a)) / _STEP_M)))
        pieces.append(a + (b - a) * np.arange(count)[:, None] / count)
    return np.vstack(pieces)


def _pieces(points: Floats, near: Mask) -> list[Floats]:
    """Unbroken pieces of a ring where `near` holds."""
    if near.all():
        return [points]
    start = int(np.argmin(near))
    points, near = np.roll(points, -start, axis=0), np.roll(near, -start)
    change = np.flatnonzero(np.diff(np.append(near, False).astype(np.int8)))
    return [points[begin + 1 : end + 1] for begin, end in zip(change[::2], change[1::2], strict=True)]
