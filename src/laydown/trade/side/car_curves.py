"""Shared curves of a car's side: every border between two panels is drawn once.

Sources: proportions of no vehicle in particular; assumptions.
"""

from dataclasses import dataclass

import numpy as np

from laydown.physics.geometry.curves import (
    Curve,
    angle_at,
    arc,
    by_x,
    by_y,
    fillet,
    hermite,
    meet,
    run_along,
    run_up,
)
from laydown.physics.values import Floats

_TONGUE_M = 0.055
"""Strip of the quarter between the rear arch and the door gap [m]; assumption."""

TOP_2, TOP_3 = 20, 39
"""Places on the waist line where the second and the third gap end; the first ends at its start."""


@dataclass(frozen=True, slots=True)
class CarFrame:
    """Lengths that many curves use, in metres; y upwards from the ground, x rearwards from the front axle."""

    front: float
    wheelbase: float
    tail: float
    arch: float
    axle_y: float
    low: float
    high: float
    waist_front: float
    waist_rear: float
    roof: float
    doors: tuple[float, float, float]
    saloon: bool

    @property
    def front_room(self) -> float:
        """Length in front of the front arch."""
        return -self.front - self.arch

    @property
    def rear_room(self) -> float:
        """Length behind the rear arch."""
        return self.tail - self.wheelbase - self.arch

    @property
    def rear_overhang(self) -> float:
        """Length behind the rear axle."""
        return self.tail - self.wheelbase

    def up(self, share: float) -> float:
        """Height above the ground at a share of the arch radius over the axle."""
        return self.axle_y + share * self.arch


@dataclass(frozen=True, slots=True)
class CarCurves:
    """The shared curves; every border between two panels is one of them."""

    gaps: tuple[Floats, Floats, Floats]
    waist: Floats
    front_arch: Floats
    rear_arch: Floats
    front_edge: Floats
    bonnet: Floats
    glass: Floats
    roof: Floats
    tail: Floats


def car_curves(f: CarFrame) -> CarCurves:
    """Draw all shared curves.

    Parameters
    ----------
    f
        Stations and heights of the car [m].

    Returns
    -------
    Curves, from the front or from below.
    """
    d1, d2, _ = f.doors
    middle = (f.waist_front + f.waist_rear) / 2 - 0.004
    behind = f.waist_rear + (0.012 if f.saloon else 0.03)
    waist = by_x(
        np.array(
            [
                (d1 - 0.1, f.waist_front - 0.014),
                (d1 + 0.045, f.waist_front - 0.012),
                (d2, middle),
                (f.wheelbase - 0.05, behind),
                (f.wheelbase + 0.3, f.waist_rear + 0.06),
            ]
        )
    )
    upright = _door_gaps(f)
    starts = (f.waist_front, middle, f.waist_rear)
    tops = [meet(gap, waist, y) for gap, y in zip(upright, starts, strict=True)]
    # The last gap is sampled finer: a straight run and an arc meet in it.
    gaps = [run_up(g, f.high, top[1], n) for g, top, n in zip(upright, tops, (24, 24, 40), strict=True)]
    foot = d1 + 0.085
    glass = _glass(f, waist, foot)
    stations = [
        tops[0][0],
        foot,
        *np.linspace(foot, tops[1][0], 20)[1:],
        *np.linspace(tops[1][0], tops[2][0], 20)[1:],
    ]
    x = np.array([*stations, *np.linspace(tops[2][0], glass[0, 0], 12)[1:]])
    waist_line = np.column_stack([x, waist(x)])
    waist_line[[0, TOP_2, TOP_3]] = tops
    bonnet = by_x(
        np.array(
            [
                (0.884 * f.front, f.waist_front - 0.205),
                (0.605 * f.front, f.waist_front - 0.150),
                (0.233 * f.front, f.waist_front - 0.062),
                tuple(tops[0]),
            ]
        )
    )
    ends = [angle_at(f.axle_y, f.arch, f.high, right=right) for right in (True, False)]
    front_edge = _front_edge(f, float(bonnet(np.array(0.814 * f.front))))
    roof, tail = _roof(f, tops[0])
    return CarCurves(
        gaps=(gaps[0], gaps[1], gaps[2]),
        waist=waist_line,
        front_arch=arc((0.0, f.axle_y), f.arch, ends[0], np.pi - np.arcsin(0.30), 32),
        rear_arch=arc((f.wheelbase, f.axle_y), f.arch, ends[1], float(np.arcsin(0.243)), 32),
        front_edge=front_edge,
        bonnet=run_along(bonnet, front_edge[-1, 0], tops[0][0]),
        glass=glass,
        roof=roof,
        tail=tail,
    )


def _door_gaps(f: CarFrame) -> tuple[Curve, Curve, Curve]:
    """Give x over y of the three upright gaps; the last follows the rear arch where it would come too close."""
    d1, d2, d3 = f.doors
    below = f.low - 0.2
    knee = f.high + 0.55 * (f.waist_front - f.high - 0.12)
    first = by_y(
        np.array(
            [
                (d1 + 0.03, below),
                (d1 + 0.03, f.high + 0.05),
                (d1 + 0.005, knee),
                (d1 - 0.005, f.waist_front - 0.12),
                (d1 - 0.015, f.waist_front + 0.08),
            ]
        )
    )
    second = by_y(
        np.array(
            [
                (d2, below),
                (d2, f.high),
                (d2 + 0.005, knee),
                (d2, f.waist_front),
                (d2 - 0.04, f.waist_rear + 0.1),
            ]
        )
    )
    straight = by_y(
        np.array(
            [
                (d3 + 0.015, 0.3),
                (d3 + 0.015, f.waist_rear - 0.12),
                (d3 + 0.02, f.waist_rear),
                (d3 - 0.02, f.waist_rear + 0.2),
            ]
        )
    )
    clear = f.arch + _TONGUE_M

    def third(y: Floats) -> Floats:
        """Keep clear of the arch."""
        across = np.sqrt(np.clip(clear**2 - (np.asarray(y) - f.axle_y) ** 2, 0.0, None))
        return np.where(across > 0, np.minimum(straight(y), f.wheelbase - across), straight(y))

    return first, second, third


def _front_edge(f: CarFrame, top: float) -> Floats:
    """Border of wing and bumper, from the arch up to the bonnet."""
    nose = 0.814 * f.front
    corners = [
        (-f.arch * np.cos(np.arcsin(0.30)), f.up(0.30)),
        (-f.arch - 0.20 * f.front_room, f.up(0.72)),
        (-f.arch - 0.38 * f.front_room, f.up(0.90)),
        (nose, f.up(0.99)),
        (nose, top),
    ]
    return fillet(np.array(corners), 0.10)[1:]


def _glass(f: CarFrame, waist: Curve, foot: float) -> Floats:
    """Upper edge of the side glass from its rear foot on the waist line to the foot of the front post."""
    d1, d2, d3 = f.doors
    if f.saloon:
        tip = f.wheelbase + 0.06
        top = f.roof - 0.135
        rear = [(f.wheelbase - 0.08, f.waist_rear + 0.62 * (top - f.waist_rear)), (d3 - 0.12, top)]
        front = (d1 + 0.50, f.roof - 0.145)
        middle = [(d2 + 0.25, f.roof - 0.07), (d2 - 0.28, f.roof - 0.078)]
    else:
        tip = f.wheelbase + 0.05
        top = f.roof - 0.105
        rear = [(f.wheelbase + 0.10, f.waist_rear + 0.5 * (top - f.waist_rear)), (d3 + 0.02, top)]
        front = (d1 + 0.44, f.roof - 0.145)
        middle = [(d2 + 0.28, f.roof - 0.07), (d2 - 0.28, f.roof - 0.078)]
    ends = [(x, float(waist(np.array(x)))) for x in (tip, foot)]
    return hermite(np.array([ends[0], *rear, *middle, front, ends[1]]))


def _roof(f: CarFrame, start: Floats) -> tuple[Floats, Floats]:
    """Roof ditch from the foot of the front post to the rear, and the tail down to the rear arch."""
    d1, d2, d3 = f.doors
    back = f.rear_overhang
    bumper = [
        (f.wheelbase + f.arch + 0.25 * f.rear_room, f.up(0.69)),
        (f.wheelbase + f.arch * np.cos(np.arcsin(0.243)), f.up(0.243)),
    ]
    if f.saloon:
        ditch = [
            tuple(start),
            (d1 + 0.42, f.roof - 0.153),
            (d2 - 0.32, f.roof - 0.040),
            (d2 + 0.25, f.roof - 0.028),
            (d3 - 0.05, f.roof - 0.113),
            (f.wheelbase + 0.14 * back, f.waist_rear + 0.20),
            (f.wheelbase + 0.34 * back, f.waist_rear + 0.085),
            (f.tail - 0.088 * back, f.waist_rear + 0.02),
        ]
        tail = [(f.tail - 0.06 * back, f.waist_rear - 0.22), (f.tail - 0.175 * back, f.up(0.77))]
    else:
        ditch = [
            tuple(start),
            (d1 + 0.36, f.roof - 0.153),
            (d2 - 0.32, f.roof - 0.040),
            (d2 + 0.30, f.roof - 0.028),
            (d3 + 0.18, f.roof - 0.063),
            (f.tail - 0.48 * back, f.roof - 0.10),
        ]
        tail = [
            (f.tail - 0.30 * back, f.waist_rear + 0.12),
            (f.tail - 0.205 * back, f.waist_rear - 0.06),
            (f.tail - 0.205 * back, f.up(0.80)),
        ]
    roof = hermite(np.array(ditch))
    return roof[:-1], fillet(np.array([roof[-2], roof[-1], *tail, *bumper]), 0.09)[1:-1]
