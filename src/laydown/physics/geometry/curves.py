"""Plane curves and rings on arrays: smooth curves through points, where they meet, area, length, crossings.

A curve is an array of points (n, 2); a ring is a curve whose last point joins the first.

Sources: plane geometry; definition.
"""

from collections.abc import Callable

import numpy as np

from laydown.physics.values import Floats

Curve = Callable[[Floats], Floats]
"""A curve given as one coordinate over the other."""


def hermite(points: Floats, steps: int = 10, tension: float = 0.5) -> Floats:
    """Draw a smooth curve through points.

    Parameters
    ----------
    points
        Points to pass through, (n, 2), n >= 2.
    steps
        Pieces between two neighbouring points, >= 1.
    tension
        Share of the chord between a point's neighbours taken as its tangent, 0 to 0.5; above that the curve wiggles
        where the spacing changes.

    Returns
    -------
        The curve, ((n - 1) * steps + 1, 2), with every given point on it.

    Notes
    -----
    Cubic Hermite pieces; the ends are mirrored: p[-1] = 2 p[0] - p[1].
    """
    p = np.asarray(points, dtype=np.float64)
    q = np.vstack([2 * p[0] - p[1], p, 2 * p[-1] - p[-2]])
    t = np.linspace(0.0, 1.0, steps, endpoint=False)[None, :, None]
    start, end = q[1:-2, None], q[2:-1, None]
    leave, arrive = tension * (q[2:-1] - q[:-3])[:, None], tension * (q[3:] - q[1:-2])[:, None]
    pieces = (
        (2 * t**3 - 3 * t**2 + 1) * start
        + (t**3 - 2 * t**2 + t) * leave
        + (3 * t**2 - 2 * t**3) * end
        + (t**3 - t**2) * arrive
    )
    return np.vstack([pieces.reshape(-1, 2), p[-1:]])


def by_y(points: Floats) -> Curve:
    """Give x over y of the smooth curve through points.

    Parameters
    ----------
    points
        Points with rising or falling y, (n, 2).

    Returns
    -------
        Function x(y); constant beyond the ends.
    """
    curve = hermite(points, 12)
    curve = curve[np.argsort(curve[:, 1], kind="stable")]
    return lambda y: np.interp(y, curve[:, 1], curve[:, 0])


def by_x(points: Floats) -> Curve:
    """Give y over x of the smooth curve through points.

    Parameters
    ----------
    points
        Points with rising or falling x, (n, 2).

    Returns
    -------
        Function y(x); constant beyond the ends.
    """
    return by_y(np.asarray(points, dtype=np.float64)[:, ::-1])


def meet(x_of_y: Curve, y_of_x: Curve, y_start: float) -> Floats:
    """Find where an upright curve meets a level one.

    Parameters
    ----------
    x_of_y
        The upright curve.
    y_of_x
        The level curve.
    y_start
        Height to start from.

    Returns
    -------
        The point (x, y), on both curves within 1e-9 when the product of their slopes is below 0.5.

    Notes
    -----
    Thirty fixed-point steps y <- y_of_x(x_of_y(y)).
    """
    y = np.asarray(y_start, dtype=np.float64)
    for _ in range(30):
        y = y_of_x(x_of_y(y))
    return np.array([float(x_of_y(y)), float(y)])


def run_up(x_of_y: Curve, y_from: float, y_to: float, count: int = 24) -> Floats:
    """Sample an upright curve between two heights.

    Parameters
    ----------
    x_of_y
        The curve.
    y_from, y_to
        First and last height.
    count
        Points, >= 2.

    Returns
    -------
        The curve, (count, 2).
    """
    y = np.linspace(y_from, y_to, count)
    return np.column_stack([x_of_y(y), y])


def run_along(y_of_x: Curve, x_from: float, x_to: float, count: int = 24) -> Floats:
    """Sample a level curve between two stations.

    Parameters
    ----------
    y_of_x
        The curve.
    x_from, x_to
        First and last station.
    count
        Points, >= 2.

    Returns
    -------
        The curve, (count, 2).
    """
    x = np.linspace(x_from, x_to, count)
    return np.column_stack([x, y_of_x(x)])


def arc(centre: tuple[float, float], radius: float, start: float, end: float, count: int = 24) -> Floats:
    """Sample an arc of a circle.

    Parameters
    ----------
    centre, radius
        Of the circle.
    start, end
        Angles from the x axis, counter-clockwise [rad].
    count
        Points, >= 2.

    Returns
    -------
        The curve, (count, 2).
    """
    turn = np.linspace(start, end, count)
    return np.column_stack([centre[0] + radius * np.cos(turn), centre[1] + radius * np.sin(turn)])


def angle_at(centre_y: float, radius: float, y: float, *, right: bool) -> float:
    """Give the angle at which a circle passes a height.

    Parameters
    ----------
    centre_y, radius
        Of the circle.
    y
        The height; outside the circle the crown or the foot is taken.
    right
        On the right half, else on the left one.

    Returns
    -------
        Angle from the x axis, counter-clockwise [rad].
    """
    angle = float(np.arcsin(np.clip((y - centre_y) / radius, -1.0, 1.0)))
    return angle if right else float(np.pi) - angle


def fillet(points: Floats, radius: float, steps: int = 6) -> Floats:
    """Round the inner corners of an open polyline.

    Parameters
    ----------
    points
        The polyline, (n, 2).
    radius
        Length cut from both sides of a corner, at most 45 % of the shorter side.
    steps
        Points on each rounding.

    Returns
    -------
        The polyline with its first and last point kept; each corner is a quadratic arc tangent to both sides.
    """
    p = np.asarray(points, dtype=np.float64)
    t = np.linspace(0.0, 1.0, steps)[:, None]
    rounded = [p[:1]]
    for before, corner, after in zip(p[:-2], p[1:-1], p[2:], strict=True):
        sides = [before - corner, after - corner]
        lengths = [float(np.hypot(*side)) for side in sides]
        cut = min(radius, 0.45 * min(lengths))
        start, end = (corner + side * (cut / length) for side, length in zip(sides, lengths, strict=True))
        rounded.append((1 - t) ** 2 * start + 2 * t * (1 - t) * corner + t**2 * end)
    return np.vstack([*rounded, p[-1:]])
