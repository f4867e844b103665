"""How much of a footprint has passed along the travel of the gun."""

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from laydown.physics.spray import ALONG_EXPONENT, profile_share

Floats = NDArray[np.float64]


@lru_cache(maxsize=1)
def _ramp_table() -> tuple[Floats, Floats]:
    """Return u from -1 to 1 and the integral of the profile's share up to it."""
    u = np.linspace(-1.0, 1.0, 4097)
    share = profile_share(u, ALONG_EXPONENT)
    step = u[1] - u[0]
    area = np.concatenate([[0.0], np.cumsum((share[1:] + share[:-1]) * step / 2.0)])
    return u, area / area[-1]


def ramp(u: Floats) -> Floats:
    """Return the integral, along the travel, of the share of the footprint that has passed.

    Parameters
    ----------
    u
        Place along the travel in half heights of the footprint, from the end of a stroke. Any shape, any value.

    Returns
    -------
    Integral from -1 to u: 0 below -1 and u above 1, so that cell means taken from it add up exactly.

    Notes
    -----
    Within 1e-6 of the integral by parts of the incomplete beta function
    (checked in ``tests/second/test_spray_second.py``).

    Sources
    -------
    Definition; the profile along the travel is that of ``profile_share`` with ``ALONG_EXPONENT``.
    """
    places, areas = _ramp_table()
    passed: Floats = np.maximum(u, 0.0)
    # Only the few cells under the ends of a stroke are curved.
    near = np.abs(u) < 1.0
    passed[near] = np.interp(u[near], places, areas)
    return passed
