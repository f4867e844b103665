"""The board of a coat: what every section and every join would cost, for many adjustments at once."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from laydown.physics.hand import age_spread, wet_chance
from laydown.planning.bounds import bound_lines_m
from laydown.planning.crew import Crew
from laydown.planning.lattice import Lattice, Times
from laydown.planning.rules import Rules, allowed_sections
from laydown.planning.search import Board, Section
from laydown.planning.weights import ARM_M, CUP_SHARE

Floats = NDArray[np.float64]

OVERHANG_M = 0.12
"""How far one row reaches over the next section's row below before their edges count as met [m]; a choice: less is lost
in the zone over which ends are spread."""


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

    over the rows that both sections have. Where two painters part, the first row of the upper one may overhang the
    next section; then the lower one's last stroke meets it, long after. Within 15 % of the simulated coat (checked in
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
    if 0 < times.upper < len(has):
        above, below = times.upper, times.upper - 1
        meets = _overhangs(lattice, times.upper)[j] & has[above, i, j] & has[below, j, k]
        over = times.row_s[:, below, j, k] - times.row_s[:, above, i, j]
        skew = np.where(meets, np.maximum(skew, over), skew)
    return np.asarray(np.maximum(times.elapsed_s[:, i, j] + skew, 1.0), np.float64)


def _overhangs(lattice: Lattice, upper: int) -> NDArray[np.bool_]:
    """Where a bound lies so aslant that the row above the parting reaches over the next section's row below it."""
    lines = bound_lines_m(lattice.reach, lattice.rows[0], 0.0)
    ahead = lines[:, upper] - lines[:, upper - 1]
    return np.asarray((-ahead if lattice.reach.backwards else ahead) > OVERHANG_M, bool)


def late_chances(ages_s: Sequence[Floats], open_s: Floats, crew: Crew, spread: float) -> list[Floats]:
    """Return the chance that joins of given ages come too late, for every option.

    Parameters
    ----------
    ages_s
        Several sets of ages [s], each of shape (c, m).
    open_s
        Open time of the edge, shape (c,).
    crew
        Whose hand it is.
    spread
        Standard deviation of ln(age / open).

    Returns
    -------
    Chances of each set, shape (c, m), interpolated in a table of 120 ages.

    Sources
    -------
    ``wet_chance``.
    """
    table_s = np.geomspace(2.0, 5_000.0, 120)
    opening = np.clip(open_s, 1e-3, 1e6)[:, None]
    late = 1.0 - wet_chance(table_s[None, :], opening, spread, crew.hand)
    logs = np.log(table_s)
    return [
        np.stack([np.interp(one, logs, row) for one, row in zip(np.log(ages), late, strict=True)])
        for ages in ages_s
    ]


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
    stops = (0.0, crew.refill_s)
    for stop_s, late in zip(
        stops, late_chances([ages + stop for stop in stops], open_s, crew, spread), strict=True
    ):
        cost = bound_cost[at] + redo * late + (stop_s / 60.0 + weights.refill if stop_s else 0.0)
        joins.append(dict(zip(follow, cost.T, strict=True)))
    return Board(
        len(reach.x_m),
        {(i, j): times.elapsed_s[:, i, j] / 60.0 + wide[i, j] for i, j in sections},
        joins[0],
        joins[1],
        {(i, j): times.cup_g[:, i, j] for i, j in sections},
        np.full(len(open_s), CUP_SHARE * crew.cup_ml * rules.density_g_ml),
        dict(zip(follow, ages.T, strict=True)),
    )
