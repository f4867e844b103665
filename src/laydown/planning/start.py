"""Where the work starts and which way it goes."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from laydown.planning.offers import Offer
from laydown.planning.places import Place
from laydown.planning.weights import SIMPLER_MINUTES, SIMPLER_SHARE
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
