"""How long the edges of every coat of a layer stay open and when each is matt, with every adjustment."""

from collections.abc import Sequence
from functools import lru_cache

import numpy as np

from laydown.planning.layers.adjustments import Option
from laydown.planning.layers.open_time import (
    LONGEST_S,
    THICKEST_UM,
    Conditions,
    Wetting,
    films_of,
    wetting_of,
)
from laydown.planning.setup.coat_parts import CoatPlan
from laydown.planning.setup.paint import Paint
from laydown.planning.setup.spraying import GunPass, settings_of

WET_ON_WET_SHARE = 0.5
"""How long an effect coat waits for the next, as a share of the time its thick places stay open in the air that blows
then; common practice, no source: wet on wet, when the gloss is just going."""

WETTEST_SHARE = 0.9
"""Share of its open time that the place coated first may have used up when the next coat lands; a choice: a little
must be left."""

SHORTEST_SHARE = 0.1
"""Shortest wait wet on wet, as ``WET_ON_WET_SHARE``; a choice: nobody sprays at once into a film just laid."""

HEAVY_G_M2 = 90.0
"""Standing wet film above which the next effect coat waits for matt: a thick film turns whitish and keeps its water
[g/m²]; assumption."""

STANDING_SHARE = 0.6
"""Share of an effect coat's wet film that still stands when the next lands wet on wet; assumption."""


def goes_on_wet(paint: Paint, coats: Sequence[CoatPlan], number: int, full: GunPass) -> bool:
    """Tell whether the coat after one goes on wet: between effect coats, unless the film would stand too thick.

    Source: Common practice, no source; ``HEAVY_G_M2`` is an assumption.
    """
    if paint.product.kind != "effect" or number >= len(coats):
        return False
    films = [sum(one.film_g_m2() for one in settings_of(plan.part, full)) for plan in coats]
    return STANDING_SHARE * sum(films[:number]) + films[number] <= HEAVY_G_M2


def wait_s(wetting: Wetting, spray_s: float) -> float | None:
    """Return how long a coat waits for the next on wet, from its last stroke."""
    opening, gloss = (min(float(one[0]), LONGEST_S) for one in (wetting.coat_open_s, wetting.gloss_s))
    share = min(WET_ON_WET_SHARE, WETTEST_SHARE - spray_s / opening)
    return share * gloss if share >= SHORTEST_SHARE else None


def still_wet_s(wetting: Wetting, spray_s: float, flash_s: float) -> float:
    """Return how long a coat stays open in still air when the next lands on it [s].

    Shares of the open time are used up one after the other: ``left = open (1 - spray / open - flash / gloss)``.

    Source: Assumption: a film gets from wet to closed at an even pace.
    """
    opening, gloss = (min(float(one[0]), LONGEST_S) for one in (wetting.coat_open_s, wetting.gloss_s))
    return opening * max(0.0, 1.0 - spray_s / opening - min(flash_s, LONGEST_S) / gloss)


@lru_cache(maxsize=12)
def layer_wetting(
    paint: Paint,
    conditions: Conditions,
    base_um: float,
    coats: tuple[CoatPlan, ...],
    ways: tuple[tuple[Option, GunPass], ...],
) -> tuple[Wetting, ...]:
    """Return the times of every coat of a layer."""
    count = len(ways)
    films = films_of([plan.part for plan in coats for _ in ways], [full for _ in coats for _, full in ways])
    below = [np.full(count, base_um)]
    for number in range(1, len(coats)):
        wet = np.array([goes_on_wet(paint, coats, number, full) for _, full in ways])
        film = films.whole_g_m2[(number - 1) * count : number * count]
        grown = np.minimum(THICKEST_UM, below[-1] + film * paint.dry_um_of(1.0))
        below.append(np.where(wet, 0.0, grown))
    options = [option for option, _ in ways]
    everything = wetting_of(options * len(coats), films, paint, conditions, np.concatenate(below))
    return tuple(everything.of(slice(number * count, (number + 1) * count)) for number in range(len(coats)))


def on_matt(
    paint: Paint,
    conditions: Conditions,
    base_um: float,
    coats: tuple[CoatPlan, ...],
    way: tuple[Option, GunPass],
) -> Wetting:
    """Return the times of the last of some coats where those below it have turned matt after all."""
    option, full = way
    below = films_of([plan.part for plan in coats[:-1]], [full] * (len(coats) - 1)).whole_g_m2.sum()
    grown = min(THICKEST_UM, base_um + paint.dry_um_of(float(below)))
    films = films_of([coats[-1].part], [full])
    return wetting_of([option], films, paint, conditions, np.array([grown]))
