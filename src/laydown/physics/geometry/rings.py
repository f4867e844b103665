"""Closed outlines: area, length, crossing, and the part of a ring between two stations.

A ring is an array of points (n, 2) whose last point joins the first.

Sources: plane geometry; definition.
"""

import numpy as np

from laydown.physics.values import Floats

_CHUNK = 512
"""Rows of the crossing table held at a time; bounds the memory of a ring with thousands of points."""


def clip_x(ring: Floats, low: float, high: float) -> Floats:
    """Keep the part of a ring between two stations.

    Parameters
    ----------
    ring
        The ring; each limit must cut it in two points at most.
    low, high
        Stations, low < high.

    Returns
    -------
        The ring of the part; empty, (0, 2), when nothing is left.
    """
    kept = np.asarray(ring, dtype=np.float64)
    for limit, sign in ((low, 1.0), (high, -1.0)):
        points: list[Floats] = []
        for a, b in zip(kept, np.roll(kept, -1, axis=0), strict=True):
            inside_a, inside_b = sign * (a[0] - limit) >= 0, sign * (b[0] - limit) >= 0
            if inside_a:
                points.append(a)
            if inside_a != inside_b:
                points.append(a + (b - a) * ((limit - a[0]) / (b[0] - a[0])))
        kept = np.array(points).reshape(-1, 2)
    return kept


def ring_area(ring: Floats) -> float:
    """Give the area a ring encloses.

    Parameters
    ----------
    ring
        The ring, (n, 2), free of crossings; either orientation.

    Returns
    -------
        Area >= 0, in the square of the unit of the points.

    Notes
    -----
    A = |sum(x_i y_(i+1) - x_(i+1) y_i)| / 2, about the first point so that nothing is lost far from the origin.
    """
    p = np.asarray(ring, dtype=np.float64)
    x, y = (p - p[0]).T
    return abs(0.5 * float(np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y)))


def polyline_length(points: Floats) -> float:
    """Give the length of an open curve.

    Parameters
    ----------
    points
        The curve, (n, 2).

    Returns
    -------
        Length, in the unit of the points.
    """
    return float(np.hypot(*np.diff(np.asarray(points, dtype=np.float64), axis=0).T).sum())


def _turn(a: Floats, b: Floats, c: Floats) -> Floats:
    """Twice the signed area of the triangles a, b, c."""
    return np.asarray(
        (b[..., 0] - a[..., 0]) * (c[..., 1] - a[..., 1]) - (b[..., 1] - a[..., 1]) * (c[..., 0] - a[..., 0]),
        dtype=np.float64,
    )


def crosses(first: Floats, second: Floats) -> bool:
    """Say whether the outlines of two rings cross; touching is no crossing.

    Parameters
    ----------
    first, second
        Rings, (n, 2); the same ring twice asks whether it crosses itself.

    Returns
    -------
        True when any two sides cross properly.

    Notes
    -----
    Two sides cross when the ends of each lie on opposite sides of the other; products above -1e-14 count as touching,
    which is far below the 0.1 mm that a side file resolves.
    """
    a = np.asarray(first, dtype=np.float64)
    c = np.asarray(second, dtype=np.float64)
    b, d = np.roll(a, -1, axis=0), np.roll(c, -1, axis=0)
    for start in range(0, len(a), _CHUNK):
        p, q = a[start : start + _CHUNK, None], b[start : start + _CHUNK, None]
        apart = _turn(p, q, c[None]) * _turn(p, q, d[None]) < -1e-14
        if bool((apart & (_turn(c[None], d[None], p) * _turn(c[None], d[None], q) < -1e-14)).any()):
            return True
    return False
