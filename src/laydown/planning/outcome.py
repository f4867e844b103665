"""What a coat comes to: its film, the age of every join, where the paint goes and where fog lands on set paint."""

from dataclasses import dataclass, fields
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from laydown.physics.bands import banded_film_g_m2
from laydown.physics.hand import Hand, film_cv, normal_share
from laydown.physics.overspray import Fog, dry_fog_g_m2, fog_of_coat
from laydown.physics.passage import Sheet
from laydown.physics.spray import PROFILE_EXPONENT
from laydown.physics.touch import Laid, join_age_s, lay
from laydown.planning.field import FULL_WEIGHT, Field
from laydown.planning.paint import CLOSED_G_M2
from laydown.planning.programme import FEATHER_M, LAP_M, Programme, Work
from laydown.schema.coat import Balance

Floats = NDArray[np.float64]

FOG_CELLS = 5
"""Cells of the film grid per cell of the fog grid; a choice of resolution."""

AGE_QUANTILE = 0.95
"""Part of a join's cells that are younger than the age given for it; a choice."""

INSIDE_CELLS = 3
"""Cells at the edge of the field that are left out of the mean film; a choice."""


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


@dataclass(frozen=True, slots=True)
class Sprayed:
    """The coat on the sheet, whatever the air.

    Attributes
    ----------
    film_g_m2
        Wet film of all passes, shape (rows, columns).
    mean_g_m2
        Mean wet film inside the field where the layer is full [g/m²]; where all of it fades, of the whole.
    film_cv
        Spread of the film there, map and hand together.
    thin_fraction
        Share of that whose closed pass stays below the closed film.
    balance
        Where the paint goes.
    joins
        Age of each join in the order of work.
    age_s
        Age where sections meet, shape (rows, columns), NaN elsewhere.
    fog, fog_sheet
        Overspray on a coarser grid, and that grid.
    fog_bare_g
        Fog on panels of the side that this coat does not paint [g]; what is masked or no panel is left out.
    """

    film_g_m2: Floats
    mean_g_m2: float
    film_cv: float
    thin_fraction: float
    balance: Balance
    joins: tuple[JoinAge, ...]
    age_s: Floats
    fog: Fog
    fog_sheet: Sheet
    fog_bare_g: float


@dataclass(frozen=True, slots=True)
class Outcome(Sprayed):
    """The coat on the sheet and what of its fog stays dry in this air.

    Attributes
    ----------
    dry_g_m2
        Fog that comes down on set paint and is not sprayed over [g/m²], on the fog's grid.
    """

    dry_g_m2: Floats


def _window(sheet: Sheet, low_m: float, high_m: float) -> slice:
    """The columns of the sheet between two places."""
    first = max(0, int((low_m - sheet.x0_m) / sheet.cell_m))
    return slice(first, min(sheet.columns, int((high_m - sheet.x0_m) / sheet.cell_m) + 1))


def _joins(work: Work, laid: Laid) -> tuple[tuple[JoinAge, ...], Floats]:
    """Ages of all joins and their map."""
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
    return tuple(found), ages


def _inner(mask: NDArray[np.bool_], cells: int) -> NDArray[np.bool_]:
    """The mask without its outermost cells."""
    inner = mask.copy()
    for shift in range(1, cells + 1):
        for axis in (0, 1):
            inner &= np.roll(mask, shift, axis) & np.roll(mask, -shift, axis)
    return inner if inner.any() else mask


def _coarse(field: Field) -> Sheet:
    """The grid of the fog."""
    sheet = field.sheet
    return Sheet(
        sheet.x0_m,
        sheet.s0_m,
        sheet.cell_m * FOG_CELLS,
        -(-sheet.rows // FOG_CELLS),
        -(-sheet.columns // FOG_CELLS),
    )


def _unpainted(field: Field, coarse: Sheet) -> Floats:
    """Share of each fog cell that is a panel this coat does not paint."""
    bare = (field.panel >= 0) & ~field.mask
    rows, columns = coarse.rows * FOG_CELLS, coarse.columns * FOG_CELLS
    padded = np.zeros((rows, columns))
    padded[: bare.shape[0], : bare.shape[1]] = bare
    blocks = padded.reshape(coarse.rows, FOG_CELLS, coarse.columns, FOG_CELLS)
    return np.asarray(blocks.mean(axis=(1, 3)), np.float64)


@lru_cache(maxsize=24)
def sprayed_of(work: Work, made: Programme, hand: Hand) -> Sprayed:
    """Return the coat on the sheet, whatever the air.

    Parameters
    ----------
    work
        Field, passes and bounds.
    made
        Its strokes.
    hand
        Spreads of the hand.

    Returns
    -------
    Film, balance, ages of the joins and fog. Other air leaves them as they are, so they are kept.

    Notes
    -----
    ``sprayed = on_panel + edges + overspray`` to 1e-9 of the paint, since film factors are exact cell means
    (checked in ``tests/unit/planning/test_outcome.py``).

    Sources
    -------
    ``laydown.physics.passage``.
    """
    field, strokes = work.field, made.strokes
    laid = lay(strokes, field.sheet)
    closed = strokes.light == 0
    closed_film = banded_film_g_m2(laid.up_per_m[:, closed], laid.along_g_m[closed])
    film = closed_film
    if not closed.all():
        film = closed_film + banded_film_g_m2(laid.up_per_m[:, ~closed], laid.along_g_m[~closed])
    # Where the layer fades it is thin on purpose.
    full = field.weight >= FULL_WEIGHT
    inner = _inner(full if full.any() else field.mask, INSIDE_CELLS)
    inside = film[inner]
    by_hand = film_cv(hand, float(strokes.fan_m[0]), work.passes[0][0].overlap, PROFILE_EXPONENT)
    thin = normal_share((CLOSED_G_M2 / np.maximum(closed_film[inner], 1e-6) - 1.0) / by_hand)
    joins, ages = _joins(work, laid)
    coarse = _coarse(field)
    fog = fog_of_coat(strokes, coarse)
    return Sprayed(
        film_g_m2=film,
        mean_g_m2=float(inside.mean()),
        film_cv=float(np.hypot(inside.std() / inside.mean(), by_hand)),
        thin_fraction=float(thin.mean()) if closed.any() else 0.0,
        balance=_balance(work, laid),
        joins=joins,
        age_s=ages,
        fog=fog,
        fog_sheet=coarse,
        fog_bare_g=float((fog.bare_g_m2 * _unpainted(field, coarse)).sum()) * coarse.cell_m**2,
    )


def _balance(work: Work, laid: Laid) -> Balance:
    """Where the paint goes, stretched to the planned area."""
    field, strokes = work.field, laid.strokes
    landed = (
        banded_film_g_m2(laid.up_per_m, laid.along_g_m * strokes.stretch[:, None]) * field.sheet.cell_m**2
    )
    sprayed = strokes.sprayed_g()
    return Balance(
        float(sprayed.sum()),
        float(landed[field.mask].sum()),
        float(landed[~field.mask].sum()),
        float((sprayed * (1.0 - strokes.transfer)).sum()),
    )


def outcome_of(work: Work, made: Programme, open_s: float, hand: Hand) -> Outcome:
    """Return what a coat comes to.

    Parameters
    ----------
    work
        Field, passes and bounds.
    made
        Its strokes.
    open_s
        How long wet film takes overspray in [s].
    hand
        Spreads of the hand.

    Returns
    -------
    Film, balance, joins, fog, and what of it stays dry.

    Sources
    -------
    ``sprayed_of`` and ``laydown.physics.overspray``.
    """
    sprayed = sprayed_of(work, made, hand)
    values = {one.name: getattr(sprayed, one.name) for one in fields(Sprayed)}
    return Outcome(**values, dry_g_m2=dry_fog_g_m2(sprayed.fog, open_s))
