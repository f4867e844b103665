"""The strokes of a coat on its sheet, and how old the edges are where its sections meet."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from laydown.physics.passage import Sheet
from laydown.physics.touch import Laid, join_age_s, lay
from laydown.planning.programme import FEATHER_M, LAP_M, Programme, Work

Floats = NDArray[np.float64]

AGE_QUANTILE = 0.95
"""Part of a join's cells that are younger than the age given for it; a choice."""

KEPT = 48
"""Coats whose film, joins, balance and fog are kept; a choice: those of a plan and of its alternatives."""


@dataclass(frozen=True, slots=True)
class JoinAge:
    """Age of one join.

    Attributes
    ----------
    age_s
        Age at its worst height [s]; NaN where the sections do not touch.
    at
        Where that is: row and column of the grid.
    """

    age_s: float
    at: tuple[int, int]


@dataclass(frozen=True, slots=True, eq=False)
class Joined:
    """Where the sections of a coat meet.

    Attributes
    ----------
    joins
        Age of each join in the order of work.
    age_s
        Age where sections meet, shape (rows, columns), NaN elsewhere.
    """

    joins: tuple[JoinAge, ...]
    age_s: Floats


@lru_cache(maxsize=4)
def laid_of(work: Work, made: Programme) -> Laid:
    """Return the strokes of a coat on its sheet.

    Parameters
    ----------
    work, made
        The coat and its strokes.

    Returns
    -------
    Strokes with the factors of their film; kept for those who ask one after the other.

    Sources
    -------
    ``laydown.physics.touch``.
    """
    return lay(made.strokes, work.field.sheet)


def _window(sheet: Sheet, low_m: float, high_m: float) -> slice:
    """The columns of the sheet between two places."""
    first = max(0, int((low_m - sheet.x0_m) / sheet.cell_m))
    return slice(first, min(sheet.columns, int((high_m - sheet.x0_m) / sheet.cell_m) + 1))


@lru_cache(maxsize=KEPT)
def joined_of(work: Work, made: Programme) -> Joined:
    """Return where the sections of a coat meet, and how old their edges are.

    Parameters
    ----------
    work, made
        The coat and its strokes.

    Returns
    -------
    Joins and their map. Other air leaves them as they are, so they are kept.

    Sources
    -------
    ``laydown.physics.touch``.
    """
    laid = laid_of(work, made)
    mask, sheet, strokes = work.field.mask, laid.sheet, laid.strokes
    ages = np.full(mask.shape, np.nan)
    found = []
    # The lighter pass laps onto full film behind the edge, which stays open far longer: the closed pass decides.
    first = strokes.light == strokes.light.min()
    for index, bound in enumerate(work.bounds[1:-1]):
        place = work.reach.places[bound - 1]
        reach = FEATHER_M / 2.0 + LAP_M + 0.05
        xs = place.x_at(sheet.s_edges_m())
        columns = _window(sheet, float(xs.min()) - reach, float(xs.max()) + reach)
        near = laid.window(columns)
        before = near.only(strokes.section == index)
        after = near.only((strokes.section == index + 1) & first)
        age = np.where(mask[:, columns], join_age_s(before, after), np.nan)
        known = age[np.isfinite(age)]
        if not known.size:
            found.append(JoinAge(float("nan"), (0, columns.start)))
            continue
        value = float(np.quantile(known, AGE_QUANTILE))
        row, column = np.unravel_index(int(np.nanargmax(age)), age.shape)
        found.append(JoinAge(value, (int(row), int(column) + columns.start)))
        ages[:, columns] = np.where(np.isfinite(age), age, ages[:, columns])
    return Joined(tuple(found), ages)
