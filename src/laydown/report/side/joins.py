"""Draws a join by its shape: solid stays wet, dashed needs haste, a zigzag comes too late."""

from itertools import pairwise
from math import hypot

from laydown.report.kit.style import JOIN_PX, Tones, join_tone
from laydown.report.kit.svg import element, number, track
from laydown.report.kit.vehicle_frame import crossings, cut_near
from laydown.schema.coat import Coat, Join
from laydown.schema.plan import PlannedSide
from laydown.schema.side import Point, Ring

_AMPLITUDE_PX = 5.0
_STEP_PX = 9.0
_DASH_PX = 22.0


def join_line(side: PlannedSide, coat: Coat, join: Join) -> tuple[Point, ...]:
    """Where a join runs on the side."""
    gap = cut_near(side.outline, join.feature, join.x_m) if join.kind == "gap" else ()
    if gap:
        return gap
    low, high = _reach(side, coat, join)
    return ((join.x_bottom_m, low), (join.x_top_m, high))


def _reach(side: PlannedSide, coat: Coat, join: Join) -> tuple[float, float]:
    """Heights between which the two sections meet."""
    names = {name for section in coat.sections if section.order in join.between for name in section.panels}
    rings: list[Ring] = []
    for panel in side.outline.panels:
        if panel.label in names or panel.id in names:
            rings += panel.rings
    spans = [
        span
        for shift in (-0.03, 0.0, 0.03)
        for span in crossings(rings, join.x_m + shift)
        if span[1] - span[0] > 0.05
    ]
    if not spans:
        heights = [y for section in coat.sections for way in section.path for _, y in way]
        return (min(heights), max(heights)) if heights else (0.3, 1.0)
    tallest = max(spans, key=lambda span: span[1] - span[0])
    return min(low for low, high in spans if high > tallest[0]), tallest[1]


def join_mark(points: tuple[Point, ...], state: str, palette: Tones, width: float = JOIN_PX) -> str:
    """Draw a join through points on the picture."""
    line = zigzag(points, width / JOIN_PX) if state == "dry" else points
    data = track(line)
    casing = element(
        "path", d=data, fill="none", stroke="#FFFFFF", stroke_width=width + 4, stroke_linejoin="round"
    )
    dashes = _dashes(points) if state == "tight" else None
    bar = element(
        "path",
        d=data,
        fill="none",
        stroke=join_tone(state, palette),
        stroke_width=width if state != "dry" else width * 0.8,
        stroke_dasharray=dashes,
        stroke_linejoin="miter",
        data_state=state,
    )
    return casing + bar


def _dashes(points: tuple[Point, ...]) -> str:
    """Dashes that begin and end with a full dash, at least two."""
    length = _length(points)
    count = max(2, round(length / _DASH_PX))
    gap = length / (count * 2.75 - 1)
    return f"{number(gap * 1.75)} {number(gap)}"


def _length(points: tuple[Point, ...]) -> float:
    """Length of a polyline."""
    return sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(points))


def zigzag(points: tuple[Point, ...], scale: float = 1.0) -> tuple[Point, ...]:
    """Bend a polyline into a zigzag about itself."""
    length = _length(points)
    count = max(3, round(length / (_STEP_PX * scale / 2)))
    result: list[Point] = []
    for index in range(count + 1):
        place, (along_x, along_y) = _along(points, length * index / count)
        side = _AMPLITUDE_PX * scale * (1 if index % 2 else -1)
        result.append((place[0] - along_y * side, place[1] + along_x * side))
    return tuple(result)


def _along(points: tuple[Point, ...], distance: float) -> tuple[Point, Point]:
    """Point at a distance along a polyline, and the direction there."""
    direction: Point = (0.0, 1.0)
    for a, b in pairwise(points):
        step = hypot(b[0] - a[0], b[1] - a[1])
        if step == 0:
            continue
        direction = ((b[0] - a[0]) / step, (b[1] - a[1]) / step)
        if distance <= step:
            return (a[0] + direction[0] * distance, a[1] + direction[1] * distance), direction
        distance -= step
    return points[-1], direction
