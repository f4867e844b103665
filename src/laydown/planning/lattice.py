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


@dataclass(frozen=True, slots=True)
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


@dataclass(frozen=True, slots=True)
class Times:
    """Sections between all bounds for c options.

    Attributes
    ----------
    elapsed_s
        Time of a section with the step to the next [s], shape (c, n, n).
    row_s
        When the closed pass of a section is through with a row [s], shape (c, rows, n, n).
    used_g
        Paint from the start to each bound [g], shape (c, n).
    """

    elapsed_s: Floats
    row_s: Floats
    used_g: Floats


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


def times_of(lattice: Lattice, part: Part, closed: Sequence[Setting], crew: Crew) -> Times:
    """Return what every section takes with every option.

    Parameters
    ----------
    lattice
        Lengths of the coat.
    part
        What it consists of.
    closed
        Closed pass of each of c options.
    crew
        Who sprays.

    Returns
    -------
    Seconds and grams. Two painters share the rows, so each takes half the way.

    Sources
    -------
    Definition.
    """
    known: dict[Setting, tuple[Floats, Floats, Floats]] = {}
    for setting in dict.fromkeys(closed):
        passes = settings_of(part, setting)
        times = [one.elapsed_s(p.speed_m_s) for one, p in zip(lattice.lengths, passes, strict=True)]
        grams = [
            one.trigger_s(p.speed_m_s)[0] * p.flow_g_s for one, p in zip(lattice.lengths, passes, strict=True)
        ]
        elapsed = np.sum([time.sum(axis=0) for time in times], axis=0) / crew.painters + MOVE_S
        known[setting] = (
            elapsed,
            np.cumsum(times[0], axis=0) / crew.painters,
            np.sum(grams, axis=0) / crew.painters,
        )
    parts = [known[setting] for setting in closed]
    return Times(*(np.stack([part[index] for part in parts]) for index in range(3)))
