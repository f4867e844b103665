"""How the planned effect film looks: differences over the side, joins, tolerance of the film. Film only."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from laydown.physics.colour.unevenness import (
    DifferenceTable,
    appearance_map,
    difference_table,
    effective_coats,
    film_tolerance,
    join_contrast,
    summary,
)
from laydown.physics.spray.hand import Hand
from laydown.physics.values import Floats
from laydown.planning.counts.effect_count import Sight
from laydown.planning.layers.layer import LayerResult
from laydown.planning.sections.outcome import filmed_of
from laydown.planning.sections.strokes import Programme, Work
from laydown.planning.setup.field import FULL_WEIGHT, Field
from laydown.planning.setup.places import Place
from laydown.schema.colour import AngleAppearance, Appearance, JoinContrast
from laydown.schema.message import Finding, Name, message

STRIP_M = 0.10
"""Half width of the strip of a join that is compared [m]; a choice, about a lap."""

BESIDE_M = 0.30
"""Width of the areas on both sides of it [m]; a choice."""

STRIDE = 2
"""Every second cell of the film grid is judged; a choice of resolution, 20 mm."""

TIGHT_SHARE = 0.15
"""A film that may be thicker by less than this share is hard to keep by hand; assumption: a coat scatters by 7 to 12 %."""

CONTRAST_DE = 0.5
"""Contrast of a join from which it is said, CIEDE2000; assumption."""


@dataclass(frozen=True, slots=True)
class Look:
    """How the effect film looks."""

    appearance: Appearance
    difference: Floats | None
    angle_deg: float
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class _Laid:
    """A coat as it is sprayed: its number, strokes, hand and share of pigment."""

    number: int
    work: Work
    made: Programme
    hand: Hand
    strength: float


def look_of(layer: LayerResult | None, sight: Sight | None) -> Look:
    """Return how the planned effect film looks."""
    if layer is None or sight is None:
        return Look(Appearance(None, None, None, message("look-not-predicted")), None, 0.0, ())
    hand = layer.task.crew.hand
    coats = tuple(
        _Laid(one.number, one.planned.work, one.planned.made, hand, one.plan.strength) for one in layer.coats
    )
    return _look(layer.task.field, coats, sight)


@lru_cache(maxsize=16)
def _look(field: Field, coats: tuple[_Laid, ...], sight: Sight) -> Look:
    """How coats look that are sprayed like this; other air leaves it as it is, so it is kept."""
    film, inside = _film(field, coats)
    if not inside.any():
        return Look(Appearance(None, None, None, message("effect-fades-out")), None, 0.0, ())
    reference = float(film[inside].mean()) if sight.panel_g_m2 is None else sight.panel_g_m2 * sight.wanted
    table = difference_table(sight.fit, sight.wanted, sight.delta)
    judged = film[::STRIDE, ::STRIDE][inside[::STRIDE, ::STRIDE]]
    found = appearance_map(table, judged, reference)
    told = summary(found, np.ones(found.shape[0]))
    angles = tuple(
        _angle(sight, table, at, told.above_fraction[at], told.high[at])
        for at in range(sight.angles_deg.size)
    )
    joins = _joins(field, coats, sight, (film, inside), reference)
    at = int(told.high.argmax())
    spread = np.full(film.shape, np.nan)
    alone = replace(table, difference=table.difference[:, at : at + 1])
    spread[inside] = appearance_map(alone, film[inside], reference)[:, 0]
    worst = max(joins, key=lambda one: one.de, default=None)
    appearance = Appearance(
        de_p95=round(float(told.high[at]), 3),
        share_above_1=round(float(told.above_fraction[at, 1]), 4),
        worst_join=worst.join if worst is not None else None,
        label=message("film-only", angle_deg=float(sight.angles_deg[at])),
        angles=angles,
        joins=joins,
    )
    return Look(appearance, spread, float(sight.angles_deg[at]), _findings(joins, angles))


def _film(field: Field, coats: tuple[_Laid, ...]) -> tuple[Floats, NDArray[np.bool_]]:
    """Film of all coats, half-strength ones by their pigment, and where it is full."""
    films = [filmed_of(one.work, one.made, one.hand).film_g_m2 * one.strength for one in coats]
    return np.asarray(np.sum(films, axis=0), np.float64), field.mask & (field.weight >= FULL_WEIGHT)


def _angle(sight: Sight, table: DifferenceTable, at: int, above: Floats, high: float) -> AngleAppearance:
    """One angle."""
    thinner, thicker = film_tolerance(table, at)
    return AngleAppearance(
        angle_deg=float(sight.angles_deg[at]),
        de_p95=round(float(high), 3),
        share_above_half=round(float(above[0]), 4),
        share_above_1=round(float(above[1]), 4),
        share_above_2=round(float(above[2]), 4),
        thinner_share=round(thinner, 3) if thinner < 1.0 else None,
        thicker_share=round(thicker, 3) if np.isfinite(thicker) else None,
    )


def _joins(
    field: Field,
    coats: tuple[_Laid, ...],
    sight: Sight,
    filmed: tuple[Floats, NDArray[np.bool_]],
    reference: float,
) -> tuple[JoinContrast, ...]:
    """Contrast of every join of every coat."""
    found = []
    for coat in coats:
        for index, bound in enumerate(coat.work.bounds[1:-1], start=1):
            place = coat.work.reach.places[bound - 1]
            means = _beside(field, place, filmed)
            if means is None:
                continue
            made = np.minimum(effective_coats(means, reference, sight.wanted), sight.fit.last)
            contrast = join_contrast(sight.fit, float(made[0]), made[1:], sight.delta).max(axis=0)
            at = int(contrast.argmax())
            angle = float(sight.angles_deg[at])
            found.append(
                JoinContrast(f"e{coat.number}.{index}", place.label, round(float(contrast[at]), 3), angle)
            )
    return tuple(found)


def _beside(field: Field, place: Place, filmed: tuple[Floats, NDArray[np.bool_]]) -> Floats | None:
    """Mean film of the strip of a join and of the areas beside it [g/m²]; None where one of them is not painted."""
    film, inside = filmed
    grid = field.skin
    heights = grid.s0_m + (np.arange(grid.rows, dtype=np.float64) + 0.5) * grid.cell_m
    along = grid.x0_m + (np.arange(grid.columns) + 0.5) * grid.cell_m
    at = place.x_at(heights)
    reach = STRIP_M + BESIDE_M + grid.cell_m
    near = slice(*np.searchsorted(along, [float(at.min()) - reach, float(at.max()) + reach]))
    film, inside, away = film[:, near], inside[:, near], along[near] - at[:, None]
    areas = (np.abs(away) <= STRIP_M, _between(-away), _between(away))
    painted = [inside & area for area in areas]
    if not all(bool(area.any()) for area in painted):
        return None
    return np.array([film[area].mean() for area in painted])


def _between(away_m: Floats) -> NDArray[np.bool_]:
    """The area on one side of a strip."""
    return np.asarray((away_m > STRIP_M) & (away_m <= STRIP_M + BESIDE_M), np.bool_)


def _findings(joins: Sequence[JoinContrast], angles: Sequence[AngleAppearance]) -> tuple[Finding, ...]:
    """Joins that stand out, and films that must be kept closer than a hand can."""
    worst = max(joins, key=lambda one: one.de, default=None)
    found = []
    if worst is not None and worst.de > CONTRAST_DE:
        found.append(
            Finding(
                "caution",
                "join-shows",
                worst.join,
                message(
                    "join-shows",
                    feature=Name(worst.feature.replace("|", " / ")),
                    contrast=worst.de,
                    angle_deg=worst.angle_deg,
                ),
                message("join-shows.why", contrast=CONTRAST_DE),
                tuple(map(message, ("do.half-overlap", "do.joins-elsewhere", "do.drop-coat"))),
            )
        )
    tight = min(
        (one for one in angles if one.thicker_share is not None),
        key=lambda one: one.thicker_share or 0.0,
        default=None,
    )
    if tight is not None and tight.thicker_share is not None and tight.thicker_share < TIGHT_SHARE:
        thicker, thinner = tight.thicker_share, tight.thinner_share
        found.append(
            Finding(
                "note",
                "film-sensitive",
                "effect",
                message("film-sensitive.any", thicker_share=thicker)
                if thinner is None
                else message("film-sensitive", thicker_share=thicker, thinner_share=thinner),
                message("film-sensitive.why", angle_deg=tight.angle_deg),
                (message("do.keep-even"),),
            )
        )
    return tuple(found)
