"""The best sections of one coat in one direction, for every adjustment."""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from laydown.physics.hand import age_spread, wet_chance
from laydown.planning.board import board_of
from laydown.planning.coat_plan import CoatTask, Ground, rules_of
from laydown.planning.lattice import lattice_of, times_of
from laydown.planning.passes import Setting, settings_of
from laydown.planning.search import best_cuts

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Way:
    """One direction of one coat with c options, each of shape (c,).

    Attributes
    ----------
    cost
        Minutes of work; infinite where no sections are possible.
    chance, spare_s
        Of its tightest join; 1 and infinite where there is none.
    spray_s
        Time of the coat [s].
    joins
        Number of joins.
    """

    cost: Floats
    chance: Floats
    spare_s: Floats
    spray_s: Floats
    joins: Floats


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
    Cost, tightest join and time.

    Sources
    -------
    ``best_cuts``.
    """
    lattice = lattice_of(base.field, base.places, settings_of(task.part, closed[0]), backwards=backwards)
    times = times_of(lattice, task.part, closed, base.crew)
    rules = rules_of(base, lattice.reach, task)
    board = board_of(lattice, times, open_s, base.crew, rules)
    costs, cuts = best_cuts(board)
    spare, spray, chance = (np.full(len(costs), value) for value in (np.inf, np.inf, 1.0))
    spread = age_spread(base.crew.hand, max(4.0, float(len(lattice.rows[0].centre_m))), base.open_ln_sd)
    for case, cut in enumerate(cuts):
        sections = list(itertools.pairwise(cut.bounds))
        if not sections:
            chance[case], spare[case] = 0.0, -np.inf
            continue
        spray[case] = sum(float(times.elapsed_s[case, i, j]) for i, j in sections)
        spray[case] += base.crew.refill_s * len(cut.refills)
        ages = [
            float(board.age_s[both][case]) + (base.crew.refill_s if both[0][1] in cut.refills else 0.0)
            for both in itertools.pairwise(sections)
        ]
        if ages:
            opening = min(max(float(open_s[case]), 1e-3), 1e6)
            spare[case] = opening - max(ages)
            chance[case] = wet_chance(np.array([max(ages)]), np.array([opening]), spread, base.crew.hand)[0]
    joins = np.array([max(0, len(cut.bounds) - 2) for cut in cuts], np.float64)
    return Way(costs, chance, spare, spray, joins)
