"""How likely the joins of a coat are wet, and which join of a plan is the tightest."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from laydown.physics.spray.hand import age_spread, wet_chance
from laydown.planning.layers.layer import LayerResult
from laydown.planning.layers.open_time import LONGEST_S
from laydown.planning.layers.way import stroke_age_s, walk_chance
from laydown.planning.sections.coat import PlannedCoat
from laydown.planning.setup.spraying import Crew
from laydown.schema.product import Kind

Floats = NDArray[np.float64]

FEARED: tuple[Kind, ...] = ("ground", "effect")
"""Layers whose joins decide; common practice, no source: clear flows together over a join that is a little late."""


@dataclass(frozen=True, slots=True)
class Tightest:
    """The join of a plan that is least likely wet.

    Attributes
    ----------
    chance
        That its edge is still open; 1 where there is none.
    spare_s
        Open time less age [s]; infinite where there is none.
    joins
        Joins of all coats that count.
    """

    chance: float
    spare_s: float
    joins: int


def join_ages_s(planned: PlannedCoat) -> Floats:
    """Return the age of the edge at each join of a coat [s], in the order of work.

    Parameters
    ----------
    planned
        The coat.

    Returns
    -------
    Ages of the simulated strokes; where two sections do not touch, the time from the end of the first.

    Sources
    -------
    ``joined_of``.
    """
    ages = [join.age_s for join in planned.joined.joins]
    ends = planned.made.end_s[: len(ages)]
    known = [age if math.isfinite(age) else end for age, end in zip(ages, ends, strict=True)]
    return np.array(known, float)


def hand_ln_sd(planned: PlannedCoat, crew: Crew) -> float:
    """Return what the hand adds to the spread of the ages of a coat's joins.

    Parameters
    ----------
    planned
        The coat.
    crew
        Whose hand it is.

    Returns
    -------
    Standard deviation of ln(age).

    Sources
    -------
    ``age_spread``.
    """
    return age_spread(crew.hand, max(4.0, float(len(planned.work.passes[0][1].centre_m))), 0.0)


def join_wet_chance(planned: PlannedCoat, crew: Crew, open_ln_sd: float) -> Floats:
    """Return how likely each join of a coat is wet.

    Parameters
    ----------
    planned
        The coat.
    crew
        Whose hand it is.
    open_ln_sd
        Standard deviation of ln(open time).

    Returns
    -------
    Chances, shape (joins,). Droplets of a control coat lie apart and level into the film below: there is no edge that
    could close, so its joins count as wet.

    Sources
    -------
    ``wet_chance``.
    """
    ages = join_ages_s(planned)
    if planned.task.part == "control" or not ages.size:
        return np.ones(ages.size)
    opening = min(max(planned.task.open_s, 1e-3), LONGEST_S)
    spread = math.hypot(hand_ln_sd(planned, crew), open_ln_sd)
    return wet_chance(np.maximum(ages, 0.5), np.array(opening), spread, crew.hand)


def tightest_of(layers: Mapping[Kind, LayerResult], crew: Crew) -> Tightest:
    """Return the tightest join of some layers.

    Parameters
    ----------
    layers
        Planned layers; clear is left out.
    crew
        Who sprays.

    Returns
    -------
    The join; for a coat that is walked, the meeting of neighbouring strokes.

    Sources
    -------
    ``join_wet_chance`` and ``walk_chance``.
    """
    found: list[tuple[float, float]] = []
    count = 0
    for name in FEARED:
        if name not in layers:
            continue
        layer = layers[name]
        spread = layer.conditions.open_ln_sd
        for planned in (coat.planned for coat in layer.coats):
            if planned.task.walk:
                spare = planned.task.open_s - stroke_age_s(planned)
                found.append((walk_chance(planned, spread, crew), spare))
                continue
            chances, ages = join_wet_chance(planned, crew, spread), join_ages_s(planned)
            count += len(ages)
            found += [
                (float(chance), min(planned.task.open_s, LONGEST_S) - float(age))
                for chance, age in zip(chances, ages, strict=True)
            ]
    chance, spare_s = min(found, default=(1.0, math.inf))
    return Tightest(chance, spare_s, count)
