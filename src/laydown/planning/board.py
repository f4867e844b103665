"""The board of a coat: what every section and every join would cost, for many adjustments at once."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from laydown.physics.hand import Hand, age_spread, wet_chance
from laydown.planning.bounds import Lengths, Reach, lengths, reach_of
from laydown.planning.field import Field, Rows, rows_of
from laydown.planning.passes import Setting, settings_of
from laydown.planning.places import Place
from laydown.planning.search import Board, Section
from laydown.planning.weights import (
    ARM_M,
    MOVE_S,
    NARROWEST_M,
    STAGGER_M,
    WEIGHTS,
    WIDEST_M,
    Weights,
)
from laydown.schema.plan import Part

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Crew:
    """Who sprays and how a refill goes.

    Attributes
    ----------
    painters
        1 or 2.
    hand
        Spreads of the hand.
    refill_s
        What a refill takes [s].
    cup_ml
        Usable cup [mL].
    """

    painters: int
    hand: Hand
    refill_s: float
    cup_ml: float


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


def follow_ages_s(lattice: Lattice, times: Times, follow: Sequence[tuple[Section, Section]]) -> Floats:
    """Return how old the edge between two successive sections is at its worst row.

    Parameters
    ----------
    lattice, times
        Rows, and what sections take with c options.
    follow
        m pairs of successive sections.

    Returns
    -------
    Ages [s], shape (c, m).

    Notes
    -----
    The edge of a row waits while the rest of the section is sprayed and until the next section is through with the
    same row::

        age = T + max over rows (t_next(row) - t(row))                          (1)

    over the rows that both sections have. Within 15 % of the simulated coat (checked in
    ``tests/unit/planning/test_board.py``).

    Sources
    -------
    (1) Definition.
    """
    if not follow:
        return np.zeros((len(times.elapsed_s), 0))
    i, j, k = np.array([(first[0], first[1], second[1]) for first, second in follow]).T
    has = lattice.lengths[0].turns > 0.0
    both = has[:, i, j] & has[:, j, k]
    late = np.where(both[None], times.row_s[:, :, j, k] - times.row_s[:, :, i, j], -np.inf).max(axis=1)
    skew = np.where(np.isfinite(late), late, 0.0)
    return np.asarray(np.maximum(times.elapsed_s[:, i, j] + skew, 1.0), np.float64)


def late_chances(ages_s: Floats, open_s: Floats, crew: Crew, spread: float) -> Floats:
    """Return the chance that joins of given ages come too late, for every option.

    Parameters
    ----------
    ages_s
        Ages [s], shape (c, m).
    open_s
        Open time of the edge, shape (c,).
    crew
        Whose hand it is.
    spread
        Standard deviation of ln(age / open).

    Returns
    -------
    Chances, shape (c, m), interpolated in a table of 200 ages.

    Sources
    -------
    ``wet_chance``.
    """
    table_s = np.geomspace(0.5, 20_000.0, 200)
    opening = np.clip(open_s, 1e-3, 1e6)[:, None]
    late = 1.0 - wet_chance(table_s[None, :], opening, spread, crew.hand)
    logs = np.log(table_s)
    return np.stack([np.interp(np.log(age), logs, one) for age, one in zip(ages_s, late, strict=True)])


def allowed_sections(reach: Reach, rules: "Rules") -> list[Section]:
    """Return the sections that are neither too narrow nor too wide and keep the user's start.

    Parameters
    ----------
    reach
        Bounds in the order of work.
    rules
        What the coat must keep.

    Returns
    -------
    Pairs of bounds.

    Sources
    -------
    ``NARROWEST_M`` and ``WIDEST_M``.
    """
    count = len(reach.x_m)
    found = []
    for i in range(count):
        if i and not np.isfinite(rules.bound_cost(reach)[i]):
            continue
        for j in range(i + 1, count):
            width = abs(float(reach.x_m[j] - reach.x_m[i]))
            whole = i == 0 and j == count - 1
            if width > WIDEST_M or (width < NARROWEST_M and not whole):
                continue
            if i == 0 and rules.start_at not in {None, j}:
                continue
            found.append((i, j))
    return found


def board_of(lattice: Lattice, times: Times, open_s: Floats, crew: Crew, rules: "Rules") -> Board:
    """Return the board that the search decides on.

    Parameters
    ----------
    lattice, times
        Bounds, and what sections take with c options.
    open_s
        Open time of the edge, shape (c,).
    crew
        Who sprays.
    rules
        What the coat before and the user's start ask for.

    Returns
    -------
    Costs in minutes of work.

    Sources
    -------
    House weights, see ``laydown.planning.weights``.
    """
    reach, weights = lattice.reach, rules.weights
    sections = allowed_sections(reach, rules)
    by_start: dict[int, list[Section]] = {}
    for section in sections:
        by_start.setdefault(section[0], []).append(section)
    follow = [(first, second) for first in sections for second in by_start.get(first[1], [])]
    wide = {
        (i, j): weights.width * max(0.0, abs(float(reach.x_m[j] - reach.x_m[i])) - ARM_M) ** 2
        for i, j in sections
    }
    ages = follow_ages_s(lattice, times, follow)
    spread = age_spread(crew.hand, max(4.0, float(len(lattice.rows[0].centre_m))), rules.open_ln_sd)
    bound_cost = rules.bound_cost(reach)
    at = np.array([first[1] for first, _ in follow], np.int64)
    redo = weights.redo * rules.severity(reach)[at]
    joins = []
    for stop_s in (0.0, crew.refill_s):
        late = late_chances(ages + stop_s, open_s, crew, spread)
        cost = bound_cost[at] + redo * late + (stop_s / 60.0 + weights.refill if stop_s else 0.0)
        joins.append(dict(zip(follow, cost.T, strict=True)))
    return Board(
        len(reach.x_m),
        {(i, j): times.elapsed_s[:, i, j] / 60.0 + wide[i, j] for i, j in sections},
        joins[0],
        joins[1],
        times.used_g,
        np.full(len(open_s), crew.cup_ml * rules.density_g_ml),
        dict(zip(follow, ages.T, strict=True)),
    )


@dataclass(frozen=True, slots=True)
class Rules:
    """What else a coat must keep.

    Attributes
    ----------
    before
        Joins of the coat before: place [m] and whether it is a gap.
    start_at
        Index of the bound at which the first section must end; None = free.
    open_ln_sd
        Standard deviation of ln(open time).
    density_g_ml
        Of the mix [g/mL].
    weights
        Weights of the search.
    """

    before: tuple[tuple[float, bool], ...]
    start_at: int | None
    open_ln_sd: float
    density_g_ml: float
    weights: Weights = WEIGHTS

    def bound_cost(self, reach: Reach) -> Floats:
        """Return what a join costs by its place, shape (n,); infinite too near an open join of the coat before."""
        cost = np.full(len(reach.x_m), self.weights.join)
        for index, place in enumerate(reach.places, start=1):
            cost[index] += self.weights.place * place.cost
            for x_m, was_gap in self.before:
                near = abs(place.x_m - x_m) < STAGGER_M - 1e-9
                if near:
                    cost[index] += self.weights.repeat if place.kind == "gap" and was_gap else np.inf
        return cost

    def severity(self, reach: Reach) -> Floats:
        """Return how much of a redo a late join at each bound is worth, 0 to 1, shape (n,); house rule."""
        place = np.array([1.0, *(one.cost for one in reach.places), 1.0])
        gap = np.array([False, *(one.kind == "gap" for one in reach.places), False])
        return np.asarray(
            (0.4 + 0.6 * np.minimum(1.0, place)) * np.where(gap, self.weights.gap_relief, 1.0), np.float64
        )
