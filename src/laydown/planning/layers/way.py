"""Walking the length: every stroke from one end to the other, so that only neighbouring strokes meet."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from laydown.physics.spray.hand import age_spread, wet_chance
from laydown.planning.layers.choice import Offer
from laydown.planning.sections.coat import PlannedCoat
from laydown.planning.setup.places import Place
from laydown.planning.setup.spraying import Crew
from laydown.planning.setup.weights import SIMPLER_MINUTES, SIMPLER_SHARE, TURN_S, WEIGHTS
from laydown.schema.job import Job


@dataclass(frozen=True, slots=True)
class Start:
    """Start of a layer.

    Attributes
    ----------
    fixed
        "front" or "rear" where the user fixed it, else empty.
    feature
        Id of the place at which the first section ends, where the user named one.
    backwards
        Whether the work goes from the rear to the front.
    tie
        Whether both directions were equally good.
    reason
        Why this start.
    unknown
        What the user named that this layer does not have.
    """

    fixed: str
    feature: str
    backwards: bool
    tie: bool
    reason: str
    unknown: str

    def keep(self, offer: Offer) -> Offer:
        """Return the offer with the direction the user ruled out made infinite; definition."""
        endless = np.full(len(offer.options), np.inf)
        if self.fixed == "front":
            return replace(offer, backward=endless)
        if self.fixed == "rear":
            return replace(offer, forward=endless)
        return offer

    def settle(self, offer: Offer, index: int, habit: str | None) -> "Start":
        """Return the start with its direction: the cheaper one, or the painter's habit where it is a tie."""
        ahead, back = float(offer.forward[index]), float(offer.backward[index])
        if self.fixed or self.feature:
            words = f"start at {self.feature or 'the ' + self.fixed} as fixed by the user"
            return replace(self, backwards=back <= ahead, reason=words)
        least = min(ahead, back)
        tie = abs(ahead - back) < max(SIMPLER_MINUTES, SIMPLER_SHARE * least) if np.isfinite(least) else True
        if not tie:
            better = "rear" if back < ahead else "front"
            gain = abs(ahead - back)
            words = f"from the {better}: {gain:.1f} minutes of work better than from the other end"
            return replace(self, backwards=back < ahead, reason=words)
        side = habit or "rear"
        why = "the painter's habit" if habit else "the usual start"
        words = f"from the {side}: both ends are equally good, so {why} decides"
        return replace(self, backwards=side == "rear", tie=True, reason=words)


def resolve_start(job: Job, places: Sequence[Place]) -> Start:
    """Return what the user fixed of the start.

    Parameters
    ----------
    job
        The job.
    places
        Places of the layer.

    Returns
    -------
    The start, not yet settled.

    Sources
    -------
    The job.
    """
    wanted = job.job.start
    if wanted in {"front", "rear"}:
        return Start(wanted, "", backwards=wanted == "rear", tie=False, reason="", unknown="")
    known = {place.id: place.id for place in places} | {place.label: place.id for place in places}
    feature = known.get(wanted, "")
    unknown = wanted if wanted != "best" and not feature else ""
    return Start("", feature, backwards=True, tie=False, reason="", unknown=unknown)


def stroke_age_s(planned: PlannedCoat) -> float:
    """Return the greatest age between neighbouring strokes of a walked coat [s].

    Parameters
    ----------
    planned
        A coat of one section.

    Returns
    -------
    Twice the longest stroke with its turn.

    Sources
    -------
    Serpentine strokes: at the turning end the age is 0, at the other twice the stroke; definition.
    """
    strokes = planned.made.strokes
    closed = strokes.only(strokes.light == strokes.light.min())
    rows = np.unique(closed.centre_m, return_inverse=True)[1]
    begin = np.full(int(rows.max()) + 1, np.inf)
    end = np.zeros(int(rows.max()) + 1)
    np.minimum.at(begin, rows, closed.begin_s)
    np.maximum.at(end, rows, closed.begin_s + closed.duration_s())
    return float(2.0 * (end - begin).max())


def walk_chance(planned: PlannedCoat, open_ln_sd: float, crew: Crew) -> float:
    """Return the chance that every stroke of a walked coat meets a wet one.

    Parameters
    ----------
    planned
        A coat of one section.
    open_ln_sd
        Standard deviation of ln(open time).
    crew
        Whose hand it is.

    Returns
    -------
    Chance 0 to 1.

    Sources
    -------
    ``wet_chance``.
    """
    spread = age_spread(crew.hand, 4.0, open_ln_sd)
    age = np.array([stroke_age_s(planned)])
    return float(wet_chance(age, np.array([planned.task.open_s]), spread, crew.hand)[0])


def stride_chance(stroke_s: float, open_s: float, open_ln_sd: float, crew: Crew) -> tuple[float, float]:
    """Return the chance that strokes of a given length meet a wet one, and their greatest age [s].

    Parameters
    ----------
    stroke_s
        Time of one stroke over the whole length [s].
    open_s
        Open time of the edge [s].
    open_ln_sd
        Standard deviation of ln(open time).
    crew
        Whose hand it is.

    Returns
    -------
    Chance 0 to 1, and age [s].

    Sources
    -------
    ``wet_chance``.
    """
    age = 2.0 * (stroke_s + TURN_S)
    spread = age_spread(crew.hand, 4.0, open_ln_sd)
    opening = min(max(open_s, 1e-3), 1e6)
    return float(wet_chance(np.array([age]), np.array([opening]), spread, crew.hand)[0]), age


def walk_cost(planned: PlannedCoat, open_ln_sd: float, crew: Crew) -> float:
    """Return the minutes of work of a walked coat.

    Parameters
    ----------
    planned
        A coat of one section.
    open_ln_sd
        Standard deviation of ln(open time).
    crew
        Who sprays.

    Returns
    -------
    Minutes; infinite where one cup does not last, since a walk cannot stop for a refill.

    Sources
    -------
    House weights, see ``laydown.planning.setup.weights``.
    """
    if sum(planned.made.cup_g) > float(planned.board.cup_g[0]):
        return float("inf")
    return planned.made.total_s / 60.0 + WEIGHTS.redo * (1.0 - walk_chance(planned, open_ln_sd, crew))


def walks_better(sections: PlannedCoat, walked: PlannedCoat, open_ln_sd: float, crew: Crew) -> bool:
    """Tell whether walking beats sections by more than noise.

    Parameters
    ----------
    sections, walked
        The coat both ways.
    open_ln_sd
        Standard deviation of ln(open time).
    crew
        Who sprays.

    Returns
    -------
    True where it does.

    Sources
    -------
    ``SIMPLER_MINUTES`` and ``SIMPLER_SHARE``.
    """
    cost = walk_cost(walked, open_ln_sd, crew)
    slack = max(SIMPLER_MINUTES, SIMPLER_SHARE * sections.cut.cost) if np.isfinite(sections.cut.cost) else 0.0
    return cost + slack < sections.cut.cost
