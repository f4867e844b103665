"""From curves to the nouns of a side: rings to a tenth of a millimetre, cuts, handles.

Sources: plane geometry; definition.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from laydown.physics.geometry.curves import angle_at, arc, fillet
from laydown.physics.values import Floats
from laydown.schema.side import Backdrop, Cut, Line, Masked, Point, Ring, SidePanel


@dataclass(frozen=True, slots=True)
class SideParts:
    """What a construction gives: a side without its name and its area factors.

    Attributes
    ----------
    panels, masked, cuts, lines, backdrop
        As in a side; every panel has the factor 1.
    """

    panels: tuple[SidePanel, ...]
    masked: tuple[Masked, ...]
    cuts: tuple[Cut, ...]
    lines: tuple[Line, ...]
    backdrop: Backdrop


def polyline(points: Floats | Sequence[Point]) -> tuple[Point, ...]:
    """Round a curve to 0.1 mm and drop points that repeat.

    Parameters
    ----------
    points
        The curve, (n, 2) [m].

    Returns
    -------
        Points as plain numbers; neighbours differ.
    """
    rounded = [(round(float(x), 4) + 0.0, round(float(y), 4) + 0.0) for x, y in points]
    return tuple(p for number, p in enumerate(rounded) if number == 0 or p != rounded[number - 1])


def ring(*curves: Floats | Sequence[Point]) -> Ring:
    """Join curves to one closed ring.

    Parameters
    ----------
    curves
        Curves in the order of travel, each (n, 2) [m].

    Returns
    -------
        The ring, to 0.1 mm, without repeated points.
    """
    points = polyline(np.vstack([np.asarray(curve, dtype=np.float64) for curve in curves]))
    return points[:-1] if len(points) > 1 and points[0] == points[-1] else points


def panel(panel_id: str, *rings: Ring) -> SidePanel:
    """Name a panel after its id."""
    return SidePanel(panel_id, panel_id.replace("_", " "), rings)


def cut(panels: tuple[str, ...], points: Floats | Sequence[Point]) -> Cut:
    """Make the gap between two panels, bottom (or front) first."""
    line = polyline(points)
    first, last = line[0], line[-1]
    upright = abs(last[1] - first[1]) >= abs(last[0] - first[0])
    falls = last[1] < first[1] if upright else last[0] < first[0]
    return Cut(f"gap.{'.'.join(panels)}", "gap", panels, line[::-1] if falls else line)


def arch_cut(panel_id: str, end: str, points: Floats) -> Cut:
    """Make the edge of a wheel arch."""
    return Cut(f"arch.{end}", "arch", (panel_id,), polyline(points))


def handle(number: int, centre: Point, length_m: float = 0.16, height_m: float = 0.036) -> Masked:
    """Mask a door handle with rounded ends; its size is an assumption [m]."""
    x, y = centre
    across, up = length_m / 2, height_m / 2
    box = np.array([(x, y - up), (x + across, y - up), (x + across, y + up), (x, y + up)])
    right = fillet(box, 0.4 * height_m, 4)
    left = np.column_stack([2 * x - right[::-1, 0], right[::-1, 1]])
    return Masked(f"handle_{number}", (ring(right, left),))


def under_body(axles: tuple[float, float], wheel_m: float, low_m: float, ends: tuple[float, float]) -> Floats:
    """Draw the lower outline of a vehicle from the rear to the front, hidden behind the tyres.

    Parameters
    ----------
    axles
        Stations of the front and the rear axle [m].
    wheel_m
        Radius of the wheels, which is also the height of the axles [m].
    low_m
        Height of the underside [m].
    ends
        Stations where it starts and ends, front and rear [m].

    Returns
    -------
        The curve, rear first.
    """
    radius = 0.97 * wheel_m
    right = angle_at(wheel_m, radius, low_m, right=True)
    arcs = [arc((x, wheel_m), radius, right, np.pi - right, 16) for x in (axles[1], axles[0])]
    return np.vstack([[(ends[1], low_m)], *arcs, [(ends[0], low_m)]])


def at_height(curve: Floats, y: float) -> Point:
    """Give the point of a rising or falling curve at a height.

    Parameters
    ----------
    curve
        The curve, (n, 2) [m].
    y
        The height [m].

    Returns
    -------
        The point; an end of the curve beyond it.
    """
    order = np.argsort(curve[:, 1], kind="stable")
    return float(np.interp(y, curve[order, 1], curve[order, 0])), y
