"""Shared curves of a panel van's side: every border between two panels is drawn once.

Sources: proportions of no vehicle in particular; assumptions.
"""

from dataclasses import dataclass

import numpy as np

from laydown.physics.geometry.curves import angle_at, arc, fillet, hermite
from laydown.physics.values import Floats

_HAIR_M = 0.001
"""Points of a curve nearer to its end than this are left out; assumption, far below what a tape shows."""


@dataclass(frozen=True, slots=True)
class VanFrame:
    """Lengths that many curves use, in metres; y upwards from the ground, x rearwards from the front axle."""

    front: float
    wheelbase: float
    tail: float
    arch: float
    axle_y: float
    low: float
    high: float
    waist: float
    glass_top: float
    roof: float
    doors: tuple[float, float, float]

    @property
    def head(self) -> float:
        """Height of the gap above the front door."""
        return self.glass_top + 0.075

    @property
    def door_top(self) -> float:
        """Height of the gap above the sliding door: lower under a high roof."""
        return self.roof - (0.26 if self.roof - self.glass_top > 0.5 else 0.13)

    @property
    def ditch(self) -> float:
        """Height of the roof ditch."""
        return self.roof - 0.05

    def up(self, share: float) -> float:
        """Height above the ground at a share of the arch radius over the axle."""
        return self.axle_y + share * self.arch


@dataclass(frozen=True, slots=True)
class VanCurves:
    """The shared curves; every border between two panels is one of them."""

    wing_gap: Floats
    screen: Floats
    brow: Floats
    front_arch: Floats
    rear_arch: Floats
    front_edge: Floats
    window: Floats
    tail: Floats


def van_curves(v: VanFrame) -> VanCurves:
    """Draw all shared curves.

    Parameters
    ----------
    v
        Stations and heights of the van [m].

    Returns
    -------
    Curves, from the front or from below.
    """
    d1 = v.doors[0]
    below = [(d1 + 0.02, v.waist - 0.36), (d1 + 0.02, v.high)]
    gap = [(d1 - 0.44, v.waist + 0.04), (d1 - 0.22, v.waist - 0.11), (d1 - 0.03, v.waist - 0.20), *below]
    edge = rim(v, 0.0)
    level = int(np.argmax(edge[:, 1] > v.head))
    share = (v.head - edge[level - 1, 1]) / (edge[level, 1] - edge[level - 1, 1])
    corner = edge[level - 1] + share * (edge[level] - edge[level - 1])
    # A point of the rim a hair off the corner would make a spike when rings are rounded to 0.1 mm.
    post = edge[:level][edge[:level, 1] < v.head - _HAIR_M]
    brow = edge[level:][edge[level:, 1] > v.head + _HAIR_M]
    ends = [angle_at(v.axle_y, v.arch, v.high, right=right) for right in (True, False)]
    rear_end = angle_at(v.axle_y, v.arch, max(v.low, v.axle_y - 0.98 * v.arch), right=True)
    return VanCurves(
        wing_gap=hermite(np.array(gap), 8, 0.35)[::-1],
        screen=np.vstack([post, corner]),
        brow=np.vstack([corner, brow]),
        front_arch=arc((0.0, v.axle_y), v.arch, ends[0], float(np.pi - np.arcsin(0.39)), 32),
        rear_arch=arc((v.wheelbase, v.axle_y), v.arch, ends[1], rear_end, 32),
        front_edge=_front_edge(v),
        window=_window(v),
        tail=_tail(v),
    )


def rim(v: VanFrame, out: float) -> Floats:
    """Draw the front post and the brow up to the roof ditch.

    Parameters
    ----------
    v
        Lengths of the van [m].
    out
        How far outwards it is moved, for the outline of the vehicle [m].

    Returns
    -------
        The curve from the cowl to where the ditch runs level.

    Notes
    -----
    One cubic: it leaves the cowl towards a point above the front door's glass and arrives level.
    """
    cowl = np.array((v.doors[0] - 0.44, v.waist + 0.04))
    rise = v.ditch - cowl[1]
    # The post points over the door's glass, and the brow is up before the sliding door begins.
    reach = min(rise * 0.70 / (v.glass_top + 0.10 - v.waist), 0.80 * (v.doors[1] - cowl[0]))
    corner = np.array((cowl[0] + reach, v.ditch))
    end = np.array((min(corner[0] + 0.35 * rise, v.doors[2] - 0.1), v.ditch))
    lead, arrive = cowl + 0.72 * (corner - cowl), end + 0.62 * (corner - end)
    t = np.linspace(0.0, 1.0, 40)[:, None]
    curve = (1 - t) ** 3 * cowl + 3 * t * (1 - t) ** 2 * lead + 3 * t**2 * (1 - t) * arrive + t**3 * end
    return np.asarray(curve + np.array((-0.55 * out, out)), dtype=np.float64)


def _front_edge(v: VanFrame) -> Floats:
    """Border of wing and bumper, from the arch up over the lamp to the cowl."""
    room = -v.front - v.arch
    corners = [
        (-v.arch * np.cos(np.arcsin(0.39)), v.up(0.39)),
        (-v.arch - 0.17 * room, v.up(0.86)),
        (0.66 * v.front, v.up(0.99)),
        (0.70 * v.front, v.waist - 0.12),
    ]
    start = fillet(np.array(corners), 0.09)[1:]
    bonnet = hermite(
        np.array(
            [
                corners[-1],
                (0.45 * v.front, v.waist - 0.055),
                (v.doors[0] - 0.62, v.waist),
                (v.doors[0] - 0.44, v.waist + 0.04),
            ]
        ),
        8,
    )
    return np.vstack([start, bonnet[1:]])


def _window(v: VanFrame) -> Floats:
    """Glass of the front door, a hole in its panel."""
    d1, d2, _ = v.doors
    corners = [
        (d1 - 0.30, v.waist + 0.045),
        (d1 + 0.27, v.glass_top),
        (d2 - 0.09, v.glass_top),
        (d2 - 0.09, v.waist + 0.02),
        (d2 - 0.45, v.waist - 0.03),
        (d1 + 0.06, v.waist - 0.045),
    ]
    between = ((corners[0][0] + corners[-1][0]) / 2, (corners[0][1] + corners[-1][1]) / 2)
    return fillet(np.array([between, *corners, between]), 0.10, 7)[:-1]


def _tail(v: VanFrame) -> Floats:
    """Rear edge from the roof ditch down to the underside."""
    corners = [
        (v.doors[2] + 0.05, v.ditch),
        (v.tail - 0.15, v.ditch),
        (v.tail - 0.05, v.ditch - 0.09),
        (v.tail - 0.045, v.up(0.89)),
        (v.tail - 0.14, v.up(0.69)),
        (v.tail - 0.14, v.low),
    ]
    return fillet(np.array(corners), 0.07)[1:]
