"""What uneven film of an effect coat looks like. It knows film only: not how flakes lie, not mottle, not dry spray.

Colours are in CIELAB, one row of three for each angle of the instrument.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np

from laydown.physics.colour.difference import de2000
from laydown.physics.colour.letdown import LetdownFit, curve
from laydown.physics.values import Floats

SEEN: Final = (0.5, 1.0, 2.0)
"""CIEDE2000 above which area is summed: not seen, good, visible; assumption."""

POINTS: Final = 501
"""Points of a table over coats; between them straight lines. Assumption."""


@dataclass(frozen=True, slots=True)
class DifferenceTable:
    """Difference to the wanted number of coats, over coats."""

    coats: Floats
    """Coats, rising, (p,)."""
    difference: Floats
    """CIEDE2000 to the wanted number, (p, angle)."""
    wanted: float
    """The wanted number of coats."""


@dataclass(frozen=True, slots=True)
class AppearanceSummary:
    """A map of differences in a few numbers for each angle."""

    above_fraction: Floats
    """Share of the area above each value of `SEEN`, (angle, 3)."""
    low: Floats
    """One twentieth of the area lies below this CIEDE2000, (angle,)."""
    high: Floats
    """One twentieth of the area lies above this CIEDE2000, (angle,)."""


def difference_table(fit: LetdownFit, wanted: float, ground_delta: Floats | None = None) -> DifferenceTable:
    """Return the difference to a wanted number of coats at `POINTS` numbers of coats.

    Parameters
    ----------
    fit, ground_delta
        The panel, and ground of the car less its own, (angle, 3).
    wanted
        Coats, 0 to `LetdownFit.last`.

    Returns
    -------
    The table, from 0 to `LetdownFit.last`.

    Notes
    -----
    The wanted number is one of the points, because the difference has a corner there. Equal to direct calculation to
    1e-3 (``tests/unit/physics/colour/test_unevenness.py``).

    Sources
    -------
    `curve` and `de2000`.
    """
    coats = np.unique(np.append(np.linspace(0.0, fit.last, POINTS), wanted))
    lab, _ = curve(fit, coats, ground_delta)
    at, _ = curve(fit, np.array([wanted]), ground_delta)
    return DifferenceTable(coats, de2000(lab, at), wanted)


def appearance_map(table: DifferenceTable, film_um: Floats, reference_um: float) -> Floats:
    """Return how far each cell is from the wanted colour.

    Parameters
    ----------
    table
        Differences of the panel.
    film_um
        Effect film of each cell, wet or dry [µm], (cell,).
    reference_um
        Film of one panel coat times the wanted number of coats, wet or dry as the cells [µm], above 0.

    Returns
    -------
    CIEDE2000, (cell, angle). A cell thicker than the table reaches is read at its end.

    Raises
    ------
    ValueError
        If `reference_um` is not above 0.

    Notes
    -----
    ::

        n = wanted film / reference                                             (1)

    Sources
    -------
    (1) The colour of a coat goes with its film; assumption for flakes that lie alike.
    """
    coats = effective_coats(film_um, reference_um, table.wanted)
    found = np.empty((table.difference.shape[1], coats.size))
    for row, column in zip(found, table.difference.T, strict=True):
        row[:] = np.interp(coats, table.coats, column)
    return found.T


def effective_coats(film_um: Floats, reference_um: float, wanted: float) -> Floats:
    """Return for how many coats of the panel a film counts.

    Parameters
    ----------
    film_um
        Film of each cell [µm], 0 or more.
    reference_um
        Film that the wanted number of coats had on the panel [µm], above 0.
    wanted
        Wanted number of coats.

    Returns
    -------
    Coats.

    Raises
    ------
    ValueError
        If `reference_um` is not above 0.

    Sources
    -------
    As `appearance_map`.
    """
    if not reference_um > 0.0:
        raise ValueError("reference_um must be above 0")
    return np.asarray(film_um, float) * (wanted / reference_um)


def summary(difference: Floats, area_m2: Floats) -> AppearanceSummary:
    """Return a map of differences in a few numbers, weighed by area.

    Parameters
    ----------
    difference
        CIEDE2000, (cell, angle).
    area_m2
        Area of each cell [m2], 0 or more and above 0 together, (cell,).

    Returns
    -------
    Shares above `SEEN` and both twentieths.

    Notes
    -----
    ``share = sum(area where difference > seen) / sum(area)``; the twentieths weigh cells alike.    (1)
    """
    total = float(area_m2.sum())
    above = [[float(area_m2[column > seen].sum()) / total for seen in SEEN] for column in difference.T]
    low, high = [], []
    for column in difference.T:
        order = np.argsort(column)
        summed = np.cumsum(area_m2[order])
        at = np.searchsorted(summed, np.array([0.05, 0.95]) * total * (1.0 - 1e-12))
        ends = column[order[np.minimum(at, order.size - 1)]]
        low.append(ends[0])
        high.append(ends[1])
    return AppearanceSummary(np.array(above), np.array(low), np.array(high))


def join_contrast(
    fit: LetdownFit, strip_coats: float, beside_coats: Floats, ground_delta: Floats | None = None
) -> Floats:
    """Return how far the strip of a join is from the areas on both sides of it.

    Parameters
    ----------
    fit, ground_delta
        The panel, and ground of the car less its own, (angle, 3).
    strip_coats
        Mean of the strip [coats], as `effective_coats` gives it.
    beside_coats
        Means of both neighbours [coats], (2,).

    Returns
    -------
    CIEDE2000 of the strip to each neighbour, (2, angle). Neighbours are seen sooner than a slow change: look at
    whatever is above 0.5 at 45 or 110 degrees.

    Sources
    -------
    `curve` and `de2000`; 0.5 is an assumption.
    """
    coats = np.append(np.asarray(beside_coats, float), strip_coats)
    lab, _ = curve(fit, coats, ground_delta)
    return de2000(lab[:-1], lab[-1])


def film_tolerance(table: DifferenceTable, angle: int, difference: float = SEEN[0]) -> tuple[float, float]:
    """Return by what share the film may be thinner and thicker before the difference is reached.

    Parameters
    ----------
    table
        Differences of the panel; a wanted number above 0.
    angle
        Index of the angle.
    difference
        CIEDE2000, above 0.

    Returns
    -------
    Shares of the film, thinner (0 to 1) and thicker; infinite where the table does not reach the difference. Thinner is
    then 1: no film at all is still within it.

    Sources
    -------
    Inverse of the table; the nearest place on each side of the wanted number.
    """
    column = table.difference[:, angle]
    middle = int(np.searchsorted(table.coats, table.wanted))
    thinner = _reached(table.coats[middle::-1], column[middle::-1], difference)
    thicker = _reached(table.coats[middle:], column[middle:], difference)
    down = 1.0 if thinner is None else (table.wanted - thinner) / table.wanted
    up = float("inf") if thicker is None else (thicker - table.wanted) / table.wanted
    return down, up


def _reached(coats: Floats, difference: Floats, limit: float) -> float | None:
    """Where a difference is first reached on the way, straight between the points."""
    over = np.flatnonzero(difference >= limit)
    if not over.size:
        return None
    at = int(over[0])
    share = (limit - difference[at - 1]) / (difference[at] - difference[at - 1])
    return float(coats[at - 1] + share * (coats[at] - coats[at - 1]))
