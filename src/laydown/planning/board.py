"""The board of a coat: what every section and every join would cost, for many adjustments at once."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from laydown.physics.hand import Hand, age_spread, wet_chance
from laydown.planning.bounds import Lengths, Reach, lengths, shift_of
from laydown.planning.field import Field, Rows, rows_of
from laydown.planning.passes import Setting, settings_of
from laydown.planning.search import Board
from laydown.planning.weights import (
    ARM_M,
    MOVE_S,
    NARROWEST_M,
    STAGGER_M,
    TURN_S,
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
    """Sections between all bounds for c options: elapsed_s with the step to the next, and used_g; (c, n, n)."""

    elapsed_s: Floats
    used_g: Floats


def lattice_of(field: Field, reach: Reach, passes: Sequence[Setting]) -> Lattice:
    """Return rows and lengths of a coat.

    Parameters
    ----------
    field
        Where the layer goes.
    reach
        Bounds in the order of work.
    passes
        The coat's passes; their fans and overlaps count, not their speeds.

    Returns
    -------
    The lattice.

    Sources
    -------
    ``rows_of`` and ``lengths``.
    """
    rows = tuple(rows_of(field, one.fan_m, one.overlap) for one in passes)
    return Lattice(
        field,
        reach,
        rows,
        tuple(
            lengths(field, row, reach, shift_of(one, passes[0]))
            for one, row in zip(passes, rows, strict=True)
        ),
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
    Seconds and grams, shape (c, n, n). Two painters share the rows, so each takes half the way.

    Sources
    -------
    Definition.
    """
    elapsed, used = [], []
    for setting in closed:
        passes = settings_of(part, setting) if part in {"full", "light", "control"} else (setting,)
        time = sum(one.elapsed_s(p.speed_m_s) for one, p in zip(lattice.lengths, passes, strict=True))
        spray = sum(
            one.trigger_s(p.speed_m_s) * p.flow_g_s for one, p in zip(lattice.lengths, passes, strict=True)
        )
        elapsed.append(time / crew.painters + TURN_S * (crew.painters - 1) + MOVE_S)
        used.append(spray / crew.painters)
    return Times(np.asarray(elapsed, float), np.asarray(used, float))


def strokes_in_section(lattice: Lattice) -> float:
    """Return how many strokes a section has on average, for the spread of its time; definition."""
    return max(4.0, float(len(lattice.rows[0].centre_m)))


def chances(times: Times, open_s: Floats, extra_s: float, crew: Crew, spread: float) -> Floats:
    """Return the chance that the join at the end of every section is still open.

    Parameters
    ----------
    times
        Sections with c options.
    open_s
        Open time of the edge, shape (c,).
    extra_s
        A stop at the join, such as a refill [s].
    crew
        Whose hand it is.
    spread
        Standard deviation of ln(age / open).

    Returns
    -------
    Chances, shape (c, n, n).

    Sources
    -------
    ``wet_chance``.
    """
    age = np.maximum(times.elapsed_s + extra_s, 1e-3)
    return wet_chance(age, np.maximum(open_s, 1e-3)[:, None, None], spread, crew.hand)


def board_of(
    lattice: Lattice,
    times: Times,
    open_s: Floats,
    crew: Crew,
    rules: "Rules",
    weights: Weights = WEIGHTS,
) -> Board:
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
    weights
        Weights of the search.

    Returns
    -------
    Costs in minutes of work.

    Sources
    -------
    House weights, see ``laydown.planning.weights``.
    """
    reach = lattice.reach
    count = len(reach.x_m)
    width = np.abs(reach.x_m[None, :] - reach.x_m[:, None])
    forward = np.arange(count)[None, :] > np.arange(count)[:, None]
    whole = (np.arange(count)[:, None] == 0) & (np.arange(count)[None, :] == count - 1)
    allowed = forward & (((width >= NARROWEST_M) & (width <= WIDEST_M)) | (whole & (width <= WIDEST_M)))
    allowed &= rules.begin_allowed(reach)
    far = weights.width * np.maximum(0.0, width - ARM_M) ** 2
    section = np.where(allowed, times.elapsed_s / 60.0 + far, np.inf)
    place = np.array([0.0, *(one.cost for one in reach.places), 0.0])
    gap = np.array([False, *(one.kind == "gap" for one in reach.places), False])
    severity = (0.4 + 0.6 * np.minimum(1.0, place)) * np.where(gap, weights.gap_relief, 1.0)
    base = weights.join + weights.place * place + rules.repeat_cost(reach, weights)
    spread = age_spread(crew.hand, strokes_in_section(lattice), rules.open_ln_sd)
    joins = []
    for extra in (0.0, crew.refill_s):
        late = 1.0 - chances(times, open_s, extra, crew, spread)
        stop = (extra / 60.0 + weights.refill) if extra else 0.0
        joins.append(base[None, None, :] + weights.redo * late * severity[None, None, :] + stop)
    cup = np.full(len(open_s), crew.cup_ml * rules.density_g_ml)
    return Board(section, joins[0], joins[1], times.used_g, cup)


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
    """

    before: tuple[tuple[float, bool], ...]
    start_at: int | None
    open_ln_sd: float
    density_g_ml: float

    def begin_allowed(self, reach: Reach) -> NDArray[np.bool_]:
        """Return which sections the user's start allows, shape (n, n); definition."""
        count = len(reach.x_m)
        allowed = np.ones((count, count), bool)
        if self.start_at is not None:
            allowed[0, :] = False
            allowed[0, self.start_at] = True
        return allowed

    def repeat_cost(self, reach: Reach, weights: Weights) -> Floats:
        """Return what a join costs for lying near one of the coat before, shape (n,); infinite on open panel."""
        cost = np.zeros(len(reach.x_m))
        for index, place in enumerate(reach.places, start=1):
            for x_m, was_gap in self.before:
                near = abs(place.x_m - x_m) < STAGGER_M - 1e-9
                if near and place.kind == "gap" and was_gap:
                    cost[index] += weights.repeat
                elif near:
                    cost[index] = np.inf
        return cost
