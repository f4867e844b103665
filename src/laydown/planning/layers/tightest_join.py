"""How likely the joins of a coat are wet, and which join of a plan is the tightest."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from laydown.physics.spray.hand import age_spread, wet_chance
from laydown.physics.values import Floats
from laydown.planning.layers.layer import LayerResult
from laydown.planning.layers.open_time import LONGEST_S
from laydown.planning.layers.way import stroke_age_s, walk_chance
from laydown.planning.sections.coat import PlannedCoat
from laydown.planning.setup.spraying import Crew
from laydown.schema.product import LayerName

FEARED: tuple[LayerName, ...] = ("ground", "effect")
"""Layers whose joins decide; common practice, no source: clear flows together over a join that is a little late."""


@dataclass(frozen=True, slots=True)
class Tightest:
    """The join of a plan that is least likely wet."""

    chance: float
    margin_s: float
    joins: int


def join_ages_s(planned: PlannedCoat) -> Floats:
    """Return the age of the edge at each join of a coat [s], in the order of work."""
    ages = [join.age_s for join in planned.joined.joins]
    ends = planned.made.end_s[: len(ages)]
    known = [age if math.isfinite(age) else end for age, end in zip(ages, ends, strict=True)]
    return np.array(known, float)


def hand_ln_sd(planned: PlannedCoat, crew: Crew) -> float:
    """Return what the hand adds to the spread of the ages of a coat's joins."""
    return age_spread(crew.hand, max(4.0, float(len(planned.work.passes[0][1].centre_m))), 0.0)


def join_wet_chance(planned: PlannedCoat, crew: Crew, open_ln_sd: float) -> Floats:
    """Return how likely each join of a coat is wet."""
    ages = join_ages_s(planned)
    if planned.task.part == "drop" or not ages.size:
        return np.ones(ages.size)
    opening = min(max(planned.task.open_s, 1e-3), LONGEST_S)
    spread = math.hypot(hand_ln_sd(planned, crew), open_ln_sd)
    return wet_chance(np.maximum(ages, 0.5), np.array(opening), spread, crew.hand)


def tightest_of(layers: Mapping[LayerName, LayerResult], crew: Crew) -> Tightest:
    """Return the tightest join of some layers."""
    found: list[tuple[float, float]] = []
    count = 0
    for name in FEARED:
        if name not in layers:
            continue
        layer = layers[name]
        spread = layer.conditions.open_ln_sd
        for planned in (coat.planned for coat in layer.coats):
            if planned.task.walk:
                margin = planned.task.open_s - stroke_age_s(planned)
                found.append((walk_chance(planned, spread, crew), margin))
                continue
            chances, ages = join_wet_chance(planned, crew, spread), join_ages_s(planned)
            count += len(ages)
            found += [
                (float(chance), min(planned.task.open_s, LONGEST_S) - float(age))
                for chance, age in zip(chances, ages, strict=True)
            ]
    chance, margin_s = min(found, default=(1.0, math.inf))
    return Tightest(chance, margin_s, count)
