"""The ground check: before any effect coat is counted, the ground coat of the panel must be that of the car."""

from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from laydown.physics.colour.coat_count import Doubt
from laydown.physics.colour.ground_check import GroundState, check_ground
from laydown.physics.values import Floats
from laydown.planning.counts.readings import PanelReadings
from laydown.schema.choices import Sample
from laydown.schema.message import Name, Saying, message

ROUGH_MISMATCH = 0.6
"""Standard deviation of what no number of coats can match, each channel, where the ground was judged slightly off or
could not be reached; assumption."""

OTHER_SETTINGS_SCATTER = 0.20
"""Standard deviation of one coat of a panel that was not sprayed with the settings of the job [coats]; assumption, about
12 % at three coats."""

SEEN_FROM_DEG, SEEN_TO_DEG = 25.0, 75.0
"""Angles at which grounds are compared [degrees]; assumption: neither gloss nor the darkest flop."""


@dataclass(frozen=True, slots=True)
class GroundRecord:
    """What is known of the ground coat."""

    state: Literal["go", "provisional", "unchecked", "wrong"]
    delta: Floats | None
    difference_de: float | None
    doubt: Doubt
    reason: Saying


def ground_record(sample: Sample, read: PanelReadings | None, coats: float) -> GroundRecord:
    """Return what is known of the ground coat.

    Source: Common practice, no source: ground first, no count without it. Limits:
    ``laydown.physics.colour.ground_check``.
    """
    doubt = _doubt(sample, read)
    if sample.ground_check == "off":
        return GroundRecord("wrong", None, None, doubt, message("ground-seen-off"))
    if _other_batch(sample):
        reason = message(
            "ground-other-batch",
            checked=Name(sample.ground_check_batch),
            sprayed=Name(sample.ground_batch),
        )
        return GroundRecord("unchecked", None, None, doubt, reason)
    if read is not None and read.ground is not None and read.fit.has_ground:
        return _measured(read, coats, doubt)
    return _by_eye(sample, doubt, is_half_read=read is not None and read.ground is not None)


def _by_eye(sample: Sample, doubt: Doubt, *, is_half_read: bool) -> GroundRecord:
    """A ground that was looked at, or not."""
    if sample.ground_check == "match":
        return GroundRecord("go", None, None, doubt, message("ground-seen-match"))
    rough = replace(doubt, mismatch=ROUGH_MISMATCH)
    if sample.ground_check == "slightly off":
        return GroundRecord("go", None, None, rough, message("ground-seen-slightly-off"))
    if sample.ground_check == "not accessible":
        return GroundRecord("provisional", None, None, rough, message("ground-out-of-reach"))
    missing = "ground-half-read" if is_half_read else "ground-not-compared"
    return GroundRecord("unchecked", None, None, doubt, message(missing))


def _other_batch(sample: Sample) -> bool:
    """Whether the check was made on another batch than will be sprayed."""
    return (
        sample.ground_batch is not None
        and sample.ground_check_batch is not None
        and sample.ground_batch.strip().casefold() != sample.ground_check_batch.strip().casefold()
    )


def _doubt(sample: Sample, read: PanelReadings | None) -> Doubt:
    """What no reading takes away, before the ground is looked at."""
    strips = max(sample.strips, len(read.panels) if read is not None else 1)
    plain = Doubt(strips=strips)
    return plain if sample.same_settings else replace(plain, film_scatter=OTHER_SETTINGS_SCATTER)


def _measured(read: PanelReadings, coats: float, doubt: Doubt) -> GroundRecord:
    """A ground that was read on car and panel."""
    ground = read.ground
    if ground is None:
        raise ValueError("read must hold a ground")
    found = check_ground(read.fit, ground.lab, read.angles_deg, min(coats, read.fit.last))
    mean = _mean_de(found, read.angles_deg)
    if found.state == "wrong":
        reason = message("ground-read-wrong", difference=mean, shift=float(found.bias))
        return GroundRecord("wrong", found.delta, mean, doubt, reason)
    own = np.sqrt(np.square(ground.sigma) + np.square(read.fit.sigma))
    wider = replace(doubt, ground=float(own.mean()))
    code = "ground-read-carried" if found.state == "correct" else "ground-read-match"
    return GroundRecord("go", found.delta, mean, wider, message(code, difference=mean))


def _mean_de(found: GroundState, angles_deg: Floats) -> float:
    """Mean difference at the angles that are compared."""
    judged = (angles_deg >= SEEN_FROM_DEG) & (angles_deg <= SEEN_TO_DEG)
    return float(found.difference[judged].mean() if judged.any() else found.difference.mean())
