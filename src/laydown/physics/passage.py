"""A coat on the developed sheet: film of many strokes, when each place was last wet, age where sections meet."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from laydown.physics.ramp import ramp
from laydown.physics.spray import PROFILE_EXPONENT, profile_share

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

WET_G_M2 = 5.0
"""A deposit thinner than this neither wets an edge nor counts as its touch [g/m²]; assumption."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """A grid of square cells on the developed sheet.

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

    def s_edges_m(self) -> Floats:
        """Return the rows + 1 edges up the sheet [m]; definition."""
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
        Height of the centre line on the sheet [m].
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


def film_factors(strokes: Strokes, sheet: Sheet) -> tuple[Floats, Floats]:
    """Return the two factors whose product is the film of the strokes.

    Parameters
    ----------
    strokes
        n strokes.
    sheet
        The grid.

    Returns
    -------
    ``up`` [1/m] of shape (rows, n) and ``along`` [g/m] of shape (n, columns), both cell means, so that
    ``up @ along`` is the wet film [g/m²] and its sum over cells on a sheet that holds every fan is what landed.

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
    edges = (sheet.s_edges_m()[:, None] - strokes.centre_m[None, :]) / half[None, :]
    shares = profile_share(edges, PROFILE_EXPONENT)
    up = np.diff(shares, axis=0) / sheet.cell_m
    x = sheet.x_edges_m()
    from_left = ramp((x[None, :] - strokes.left_m[:, None]) / strokes.half_m[:, None])
    from_right = ramp((x[None, :] - strokes.right_m[:, None]) / strokes.half_m[:, None])
    travelled = np.diff(from_left - from_right, axis=1) * (strokes.half_m / sheet.cell_m)[:, None]
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


@dataclass(frozen=True, slots=True)
class _Touch:
    """Where one stroke wets the sheet: its number, its box of cells, which of them, and when, shape (1, columns)."""

    number: int
    box: tuple[slice, slice]
    wets: NDArray[np.bool_]
    times_s: Floats


def _touches(strokes: Strokes, sheet: Sheet) -> Iterator[_Touch]:
    """Every stroke that wets the sheet; a fan covers few of its cells, so each comes with its own box."""
    x = sheet.x_edges_m()
    near = np.flatnonzero(
        (strokes.right_m + strokes.half_m > x[0]) & (strokes.left_m - strokes.half_m < x[-1])
    )
    if not near.size:
        return
    strokes = strokes.only(near)
    up, along = film_factors(strokes, sheet)
    times = passing_s(strokes, (x[1:] + x[:-1]) / 2.0)
    across = np.ascontiguousarray(up.T)
    rows = across * along.max(axis=1)[:, None] > WET_G_M2
    columns = along * across.max(axis=1)[:, None] > WET_G_M2
    # A profile rises and falls once, so the cells it wets lie side by side.
    low, left = rows.argmax(axis=1), columns.argmax(axis=1)
    high, right = low + rows.sum(axis=1), left + columns.sum(axis=1)
    for n in np.flatnonzero((high > low) & (right > left)).tolist():
        box = (slice(low[n], high[n]), slice(left[n], right[n]))
        wets = across[n, box[0], None] * along[n, None, box[1]] > WET_G_M2
        yield _Touch(int(near[n]), box, wets, times[n, None, box[1]])


def final_touch(strokes: Strokes, sheet: Sheet) -> tuple[Floats, Ints]:
    """Return when each cell was wetted last, and the last stroke that wetted it.

    Parameters
    ----------
    strokes
        Strokes of one or more sections.
    sheet
        The grid.

    Returns
    -------
    Times [s], minus infinity where never wetted by ``WET_G_M2`` or more at once, and the number of the last stroke
    in the order given, -1 where none; both of shape (rows, columns).

    Sources
    -------
    Definition.
    """
    last = np.full((sheet.rows, sheet.columns), -np.inf)
    number = np.full(last.shape, -1, np.int64)
    for touch in _touches(strokes, sheet):
        part = last[touch.box]
        np.maximum(part, touch.times_s, out=part, where=touch.wets)
        number[touch.box][touch.wets] = touch.number
    return last, number


def last_wet_s(strokes: Strokes, sheet: Sheet) -> Floats:
    """Return when each cell was wetted last.

    Parameters
    ----------
    strokes
        Strokes of one or more sections.
    sheet
        The grid.

    Returns
    -------
    Times [s], shape (rows, columns); minus infinity where never wetted by ``WET_G_M2`` or more at once.

    Sources
    -------
    Definition.
    """
    return final_touch(strokes, sheet)[0]


def first_wet_s(strokes: Strokes, sheet: Sheet) -> Floats:
    """Return when each cell was wetted first.

    Parameters
    ----------
    strokes
        Strokes of one or more sections.
    sheet
        The grid.

    Returns
    -------
    Times [s], shape (rows, columns); infinity where never wetted.

    Sources
    -------
    Definition.
    """
    first = np.full((sheet.rows, sheet.columns), np.inf)
    for touch in _touches(strokes, sheet):
        part = first[touch.box]
        np.minimum(part, touch.times_s, out=part, where=touch.wets)
    return first


def join_age_s(before: Strokes, after: Strokes, sheet: Sheet) -> Floats:
    """Return how old the edge of one section is when the next first reaches it.

    Parameters
    ----------
    before, after
        Strokes of the earlier and the later section.
    sheet
        A window about the join.

    Returns
    -------
    Age [s], shape (rows, columns); NaN where the two do not meet.

    Notes
    -----
    ``age = first touch by the later section - last touch by the earlier one before it``. Only the first touch
    counts: later passes of the same section meet film that is wet anyway.

    Sources
    -------
    Definition.
    """
    age = first_wet_s(after, sheet) - last_wet_s(before, sheet)
    return np.where(np.isfinite(age), age, np.nan)
