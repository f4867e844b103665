"""What a picture shows around the panels of a van: outline, glass, bumpers, wheels. Nothing is computed from it.

Sources: proportions of no vehicle in particular; assumptions, for pictures only.
"""

import numpy as np

from laydown.physics.outline import Floats, angle_at, arc, fillet, hermite
from laydown.schema.side import Backdrop, Point, Ring
from laydown.trade.side_draw import at_height, ring, under_body
from laydown.trade.side_van_curves import VanCurves, VanFrame, rim


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
