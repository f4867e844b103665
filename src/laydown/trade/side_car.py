"""Side of a car: panels as closed rings of shared curves, built from tape measures.

Sources: proportions of no vehicle in particular; assumptions.
"""

from collections.abc import Mapping

import numpy as np

from laydown.physics.outline import angle_at, arc, hermite
from laydown.schema.side import Cut, Line, Point, SidePanel
from laydown.trade.side_car_backdrop import car_backdrop
from laydown.trade.side_car_curves import TOP_2, TOP_3, CarCurves, CarFrame, car_curves
from laydown.trade.side_draw import SideParts, arch_cut, cut, handle, panel, polyline, ring


def car_parts(measures: Mapping[str, float], *, saloon: bool) -> SideParts:
    """Build the parts of a car's side.

    Parameters
    ----------
    measures
        All tape measures of a car shape, within their rules [m].
    saloon
        With a boot, else with a hatch.

    Returns
    -------
        Panels, cuts, lines, masked handles and backdrop, unscaled.

    Notes
    -----
    The doors' tops are the waist line under the glass; rail and pillars belong to the quarter.
    """
    m = measures
    frame = CarFrame(
        -m["front_overhang_m"],
        m["wheelbase_m"],
        m["wheelbase_m"] + m["rear_overhang_m"],
        m["arch_radius_m"],
        m["wheel_radius_m"],
        m["sill_low_m"],
        m["sill_high_m"],
        m["waist_front_m"],
        m["waist_rear_m"],
        m["roof_m"],
        (m["door_front_m"], m["door_mid_m"], m["door_rear_m"]),
        saloon,
    )
    curves = car_curves(frame)
    handles = _handles(frame)
    return SideParts(
        panels=_panels(frame, curves),
        masked=tuple(handle(number, at) for number, at in enumerate(handles, 1)),
        cuts=_cuts(frame, curves),
        lines=(_body_line(frame),),
        backdrop=car_backdrop(frame, curves, handles),
    )


def _panels(f: CarFrame, c: CarCurves) -> tuple[SidePanel, ...]:
    """Close the rings; every border is taken from the same curve on both sides."""
    one, two, three = c.gaps
    front_foot, rear_foot = c.front_arch[:1], c.rear_arch[:1]
    feet = np.array([(gap[0, 0], f.high) for gap in c.gaps])
    floor = max(f.low, f.axle_y - 0.98 * f.arch)
    front_low, rear_low = (angle_at(f.axle_y, f.arch, floor, right=right) for right in (True, False))
    front_top, rear_top = (angle_at(f.axle_y, f.arch, f.high, right=right) for right in (True, False))
    rear_leg = arc((f.wheelbase, f.axle_y), f.arch, rear_top, rear_low, 6)
    front_leg = arc((0.0, f.axle_y), f.arch, front_low, front_top, 6)
    post = c.waist[:2]
    return (
        panel("front_wing", ring(one[::-1], c.front_arch, c.front_edge, c.bonnet)),
        panel("front_door", ring(one, c.waist[: TOP_2 + 1], two[::-1])),
        panel("rear_door", ring(two, c.waist[TOP_2 : TOP_3 + 1], three[::-1])),
        panel(
            "quarter",
            ring(rear_foot, three, c.waist[TOP_3:], c.glass, post[::-1], c.roof, c.tail, c.rear_arch[::-1]),
        ),
        panel("sill", ring(front_foot, feet, rear_foot, rear_leg, front_leg)),
    )


def _cuts(f: CarFrame, c: CarCurves) -> tuple[Cut, ...]:
    """Gaps, arch edges and the narrow place of the roof rail."""
    one, two, three = c.gaps
    level = [(gap[0, 0], f.high) for gap in c.gaps]
    station = f.doors[2]
    upper = c.glass[int(np.argmax(c.glass[:, 0])) :][::-1]
    rail = [
        (station, float(np.interp(station, upper[:, 0], upper[:, 1]))),
        (station, float(np.interp(station, c.roof[:, 0], c.roof[:, 1]))),
    ]
    return (
        cut(("front_wing", "front_door"), one),
        cut(("front_door", "rear_door"), two),
        cut(("rear_door", "quarter"), three),
        cut(("front_wing", "sill"), [tuple(c.front_arch[0]), level[0]]),
        cut(("front_door", "sill"), level[:2]),
        cut(("rear_door", "sill"), level[1:]),
        cut(("quarter", "sill"), [level[2], tuple(c.rear_arch[0])]),
        arch_cut("front_wing", "front", c.front_arch),
        arch_cut("quarter", "rear", c.rear_arch),
        Cut("pillar.quarter", "pillar", ("quarter",), polyline(rail)),
    )


def _handles(f: CarFrame) -> tuple[Point, ...]:
    """Centres of the door handles."""
    _, d2, d3 = f.doors
    return (
        (d2 - 0.14, (f.waist_front + f.waist_rear) / 2 - 0.10),
        (d3 - 0.14, f.waist_rear - 0.10),
    )


def _body_line(f: CarFrame) -> Line:
    """The crease below the handles."""
    d1, d2, d3 = f.doors
    points = [
        (0.19 * f.front, f.waist_front - 0.175),
        (d1, f.waist_front - 0.155),
        (d2, (f.waist_front + f.waist_rear) / 2 - 0.145),
        (d3, f.waist_rear - 0.14),
        (f.tail - 0.265 * f.rear_overhang, f.waist_rear - 0.135),
    ]
    return Line("body_line", "body_line", polyline(hermite(np.array(points))))
