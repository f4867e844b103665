"""A coat on the developed skin: its strokes, their film, and when they pass."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from laydown.physics.spray.fan import ALONG_EXPONENT, PROFILE_EXPONENT, profile_share
from laydown.physics.values import Floats, Ints

_ROWS = 12
"""Rows of a block: few strokes reach them, and the product stays too small to be handed to other threads."""


def banded_film_g_m2(up_per_m: Floats, along_g_m: Floats) -> Floats:
    """Return the film of n strokes, the product of their factors, where each covers few neighbouring rows.

    Parameters
    ----------
    up_per_m
        Profile of each stroke up the skin [1/m], shape (rows, n); zeros may lie anywhere, bands only make it quick.
    along_g_m
        Paint of each stroke along the vehicle [g/m], shape (n, columns).

    Returns
    -------
    ``up_per_m @ along_g_m`` [g/m²], shape (rows, columns).

    Notes
    -----
    A fan covers an eighth of a side's rows. In blocks of rows the sum needs only the strokes that reach the block, and
    no block is large enough for the threads of a linear algebra library, which on a busy machine cost far more
    than the sum and may round otherwise from machine to machine. Equal to the plain product to 1e-12 of its greatest
    value (checked in ``tests/properties/test_spray_laws.py``)::

        film = up_per_m @ along_g_m                                                      (1)
    """
    order = np.argsort((up_per_m != 0.0).argmax(axis=0), kind="stable")
    up, along = up_per_m[:, order], along_g_m[order]
    film = np.zeros((len(up), along.shape[1]))
    for first in range(0, len(up), _ROWS):
        rows = slice(first, first + _ROWS)
        used = np.flatnonzero(up[rows].any(axis=0))
        if used.size:
            part = slice(used[0], used[-1] + 1)
            film[rows] = up[rows, part] @ along[part]
    return film


@lru_cache(maxsize=1)
def _ramp_table() -> tuple[Floats, Floats]:
    """Return u from -1 to 1 and the integral of the profile's share up to it."""
    u = np.linspace(-1.0, 1.0, 4097)
    share = profile_share(u, ALONG_EXPONENT)
    step = u[1] - u[0]
    area = np.concatenate([[0.0], np.cumsum((share[1:] + share[:-1]) * step / 2.0)])
    return u, area / area[-1]


def ramp(u: Floats) -> Floats:
    """Return the integral, along the travel, of the share of the footprint that has passed.

    Parameters
    ----------
    u
        Place along the travel in half heights of the footprint, from the end of a stroke. Any shape, any value.

    Returns
    -------
    Integral from -1 to u: 0 below -1 and u above 1, so that cell means taken from it add up exactly.

    Notes
    -----
    Within 1e-6 of the integral by parts of the incomplete beta function
    (checked in ``tests/second/test_spray_second.py``)::

        ramp(u) = integral of share(v) dv from -1 to u                                   (1)
    """
    places, areas = _ramp_table()
    passed: Floats = np.maximum(u, 0.0)
    # Only the few cells under the ends of a stroke are curved.
    near = np.abs(u) < 1.0
    passed[near] = np.interp(u[near], places, areas)
    return passed


@dataclass(frozen=True, slots=True)
class SkinGrid:
    """A grid of square cells on the developed skin.

    Attributes
    ----------
    x0_m, s0_m
        Lower left corner: along the vehicle and tape length from the ground [m].
    cell_m
        Size of a cell [m].
    rows, columns
        Number of cells.
    """

    x0_m: float
    s0_m: float
    cell_m: float
    rows: int
    columns: int

    def x_edges_m(self) -> Floats:
        """Return the columns + 1 edges along the vehicle [m]; definition."""
        return np.asarray(self.x0_m + self.cell_m * np.arange(self.columns + 1), float)

    def window(self, columns: slice) -> "SkinGrid":
        """Return the part of the skin with some of its columns, given by first and one past the last; definition."""
        left = self.x0_m + columns.start * self.cell_m
        return SkinGrid(left, self.s0_m, self.cell_m, self.rows, columns.stop - columns.start)

    def s_edges_m(self) -> Floats:
        """Return the rows + 1 edges up the skin [m]; definition."""
        return np.asarray(self.s0_m + self.cell_m * np.arange(self.rows + 1), float)


@dataclass(frozen=True, slots=True)
class Strokes:
    """Strokes of one coat in the order of time; every attribute has shape (n,).

    Attributes
    ----------
    begin_s
        Start of the stroke [s].
    left_m, right_m
        Ends along the vehicle, left_m < right_m [m].
    ahead
        1 where the gun moves to larger x, -1 where it moves back.
    centre_m
        Height of the centre line on the skin [m].
    fan_m, half_m
        Width of the fan and half height of the footprint [m].
    flow_g_s, transfer, speed_m_s
        Flow [g/s], share that lands, hand speed [m/s].
    stretch
        Factor from the drawn skin to the planned area; stretches seconds and grams alike.
    section
        Index of the section in the order of work.
    light
        1 for the lighter pass, 0 for the closed one.
    """

    begin_s: Floats
    left_m: Floats
    right_m: Floats
    ahead: Floats
    centre_m: Floats
    fan_m: Floats
    half_m: Floats
    flow_g_s: Floats
    transfer: Floats
    speed_m_s: Floats
    stretch: Floats
    section: Ints
    light: Ints

    def duration_s(self) -> Floats:
        """Return the trigger time of each stroke [s], shape (n,); definition."""
        return self.stretch * (self.right_m - self.left_m) / self.speed_m_s

    def sprayed_g(self) -> Floats:
        """Return what each stroke sprays [g], shape (n,): flow times trigger time; definition."""
        return self.flow_g_s * self.duration_s()

    def only(self, chosen: NDArray[np.bool_] | Ints) -> "Strokes":
        """Return the strokes where ``chosen`` (shape (n,)) holds, or those of such numbers; definition."""
        return Strokes(*(getattr(self, name)[chosen] for name in self.__slots__))


def film_factors(strokes: Strokes, skin: SkinGrid) -> tuple[Floats, Floats]:
    """Return the two factors whose product is the film of the strokes.

    Parameters
    ----------
    strokes
        n strokes.
    skin
        The grid.

    Returns
    -------
    ``up`` [1/m] of shape (rows, n) and ``along`` [g/m] of shape (n, columns), both cell means, so that
    ``up @ along`` is the wet film [g/m²] and its sum over cells on a skin that holds every fan is what landed.

    Notes
    -----
    A stroke at constant speed is of rank one::

        m(s, x) = transfer * flow / speed * f(s) * g(x)                         (1)

    with f the share of the profile per metre across the fan and g the share of the footprint that has passed.
    Footprints that narrow toward the fan's edge differ by at most 3 % of the film, and only within one half
    height of a stroke's end.

    Sources
    -------
    (1) Mass balance; definition.
    """
    half = strokes.fan_m / 2.0
    edges = (skin.s_edges_m()[:, None] - strokes.centre_m[None, :]) / half[None, :]
    shares = profile_share(edges, PROFILE_EXPONENT)
    up = np.diff(shares, axis=0) / skin.cell_m
    x = skin.x_edges_m()
    from_left = ramp((x[None, :] - strokes.left_m[:, None]) / strokes.half_m[:, None])
    from_right = ramp((x[None, :] - strokes.right_m[:, None]) / strokes.half_m[:, None])
    travelled = np.diff(from_left - from_right, axis=1) * (strokes.half_m / skin.cell_m)[:, None]
    rate = strokes.flow_g_s * strokes.transfer / strokes.speed_m_s
    return up, travelled * rate[:, None]


def passing_s(strokes: Strokes, x_m: Floats) -> Floats:
    """Return when each stroke passes each place along the vehicle.

    Parameters
    ----------
    strokes
        n strokes.
    x_m
        Places along the vehicle [m], shape (m,).

    Returns
    -------
    Times [s], shape (n, m), held at the ends of a stroke.

    Sources
    -------
    Uniform motion; definition.
    """
    inside = np.clip(x_m[None, :], strokes.left_m[:, None], strokes.right_m[:, None])
    way = np.where(
        strokes.ahead[:, None] > 0.0, inside - strokes.left_m[:, None], strokes.right_m[:, None] - inside
    )
    return strokes.begin_s[:, None] + way * (strokes.stretch / strokes.speed_m_s)[:, None]
