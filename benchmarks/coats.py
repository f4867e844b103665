"""One coat simulated by laydown and by the plain loop, and how far apart they are."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from benchmarks.plain import Plain, plain_outcome
from laydown.physics.spray.hand import Hand
from laydown.planning.process.process import process_of
from laydown.planning.sections.outcome import Outcome, balance_of, filmed_of, fogged_of, outcome_of
from laydown.planning.sections.strokes import Programme, Work, joined_of, laid_of
from laydown.planning.setup.field import FULL_WEIGHT
from laydown.planning.setup.request import Request
from laydown.planning.setup.setup import setup_of

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Coat:
    """A coat ready to be simulated."""

    name: str
    work: Work
    made: Programme
    open_s: float
    hand: Hand

    def ours(self) -> Outcome:
        """The coat by laydown: from its strokes to film, ages, fog and balance."""
        for kept in (laid_of, filmed_of, joined_of, balance_of, fogged_of):
            kept.cache_clear()  # a kept answer is no simulation
        return outcome_of(self.work, self.made, self.open_s, self.hand)

    def plain(self) -> Plain:
        """The coat by the plain loop over strokes."""
        field = self.work.field
        grid = (field.skin, field.mask, field.weight >= FULL_WEIGHT)
        overlap = self.work.passes[0][0].overlap
        return plain_outcome(self.made.strokes, grid, overlap, self.open_s, self.hand)

    def least_bytes(self) -> int:
        """Bytes that must be touched at least: the film written once, the factors of all strokes read once."""
        skin, strokes = self.work.field.skin, len(self.made.strokes.begin_s)
        return 8 * (skin.rows * skin.columns + strokes * (skin.rows + skin.columns))


def coats_of(request: Request) -> list[Coat]:
    """First coat of every layer of a job."""
    setup = setup_of(request)
    found = []
    for layer, result in process_of(setup).layers.items():
        planned = result.coats[0].planned
        found.append(Coat(layer, planned.work, planned.made, planned.task.coat_open_s, setup.crew.hand))
    return found


def apart(ours: Floats, plain: Floats) -> float:
    """Largest difference over the largest value; infinite where only one of them has a value."""
    if (np.isfinite(ours) != np.isfinite(plain)).any():
        return float("inf")
    known = np.isfinite(plain)
    scale = float(np.abs(plain[known]).max(initial=0.0))
    difference = float(np.abs(ours[known] - plain[known]).max(initial=0.0))
    return difference / scale if scale > 0.0 else difference


def differences(ours: Outcome, plain: Plain) -> dict[str, float]:
    """Largest relative difference of each part of the simulation."""
    pairs = {
        "film": (ours.filmed.film_g_m2, plain.film_g_m2),
        "age": (ours.joined.age_s, plain.age_s),
        "join": (np.array([join.age_s for join in ours.joined.joins]), np.array(plain.join_age_s)),
        "dry spray": (ours.dry_g_m2, plain.dry_g_m2),
        "fog on bare": (ours.fog.bare_g_m2, plain.bare_g_m2),
        "balance": (
            np.array([ours.balance.on_panel_g, ours.balance.edges_g]),
            np.array([plain.on_panel_g, plain.edges_g]),
        ),
        "evenness": (
            np.array([ours.filmed.mean_g_m2, ours.filmed.film_cv, ours.filmed.thin_fraction]),
            np.array([plain.mean_g_m2, plain.film_cv, plain.thin_fraction]),
        ),
    }
    return {name: apart(*pair) for name, pair in pairs.items()}
