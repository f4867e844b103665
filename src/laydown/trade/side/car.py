"""Side of a car: panels as closed rings of shared curves, built from tape measures.

Sources: proportions of no vehicle in particular; assumptions.
"""

from collections.abc import Mapping

import numpy as np

from laydown.physics.geometry.curves import angle_at, arc, hermite
from laydown.physics.geometry.rings import clip_x, ring_area
from laydown.physics.values import Floats
from laydown.schema.side import Backdrop, Cut, Line, Point, Ring, SidePanel
from laydown.trade.side.car_curves import TOP_2, TOP_3, CarCurves, CarFrame, car_curves
from laydown.trade.side.drawing import (
    SideParts,
    arch_cut,
    at_height,
    cut,
    handle,
    panel,
    polyline,
    ring,
    under_body,
)

_LAMP = 1.03
"""Height of the lower lamp edge: share of the arch radius over the axle; assumption."""


def car_backdrop(frame: CarFrame, curves: CarCurves, handles: tuple[Point, ...]) -> Backdrop:
    """Draw the picture around the panels.

    Parameters
    ----------
    frame, curves
        Lengths and shared curves of the side [m].
    handles
        Centres of the door handles [m].

    Returns
    -------
        Backdrop whose bumpers and lamps meet the panels on their shared curves.
    """
    outline = _outline(frame)
    axles = (0.0, frame.wheelbase)
    under = under_body(axles, frame.axle_y, frame.low, (frame.front + 0.12, frame.tail - 0.10))
    front_lamp, front_bumper = _front(frame, curves, outline)
    rear_lamp, rear_bumper = _rear(frame, curves, outline)
    return Backdrop(
        silhouette=ring(outline, under),
        glass=(*_windows(frame, curves), _screen(frame, curves, outline), front_lamp, rear_lamp),
        bumpers=(front_bumper, rear_bumper),
        wheels=tuple((x, frame.axle_y, frame.axle_y) for x in axles),
        handles=handles,
    )


def _outline(f: CarFrame) -> Floats:
    """Upper outline from the front lower lip over the roof to the rear lower lip."""
    d1, d2, d3 = f.doors
    nose = [
        (f.front + 0.12, f.low),
        (f.front + 0.03, f.low + 0.13),
        (f.front + 0.015, f.up(0.60)),
        (f.front + 0.05, f.up(0.98)),
        (0.86 * f.front, f.waist_front - 0.185),
        (0.62 * f.front, f.waist_front - 0.125),
        (0.24 * f.front, f.waist_front - 0.040),
        (d1 - 0.16, f.waist_front + 0.070),
    ]
    if f.saloon:
        rest = [
            (d1 + 0.42, f.roof - 0.125),
            (d2 - 0.32, f.roof - 0.012),
            (d2 + 0.25, f.roof),
            (d3 - 0.05, f.roof - 0.082),
            (f.wheelbase + 0.16 * f.rear_overhang, f.waist_rear + 0.215),
            (f.wheelbase + 0.36 * f.rear_overhang, f.waist_rear + 0.105),
            (f.tail - 0.07, f.waist_rear + 0.045),
            (f.tail - 0.005, f.waist_rear - 0.08),
        ]
    else:
        rest = [
            (d1 + 0.36, f.roof - 0.125),
            (d2 - 0.32, f.roof - 0.012),
            (d2 + 0.30, f.roof),
            (d3 + 0.18, f.roof - 0.035),
            (f.tail - 0.42 * f.rear_overhang, f.roof - 0.085),
            (f.tail - 0.15 * f.rear_overhang, f.waist_rear + 0.17),
            (f.tail - 0.05 * f.rear_overhang, f.waist_rear - 0.03),
        ]
    lip = [(f.tail, f.up(0.80)), (f.tail - 0.02, f.up(0.20)), (f.tail - 0.10, f.low + 0.02)]
    return hermite(np.array([*nose, *rest, *lip]), 10, 0.45)


def _front(f: CarFrame, c: CarCurves, outline: Floats) -> tuple[Ring, Ring]:
    """Lamp and bumper in front of the wing."""
    lamp_y = f.up(_LAMP)
    # The outline runs forward over the lower lip first, so the bonnet is looked for behind its foremost point.
    bend = int(np.argmin(outline[: len(outline) // 2, 0]))
    upto = bend + int(np.argmax(outline[bend:, 0] >= c.front_edge[-1, 0]))
    nose = outline[: upto + 1]
    upper, lower = nose[nose[:, 1] >= lamp_y], nose[nose[:, 1] < lamp_y]
    edge_x = c.front_edge[-1, 0]
    tip = at_height(nose[bend:], lamp_y)
    lamp = ring([(edge_x, lamp_y)], c.front_edge[-1:], upper[::-1], [tip])
    leg = arc(
        (0.0, f.axle_y),
        f.arch,
        np.pi - np.arcsin(0.30),
        angle_at(f.axle_y, f.arch, f.low + 0.01, right=False),
        8,
    )
    return lamp, ring(lower, [tip, (edge_x, lamp_y)], c.front_edge[:-1][::-1], leg)


def _rear(f: CarFrame, c: CarCurves, outline: Floats) -> tuple[Ring, Ring]:
    """Lamp and bumper behind the quarter."""
    top, split = f.waist_rear - 0.02, f.up(0.92)
    back = outline[int(np.argmax(outline[:, 0])) - 20 :]
    tail = c.tail
    lamp = ring(
        [at_height(tail, top)],
        tail[(tail[:, 1] < top) & (tail[:, 1] > split)],
        [at_height(tail, split), at_height(back, split)],
        back[(back[:, 1] < top) & (back[:, 1] > split)][::-1],
        [at_height(back, top)],
    )
    leg = arc(
        (f.wheelbase, f.axle_y),
        f.arch,
        angle_at(f.axle_y, f.arch, f.low + 0.02, right=True),
        float(np.arcsin(0.243)),
        8,
    )
    ends = [at_height(back, split), at_height(tail, split)]
    return lamp, ring(ends, tail[tail[:, 1] <= split], leg[::-1], back[back[:, 1] <= split][::-1])


def _windows(f: CarFrame, c: CarCurves) -> tuple[Ring, ...]:
    """Side windows between the pillars."""
    _, d2, d3 = f.doors
    opening = np.vstack([c.waist[1:], c.glass[1:-1]])
    parts = [
        clip_x(opening, low, high) for low, high in ((-9.0, d2 - 0.06), (d2 + 0.02, d3 - 0.045), (d3, 9.0))
    ]
    return tuple(ring(part) for part in parts if len(part) > 2 and ring_area(part) > 0.012)


def _screen(f: CarFrame, c: CarCurves, outline: Floats) -> Ring:
    """Windscreen, seen as a sliver over the front post."""
    upto, cowl = f.doors[0] + 0.36, f.doors[0] - 0.15
    post = c.roof[c.roof[:, 0] <= upto]
    over = outline[(outline[:, 0] >= cowl) & (outline[:, 0] <= upto) & (outline[:, 1] > f.waist_front)]
    return ring(post, over[::-1])


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
