"""How much to mix: need, reserve, least batch, one mix for a layer, the cup, and what is left.

Sources: mass and volume balance; definition, unless a function names its own.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from laydown.schema.message import Saying, message
from laydown.schema.product import RecipeLine
from laydown.trade.mixing.pour import weighing_tolerance
from laydown.trade.mixing.recipe import mix_density_g_ml, relative_masses

Leftover = Literal["returnable", "waste"]
"""returnable: closed, labelled, with its age; waste: it has met hardener and never goes back."""

GUN_AIR_MARGIN_ML = 20.0
"""Mix beyond the dead volume so that the gun does not draw air [mL]; common practice, no source."""

USAGE_CV = 0.12
"""Relative standard deviation of what a coat really takes, until the shop's records say; common practice."""

_TENTH_Z = 1.2815515655446004
"""Standard normal deviate that leaves one tenth outside; definition."""

_STEP_SLACK = 1e-9
"""Share of a step below which a batch is not rounded up to the next; rounding of floats only."""


@dataclass(frozen=True, slots=True)
class Allowance:
    """What is mixed beyond the need.

    Attributes
    ----------
    reserve_share
        Reserve on the need, 0 to 1. Common practice, no source.
    dead_ml
        What stays in gun and strainer [mL]. Common practice, no source.
    step_ml
        Batches come in multiples of this [mL]. Common practice, no source.
    """

    reserve_share: float = 0.10
    dead_ml: float = 30.0
    step_ml: float = 25.0


@dataclass(frozen=True, slots=True)
class LeftoverEstimate:
    """What will be left.

    Attributes
    ----------
    expected_ml
        Best estimate, 0 or more [mL].
    low_ml, high_ml
        Nine times in ten at least low, one time in ten above high [mL].
    kind
        Whether it may be kept.
    text
        What to do with it.
    """

    expected_ml: float
    low_ml: float
    high_ml: float
    kind: Leftover
    text: Saying


def need_ml(area_m2: float, wet_um_per_coat: Sequence[float], transfer_efficiency: float) -> float:
    """Return the paint that leaves the gun for all coats of a layer [mL].

    Parameters
    ----------
    area_m2
        Sprayed area, 0 or more [m²].
    wet_um_per_coat
        Wet film of each coat on the panel [µm].
    transfer_efficiency
        Share of the sprayed paint that lands, above 0 to 1.

    Raises
    ------
    ValueError
        If the transfer efficiency is not above 0 and at most 1.

    Notes
    -----
    ``need = area * sum(wet) / transfer``: 1 µm on 1 m² is 1 mL, so no factor appears.   (1)
    """
    if not 0.0 < transfer_efficiency <= 1.0:
        raise ValueError("transfer_efficiency must be above 0 and at most 1")
    return area_m2 * math.fsum(wet_um_per_coat) / transfer_efficiency


def batch_ml(need: float, allowance: Allowance | None = None) -> float:
    """Return how much to mix [mL]: need and reserve and dead volume, rounded up to the step.

    Parameters
    ----------
    need
        Paint that leaves the gun [mL].
    allowance
        Reserve, dead volume and step; left out: the defaults.

    Notes
    -----
    ``batch = ceil((need (1 + reserve) + dead) / step) step``                              (1)
    """
    given = allowance if allowance is not None else Allowance()
    raw = need * (1.0 + given.reserve_share) + given.dead_ml
    return math.ceil(raw / given.step_ml - _STEP_SLACK) * given.step_ml


def least_mix_g(lines: Sequence[RecipeLine], reading_error_g: float = 0.1, dead_ml: float = 30.0) -> float:
    """Return the smallest batch that can be weighed within tolerance and sprayed without air [g].

    Parameters
    ----------
    lines
        The recipe.
    reading_error_g
        Worst error of one pour: two roundings of half a display step each, 0.1 g for a 0.1 g display [g].
    dead_ml
        What stays in gun and strainer [mL].

    Notes
    -----
    With w the mass shares and e the reading error::

        M = max( max e / (tolerance_i w_i), (dead + 20 mL) rho )      (1)

    Sources
    -------
    The tolerances and the 20 mL are common practice, no source.
    """
    masses = relative_masses(lines)
    total = math.fsum(masses)
    weighable = max(
        reading_error_g / (weighing_tolerance(line.role, mass) * mass / total)
        for line, mass in zip(lines, masses, strict=True)
        if mass > 0.0
    )
    if any(line.density_g_ml is None for line in lines):
        return weighable
    return max(weighable, (dead_ml + GUN_AIR_MARGIN_ML) * mix_density_g_ml(lines))


def leftover(
    mixed_ml: float, used_ml: float, *, dead_ml: float = 30.0, usage_cv: float = USAGE_CV, hardened: bool
) -> LeftoverEstimate:
    """Return what will be left of a mix, with its spread, and what to do with it.

    Parameters
    ----------
    mixed_ml
        What is mixed [mL].
    used_ml
        What the coats are expected to take [mL].
    dead_ml
        What stays in gun and strainer and is lost [mL].
    usage_cv
        Relative standard deviation of what the coats take, 0 or more.
    hardened
        Whether hardener is in.

    Notes
    -----
    The use is taken as normal; the ends are its 10 % and 90 % points. A leftover is never negative.
    """
    middle = mixed_ml - dead_ml - used_ml
    swing = _TENTH_Z * usage_cv * used_ml
    return LeftoverEstimate(
        max(0.0, middle),
        max(0.0, middle - swing),
        max(0.0, middle + swing),
        "waste" if hardened else "returnable",
        message("left-over.hardened" if hardened else "left-over.returnable"),
    )
