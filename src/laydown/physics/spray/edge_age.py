"""When each place of a skin was wetted first and last, and how old the edge is where two sections meet."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from laydown.physics.spray.strokes import SkinGrid, Strokes, film_factors, passing_s
from laydown.physics.values import Floats, Ints

WET_G_M2 = 5.0
"""A deposit thinner than this neither wets an edge nor counts as its touch [g/m²]; assumption."""


@dataclass(frozen=True, slots=True, eq=False)
class Laid:
    """Strokes on a skin.

    Attributes
    ----------
    strokes, skin
        n strokes in the order of time, and the grid.
    up_per_m, along_g_m
        Factors of their film, see ``film_factors``: shape (rows, n) [1/m] and (n, columns) [g/m].
    """

    strokes: Strokes
    skin: SkinGrid
    up_per_m: Floats
    along_g_m: Floats

    def only(self, chosen: NDArray[np.bool_]) -> "Laid":
        """Return the strokes where ``chosen`` (shape (n,)) holds; definition."""
        return Laid(self.strokes.only(chosen), self.skin, self.up_per_m[:, chosen], self.along_g_m[chosen])

    def window(self, columns: slice) -> "Laid":
        """Return the same strokes on some columns of the skin, given by first and one past the last; definition."""
        return Laid(self.strokes, self.skin.window(columns), self.up_per_m, self.along_g_m[:, columns])

    def middles_m(self) -> Floats:
        """Return the middle of each column along the vehicle [m]; definition."""
        x = self.skin.x_edges_m()
        return np.asarray((x[1:] + x[:-1]) / 2.0, np.float64)


def lay(strokes: Strokes, skin: SkinGrid) -> Laid:
    """Return strokes on a skin, with the factors of their film.

    Parameters
    ----------
    strokes
        n strokes in the order of time.
    skin
        The grid.
    """
    return Laid(strokes, skin, *film_factors(strokes, skin))


@dataclass(frozen=True, slots=True)
class _Touches:
    """What touches each row: up to k strokes, -1 where there are fewer.

    ``number`` has shape (rows, k); ``wets`` and ``times_s`` tell where and when, shape (rows, k, columns).
    """

    number: Ints
    wets: NDArray[np.bool_]
    times_s: Floats


def _touches(laid: Laid) -> _Touches:
    """Find the strokes that wet each row; a fan covers few rows, so there are few."""
    covers = laid.up_per_m * laid.along_g_m.max(axis=1, initial=0.0) > WET_G_M2
    count = covers.sum(axis=1)
    row, stroke = np.nonzero(covers)
    place = np.arange(len(row)) - np.repeat(np.cumsum(count) - count, count)
    number = np.full((len(covers), int(count.max(initial=0))), -1, np.int64)
    number[row, place] = stroke
    across = np.zeros(number.shape)
    across[row, place] = laid.up_per_m[row, stroke]
    wets = across[:, :, None] * laid.along_g_m[number] > WET_G_M2
    return _Touches(number, wets, passing_s(laid.strokes, laid.middles_m())[number])


def final_touch(laid: Laid) -> tuple[Floats, Ints]:
    """Return when each cell was wetted last, and the last stroke that wetted it.

    Parameters
    ----------
    laid
        Strokes of one or more sections.

    Returns
    -------
    Times [s], minus infinity where never wetted by ``WET_G_M2`` or more at once, and the number of the last stroke
    in the order given, -1 where none; both of shape (rows, columns).
    """
    touches = _touches(laid)
    last = np.where(touches.wets, touches.times_s, -np.inf).max(axis=1, initial=-np.inf)
    number = np.where(touches.wets, touches.number[:, :, None], -1).max(axis=1, initial=-1)
    return last, number


def last_wet_s(laid: Laid) -> Floats:
    """Return when each cell was wetted last.

    Parameters
    ----------
    laid
        Strokes of one or more sections.

    Returns
    -------
    Times [s], shape (rows, columns); minus infinity where never wetted by ``WET_G_M2`` or more at once.
    """
    touches = _touches(laid)
    return np.asarray(np.where(touches.wets, touches.times_s, -np.inf).max(axis=1, initial=-np.inf), float)


def first_wet_s(laid: Laid) -> Floats:
    """Return when each cell was wetted first.

    Parameters
    ----------
    laid
        Strokes of one or more sections.

    Returns
    -------
    Times [s], shape (rows, columns); infinity where never wetted.
    """
    touches = _touches(laid)
    return np.asarray(np.where(touches.wets, touches.times_s, np.inf).min(axis=1, initial=np.inf), float)


def join_age_s(before: Laid, after: Laid) -> Floats:
    """Return how old the edge of one section is when the next first reaches it.

    Parameters
    ----------
    before, after
        Strokes of the earlier and the later section, on the same window about their join.

    Returns
    -------
    Age [s], shape (rows, columns); NaN where the two do not meet.

    Notes
    -----
    ``age = first touch by the later section - last touch by the earlier one before it``. Only the first touch
    counts: later passes of the same section meet film that is wet anyway.
    """
    age = first_wet_s(after) - last_wet_s(before)
    return np.where(np.isfinite(age), age, np.nan)
