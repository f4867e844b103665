"""Effect coats wet on wet: whether, after how long, and how wet the one below then is."""

from collections.abc import Sequence

from laydown.planning.counts import CoatPlan
from laydown.planning.paint import Paint
from laydown.planning.passes import Setting, settings_of
from laydown.planning.wetting import LONGEST_S, Wetting

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


def goes_on_wet(paint: Paint, coats: Sequence[CoatPlan], number: int, closed: Setting) -> bool:
    """Tell whether the coat after one goes on wet: between effect coats, unless the film would stand too thick.

    Parameters
    ----------
    paint
        The product.
    coats
        All coats of the layer.
    number
        Of the coat that waits, from 1.
    closed
        Its closed pass.

    Returns
    -------
    True where it does.

    Sources
    -------
    Common practice, no source; ``HEAVY_G_M2`` is an assumption.
    """
    if paint.product.kind != "effect" or number >= len(coats):
        return False
    films = [sum(one.film_g_m2() for one in settings_of(plan.part, closed)) for plan in coats]
    return STANDING_SHARE * sum(films[:number]) + films[number] <= HEAVY_G_M2


def wait_s(wetting: Wetting, spray_s: float) -> float | None:
    """Return how long a coat waits for the next on wet, from its last stroke.

    Parameters
    ----------
    wetting
        Times of the coat, one case.
    spray_s
        How long it was sprayed [s]: what is coated first waits so long before the flash begins.

    Returns
    -------
    A share of the time the thick places stay open in the air that blows then [s], less where the place that was coated
    first would close meanwhile; None where it has closed before any wait is left: then nothing goes on wet.

    Sources
    -------
    ``WET_ON_WET_SHARE``, ``WETTEST_SHARE``, ``SHORTEST_SHARE``.
    """
    opening, gloss = (min(float(one[0]), LONGEST_S) for one in (wetting.coat_open_s, wetting.gloss_s))
    share = min(WET_ON_WET_SHARE, WETTEST_SHARE - spray_s / opening)
    return share * gloss if share >= SHORTEST_SHARE else None


def still_wet_s(wetting: Wetting, spray_s: float, flash_s: float) -> float:
    """Return how long a coat stays open in still air when the next lands on it [s].

    Parameters
    ----------
    wetting
        Times of the coat below, one case.
    spray_s
        How long it was sprayed [s]: what is coated first waits so long before the flash begins.
    flash_s
        How long it flashed [s].

    Returns
    -------
    What is left of its open time; 0 where it is no longer wet.

    Notes
    -----
    Shares of the open time are used up one after the other: ``left = open (1 - spray / open - flash / gloss)``.

    Sources
    -------
    Assumption: a film gets from wet to closed at an even pace.
    """
    opening, gloss = (min(float(one[0]), LONGEST_S) for one in (wetting.coat_open_s, wetting.gloss_s))
    return opening * max(0.0, 1.0 - spray_s / opening - min(flash_s, LONGEST_S) / gloss)
