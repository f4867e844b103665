"""Thousands of film cells from one table: each cell keeps its solids and when it would have been laid in one go.

Sources: the films of film.py; what is interpolated is named at its function.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np

from laydown.physics.film.course import matt_time_s, open_time_s
from laydown.physics.film.wet_film import Surroundings, Wet, dry
from laydown.physics.values import Floats, Values

THINNEST_G_M2: Final = 0.5
"""Least wet paint of a table column, had it been laid in one go [g/m2]; thinner cells are read there."""

THICKEST_G_M2: Final = 180.0
"""Most wet paint of a table column, had it been laid in one go [g/m2]; thicker cells are read there."""

_COLUMN_COUNT: Final = 24
_AGE_COUNT: Final = 160
_LIQUID_COUNT: Final = 160
_LATEST: Final = 12.0
"""Last age of the table over the open time of its column."""
_BEND: Final = 4.0
_DRIEST: Final = 1e-3
"""Last liquid over solids that the way back from liquid to age resolves."""


@dataclass(frozen=True, slots=True)
class Cells:
    """The wet film of many cells: two numbers each."""

    solids_g_m2: Floats
    """Binder and pigment lying there [g/m2]; 0 is bare."""
    birth_s: Floats
    """When the cell would have been laid in one go to be as it is [s]."""


@dataclass(frozen=True, slots=True)
class FilmTable:
    """Films of one mix in one air, by solids and age.

    Ages are kept over each column's open time, because films of neighbouring mass dry alike on that scale; so
    few columns do.
    """

    wet_per_solids: float
    """Wet paint that brings one gram of solids [g/g]."""
    open_fraction: float
    """Effective binder fraction at which the mix closes [1]."""
    fresh_liquid: float
    """Effective liquid over solids of paint that lands, by volume [1]."""
    ln_scale_s: Floats
    """Logarithm of each column's open time [s]."""
    ln_matt: Floats
    """Logarithm of each column's matt time [s]."""
    liquid: Floats
    """Effective liquid over solids by volume, co-solvent weighed as for the open time, (column, age)."""
    age: Floats
    """Age over the column's open time, (column, liquid)."""


def film_table(wet: Wet, surroundings: Surroundings) -> FilmTable:
    """Return a table of films of many masses, dried once.

    Parameters
    ----------
    wet
        The mix as it arrives; fields are single floats.
    surroundings
        Air and panel; fields are single floats.

    Raises
    ------
    ValueError
        If the air is outside the range of `laydown.physics.film.wet_film.dry`, or so damp that a film never closes.

    Notes
    -----
    Over cells with two to four deposits, against direct integration of the same deposits: open time within 3 %
    and matt time within 5 % for each cell, their means within 1 and 1.5 % (a test). The error is that of the one assumption: the split of water and
    co-solvent and the panel's temperature are those of the film laid in one go that holds as much liquid.

    Sources
    -------
    As `laydown.physics.film.wet_film`.
    """
    masses = np.geomspace(THINNEST_G_M2, THICKEST_G_M2, _COLUMN_COUNT)
    share = float(np.asarray(wet.solids_share))
    timed = dry(masses, wet, surroundings)
    scale, matt = open_time_s(timed), matt_time_s(timed)
    if not bool(np.all(np.isfinite(matt))):
        raise ValueError("the air is too damp: films never turn matt, so there is no table of them")
    ages = np.expm1(np.linspace(0.0, np.log1p(_BEND * _LATEST), _AGE_COUNT)) / _BEND
    course = dry(masses, wet, surroundings, ages[:, None] * scale)
    closes = float(np.asarray(wet.open_fraction))
    liquid = 1.0 / (course.open_progress * closes) - 1.0
    fresh = float(liquid[0, 0])
    levels = np.linspace(np.log(fresh), np.log(_DRIEST), _LIQUID_COUNT)
    # A warm panel can dry a film below its balance and let it drink again; the way back takes the first time.
    falling = np.log(np.minimum.accumulate(liquid, axis=0))
    back = [np.interp(-levels, -column, ages) for column in falling.T]
    return FilmTable(
        wet_per_solids=1.0 / share,
        open_fraction=closes,
        fresh_liquid=fresh,
        ln_scale_s=np.log(scale),
        ln_matt=np.log(matt),
        liquid=np.ascontiguousarray(liquid.T),
        age=np.array(back),
    )


def bare(cell_count: int) -> Cells:
    """Return cells without paint.

    Parameters
    ----------
    cell_count
        How many.
    """
    return Cells(np.zeros(cell_count), np.zeros(cell_count))


def deposit(table: FilmTable, cells: Cells, mass_g_m2: Floats, at_s: Values) -> Cells:
    r"""Return the cells with more paint on them.

    Parameters
    ----------
    table
        Films of the mix in the air.
    cells
        The film before; birth times are not after `at_s`.
    mass_g_m2
        Wet paint that lands on each cell [g/m2], from 0; a cell that gets nothing stays as it is.
    at_s
        When it lands [s], one for all or one per cell.

    Notes
    -----
    Old and new liquid are mixed; the cell's new birth is that of a film with the summed solids and that much
    liquid, laid in one go.

    .. math:: x' = (x N + x_0 \Delta N)/(N + \Delta N), \quad b' = t - age(N + \Delta N, x')

    Sources
    -------
    Conservation of liquid and solids; the rest is the assumption named in `film_table`.
    """
    fresh = mass_g_m2 / table.wet_per_solids
    solids = cells.solids_g_m2 + fresh
    old = _read(table.liquid, _column(table, cells.solids_g_m2), _age_place(table, cells, at_s))
    mixed = (old * cells.solids_g_m2 + table.fresh_liquid * fresh) / np.maximum(solids, 1e-12)
    age_s = _age_s(table, _column(table, solids), mixed)
    return Cells(solids, np.where(fresh > 0.0, at_s - age_s, cells.birth_s))


def open_fraction(table: FilmTable, cells: Cells, at_s: Values) -> Floats:
    """Return how far each cell has gone towards closing: 0 fresh, from 1 on it takes nothing in; bare cells 0.

    Parameters
    ----------
    table, cells
        Films of the mix in the air, and the cells.
    at_s
        When to look [s], one for all or one per cell, not before a cell's birth.

    Notes
    -----
    Effective binder fraction over the mix's own threshold.

    Sources
    -------
    As `film_table`.
    """
    liquid = _read(table.liquid, _column(table, cells.solids_g_m2), _age_place(table, cells, at_s))
    progress: Floats = np.where(cells.solids_g_m2 > 0.0, 1.0 / (table.open_fraction * (1.0 + liquid)), 0.0)
    return progress


def open_left_s(table: FilmTable, cells: Cells, at_s: Values) -> Floats:
    """Return how long each cell still takes in a neighbour [s]; negative since when it no longer does; bare cells 0.

    Parameters
    ----------
    table, cells
        Films of the mix in the air, and the cells.
    at_s
        When to look [s], one for all or one per cell.

    Sources
    -------
    As `film_table`.
    """
    left: Floats = cells.birth_s + _scale_s(table, _column(table, cells.solids_g_m2)) - at_s
    return np.where(cells.solids_g_m2 > 0.0, left, 0.0)


def matt_left_s(table: FilmTable, cells: Cells, at_s: Values) -> Floats:
    """Return how long until each cell is matt [s]; negative since when it is; bare cells 0.

    Parameters
    ----------
    table, cells
        Films of the mix in the air, and the cells.
    at_s
        When to look [s], one for all or one per cell.

    Sources
    -------
    As `film_table`.
    """
    column = _column(table, cells.solids_g_m2)
    place = column.astype(np.intp)
    share = column - place
    ln_matt = table.ln_matt[place] * (1.0 - share) + table.ln_matt[place + 1] * share
    left: Floats = cells.birth_s + np.exp(ln_matt) - at_s
    return np.where(cells.solids_g_m2 > 0.0, left, 0.0)


def carried(old: FilmTable, new: FilmTable, cells: Cells, at_s: float) -> Cells:
    """Return the cells in other air, as when blowers are switched on: same solids, same liquid, another birth.

    Parameters
    ----------
    old, new
        Films of the same mix in the air before and after.
    cells
        The cells.
    at_s
        When the air changes [s].

    Notes
    -----
    The panel's temperature is not carried over.

    Sources
    -------
    As `film_table`.
    """
    liquid = _read(old.liquid, _column(old, cells.solids_g_m2), _age_place(old, cells, at_s))
    age_s = _age_s(new, _column(new, cells.solids_g_m2), liquid)
    return Cells(cells.solids_g_m2, np.where(cells.solids_g_m2 > 0.0, at_s - age_s, cells.birth_s))


def _column(table: FilmTable, solids_g_m2: Floats) -> Floats:
    """Place solids on the table's mass axis."""
    inside = np.clip(solids_g_m2 * table.wet_per_solids, THINNEST_G_M2, THICKEST_G_M2 * 0.999999)
    place: Floats = np.log(inside / THINNEST_G_M2) * (
        (_COLUMN_COUNT - 1) / np.log(THICKEST_G_M2 / THINNEST_G_M2)
    )
    return place


def _scale_s(table: FilmTable, column: Floats) -> Floats:
    """Read the open time at a place of the mass axis [s]."""
    place = column.astype(np.intp)
    low = table.ln_scale_s[place]
    scale: Floats = np.exp(low + (table.ln_scale_s[place + 1] - low) * (column - place))
    return scale


def _age_place(table: FilmTable, cells: Cells, at_s: Values) -> Floats:
    """Place each cell's age on the table's age axis."""
    age = np.maximum(at_s - cells.birth_s, 0.0) / _scale_s(table, _column(table, cells.solids_g_m2))
    place: Floats = np.log1p(_BEND * age) * ((_AGE_COUNT - 1) / np.log1p(_BEND * _LATEST))
    return np.minimum(place, _AGE_COUNT - 1.001)


def _age_s(table: FilmTable, column: Floats, liquid: Floats) -> Floats:
    """Find the age of a film laid in one go that holds this liquid over solids [s]."""
    per_step = np.log(_DRIEST / table.fresh_liquid) / (_LIQUID_COUNT - 1)
    place = np.log(np.maximum(liquid, _DRIEST) / table.fresh_liquid) / per_step
    return _read(table.age, column, np.clip(place, 0.0, _LIQUID_COUNT - 1.001)) * _scale_s(table, column)


def _read(field: Floats, row: Floats, place: Floats) -> Floats:
    """Read a field between its points, straight in both directions."""
    top, left = row.astype(np.intp), place.astype(np.intp)
    down, right = row - top, place - left
    start = top * field.shape[1] + left
    flat = field.ravel()
    upper = flat[start] + (flat[start + 1] - flat[start]) * right
    start += field.shape[1]
    lower = flat[start] + (flat[start + 1] - flat[start]) * right
    between: Floats = upper + (lower - upper) * down
    return between
