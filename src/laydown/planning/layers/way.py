"""Walking the length: every stroke from one end to the other, so that only neighbouring strokes meet."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from laydown.physics.spray.hand import age_spread, wet_chance
from laydown.planning.layers.choice import Offer
from laydown.planning.sections.coat import PlannedCoat
from laydown.planning.setup.places import Place
from laydown.planning.setup.spraying import Crew
from laydown.planning.setup.weights import SIMPLER_MINUTES, SIMPLER_SHARE, WEIGHTS
from laydown.schema.job import Job
from laydown.schema.message import Message, Name, Saying, message


@dataclass(frozen=True, slots=True)
class Start:
    """Start of a layer."""

    fixed: str
    feature: str
    backwards: bool
    tie: bool
    reason: Saying
    unknown: str

    def keep(self, offer: Offer) -> Offer:
        """Return the offer with the direction the user ruled out made infinite; definition."""
        endless = np.full(len(offer.options), np.inf)
        if self.fixed == "front":
            return replace(offer, backward=endless)
        if self.fixed == "rear":
            return replace(offer, forward=endless)
        return offer

    def _as_fixed(self) -> Message:
        """Say where the user wants to start."""
        if self.feature:
            return message("start-fixed.place", feature=Name(self.feature))
        return message("start-fixed.rear" if self.fixed == "rear" else "start-fixed.front")

    def settle(self, offer: Offer, index: int, habit: str | None) -> "Start":
        """Return the start with its direction: the cheaper one, or the painter's habit where it is a tie."""
        ahead, back = float(offer.forward[index]), float(offer.backward[index])
        if self.fixed or self.feature:
            return replace(self, backwards=back <= ahead, reason=self._as_fixed())
        least = min(ahead, back)
        tie = abs(ahead - back) < max(SIMPLER_MINUTES, SIMPLER_SHARE * least) if np.isfinite(least) else True
        if not tie:
            better = "rear" if back < ahead else "front"
            gain = abs(ahead - back)
            reason = message("start-better", end=better, minutes=gain)
            return replace(self, backwards=back < ahead, reason=reason)
        side = habit or "rear"
        reason = message("start-by-habit", end=side) if habit else message("start-as-usual", end=side)
        return replace(self, backwards=side == "rear", tie=True, reason=reason)


def resolve_start(job: Job, places: Sequence[Place]) -> Start:
    """Return what the user fixed of the start."""
    wanted = job.job.start
    if wanted in {"front", "rear"}:
        return Start(wanted, "", backwards=wanted == "rear", tie=False, reason="", unknown="")
    known = {place.id: place.id for place in places} | {place.label: place.id for place in places}
    feature = known.get(wanted, "")
    unknown = wanted if wanted != "best" and not feature else ""
    return Start("", feature, backwards=True, tie=False, reason="", unknown=unknown)


def stroke_age_s(planned: PlannedCoat) -> float:
    """Return the greatest age between neighbouring strokes of a walked coat [s]."""
    strokes = planned.made.strokes
    full = strokes.only(strokes.light == strokes.light.min())
    rows = np.unique(full.centre_m, return_inverse=True)[1]
    begin = np.full(int(rows.max()) + 1, np.inf)
    end = np.zeros(int(rows.max()) + 1)
    np.minimum.at(begin, rows, full.begin_s)
    np.maximum.at(end, rows, full.begin_s + full.duration_s())
    return float(2.0 * (end - begin).max())


def walk_chance(planned: PlannedCoat, open_ln_sd: float, crew: Crew) -> float:
    """Return the chance that every stroke of a walked coat meets a wet one."""
    spread = age_spread(crew.hand, 4.0, open_ln_sd)
    age = np.array([stroke_age_s(planned)])
    return float(wet_chance(age, np.array([planned.task.open_s]), spread, crew.hand)[0])


def walk_cost(planned: PlannedCoat, open_ln_sd: float, crew: Crew) -> float:
    """Return the minutes of work of a walked coat."""
    if sum(planned.made.cup_g) > float(planned.board.cup_g[0]):
        return float("inf")
    return planned.made.total_s / 60.0 + WEIGHTS.redo * (1.0 - walk_chance(planned, open_ln_sd, crew))


def walks_better(sections: PlannedCoat, walked: PlannedCoat, open_ln_sd: float, crew: Crew) -> bool:
    """Tell whether walking beats sections by more than noise."""
    cost = walk_cost(walked, open_ln_sd, crew)
    slack = max(SIMPLER_MINUTES, SIMPLER_SHARE * sections.cut.cost) if np.isfinite(sections.cut.cost) else 0.0
    return cost + slack < sections.cut.cost
