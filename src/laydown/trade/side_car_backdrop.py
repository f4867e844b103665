"""What a picture shows around the panels of a car: outline, glass, bumpers, wheels. Nothing is computed from it.

Sources: proportions of no vehicle in particular; assumptions, for pictures only.
"""

import numpy as np

from laydown.physics.outline import Floats, angle_at, arc, hermite
from laydown.physics.ring import clip_x, ring_area
from laydown.schema.side import Backdrop, Point, Ring
from laydown.trade.side_car_curves import CarCurves, CarFrame
from laydown.trade.side_draw import at_height, ring, under_body

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
