"""What an effect coat of some coats consists of, what film it brings, and how many coats of the panel that is."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from laydown.physics.colour.count_chances import CoatPosterior, expected_loss
from laydown.physics.spray.fan import raster_mean_g_m2
from laydown.planning.setup.coat_parts import CoatPlan, composition
from laydown.planning.setup.spraying import GunPass, settings_of
from laydown.schema.choices import Choices, Sample
from laydown.schema.job import Gun

DROP_COUNT = 0.4
"""For how many coats a drop coat counts; common practice, no source: 0.3 to 0.5."""

HALF_STRENGTH = 0.5
"""Share of pigment of a half-strength coat: as much effect mix as clear blender; definition."""

MOST_COATS = 8.0
"""Most effect coats that are weighed; assumption."""


@dataclass(frozen=True, slots=True)
class EffectWay:
    """One way to spray an effect coat."""

    counts: float
    coats: tuple[CoatPlan, ...]
    film_g_m2: float


def effect_composition(coats: float, choices: Choices) -> tuple[CoatPlan, ...]:
    """Return what a number of effect coats consists of.

    Source: Common practice, no source.
    """
    drop = choices.drop_coat and coats > 0.5
    rest = coats - 0.5 if drop else coats
    if choices.half_coat == "half strength":
        wholes = [CoatPlan("full", 1.0) for _ in range(int(rest))]
        half = [CoatPlan("full", 0.5, HALF_STRENGTH)] if rest > int(rest) else []
        plain = (*wholes, *half)
    else:
        plain = composition(rest, "effect")
    return (*plain, CoatPlan("drop", DROP_COUNT)) if drop else plain


def effect_ways(choices: Choices, full: GunPass) -> Mapping[float, EffectWay]:
    """Return every number of effect coats in halves with the way to spray it."""
    found = {}
    for halves in range(1, round(2 * MOST_COATS) + 1):
        coats = effect_composition(halves / 2.0, choices)
        found[halves / 2.0] = EffectWay(sum(one.counts for one in coats), coats, _film(coats, full))
    return found


def panel_film_g_m2(sample: Sample, gun: Gun) -> float | None:
    """Return the wet film of one coat of the let-down panel, where it is known."""
    if sample.coat_g_m2 is not None:
        return sample.coat_g_m2.value
    if sample.flow_g_s is sample.speed_m_s is sample.overlap is sample.fan_m is None:
        return None
    flow, speed = sample.flow_g_s or gun.flow_g_s, sample.speed_m_s or gun.speed_m_s
    overlap, fan = sample.overlap or gun.overlap, sample.fan_m or gun.fan_m
    return raster_mean_g_m2(flow.value, gun.transfer.value, fan.value, overlap.value, speed.value)


def panel_coats_of(way: EffectWay, panel_g_m2: float | None) -> float:
    """Return how many coats of the panel a way to spray is."""
    return way.counts if panel_g_m2 is None else way.film_g_m2 / panel_g_m2


def least_loss(posterior: CoatPosterior, ways: Mapping[float, EffectWay], panel_g_m2: float | None) -> float:
    """Return the number of coats, in halves, with the least expected loss."""
    ordered = np.array(sorted(ways))
    made = np.array([panel_coats_of(ways[float(one)], panel_g_m2) for one in ordered])
    over = made[:, None] - posterior.grid
    chance = posterior.density * (posterior.grid[1] - posterior.grid[0])
    loss = expected_loss(over, chance)
    return float(ordered[int(loss.round(9).argmin())])


def _film(coats: tuple[CoatPlan, ...], full: GunPass) -> float:
    """Wet film of all coats, half-strength ones by their pigment."""
    return sum(one.strength * sum(each.film_g_m2() for each in settings_of(one.part, full)) for one in coats)
