"""From how likely each number of coats is to what is said of a zone."""

from dataclasses import dataclass
from typing import Literal

import numpy as np

from laydown.physics.colour.coat_count import estimate_coats, misfit, step_difference
from laydown.physics.colour.count_chances import CoatPosterior, HalfCoats, chance_within, half_coats
from laydown.physics.colour.letdown import LetdownFit
from laydown.physics.values import Floats
from laydown.planning.counts.ground_check import GroundRecord
from laydown.planning.counts.readings import PanelReadings, Target
from laydown.schema.colour import ColourWord
from laydown.schema.message import Message, Saying, message

EDGE_COATS = 0.1
"""A likeliest number nearer than this to an end of the curve lies beyond it [coats]; assumption."""

BELOW_GROUND_DE = 0.7
"""A car that looks like no coat at all and still differs by more, CIEDE2000, has another ground; assumption."""

NO_FIT_DE = 1.5
"""If the best number leaves more than this at 25 to 75 degrees, CIEDE2000, no number fits; assumption."""

NO_FIT_ENDS_DE = 2.0
"""The same near the gloss and at the far flop, where a reading is less sure; assumption."""

SURE = 0.8
"""Chance from which a half coat is called clear; assumption."""

POSSIBLE = 0.15
"""Chance from which a second half coat counts as possible; assumption."""

UNSEEN_DE = 0.5
"""Difference at every angle that is not seen, CIEDE2000; assumption."""


@dataclass(frozen=True, slots=True)
class Judged:
    """One zone of the car."""

    zone: str
    verdict: ColourWord
    posterior: CoatPosterior | None
    halves: HalfCoats | None
    misfit_de: Floats | None = None
    reason: Saying = ""
    target: Target | None = None

    @property
    def counts(self) -> bool:
        """Whether a number of coats is given."""
        return self.verdict in {"either", "undecided", "clear"}


def judge_zone(zone: str, read: PanelReadings, target: Target, ground: GroundRecord) -> Judged:
    """Return what an instrument says of one zone.

    Source: Limits of this module: assumptions. A coat too many cannot be taken off: common practice, no
    source.
    """
    blocked = ground_verdict(zone, ground)
    if blocked is not None:
        return blocked
    fit = read.fit
    posterior = estimate_coats(fit, target.lab, target.sigma, ground.doubt, ground.delta)
    left = misfit(fit, posterior.mode, target.lab, ground.delta)
    verdict, reason = _range_verdict(fit, posterior, left, read.angles_deg)
    halves = half_coats(posterior)
    if verdict is None:
        step = _largest_step(fit, halves, ground.delta)
        verdict = weigh(halves, step)
    return Judged(zone, _at_best(verdict, ground), posterior, halves, left, reason, target)


def ground_verdict(zone: str, ground: GroundRecord) -> Judged | None:
    """Return the verdict of a ground coat that allows no count; None where it allows one.

    Source: Common practice, no source.
    """
    if ground.state == "unchecked":
        return Judged(zone, "ground_unchecked", None, None, reason=ground.reason)
    if ground.state == "wrong":
        return Judged(zone, "ground_wrong", None, None, reason=ground.reason)
    return None


def weigh(halves: HalfCoats, step_de: float) -> ColourWord:
    """Return whether half coats can be told apart."""
    best, second = _two_best(halves)
    if halves.mass[second] > POSSIBLE and step_de <= UNSEEN_DE:
        return "either"
    # A likeliest half coat that is not the one to order would be read as a promise; looking after the lower one decides.
    sure = halves.mass[best] >= SURE and halves.ordered == halves.likeliest
    return "clear" if sure else "undecided"


def _range_verdict(
    fit: LetdownFit, posterior: CoatPosterior, left: Floats, angles_deg: Floats
) -> tuple[ColourWord | None, Message | Literal[""]]:
    """Whether the car lies beyond the panel, below the ground, or fits nowhere."""
    last = float(fit.coats.max())
    worst = float(left.max())
    beyond = float(chance_within(posterior, last, posterior.grid[-1] + 1.0))
    if posterior.mode >= posterior.grid[-1] - EDGE_COATS or beyond > 0.5:
        return "beyond_panel", message("car-beyond-panel", last=last)
    if posterior.mode <= EDGE_COATS and (worst > BELOW_GROUND_DE or half_coats(posterior).ordered == 0.0):
        return "below_ground", message("car-below-ground", difference=worst)
    ends = (angles_deg < 25.0) | (angles_deg > 75.0)
    limits = np.where(ends, NO_FIT_ENDS_DE, NO_FIT_DE)
    if bool((left > limits).any()):
        at = int((left / limits).argmax())
        return "no_fit", message(
            "car-fits-nowhere", difference=float(left[at]), angle_deg=float(angles_deg[at])
        )
    return None, ""


def _two_best(halves: HalfCoats) -> tuple[int, int]:
    """Places of the two likeliest half coats; the lower of equals first."""
    order = np.argsort(-halves.mass.round(9), kind="stable")
    return int(order[0]), int(order[min(1, order.size - 1)])


def _largest_step(fit: LetdownFit, halves: HalfCoats, delta: Floats | None) -> float:
    """What would be seen between the two likeliest half coats."""
    low, high = sorted(float(halves.halves[place]) for place in _two_best(halves))
    return float(step_difference(fit, low, high, delta).max())


def _at_best(verdict: ColourWord, ground: GroundRecord) -> ColourWord:
    """Never better than undecided where no bare ground coat could be reached."""
    return "undecided" if ground.state == "provisional" and verdict in {"either", "clear"} else verdict
