"""The ground check: before any effect coat is counted, the ground coat of the panel must be that of the car."""

from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from laydown.physics.colour.coat_count import Doubt
from laydown.physics.colour.ground_check import GroundState, check_ground
from laydown.planning.counts.readings import PanelReadings
from laydown.schema.choices import Sample

Floats = NDArray[np.float64]

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
    """What is known of the ground coat.

    Attributes
    ----------
    state
        Good to go on, not reached so that a count stays provisional, not checked, or another ground.
    delta
        Ground of the car less that of the panel, (angle, 3); None where it was not read.
    difference_de
        Its CIEDE2000, mean over 25 to 75 degrees; None where it was not read.
    doubt
        What no reading takes away.
    reason
        In words.
    """

    state: Literal["go", "provisional", "unchecked", "wrong"]
    delta: Floats | None
    difference_de: float | None
    doubt: Doubt
    reason: str


def ground_record(sample: Sample, read: PanelReadings | None, coats: float) -> GroundRecord:
    """Return what is known of the ground coat.

    Parameters
    ----------
    sample
        What the job says of the panel.
    read
        What an instrument read, if anything.
    coats
        About how many effect coats are expected.

    Returns
    -------
    The record. What the eye calls off stays off, whatever an instrument says; else a measured ground counts.

    Sources
    -------
    Common practice, no source: ground first, no count without it. Limits: ``laydown.physics.colour.ground_check``.
    """
    doubt = _doubt(sample, read)
    if sample.ground_check == "off":
        return GroundRecord("wrong", None, None, doubt, "the eye calls the ground coat off")
    if _other_batch(sample):
        reason = (
            f"the ground coat was checked on batch {sample.ground_check_batch}, but batch {sample.ground_batch} is "
            "to be sprayed"
        )
        return GroundRecord("unchecked", None, None, doubt, reason)
    if read is not None and read.ground is not None and read.fit.has_ground:
        return _measured(read, coats, doubt)
    return _by_eye(sample, doubt, is_half_read=read is not None and read.ground is not None)


def _by_eye(sample: Sample, doubt: Doubt, *, is_half_read: bool) -> GroundRecord:
    """A ground that was looked at, or not."""
    if sample.ground_check == "match":
        return GroundRecord("go", None, None, doubt, "the eye calls the ground coat a match")
    rough = replace(doubt, mismatch=ROUGH_MISMATCH)
    if sample.ground_check == "slightly off":
        return GroundRecord("go", None, None, rough, "the eye calls the ground coat slightly off")
    if sample.ground_check == "not accessible":
        return GroundRecord("provisional", None, None, rough, "no bare ground coat of the car can be reached")
    missing = "nobody has compared the ground coat of the panel with that of the car"
    if is_half_read:
        missing = "the car's ground coat was read, but no field of the panel without effect coat"
    return GroundRecord("unchecked", None, None, doubt, missing)


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
        reason = (
            f"the grounds of car and panel differ by {mean:.1f} dE00, which would shift the count by "
            f"{found.bias:+.1f} coats"
        )
        return GroundRecord("wrong", found.delta, mean, doubt, reason)
    own = np.sqrt(np.square(ground.sigma) + np.square(read.fit.sigma))
    wider = replace(doubt, ground=float(own.mean()))
    words = "carried through the count" if found.state == "correct" else "a match, carried through the count"
    return GroundRecord(
        "go", found.delta, mean, wider, f"the grounds of car and panel differ by {mean:.1f} dE00: {words}"
    )


def _mean_de(found: GroundState, angles_deg: Floats) -> float:
    """Mean difference at the angles that are compared."""
    judged = (angles_deg >= SEEN_FROM_DEG) & (angles_deg <= SEEN_TO_DEG)
    return float(found.difference[judged].mean() if judged.any() else found.difference.mean())
