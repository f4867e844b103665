"""How sure the worst join of some layers is; the one number by which plans are compared."""

import math
from collections.abc import Iterable
from dataclasses import dataclass

from laydown.planning.crew import Crew
from laydown.planning.join_nouns import join_nouns
from laydown.planning.layers import LayerResult
from laydown.planning.walking import stroke_age_s, walk_chance


@dataclass(frozen=True, slots=True)
class Risk:
    """The tightest edge.

    Attributes
    ----------
    chance
        Least chance that an edge is still open when it is reached; 1 where there is none.
    spare_s
        Least spare time [s]; None where there is no edge.
    where
        Layer, coat and feature.
    sections
        Whether every coat has possible sections.
    """

    chance: float
    spare_s: float | None
    where: str
    sections: bool


def risk_of(layers: Iterable[LayerResult], crew: Crew) -> Risk:
    """Return the tightest edge of some layers.

    Parameters
    ----------
    layers
        Planned layers.
    crew
        Who sprays.

    Returns
    -------
    The risk.

    Sources
    -------
    ``join_nouns``.
    """
    found = Risk(1.0, None, "", sections=True)
    for layer in layers:
        name = layer.task.paint.product.kind
        for coat in layer.coats:
            planned = coat.planned
            if not math.isfinite(planned.cut.cost):
                found = Risk(found.chance, found.spare_s, found.where, sections=False)
            if planned.task.walk:
                edges = [
                    (
                        walk_chance(planned, layer.conditions.open_ln_sd, crew),
                        coat.open_s - stroke_age_s(planned),
                        "every stroke",
                    )
                ]
            else:
                joins = join_nouns(
                    planned,
                    f"{name[0]}{coat.number}",
                    crew,
                    layer.conditions.open_ln_sd,
                    planned.work.refill_after,
                )
                edges = [
                    (join.wet_chance, join.spare_s.value, f"{name} {coat.number}, {join.feature}")
                    for join in joins
                ]
            for chance, spare, where in edges:
                if chance < found.chance:
                    found = Risk(chance, spare, where, found.sections)
                elif found.spare_s is None:
                    found = Risk(found.chance, spare, where, found.sections)
    return found


def minutes_of(layers: Iterable[LayerResult]) -> float:
    """Return the minutes of spraying and waiting of some layers.

    Parameters
    ----------
    layers
        Planned layers.

    Returns
    -------
    Minutes.

    Sources
    -------
    Definition.
    """
    return (
        sum(coat.planned.made.total_s + min(coat.flash_s, 7200.0) for layer in layers for coat in layer.coats)
        / 60.0
    )
