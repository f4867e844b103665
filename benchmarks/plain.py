"""The simulation of a coat as one would first write it: one stroke after the other on the whole grid, float64.

The physics is that of ``laydown.planning.sections.outcome``: the same film, touches, ages, fog and balance. Only the profile of a
pass comes straight from the incomplete beta function here, and nothing is cut to where a stroke is.
"""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy import special

from laydown.physics.spray.edge_age import WET_G_M2
from laydown.physics.spray.fan import ALONG_EXPONENT, PROFILE_EXPONENT
from laydown.physics.spray.hand import Hand, film_cv
from laydown.physics.spray.overspray import DRIFT_M, REACH_M, SHARE_LANDED
from laydown.physics.spray.strokes import SkinGrid, Strokes
from laydown.planning.sections.outcome import FOG_CELLS, INSIDE_CELLS
from laydown.planning.sections.strokes import AGE_QUANTILE
from laydown.planning.setup.paint import CLOSED_G_M2

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]


@dataclass(frozen=True)
class Plain:
    """What the plain simulation finds; the names are those of the outcome."""

    film_g_m2: Floats
    mean_g_m2: float
    film_cv: float
    thin_fraction: float
    on_panel_g: float
    edges_g: float
    age_s: Floats
    join_age_s: tuple[float, ...]
    dry_g_m2: Floats
    bare_g_m2: Floats


def share(u: Floats, exponent: float) -> Floats:
    """Share of the profile (1 - t^2)^exponent below u."""
    return special.betainc(exponent + 1.0, exponent + 1.0, np.clip((1.0 + u) / 2.0, 0.0, 1.0))


def summed_share(u: Floats, exponent: float) -> Floats:
    """Integral of the share from -1 to u, by parts."""
    inside = np.clip(u, -1.0, 1.0)
    moment = (1.0 - inside * inside) ** (exponent + 1.0) / (2.0 * (exponent + 1.0))
    whole = special.beta(0.5, exponent + 1.0)
    return inside * share(inside, exponent) + moment / whole + np.maximum(u - 1.0, 0.0)


def film_of_stroke(strokes: Strokes, i: int, skin: SkinGrid) -> Floats:
    """Film of one stroke on the whole grid, as cell means."""
    s, x = skin.s_edges_m(), skin.x_edges_m()
    half, height = strokes.fan_m[i] / 2.0, strokes.half_m[i]
    across = np.diff(share((s - strokes.centre_m[i]) / half, PROFILE_EXPONENT)) / skin.cell_m
    left = summed_share((x - strokes.left_m[i]) / height, ALONG_EXPONENT)
    right = summed_share((x - strokes.right_m[i]) / height, ALONG_EXPONENT)
    along = np.diff(left - right) * height / skin.cell_m
    rate = strokes.flow_g_s[i] * strokes.transfer[i] / strokes.speed_m_s[i]
    return rate * across[:, None] * along[None, :]


def fog_of_stroke(strokes: Strokes, i: int, skin: SkinGrid) -> Floats:
    """Fog of one stroke on the whole grid, at cell centres."""
    s = skin.s0_m + skin.cell_m * (np.arange(skin.rows) + 0.5)
    x = skin.x0_m + skin.cell_m * (np.arange(skin.columns) + 0.5)
    up = np.exp(-0.5 * ((s - strokes.centre_m[i] - DRIFT_M) / REACH_M) ** 2)
    up /= REACH_M * math.sqrt(2.0 * math.pi)
    begun = special.ndtr((x - strokes.left_m[i]) / REACH_M)
    ended = special.ndtr((x - strokes.right_m[i]) / REACH_M)
    missed = strokes.flow_g_s[i] * (1.0 - strokes.transfer[i]) * SHARE_LANDED / strokes.speed_m_s[i]
    return missed * up[:, None] * (begun - ended)[None, :]


def times_of_stroke(strokes: Strokes, i: int, skin: SkinGrid) -> Floats:
    """When one stroke passes each cell of the whole grid."""
    x = skin.x0_m + skin.cell_m * (np.arange(skin.columns) + 0.5)
    inside = np.clip(x, strokes.left_m[i], strokes.right_m[i])
    way = inside - strokes.left_m[i] if strokes.ahead[i] > 0.0 else strokes.right_m[i] - inside
    times = strokes.begin_s[i] + way * strokes.stretch[i] / strokes.speed_m_s[i]
    return np.broadcast_to(times, (skin.rows, skin.columns))


def sprayed_over(strokes: Strokes, skin: SkinGrid) -> tuple[Floats, Floats, Floats, Floats, Floats]:
    """Film, film of the closed pass, mass on the planned area, and last and first touch of each section."""
    shape = (skin.rows, skin.columns)
    sections = int(strokes.section.max()) + 1
    film, closed, landed = np.zeros(shape), np.zeros(shape), np.zeros(shape)
    last = np.full((sections, *shape), -np.inf)
    first = np.full((sections, *shape), np.inf)
    heaviest = strokes.light.min()
    for i in range(len(strokes.begin_s)):
        one = film_of_stroke(strokes, i, skin)
        times = times_of_stroke(strokes, i, skin)
        section = strokes.section[i]
        film += one
        landed += one * strokes.stretch[i]
        if strokes.light[i] == 0:
            closed += one
        wet = one > WET_G_M2
        last[section] = np.where(wet, np.maximum(last[section], times), last[section])
        if strokes.light[i] == heaviest:
            first[section] = np.where(wet, np.minimum(first[section], times), first[section])
    return film, closed, landed * skin.cell_m**2, last, first


def ages_of(last: Floats, first: Floats, mask: Bools) -> tuple[Floats, tuple[float, ...]]:
    """Ages where each section meets the next."""
    ages = np.full(mask.shape, np.nan)
    joins = []
    for section in range(len(last) - 1):
        age = first[section + 1] - last[section]
        meet = mask & np.isfinite(age)
        joins.append(float(np.quantile(age[meet], AGE_QUANTILE)) if meet.any() else math.nan)
        ages = np.where(meet, age, ages)
    return ages, tuple(joins)


def fogged(strokes: Strokes, skin: SkinGrid, open_s: float) -> tuple[Floats, Floats]:
    """Fog that stays dry on painted cells, and fog on cells that are never painted."""
    shape = (skin.rows, skin.columns)
    last = np.full(shape, -np.inf)
    ever = np.zeros(shape, bool)
    dry, whole = np.zeros(shape), np.zeros(shape)
    for i in range(len(strokes.begin_s)):
        wet = film_of_stroke(strokes, i, skin) > WET_G_M2
        times = times_of_stroke(strokes, i, skin)
        fog = fog_of_stroke(strokes, i, skin)
        ever |= wet
        last = np.where(wet, np.maximum(last, times), last)
        dry = np.where(wet, 0.0, dry) + np.where(times - last > open_s, fog, 0.0)
        whole += fog
    return np.where(ever, dry, 0.0), np.where(ever, 0.0, whole)


def inner_of(mask: Bools) -> Bools:
    """The mask without its outermost cells."""
    inner = mask.copy()
    for shift in range(1, INSIDE_CELLS + 1):
        for axis in (0, 1):
            inner &= np.roll(mask, shift, axis) & np.roll(mask, -shift, axis)
    return inner if inner.any() else mask


def plain_outcome(
    strokes: Strokes, grid: tuple[SkinGrid, Bools, Bools], overlap: float, open_s: float, hand: Hand
) -> Plain:
    """The whole coat: film, balance, ages and fog; the grid with where the layer is wanted and where it is full."""
    skin, mask, full = grid
    film, closed, landed, last, first = sprayed_over(strokes, skin)
    ages, joins = ages_of(last, first, mask)
    coarse = SkinGrid(
        skin.x0_m,
        skin.s0_m,
        skin.cell_m * FOG_CELLS,
        math.ceil(skin.rows / FOG_CELLS),
        math.ceil(skin.columns / FOG_CELLS),
    )
    dry, bare = fogged(strokes, coarse, open_s)
    inside = inner_of(full if full.any() else mask)
    by_hand = film_cv(hand, float(strokes.fan_m[0]), overlap, PROFILE_EXPONENT)
    heavy = closed if (strokes.light == 0).any() else film
    thin = special.ndtr((CLOSED_G_M2 / np.maximum(heavy[inside], 1e-6) - 1.0) / by_hand)
    mean = float(film[inside].mean())
    return Plain(
        film,
        mean,
        float(np.hypot(film[inside].std() / mean, by_hand)),
        float(thin.mean()),
        float(landed[mask].sum()),
        float(landed[~mask].sum()),
        ages,
        joins,
        dry,
        bare,
    )
