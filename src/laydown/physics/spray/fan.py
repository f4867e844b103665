"""The fan of a spray gun: footprint of a pass, film of a raster, transfer, nozzle, closed film."""

import math
from functools import lru_cache

import numpy as np

from laydown.physics.values import Floats

PROFILE_EXPONENT = 1.7
"""Exponent k of the profile across the fan; assumption, valid 0.5 to 4, to be fitted from a sprayed strip."""

ALONG_EXPONENT = 2.5
"""Exponent of the profile along the travel; assumption. Only the last 20 mm of a stroke depend on it."""

HALF_HEIGHT_M = 0.02
"""Half height of the footprint along the travel [m]; common practice, no source, valid 0.01 to 0.05."""

TRANSFER_PER_DISTANCE = 0.5
"""Share of the transfer lost when the distance doubles; assumption."""

NOZZLE_EXPONENT = 2.0
"""Exponent of flow over nozzle diameter: an orifice; friction in the tip raises it to 2.9 (valid 2.0 to 2.9)."""

_TABLE_SIZE = 4097


@lru_cache(maxsize=16)
def _profile_table(exponent: float) -> tuple[Floats, Floats]:
    """Return u from -1 to 1 and the share of the profile (1 - u^2)^k below it."""
    # Steps of equal angle are fine at the edges, where a flat profile (k below 1) is steep.
    angle = np.linspace(0.0, np.pi, _TABLE_SIZE)
    u = -np.cos(angle)
    height = np.sin(angle) ** (2.0 * exponent + 1.0)
    share = np.concatenate([[0.0], np.cumsum((height[1:] + height[:-1]) / 2.0)])
    return u, share / share[-1]


def profile_share(u: Floats, exponent: float = PROFILE_EXPONENT) -> Floats:
    """Return the share of a pass that lies below a place across the fan.

    Parameters
    ----------
    u
        Place across the fan in half fan widths; -1 and 1 are its edges. Any shape, any value.
    exponent
        Exponent k of the profile, 0.5 to 4.

    Returns
    -------
    Share 0 to 1, of the shape of ``u``.

    Notes
    -----
    ::

        share(u) = integral from -1 to u of (1 - t^2)^k dt / B(1/2, k + 1)     (1)

    Interpolated in a table of 4,097 points; within 1e-6 of the incomplete beta function
    (checked in ``tests/second/test_spray_second.py``).

    Sources
    -------
    (1) Profile of the parabolic and beta type as used for spray guns in the literature, for example
    Balkan and Arikan, Mech. Res. Commun. 26(5), 1999 (from memory); integral: definition.
    """
    places, shares = _profile_table(exponent)
    return np.asarray(np.interp(u, places, shares), float)


def raster_mean_g_m2(
    flow_g_s: float, transfer: float, fan_m: float, overlap: float, speed_m_s: float
) -> float:
    """Return the mean wet film of evenly spaced parallel strokes.

    Parameters
    ----------
    flow_g_s
        Paint flow [g/s], above 0.
    transfer
        Share that lands, 0 to 1.
    fan_m
        Width of the fan on the panel [m], above 0.
    overlap
        Overlap of neighbouring strokes, 0 to below 1.
    speed_m_s
        Hand speed [m/s], above 0.

    Returns
    -------
    Wet film [g/m²].

    Raises
    ------
    ValueError
        If a value lies outside its range.

    Notes
    -----
    ::

        m = transfer * flow / (fan * (1 - overlap) * speed)                     (1)

    Sources
    -------
    (1) Mass balance; definition.
    """
    for name, value in (("flow_g_s", flow_g_s), ("fan_m", fan_m), ("speed_m_s", speed_m_s)):
        if not (math.isfinite(value) and value > 0.0):
            raise ValueError(f"{name} must be above 0, got {value}")
    if not 0.0 < transfer <= 1.0:
        raise ValueError(f"transfer must lie above 0 and at most at 1, got {transfer}")
    if not 0.0 <= overlap < 0.95:
        raise ValueError(f"overlap must lie from 0 to below 0.95, got {overlap}")
    return transfer * flow_g_s / (fan_m * (1.0 - overlap) * speed_m_s)


def overlap_for_film(
    wanted_g_m2: float, flow_g_s: float, transfer: float, fan_m: float, speed_m_s: float
) -> float:
    """Return the overlap that gives a wanted mean film, the inverse of (1) in ``raster_mean_g_m2``.

    Parameters
    ----------
    wanted_g_m2
        Mean wet film [g/m²], above 0.
    flow_g_s, transfer, fan_m, speed_m_s
        As in ``raster_mean_g_m2``.

    Returns
    -------
    Overlap; below 0 where even strokes side by side give more than wanted.

    Sources
    -------
    Mass balance; definition.
    """
    return 1.0 - transfer * flow_g_s / (fan_m * speed_m_s * wanted_g_m2)


def fan_at_m(fan_m: float, distance_m: float, reference_m: float) -> float:
    """Return the fan width at another distance, which grows in proportion.

    Parameters
    ----------
    fan_m
        Fan width at the reference distance [m].
    distance_m, reference_m
        Distances of the gun [m], above 0.

    Returns
    -------
    Fan width [m].

    Sources
    -------
    Geometry of a flat fan; definition.
    """
    return fan_m * distance_m / reference_m


def transfer_at(transfer: float, distance_m: float, reference_m: float) -> float:
    """Return the transfer at another distance.

    Parameters
    ----------
    transfer
        Share that lands at the reference distance, 0 to 1.
    distance_m, reference_m
        Distances of the gun [m], above 0; valid to a factor of two.

    Returns
    -------
    Share that lands, at least 0.05.

    Notes
    -----
    ::

        transfer(d) = transfer(r) * (1 - 0.5 * (d / r - 1))                     (1)

    Sources
    -------
    (1) Assumption; only the sense, less with distance, is known.
    """
    return max(0.05, transfer * (1.0 - TRANSFER_PER_DISTANCE * (distance_m / reference_m - 1.0)))


def nozzle_flow_g_s(flow_g_s: float, nozzle_mm: float, measured_mm: float) -> float:
    """Return the flow with another nozzle on the same gun.

    Parameters
    ----------
    flow_g_s
        Flow measured with the nozzle ``measured_mm`` [g/s].
    nozzle_mm, measured_mm
        Nozzle diameters [mm], 0.8 to 2.2.

    Returns
    -------
    Flow [g/s].

    Notes
    -----
    ::

        Q = Q0 * (d / d0)^2                                                     (1)

    Sources
    -------
    (1) Orifice at equal pressure: flow goes with the area.
    """
    return flow_g_s * float((nozzle_mm / measured_mm) ** NOZZLE_EXPONENT)


def uniformity_cv(overlap: float, exponent: float = PROFILE_EXPONENT, points: int = 2001) -> float:
    """Return the coefficient of variation of the film across ideal straight strokes.

    Parameters
    ----------
    overlap
        Overlap of neighbouring strokes, 0 to 0.95.
    exponent
        Exponent k of the profile.
    points
        Points over one pitch.

    Returns
    -------
    Standard deviation over mean, a share.

    Notes
    -----
    Not monotone in the overlap: the first minimum lies at 0.30 for k = 1 and at 0.46 for k = 2.

    Sources
    -------
    Sum of shifted profiles; definition. Check values: ``tests/published/test_spray_published.py``.
    """
    pitch = 2.0 * (1.0 - overlap)
    y = (np.arange(points) + 0.5) / points * pitch
    reach = math.ceil(1.0 / pitch) + 1
    centres = np.arange(-reach, reach + 2) * pitch
    distance = y[:, None] - centres[None, :]
    film = np.sum(np.clip(1.0 - distance * distance, 0.0, None) ** exponent, axis=1)
    return float(film.std() / film.mean())
