"""Rows of a coat and the lengths of every section it could be cut into."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from laydown.planning.bounds import Lengths, Reach, lengths, reach_of
from laydown.planning.crew import Crew
from laydown.planning.field import Field, Rows, rows_of
from laydown.planning.passes import Setting, settings_of
from laydown.planning.places import Place
from laydown.planning.weights import (
    MOVE_S,
)
from laydown.schema.coat import Part

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Lattice:
    """One coat's rows and the lengths between all bounds, in one direction.

    Attributes
    ----------
    field, reach
        Where the layer goes, and its bounds.
    rows
        Rows of each pass.
    lengths
        Lengths of each pass between all bounds.
    """

    field: Field
    reach: Reach
    rows: tuple[Rows, ...]
    lengths: tuple[Lengths, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Times:
    """Sections between all bounds for c settings of the gun.

    Attributes
    ----------
    elapsed_s
        Time of a section with the step to the next [s], shape (c, n, n).
    row_s
        When the closed pass of a section is through with a row [s], shape (c, rows, n, n).
    cup_g
        Paint a section takes out of one cup [g], the fuller share of two painters; shape (c, n, n).
    upper
        First row of the closed pass that the upper of two painters takes; 0 where there is one painter.
    """

    elapsed_s: Floats
    row_s: Floats
    cup_g: Floats
    upper: int


def lattice_of(
    field: Field, places: tuple[Place, ...], passes: Sequence[Setting], *, backwards: bool
) -> Lattice:
    """Return rows and lengths of a coat.

    Parameters
    ----------
    field
        Where the layer goes.
    places
        Where its sections may meet, front first.
    passes
        The coat's passes; their fans and overlaps count, not their speeds.
    backwards
        Whether the work goes from the rear to the front.

    Returns
    -------
    The lattice. The same field, places and passes are asked for by every adjustment, so it is kept.

    Sources
    -------
    ``rows_of`` and ``lengths``.
    """
    shapes = tuple((one.name == "closed", one.fan_m, one.overlap) for one in passes)
    return _lattice(field, places, shapes, backwards=backwards)


@lru_cache(maxsize=48)
def _lattice(
    field: Field, places: tuple[Place, ...], shapes: tuple[tuple[bool, float, float], ...], *, backwards: bool
) -> Lattice:
    """Rows and lengths of passes given by closedness, fan and overlap."""
    reach = reach_of(field, places, backwards=backwards)
    rows = tuple(rows_of(field, fan_m, overlap, past_edge=closed) for closed, fan_m, overlap in shapes)
    shifts = [0.0, *([shapes[0][1]] * (len(shapes) - 1))]
    return Lattice(
        field,
        reach,
        rows,
        tuple(lengths(field, row, reach, shift) for row, shift in zip(rows, shifts, strict=True)),
    )


@lru_cache(maxsize=48)
def times_of(lattice: Lattice, part: Part, closed: tuple[Setting, ...], crew: Crew) -> Times:
    """Return what every section takes with every setting.

    Parameters
    ----------
    lattice
        Lengths of the coat.
    part
        What it consists of.
    closed
        Closed pass of each of c settings.
    crew
        Who sprays.

    Returns
    -------
    Seconds and grams. Two painters share the rows at one height, see ``Rows.lower``, and both go from the bottom of
    their part up at once. No air comes into it, so it is kept.

    Sources
    -------
    Definition.
    """
    lower = [one.lower()[:, None, None] if crew.painters > 1 else None for one in lattice.rows]
    parts = []
    for setting in closed:
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
