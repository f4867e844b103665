"""The frame of a side picture: from metres on the vehicle to pixels, and back to plain shapes."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise

from laydown.schema.side import Cut, Point, Ring, Side

_AIR_M = 0.04
"""Air around the outline [m]."""


@dataclass(frozen=True, slots=True)
class DrawnBox:
    """A box in metres, as seen."""

    left_m: float
    right_m: float
    bottom_m: float
    top_m: float


@dataclass(frozen=True, slots=True)
class VehicleFrame:
    """Where a side stands on a picture."""

    bounds: DrawnBox
    scale: float
    left_px: float
    top_px: float
    mirrored: bool

    @property
    def right_px(self) -> float:
        """Right edge of the box [px]."""
        return self.left_px + (self.bounds.right_m - self.bounds.left_m) * self.scale

    @property
    def bottom_px(self) -> float:
        """Lower edge of the box [px]."""
        return self.top_px + (self.bounds.top_m - self.bounds.bottom_m) * self.scale

    def across(self, x_m: float) -> float:
        """Place along the vehicle on the picture [px]."""
        run = self.bounds.right_m - x_m if self.mirrored else x_m - self.bounds.left_m
        return self.left_px + run * self.scale

    def at(self, point: Point) -> Point:
        """Place of a point on the picture [px]."""
        return self.across(point[0]), self.top_px + (self.bounds.top_m - point[1]) * self.scale

    def all(self, points: Iterable[Point]) -> tuple[Point, ...]:
        """Places of many points on the picture [px]."""
        return tuple(self.at(point) for point in points)


def side_bounds(side: Side) -> DrawnBox:
    """Box around everything of a side that is drawn."""
    points = [point for panel in side.panels for ring in panel.rings for point in ring]
    points += side.backdrop.silhouette
    points += [(x + sign * radius, y) for x, y, radius in side.backdrop.wheels for sign in (-1, 1)]
    across = [x for x, _ in points]
    top = max(y for _, y in points)
    return DrawnBox(min(across) - _AIR_M, max(across) + _AIR_M, 0.0, top + _AIR_M)


def crossings(rings: Iterable[Ring], x_m: float) -> tuple[Point, ...]:
    """Heights between which an upright line lies inside rings, by the even-odd rule."""
    heights = sorted(_hits(rings, x_m))
    return tuple(zip(heights[::2], heights[1::2], strict=False))


def _hits(rings: Iterable[Ring], x_m: float) -> Iterator[float]:
    """Heights where an upright line cuts the rings."""
    for ring in rings:
        for (x_a, y_a), (x_b, y_b) in pairwise((*ring, ring[0])):
            if (x_a <= x_m) != (x_b <= x_m):
                yield y_a + (y_b - y_a) * (x_m - x_a) / (x_b - x_a)


def across_at(points: tuple[Point, ...], height_m: float) -> float:
    """Place of a bottom-to-top polyline at a height, held at its ends."""
    for (x_a, y_a), (x_b, y_b) in pairwise(points):
        if y_a != y_b and min(y_a, y_b) <= height_m <= max(y_a, y_b):
            return x_a + (x_b - x_a) * (height_m - y_a) / (y_b - y_a)
    return points[0][0] if height_m <= points[0][1] else points[-1][0]


def cut_near(side: Side, feature: str, x_m: float) -> tuple[Point, ...]:
    """Find the upright gap that a join lies in."""
    gaps = [cut for cut in side.cuts if cut.kind == "gap" and _upright(cut.points)]
    chosen = [cut for cut in gaps if cut.id == feature]
    near = sorted(
        (cut for cut in gaps if abs(_middle(cut) - x_m) < 0.15), key=lambda cut: abs(_middle(cut) - x_m)
    )
    for cut in (*chosen, *near):
        return cut.points if cut.points[0][1] <= cut.points[-1][1] else cut.points[::-1]
    return ()


def _upright(points: tuple[Point, ...]) -> bool:
    """Whether a line is a join's place: higher than 0.3 m and steeper than a diagonal."""
    wide = max(x for x, _ in points) - min(x for x, _ in points)
    high = max(y for _, y in points) - min(y for _, y in points)
    return high > max(0.3, wide)


def _middle(cut: Cut) -> float:
    """Place of a gap at mid-height."""
    heights = [y for _, y in cut.points]
    return across_at(cut.points, (min(heights) + max(heights)) / 2)
