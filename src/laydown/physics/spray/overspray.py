"""Overspray: where the fog of a coat comes down, and where it meets paint that is already set."""

from dataclasses import dataclass

import numpy as np

from laydown.physics.spray.edge_age import final_touch, lay
from laydown.physics.spray.hand import normal_share
from laydown.physics.spray.strokes import SkinGrid, Strokes, banded_film_g_m2, passing_s
from laydown.physics.values import Floats, Ints

SHARE_LANDED = 0.15
"""Share of the paint that misses which comes down on the side; assumption, 0.05 to 0.4. Masses go linearly with it."""

REACH_M = 0.25
"""Standard deviation of the fog's landing place, both ways [m]; assumption."""

DRIFT_M = -0.05
"""Mean drift of the fog up the skin, downward in a down-draught [m]; assumption."""

_SQRT_TWO_PI = 2.5066282746310002
_CELLS_AT_ONCE = 1024


@dataclass(frozen=True, slots=True, eq=False)
class Fog:
    """Overspray of a coat on a coarse skin, whatever the air.

    Attributes
    ----------
    bare_g_m2
        Fog on places that this coat never wets [g/m²], shape (rows, columns).
    landed_g
        All fog that comes down on the skin, stretched to the planned area [g].
    up_per_m, along_g_m
        Factors of the fog of each of n strokes: shape (n, rows) [1/m] and (n, columns) [g/m].
    times_s
        When each stroke passes each column [s], shape (n, columns).
    last_s, number
        When each cell was wetted last [s] and by which stroke, -1 where by none; shape (rows, columns).
    """

    bare_g_m2: Floats
    landed_g: float
    up_per_m: Floats
    along_g_m: Floats
    times_s: Floats
    last_s: Floats
    number: Ints


def _fog(strokes: Strokes, skin: SkinGrid) -> tuple[Floats, Floats]:
    """Return the two factors of the fog of each stroke: up (n, rows) [1/m] and along (n, columns) [g/m]."""
    s = skin.s_edges_m()
    x = skin.x_edges_m()
    middle = (s[1:] + s[:-1]) / 2.0
    centre = (x[1:] + x[:-1]) / 2.0
    up = np.exp(-0.5 * ((middle[None, :] - strokes.centre_m[:, None] - DRIFT_M) / REACH_M) ** 2)
    along = normal_share((centre[None, :] - strokes.left_m[:, None]) / REACH_M) - normal_share(
        (centre[None, :] - strokes.right_m[:, None]) / REACH_M
    )
    missed = strokes.flow_g_s * (1.0 - strokes.transfer) * SHARE_LANDED / strokes.speed_m_s
    return up / (REACH_M * _SQRT_TWO_PI), along * missed[:, None]


def fog_of_coat(strokes: Strokes, skin: SkinGrid) -> Fog:
    """Return where the overspray of a coat comes down.

    Parameters
    ----------
    strokes
        All strokes of the coat in the order of time, shape (n,).
    skin
        A coarse grid, 50 mm is fine.

    Returns
    -------
    The fog, see ``Fog``.

    Sources
    -------
    Landing share, reach and drift: assumptions.
    """
    laid = lay(strokes, skin)
    last, number = final_touch(laid)
    up, along = _fog(strokes, skin)
    bare = np.where(number >= 0, 0.0, banded_film_g_m2(np.ascontiguousarray(up.T), along))
    landed = (up.sum(axis=1) * along.sum(axis=1) * strokes.stretch).sum() * skin.cell_m**2
    return Fog(bare, float(landed), up, along, passing_s(strokes, laid.middles_m()), last, number)


def dry_fog_g_m2(fog: Fog, open_s: float) -> Floats:
    """Return the fog that comes down on set paint and is not sprayed over in this coat.

    Parameters
    ----------
    fog
        Overspray of the coat.
    open_s
        How long wet film takes overspray in [s], above 0.

    Returns
    -------
    Dry spray [g/m²], shape (rows, columns).

    Notes
    -----
    Fog that comes down on a cell is absorbed if the cell was wetted at most ``open_s`` ago, or if a later stroke
    of the same coat wets it; else it stays as dry spray. Taking any later stroke as full absorption is on the
    hopeful side. Only the ranking of plans is trustworthy, not the grams.

    Sources
    -------
    Absorbed on a wet coat, dry on a set one: an automotive spray-painting standard, as restated in the trade.
    """
    times = fog.times_s
    dry = np.zeros(fog.last_s.shape)
    # A stroke that wets a cell takes in all fog before it, so only what comes after the last touch can stay dry.
    row, column = np.nonzero((fog.number >= 0) & (times.max(axis=0)[None, :] - fog.last_s > open_s))
    since, after = fog.last_s[row, column], fog.number[row, column]
    for begin in range(0, len(row), _CELLS_AT_ONCE):
        part = slice(begin, begin + _CELLS_AT_ONCE)
        r, c = row[part], column[part]
        first = int(after[part].min()) + 1
        late = times[first:, c] - since[part] > open_s
        late &= np.arange(first, len(times))[:, None] > after[part]
        dry[r, c] = np.einsum("nc,nc,nc->c", fog.up_per_m[first:, r], fog.along_g_m[first:, c], late)
    return dry
