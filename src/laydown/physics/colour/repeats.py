"""Repeated readings of one spot: their mean, what is left out, and how many are needed.

Colours are in CIELAB, one row of three for each angle of the instrument.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from laydown.physics.values import Floats

FEWEST_TO_DROP: Final = 4
"""Of fewer readings none is left out; common practice, no source."""

FAR_L: Final = 0.5
"""A reading nearer than this to the middle in L* is never left out; assumption."""

FAR_Z: Final = 3.0
"""Robust standard deviations beyond which a reading is left out; common practice, no source."""

WIDE_L: Final = 0.6
"""If readings lie farther apart in L* than this, their median counts instead of their mean; assumption."""

_MAD_TO_SD: Final = 1.4826
_FEWEST_SPOTS: Final = 5
_FEWEST_READINGS: Final = 3


@dataclass(frozen=True, slots=True)
class SpotMean:
    """What the readings of one spot say together."""

    lab: Floats
    """Mean or median, (angle, 3)."""
    sd: Floats
    """Standard deviation of one reading, (angle, 3); not a number where there is only one."""
    count: int
    """Readings that count."""
    dropped: tuple[int, ...]
    """Readings left out, by their place; write them down."""
    is_median: bool
    """Whether the median was taken."""


def spot_mean(readings: Floats) -> SpotMean:
    """Return the mean of repeated readings of one spot without those that lie far off.

    Parameters
    ----------
    readings
        CIELAB, (reading, angle, 3), the instrument lifted and put down anew each time.

    Returns
    -------
    The mean, the spread and what was left out.

    Raises
    ------
    ValueError
        If the shape is another or a number is not finite.

    Notes
    -----
    ::

        |L - median| > 3 * 1.4826 * MAD  and  > 0.5, at any angle, from four readings on   (1)

    Sources
    -------
    (1) Median and MAD, common in robust statistics; the limits are assumptions.
    """
    readings = np.asarray(readings, float)
    if readings.ndim != 3 or readings.shape[2] != 3 or not readings.size or not np.isfinite(readings).all():
        raise ValueError("readings must be finite and have the shape (reading, angle, 3)")
    away = np.abs(readings[..., 0] - np.median(readings[..., 0], axis=0))
    limit = np.maximum(FAR_Z * _MAD_TO_SD * np.median(away, axis=0), FAR_L)
    far = (away > limit).any(axis=1) & (readings.shape[0] >= FEWEST_TO_DROP)
    kept = readings[~far] if not far.all() else readings
    wide = bool((np.ptp(kept[..., 0], axis=0) > WIDE_L).any())
    lab = np.median(kept, axis=0) if wide else kept.mean(axis=0)
    sd = kept.std(axis=0, ddof=1) if len(kept) > 1 else np.full(lab.shape, np.nan)
    dropped = tuple(int(place) for place in np.flatnonzero(far)) if len(kept) < len(readings) else ()
    return SpotMean(lab, sd, len(kept), dropped, wide)


def reading_sd(spots: Sequence[Floats]) -> float:
    """Return the standard deviation of one reading from the shop's own repeats.

    Parameters
    ----------
    spots
        Readings of each spot, (reading, angle, 3); five spots or more with three or more readings each.

    Returns
    -------
    Standard deviation of one reading, of each of L*, a*, b* [CIELAB].

    Raises
    ------
    ValueError
        If there are too few spots or readings.

    Sources
    -------
    Pooled variance within the spots.
    """
    if len(spots) < _FEWEST_SPOTS or any(len(spot) < _FEWEST_READINGS for spot in spots):
        raise ValueError(
            f"spots must be {_FEWEST_SPOTS} or more with {_FEWEST_READINGS} or more readings each"
        )
    square = sum(float(np.square(spot - spot.mean(axis=0)).sum()) for spot in spots)
    freedom = sum((len(spot) - 1) * spot[0].size for spot in spots)
    return math.sqrt(square / freedom)
