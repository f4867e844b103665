"""What a coat comes to: its film, where the paint goes and where fog lands on set paint."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from laydown.physics.spray.fan import PROFILE_EXPONENT
from laydown.physics.spray.hand import Hand, film_cv, normal_share
from laydown.physics.spray.overspray import Fog, dry_fog_g_m2, fog_of_coat
from laydown.physics.spray.strokes import SkinGrid, banded_film_g_m2
from laydown.physics.values import Floats
from laydown.planning.sections.strokes import KEPT, Joined, Programme, Work, joined_of, laid_of
from laydown.planning.setup.field import FULL_WEIGHT, Field
from laydown.planning.setup.paint import CLOSED_G_M2
from laydown.schema.coat import Balance

FOG_CELLS = 5
"""Cells of the film grid per cell of the fog grid; a choice of resolution."""

INSIDE_CELLS = 3
"""Cells at the edge of the field that are left out of the mean film; a choice."""


@dataclass(frozen=True, slots=True, eq=False)
class Filmed:
    """The wet film of a coat."""

    film_g_m2: Floats
    mean_g_m2: float
    film_cv: float
    thin_fraction: float


@dataclass(frozen=True, slots=True, eq=False)
class Outcome:
    """What a coat comes to."""

    filmed: Filmed
    joined: Joined
    balance: Balance
    fog: Fog
    fog_sheet: SkinGrid
    fog_bare_g: float
    dry_g_m2: Floats


@lru_cache(maxsize=8)
def _inner(field: Field) -> NDArray[np.bool_]:
    """Where the layer is full, without the outermost cells: where it fades it is thin on purpose."""
    full = field.weight >= FULL_WEIGHT
    mask = full if full.any() else field.mask
    inner = mask.copy()
    for shift in range(1, INSIDE_CELLS + 1):
        for axis in (0, 1):
            inner &= np.roll(mask, shift, axis) & np.roll(mask, -shift, axis)
    return inner if inner.any() else mask


def _coarse(field: Field) -> SkinGrid:
    """The grid of the fog."""
    skin = field.skin
    return SkinGrid(
        skin.x0_m,
        skin.s0_m,
        skin.cell_m * FOG_CELLS,
        -(-skin.rows // FOG_CELLS),
        -(-skin.columns // FOG_CELLS),
    )


@lru_cache(maxsize=8)
def _unpainted(field: Field, coarse: SkinGrid) -> Floats:
    """Share of each fog cell that is a panel this coat does not paint."""
    bare = (field.panel >= 0) & ~field.mask
    rows, columns = coarse.rows * FOG_CELLS, coarse.columns * FOG_CELLS
    padded = np.zeros((rows, columns))
    padded[: bare.shape[0], : bare.shape[1]] = bare
    blocks = padded.reshape(coarse.rows, FOG_CELLS, coarse.columns, FOG_CELLS)
    return np.asarray(blocks.mean(axis=(1, 3)), np.float64)


@lru_cache(maxsize=KEPT)
def filmed_of(work: Work, made: Programme, hand: Hand) -> Filmed:
    """Return the wet film of a coat."""
    laid, strokes = laid_of(work, made), made.strokes
    full = strokes.light == 0
    full_film = banded_film_g_m2(laid.up_per_m[:, full], laid.along_g_m[full])
    film = full_film
    if not full.all():
        film = full_film + banded_film_g_m2(laid.up_per_m[:, ~full], laid.along_g_m[~full])
    inner = _inner(work.field)
    inside = film[inner]
    mean = float(inside.mean())
    by_hand = film_cv(hand, float(strokes.fan_m[0]), work.passes[0][0].overlap, PROFILE_EXPONENT)
    thin = 0.0
    if full.any():
        heavy = np.maximum(full_film[inner], 1e-6)
        thin = float(normal_share((CLOSED_G_M2 / heavy - 1.0) / by_hand).mean())
    return Filmed(film, mean, float(np.hypot(inside.std() / mean, by_hand)), thin)


@lru_cache(maxsize=KEPT)
def fogged_of(work: Work, made: Programme) -> tuple[Fog, SkinGrid]:
    """Return the overspray of a coat and the coarser grid it lies on."""
    coarse = _coarse(work.field)
    return fog_of_coat(made.strokes, coarse), coarse


@lru_cache(maxsize=KEPT)
def balance_of(work: Work, made: Programme) -> Balance:
    """Return where the paint of a coat goes, stretched to the planned area.

    Source: Mass balance; definition.
    """
    field, laid, strokes = work.field, laid_of(work, made), made.strokes
    landed = banded_film_g_m2(laid.up_per_m, laid.along_g_m * strokes.stretch[:, None]) * field.skin.cell_m**2
    sprayed = strokes.sprayed_g()
    return Balance(
        float(sprayed.sum()),
        float(landed[field.mask].sum()),
        float(landed[~field.mask].sum()),
        float((sprayed * (1.0 - strokes.transfer)).sum()),
    )


def outcome_of(work: Work, made: Programme, open_s: float, hand: Hand) -> Outcome:
    """Return what a coat comes to."""
    fog, skin = fogged_of(work, made)
    return Outcome(
        filmed_of(work, made, hand),
        joined_of(work, made),
        balance_of(work, made),
        fog,
        skin,
        float((fog.bare_g_m2 * _unpainted(work.field, skin)).sum()) * skin.cell_m**2,
        dry_fog_g_m2(fog, open_s),
    )
