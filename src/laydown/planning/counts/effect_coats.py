"""What an effect coat of some coats consists of, what film it brings, and how many coats of the panel that is."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from laydown.physics.colour.count_chances import CoatPosterior, expected_loss
from laydown.physics.spray.fan import raster_mean_g_m2
from laydown.planning.setup.coat_parts import CoatPlan, composition
from laydown.planning.setup.spraying import Setting, settings_of
from laydown.schema.choices import Choices, Sample
from laydown.schema.job import Gun

Floats = NDArray[np.float64]

CONTROL_COUNT = 0.4
"""For how many coats a control coat counts; common practice, no source: 0.3 to 0.5."""

HALF_STRENGTH = 0.5
"""Share of pigment of a half-strength coat: as much effect mix as clear blender; definition."""

MOST_COATS = 8.0
"""Most effect coats that are weighed; assumption."""


@dataclass(frozen=True, slots=True)
class EffectWay:
    """One way to spray an effect coat.

    Attributes
    ----------
    counts
        For how many coats it counts.
    coats
        What it consists of, in order.
    film_g_m2
        Wet film of all coats at full strength [g/m²].
    """

    counts: float
    coats: tuple[CoatPlan, ...]
    film_g_m2: float


def effect_composition(coats: float, choices: Choices) -> tuple[CoatPlan, ...]:
    """Return what a number of effect coats consists of.

    Parameters
    ----------
    coats
        Coats in halves, at least 0.5.
    choices
        How half a coat is sprayed, and whether a control coat ends the layer.

    Returns
    -------
    Coats in order. With half strength each coat is one closed pass, and half a coat is a closed pass of half-strength
    paint: the same film with half the pigment. A control coat takes the place of half a coat.

    Sources
    -------
    Common practice, no source.
    """
    control = choices.control_coat and coats > 0.5
    rest = coats - 0.5 if control else coats
    if choices.half_coat == "half strength":
        wholes = [CoatPlan("closed", 1.0) for _ in range(int(rest))]
        half = [CoatPlan("closed", 0.5, HALF_STRENGTH)] if rest > int(rest) else []
        plain = (*wholes, *half)
    else:
        plain = composition(rest, "effect")
    return (*plain, CoatPlan("control", CONTROL_COUNT)) if control else plain


def effect_ways(choices: Choices, closed: Setting) -> Mapping[float, EffectWay]:
    """Return every number of effect coats in halves with the way to spray it.

    Parameters
    ----------
    choices
        How half a coat is sprayed, and whether a control coat ends the layer.
    closed
        The closed pass.

    Returns
    -------
    Ways by ordered coats, 0.5 to 8.

    Sources
    -------
    ``effect_composition`` and the films of its passes.
    """
    found = {}
    for halves in range(1, round(2 * MOST_COATS) + 1):
        coats = effect_composition(halves / 2.0, choices)
        found[halves / 2.0] = EffectWay(sum(one.counts for one in coats), coats, _film(coats, closed))
    return found


def panel_film_g_m2(sample: Sample, gun: Gun) -> float | None:
    """Return the wet film of one coat of the let-down panel, where it is known.

    Parameters
    ----------
    sample
        What the job says of the panel.
    gun
        The gun of the job, for settings of the panel that are left out.

    Returns
    -------
    Wet film [g/m²]: as weighed, else from the settings; None where neither is given.

    Sources
    -------
    ``raster_mean_g_m2``.
    """
    if sample.coat_g_m2 is not None:
        return sample.coat_g_m2.value
    if sample.flow_g_s is sample.speed_m_s is sample.overlap is sample.fan_m is None:
        return None
    flow, speed = sample.flow_g_s or gun.flow_g_s, sample.speed_m_s or gun.speed_m_s
    overlap, fan = sample.overlap or gun.overlap, sample.fan_m or gun.fan_m
    return raster_mean_g_m2(flow.value, gun.transfer.value, fan.value, overlap.value, speed.value)


def panel_coats_of(way: EffectWay, panel_g_m2: float | None) -> float:
    """Return how many coats of the panel a way to spray is.

    Parameters
    ----------
    way
        The way.
    panel_g_m2
        Wet film of one coat of the panel [g/m²]; None = as the plan's closed coat.

    Returns
    -------
    Coats of the panel.

    Sources
    -------
    The colour of a coat goes with its film: ``laydown.physics.colour.unevenness``.
    """
    return way.counts if panel_g_m2 is None else way.film_g_m2 / panel_g_m2


def least_loss(posterior: CoatPosterior, ways: Mapping[float, EffectWay], panel_g_m2: float | None) -> float:
    """Return the number of coats, in halves, with the least expected loss.

    Parameters
    ----------
    posterior
        Chance of each number of coats of the panel.
    ways
        Ways to spray by ordered coats.
    panel_g_m2
        Wet film of one coat of the panel [g/m²], if known.

    Returns
    -------
    Ordered coats; the lower of equals.

    Sources
    -------
    ``expected_loss`` of the coats of the panel that each way is.
    """
    ordered = np.array(sorted(ways))
    made = np.array([panel_coats_of(ways[float(one)], panel_g_m2) for one in ordered])
    over = made[:, None] - posterior.grid
    chance = posterior.density * (posterior.grid[1] - posterior.grid[0])
    loss = expected_loss(over, chance)
    return float(ordered[int(loss.round(9).argmin())])


def _film(coats: tuple[CoatPlan, ...], closed: Setting) -> float:
    """Wet film of all coats, half-strength ones by their pigment."""
    return sum(
        one.strength * sum(each.film_g_m2() for each in settings_of(one.part, closed)) for one in coats
    )
