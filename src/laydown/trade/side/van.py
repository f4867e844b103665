"""Side of a panel van: closed rings of shared curves, built from tape measures.

Sources: proportions of no vehicle in particular; assumptions.
"""

from collections.abc import Mapping

import numpy as np

from laydown.physics.geometry.curves import angle_at, arc, fillet, hermite
from laydown.physics.values import Floats
from laydown.schema.side import Backdrop, Cut, Line, Point, Ring, SidePanel
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
from laydown.trade.side.van_curves import VanCurves, VanFrame, rim, van_curves


def van_backdrop(v: VanFrame, c: VanCurves, grips: tuple[Point, ...]) -> Backdrop:
    """Draw outline, glass, bumpers and wheels.

    Parameters
    ----------
    v, c, grips
        Stations, shared curves and centres of the door handles [m].

    Returns
    -------
    The backdrop; for pictures only.
    """
    nose = hermite(
        np.array(
            [
                (v.front + 0.11, v.low),
                (v.front + 0.015, v.low + 0.14),
                (v.front + 0.005, v.up(0.80)),
                (v.front + 0.07, v.waist - 0.24),
                (0.74 * v.front, v.waist - 0.10),
            ]
        ),
        8,
        0.4,
    )
    brow = rim(v, 0.05)
    bonnet = hermite(
        np.array(
            [nose[-1], (0.45 * v.front, v.waist - 0.025), (v.doors[0] - 0.62, v.waist + 0.050), *brow[5:10:4]]
        ),
        8,
    )
    brow = brow[10:]
    back = fillet(
        np.array(
            [
                (brow[-1, 0] + 0.05, v.roof),
                (v.tail - 0.12, v.roof),
                (v.tail - 0.02, v.roof - 0.11),
                (v.tail, v.up(0.75)),
                (v.tail, v.low + 0.02),
                (v.tail - 0.08, v.low),
            ]
        ),
        0.08,
    )
    under = under_body((0.0, v.wheelbase), v.axle_y, v.low, (v.front + 0.14, v.tail - 0.10))
    return Backdrop(
        silhouette=ring(nose, bonnet[1:], brow, back, under),
        glass=(ring(c.window), _lamp(v, c, nose)),
        bumpers=_bumpers(v, c, nose, back),
        wheels=((0.0, v.axle_y, v.axle_y), (v.wheelbase, v.axle_y, v.axle_y)),
        handles=grips,
    )


def _lamp(v: VanFrame, c: VanCurves, nose: Floats) -> Ring:
    """Lamp in front of the wing, between the bumper and the bonnet."""
    low, top = v.up(1.05), v.waist - 0.14
    edge = c.front_edge[c.front_edge[:, 0] < 0.6 * v.front]
    return ring(
        [at_height(edge, low), at_height(edge, top), at_height(nose, top)],
        nose[(nose[:, 1] > low) & (nose[:, 1] < top)][::-1],
        [at_height(nose, low)],
    )


def _bumpers(v: VanFrame, c: VanCurves, nose: Floats, back: Floats) -> tuple[Ring, Ring]:
    """Front bumper up to the lamp, and the rear one below the doors."""
    top = v.up(1.05)
    edge = c.front_edge[c.front_edge[:, 0] < -0.5 * v.arch]
    end = angle_at(v.axle_y, v.arch, v.low, right=False)
    leg = arc((0.0, v.axle_y), v.arch, np.pi - np.arcsin(0.39), end, 8)
    flat = edge[: int(np.argmax(edge[:, 1] >= top))]
    upright = c.front_edge[c.front_edge[:, 0] < 0.6 * v.front]
    front = ring(nose[nose[:, 1] < top], [at_height(nose, top), at_height(upright, top)], flat[::-1], leg)
    split = v.up(0.80)
    tail = c.tail[c.tail[:, 1] < split]
    lip = back[back[:, 1] < split]
    return front, ring(
        [(v.tail, split)], lip, [(v.tail - 0.14, v.low)], tail[::-1], [at_height(c.tail, split)]
    )


def van_parts(measures: Mapping[str, float]) -> SideParts:
    """Build the parts of a panel van's side.

    Parameters
    ----------
    measures
        All tape measures of a van shape, within their rules [m].

    Returns
    -------
        Panels, cuts, lines, masked handles and backdrop, unscaled.

    Notes
    -----
    What lies above both doors is the high side, what lies behind the sliding door the rear side. They are one piece of
    metal on the vehicle and meet in the narrow strip above the sliding door's rear corner.
    """
    m = measures
    van = VanFrame(
        -m["front_overhang_m"],
        m["wheelbase_m"],
        m["wheelbase_m"] + m["rear_overhang_m"],
        m["arch_radius_m"],
        m["wheel_radius_m"],
        m["sill_low_m"],
        m["sill_high_m"],
        m["waist_front_m"],
        m["glass_top_m"],
        m["roof_m"],
        (m["door_front_m"], m["door_mid_m"], m["door_rear_m"]),
    )
    curves = van_curves(van)
    grips = ((van.doors[1] - 0.14, van.waist - 0.17), (van.doors[1] + 0.14, van.waist - 0.17))
    return SideParts(
        panels=_panels(van, curves),
        masked=tuple(handle(number, at) for number, at in enumerate(grips, 1)),
        cuts=_cuts(van, curves),
        lines=_lines(van),
        backdrop=van_backdrop(van, curves, grips),
    )


def _panels(v: VanFrame, c: VanCurves) -> tuple[SidePanel, ...]:
    """Close the rings; every border is taken from the same curve on both sides."""
    _, d2, d3 = v.doors
    front_foot, rear_foot = c.front_arch[:1], c.rear_arch[:1]
    door = [(d2, v.high), (d2, v.head), (d2, v.door_top), (d3, v.door_top), (d3, v.high)]
    floor = max(v.low, v.axle_y - 0.98 * v.arch)
    low, high = (
        [angle_at(v.axle_y, v.arch, y, right=right) for right in (True, False)] for y in (floor, v.high)
    )
    front_leg = arc((0.0, v.axle_y), v.arch, low[0], high[0], 6)
    rear_leg = arc((v.wheelbase, v.axle_y), v.arch, high[1], low[1], 6)
    feet = [(c.wing_gap[0, 0], v.high), (d2, v.high), (d3, v.high)]
    return (
        panel("front_wing", ring(c.wing_gap[::-1], c.front_arch, c.front_edge)),
        panel("front_door", ring(c.wing_gap, c.screen, [(d2, v.head), (d2, v.high)]), ring(c.window)),
        panel("sliding_door", ring(door)),
        panel("rear_side", ring(rear_foot, [door[4], door[3], (d3, v.ditch)], c.tail, c.rear_arch[::-1])),
        panel("high_side", ring(c.brow, [(d3, v.ditch), door[3], door[2], door[1]])),
        panel("sill", ring(front_foot, feet, rear_foot, rear_leg, front_leg)),
    )


def _cuts(v: VanFrame, c: VanCurves) -> tuple[Cut, ...]:
    """Gaps, arch edges and the narrow strip above the sliding door."""
    d1, d2, d3 = v.doors
    strip = [(d3, v.door_top), (d3, v.ditch)]
    return (
        cut(("front_wing", "front_door"), c.wing_gap),
        cut(("front_door", "sliding_door"), [(d2, v.high), (d2, v.head)]),
        cut(("sliding_door", "rear_side"), [(d3, v.high), (d3, v.door_top)]),
        cut(("front_door", "high_side"), [tuple(c.screen[-1]), (d2, v.head)]),
        cut(("sliding_door", "high_side"), [(d2, v.head), (d2, v.door_top), (d3, v.door_top)]),
        cut(("front_wing", "sill"), [tuple(c.front_arch[0]), (d1 + 0.02, v.high)]),
        cut(("front_door", "sill"), [(d1 + 0.02, v.high), (d2, v.high)]),
        cut(("sliding_door", "sill"), [(d2, v.high), (d3, v.high)]),
        cut(("rear_side", "sill"), [(d3, v.high), tuple(c.rear_arch[0])]),
        arch_cut("front_wing", "front", c.front_arch),
        arch_cut("rear_side", "rear", c.rear_arch),
        Cut("pillar.high_side.rear_side", "pillar", ("high_side", "rear_side"), polyline(strip)),
    )


def _lines(v: VanFrame) -> tuple[Line, ...]:
    """Crease, rubbing strip and the sliding door's track."""
    d1, _, d3 = v.doors
    crease, strip, track = v.waist - 0.11, v.up(0.94), v.waist + 0.02
    return (
        Line("body_line", "body_line", polyline([(d1 + 0.02, crease), (v.tail - 0.05, crease)])),
        Line("moulding", "moulding", polyline([(d1 + 0.05, strip), (v.wheelbase - v.arch - 0.08, strip)])),
        Line("track", "moulding", polyline([(d3, track), (min(d3 + 1.18, v.tail - 0.12), track)])),
    )
