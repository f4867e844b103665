"""The best sections of one coat in one direction, for every adjustment."""

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from laydown.physics.hand import age_spread, wet_chance
from laydown.planning.board import Opening, board_of
from laydown.planning.coat_plan import CoatTask, Ground, rules_of
from laydown.planning.crew import Crew
from laydown.planning.lattice import Times, lattice_of, times_of
from laydown.planning.passes import Setting, settings_of
from laydown.planning.search import Board, Cut, best_cuts

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Tightest:
    """What the sections of one option come to, by the search's own estimate.

    Attributes
    ----------
    chance, spare_s
        Least chance that an edge is open when it is reached, and least spare time [s]; 1 and infinite without joins.
    spray_s
        Time of the coat [s]; infinite where no sections are possible.
    joins
        Number of joins.
    """

    chance: float
    spare_s: float
    spray_s: float
    joins: int


@dataclass(frozen=True, slots=True)
class Way:
    """One direction of one coat with c options.

    Attributes
    ----------
    cost
        Minutes of work, shape (c,); infinite where no sections are possible.
    cuts
        Sections of each option.
    board, times
        What they were chosen from.
    opening
        Open time of the edge with each option, and its setting.
    crew, spread
        Whose hand it is, and the standard deviation of ln(age / open).
    """

    cost: Floats
    cuts: tuple[Cut, ...]
    board: Board
    times: Times
    opening: Opening
    crew: Crew
    spread: float

    def tightest(self, index: int) -> Tightest:
        """Return what the sections of one option come to; ``wet_chance`` of the oldest edge."""
        cut = self.cuts[index]
        ways = list(itertools.pairwise(cut.bounds))
        if not ways:
            return Tightest(0.0, -math.inf, math.inf, 0)
        setting = int(self.opening.setting[index])
        spray = sum(float(self.times.elapsed_s[setting, i, j]) for i, j in ways)
        spray += self.crew.refill_s * len(cut.refills)
        joins = [
            (first[1], self.board.sections.join(first, second)) for first, second in itertools.pairwise(ways)
        ]
        ages = [
            float(self.board.age_s[index, join]) + (self.crew.refill_s if bound in cut.refills else 0.0)
            for bound, join in joins
        ]
        if not ages:
            return Tightest(1.0, math.inf, spray, 0)
        opening = min(max(float(self.opening.open_s[index]), 1e-3), 1e6)
        chance = wet_chance(np.array([max(ages)]), np.array([opening]), self.spread, self.crew.hand)[0]
        return Tightest(float(chance), opening - max(ages), spray, len(ages))


def way_of(
    base: Ground, task: CoatTask, closed: Sequence[Setting], open_s: Floats, *, backwards: bool
) -> Way:
    """Return the best sections of one coat in one direction, for every option.

    Parameters
    ----------
    base
        What the layer stands on.
    task
        The coat; its own adjustment is not used.
    closed, open_s
        Closed pass and open time of each of c options.
    backwards
        Whether the work goes from the rear to the front.

    Returns
    -------
    Costs and sections.

    Sources
    -------
    ``best_cuts``.
    """
    lattice = lattice_of(base.field, base.places, settings_of(task.part, closed[0]), backwards=backwards)
    settings = tuple(dict.fromkeys(closed))
    times = times_of(lattice, task.part, settings, base.crew)
    opening = Opening(open_s, np.array([settings.index(one) for one in closed], np.int64))
    board = board_of(lattice, times, opening, base.crew, rules_of(base, lattice.reach, task))
    costs, cuts = best_cuts(board)
    spread = age_spread(base.crew.hand, max(4.0, float(len(lattice.rows[0].centre_m))), base.open_ln_sd)
    return Way(costs, cuts, board, times, opening, base.crew, spread)
