"""Rows of a coat and the lengths of every section it could be cut into."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from laydown.physics.values import Floats
from laydown.planning.setup.field import Field, GunRows, rows_of
from laydown.planning.setup.places import Place
from laydown.planning.setup.spraying import Crew, GunPass, settings_of
from laydown.planning.setup.weights import MOVE_S, TURN_S
from laydown.schema.coat import Part

OVERRUN_M = 0.02
"""How far a stroke runs past the edge of what is painted before the trigger is let go [m]; assumption."""


@dataclass(frozen=True, slots=True, eq=False)
class Bounds:
    """Bounds of sections in the order of work: the start, every place, the end."""

    places: tuple[Place, ...]
    x_m: Floats
    backwards: bool


@dataclass(frozen=True, slots=True, eq=False)
class Lengths:
    """One pass between any two bounds, row by row; all of shape (rows, n, n), valid above the diagonal."""

    trigger_m: Floats
    idle_m: Floats
    turns: Floats

    def elapsed_s(self, speed_m_s: float) -> Floats:
        """Return the time of each row [s], shape (rows, n, n): way over speed and the turns; definition."""
        return (self.trigger_m + self.idle_m) / speed_m_s + TURN_S * self.turns


def reach_of(field: Field, found: Sequence[Place], *, backwards: bool) -> Bounds:
    """Return the bounds of sections in the order of work."""
    ordered = tuple(reversed(found)) if backwards else tuple(found)
    begin, end = field.x_from_m(), field.x_to_m()
    ends = (end, begin) if backwards else (begin, end)
    return Bounds(ordered, np.array([ends[0], *(place.x_m for place in ordered), ends[1]]), backwards)


@lru_cache(maxsize=96)
def bound_lines_m(reach: Bounds, rows: GunRows, shift_m: float) -> Floats:
    """Return where each bound lies on each row."""
    back = shift_m if reach.backwards else -shift_m
    inner = [place.x_at(rows.centre_m) + back for place in reach.places]
    far = np.full(len(rows.centre_m), 1e3)
    first, last = (far, -far) if reach.backwards else (-far, far)
    return np.vstack([first, *inner, last])


def lengths(field: Field, rows: GunRows, reach: Bounds, shift_m: float) -> Lengths:
    """Return what one pass takes between any two bounds."""
    skin = field.skin
    lines = np.rint((bound_lines_m(reach, rows, shift_m) - skin.x0_m) / skin.cell_m)
    cut = np.clip(lines, 0, skin.columns).astype(int).T
    row = np.arange(len(rows.centre_m))[:, None]
    low = np.minimum(cut[:, :, None], cut[:, None, :])
    high = np.maximum(cut[:, :, None], cut[:, None, :])
    weight = np.where(rows.on, rows.stretch, 0.0)
    total = np.concatenate([np.zeros((len(weight), 1)), np.cumsum(weight, axis=1)], axis=1)[row, cut]
    begins = rows.on & ~np.roll(rows.on, 1, axis=1)
    runs = np.concatenate([np.zeros((len(begins), 1)), np.cumsum(begins, axis=1)], axis=1)[row, cut]
    columns = np.arange(skin.columns + 1)
    padded = np.concatenate([rows.on, np.zeros((len(weight), 1), bool)], axis=1)
    following = np.where(padded, columns, skin.columns)
    following = np.flip(np.minimum.accumulate(np.flip(following, 1), axis=1), 1)
    previous = np.maximum.accumulate(np.where(padded, columns, -1), axis=1)
    first = following[row[:, :, None], low]
    last = previous[row[:, :, None], np.maximum(high - 1, 0)]
    used = last >= first
    trigger = np.abs(total[:, None, :] - total[:, :, None])
    count = np.concatenate([np.zeros((len(weight), 1)), np.cumsum(rows.on, axis=1)], axis=1)[row, cut]
    plain = np.abs(count[:, None, :] - count[:, :, None])
    idle = np.where(used, last - first + 1 - plain, 0.0)
    # A section may begin inside a painted part, which then begins there.
    inside = np.concatenate([rows.on & ~begins, np.zeros((len(begins), 1), bool)], axis=1)[row, cut]
    at_low = np.where(cut[:, :, None] <= cut[:, None, :], inside[:, :, None], inside[:, None, :])
    parts = np.abs(runs[:, None, :] - runs[:, :, None]) + at_low
    extra = np.maximum(parts - 1.0, 0.0)
    past = 2.0 * OVERRUN_M * np.where(used, np.maximum(parts, 1.0), 0.0)
    return Lengths(
        np.asarray(trigger * skin.cell_m + past, np.float64),
        np.asarray(idle * skin.cell_m, np.float64),
        np.asarray(used + 0.5 * np.where(used, extra, 0.0), np.float64),
    )


def shift_of(setting: GunPass, first: GunPass) -> float:
    """Return how far a pass is drawn back from an open edge [m]: one fan where it follows a full one.

    Source: Common practice, no source: the lighter pass ends inside the full one.
    """
    return 0.0 if setting == first else first.fan_m


@dataclass(frozen=True, slots=True, eq=False)
class Lattice:
    """One coat's rows and the lengths between all bounds, in one direction."""

    field: Field
    reach: Bounds
    rows: tuple[GunRows, ...]
    lengths: tuple[Lengths, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Times:
    """Sections between all bounds for c settings of the gun."""

    elapsed_s: Floats
    row_s: Floats
    cup_g: Floats
    upper: int


def lattice_of(
    field: Field, places: tuple[Place, ...], passes: Sequence[GunPass], *, backwards: bool
) -> Lattice:
    """Return rows and lengths of a coat."""
    shapes = tuple((one.name == "full", one.fan_m, one.overlap) for one in passes)
    return _lattice(field, places, shapes, backwards=backwards)


@lru_cache(maxsize=48)
def _lattice(
    field: Field, places: tuple[Place, ...], shapes: tuple[tuple[bool, float, float], ...], *, backwards: bool
) -> Lattice:
    """Rows and lengths of passes given by closedness, fan and overlap."""
    reach = reach_of(field, places, backwards=backwards)
    rows = tuple(rows_of(field, fan_m, overlap, past_edge=full) for full, fan_m, overlap in shapes)
    shifts = [0.0, *([shapes[0][1]] * (len(shapes) - 1))]
    return Lattice(
        field,
        reach,
        rows,
        tuple(lengths(field, row, reach, shift) for row, shift in zip(rows, shifts, strict=True)),
    )


@lru_cache(maxsize=48)
def times_of(lattice: Lattice, part: Part, full: tuple[GunPass, ...], crew: Crew) -> Times:
    """Return what every section takes with every setting."""
    lower = [one.lower()[:, None, None] if crew.painters > 1 else None for one in lattice.rows]
    parts = []
    for setting in full:
        passes = settings_of(part, setting)
        times = [one.elapsed_s(p.speed_m_s) for one, p in zip(lattice.lengths, passes, strict=True)]
        shared = [_shared(time, mine) for time, mine in zip(times, lower, strict=True)]
        grams = [
            _most_m(one, mine) / p.speed_m_s * p.flow_g_s
            for one, mine, p in zip(lattice.lengths, lower, passes, strict=True)
        ]
        elapsed = np.sum([elapsed for elapsed, _ in shared], axis=0) + MOVE_S
        parts.append((elapsed, shared[0][1], np.sum(grams, axis=0)))
    elapsed_s, row_s, cup_g = (np.stack([part[index] for part in parts]) for index in range(3))
    upper = int(lattice.rows[0].lower().sum()) if crew.painters > 1 else 0
    return Times(elapsed_s, row_s, cup_g, upper)


def _shared(time_s: Floats, lower: NDArray[np.bool_] | None) -> tuple[Floats, Floats]:
    """Time of a pass, shape (n, n), and when it is through with each row, shape (rows, n, n)."""
    through = np.cumsum(time_s, axis=0)
    if lower is None:
        return through[-1], through
    first = np.where(lower, time_s, 0.0).sum(axis=0)
    return np.maximum(first, through[-1] - first), np.where(lower, through, through - first)


def _most_m(one: Lengths, lower: NDArray[np.bool_] | None) -> Floats:
    """Way under the trigger of the painter who has more of it [m], shape (n, n)."""
    whole: Floats = one.trigger_m.sum(axis=0)
    if lower is None:
        return whole
    mine = np.where(lower, one.trigger_m, 0.0).sum(axis=0)
    return np.asarray(np.maximum(mine, whole - mine), np.float64)
