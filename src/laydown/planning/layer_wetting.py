"""How long the edges of every coat of a layer stay open and when each is matt, with every adjustment."""

from functools import lru_cache

import numpy as np

from laydown.planning.counts import CoatPlan
from laydown.planning.options import Option
from laydown.planning.paint import Paint
from laydown.planning.passes import Setting
from laydown.planning.wet_on_wet import goes_on_wet
from laydown.planning.wetting import THICKEST_UM, Conditions, Wetting, films_of, wetting_of


@lru_cache(maxsize=12)
def layer_wetting(
    paint: Paint,
    conditions: Conditions,
    base_um: float,
    coats: tuple[CoatPlan, ...],
    ways: tuple[tuple[Option, Setting], ...],
) -> tuple[Wetting, ...]:
    """Return the times of every coat of a layer.

    Parameters
    ----------
    paint
        The product.
    conditions
        Air and panel.
    base_um
        Dry, absorbing film below the layer [µm].
    coats
        What the layer consists of.
    ways
        n adjustments and their closed passes.

    Returns
    -------
    Times of each coat, each of shape (n,): a coat dries on the coats below it, unless it goes on wet. No crew and no
    section comes into them, so they are kept.

    Sources
    -------
    ``wetting_of``.
    """
    count = len(ways)
    films = films_of(
        [plan.part for plan in coats for _ in ways], [closed for _ in coats for _, closed in ways]
    )
    below = [np.full(count, base_um)]
    for number in range(1, len(coats)):
        wet = np.array([goes_on_wet(paint, coats, number, closed) for _, closed in ways])
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
    way: tuple[Option, Setting],
) -> Wetting:
    """Return the times of the last of some coats where those below it have turned matt after all.

    Parameters
    ----------
    paint
        The product.
    conditions
        Air and panel.
    base_um
        Dry, absorbing film below the layer [µm].
    coats
        The coat and those below it.
    way
        The adjustment and its closed pass.

    Returns
    -------
    Times of one case.

    Sources
    -------
    ``wetting_of``.
    """
    option, closed = way
    below = films_of([plan.part for plan in coats[:-1]], [closed] * (len(coats) - 1)).whole_g_m2.sum()
    grown = min(THICKEST_UM, base_um + paint.dry_um_of(float(below)))
    films = films_of([coats[-1].part], [closed])
    return wetting_of([option], films, paint, conditions, np.array([grown]))
