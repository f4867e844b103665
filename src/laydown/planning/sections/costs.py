"""The board of a coat: what every section and every join would cost, for many adjustments at once."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from laydown.physics.spray.hand import age_spread, wet_chance
from laydown.physics.values import Floats, Ints
from laydown.planning.sections.candidates import Rules, Sections, allowed_sections
from laydown.planning.sections.search import Board, most_g
from laydown.planning.sections.stretches import Bounds, Lattice, Times, bound_lines_m
from laydown.planning.setup.spraying import Crew
from laydown.planning.setup.weights import ARM_M, CUP_SHARE

OVERHANG_M = 0.12
"""How far one row reaches over the next section's row below before their edges count as met [m]; a choice: less is lost
in the zone over which ends are spread."""


@dataclass(frozen=True, slots=True, eq=False)
class Opening:
    """How long edges stay open with each of c options."""

    open_s: Floats
    setting: Ints


@lru_cache(maxsize=48)
def join_ages_s(lattice: Lattice, times: Times, sections: Sections) -> Floats:
    """Return how old the edge between two successive sections is at its worst row.

    The edge of a row waits while the rest of the section is sprayed and until the next section is through with the
    same row::

        age = T + max over rows (t_next(row) - t(row))                          (1)

    over the rows that both sections have. Where two painters part, the first row of the upper one may overhang the
    next section; then the lower one's last stroke meets it, long after. Within 15 % of the simulated coat (checked in
    ``tests/unit/planning/sections/test_costs.py``).
    """
    first, second = sections.joins
    i, j = sections.ends
    has = (lattice.lengths[0].turns > 0.0)[:, i, j]
    row_s = times.row_s[:, :, i, j]
    both = has[:, first] & has[:, second]
    late = np.where(both, row_s[:, :, second] - row_s[:, :, first], -np.inf).max(axis=1)
    skew = np.where(np.isfinite(late), late, 0.0)
    if 0 < times.upper < len(has):
        above, below = times.upper, times.upper - 1
        overhangs = _overhangs(lattice, times.upper)[j[first]]
        meets = overhangs & has[above, first] & has[below, second]
        over = row_s[:, below, second] - row_s[:, above, first]
        skew = np.where(meets, np.maximum(skew, over), skew)
    return np.asarray(np.maximum(times.elapsed_s[:, i, j][:, first] + skew, 1.0), np.float64)


@lru_cache(maxsize=48)
def _most_g(times: Times, sections: Sections) -> float:
    """Grams of the coat cut so that it takes most, with the setting that takes most."""
    return float(most_g(sections, times.cup_g[:, *sections.ends]).max())


def _overhangs(lattice: Lattice, upper: int) -> NDArray[np.bool_]:
    """Where a bound lies so aslant that the row above the parting reaches over the next section's row below it."""
    lines = bound_lines_m(lattice.reach, lattice.rows[0], 0.0)
    ahead = lines[:, upper] - lines[:, upper - 1]
    return np.asarray((-ahead if lattice.reach.backwards else ahead) > OVERHANG_M, bool)


def late_chance(ages_s: Floats, opening: Opening, crew: Crew, spread: float) -> Floats:
    """Return the chance that joins of given ages come too late, for every option."""
    table_s = np.geomspace(2.0, 5_000.0, 120)
    open_s = np.clip(opening.open_s, 1e-3, 1e6)[:, None]
    late = 1.0 - wet_chance(table_s[None, :], open_s, spread, crew.hand)
    logs, asked = np.log(table_s), np.log(ages_s)
    return np.stack(
        [np.interp(asked[setting], logs, row) for setting, row in zip(opening.setting, late, strict=True)]
    )


def _width_cost(reach: Bounds, sections: Sections, weight: float) -> Floats:
    """What sections cost for being wider than the arm reaches, shape (m,)."""
    i, j = sections.ends
    beyond = np.maximum(0.0, np.abs(reach.x_m[j] - reach.x_m[i]) - ARM_M)
    return np.asarray(weight * beyond**2, np.float64)


def board_of(lattice: Lattice, times: Times, opening: Opening, crew: Crew, rules: Rules) -> Board:
    """Return the board that the search decides on."""
    reach, weights = lattice.reach, rules.weights
    sections = allowed_sections(reach, rules)
    i, j = sections.ends
    ages = join_ages_s(lattice, times, sections)
    spread = age_spread(crew.hand, max(4.0, float(len(lattice.rows[0].centre_m))), rules.open_ln_sd)
    at = j[sections.joins[0]]
    place = rules.bound_cost(reach)[at]
    redo = weights.redo * rules.severity(reach)[at]
    join = place + redo * late_chance(ages, opening, crew, spread)
    used_g = times.cup_g[:, i, j]
    cup_g = CUP_SHARE * crew.cup_ml * rules.density_g_ml
    refill: Floats | None = None
    # Where one filling lasts for the whole coat however it is cut, no refill can pay.
    if _most_g(times, sections) > cup_g:
        stopped = late_chance(ages + crew.refill_s, opening, crew, spread)
        refill = place + redo * stopped + (crew.refill_s / 60.0 + weights.refill)
    section = times.elapsed_s[:, i, j] / 60.0 + _width_cost(reach, sections, weights.width)
    of = opening.setting
    return Board(sections, section[of], join, refill, used_g[of], np.full(len(of), cup_g), ages[of])
