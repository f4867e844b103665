"""Finds a place for the plate of every section that covers no stroke, no join and no sign."""

from collections.abc import Iterable, Iterator
from itertools import pairwise

from laydown.report.kit.coat_scene import Scene, panels_of
from laydown.report.kit.style import PLATE_PX
from laydown.report.kit.vehicle_frame import crossings
from laydown.report.side.joins import join_line
from laydown.report.side.sections import start_place, way_points
from laydown.schema.coat import Section
from laydown.schema.side import Point

_CELL_PX = 3
_STEP_PX = 4
_AIR_PX = 3
_LEADER_PX = 7.0

_Cells = set[tuple[int, int]]


def plate_places(scene: Scene) -> dict[int, Point]:
    """Find the middle of each section's plate."""
    taken = _occupied(scene)
    half = plate_edge(scene) / 2 + _AIR_PX * scene.signs
    places: dict[int, Point] = {}
    for section in scene.coat.sections:
        found = _best(scene, section, half, taken)
        places[section.order] = found
        taken |= set(_box(found, half))
    return places


def plate_edge(scene: Scene) -> float:
    """Outline that parts a plate from what lies under it."""
    return PLATE_PX * scene.signs


def step_places(scene: Scene, plates: dict[int, Point]) -> dict[int, Point]:
    """Find the place of every step: on the floor before its section, beside wheels, plates and other steps."""
    frame = scene.frame
    y = frame.bottom_px - 13 * scene.signs
    room = 16 * scene.signs
    taken = [
        (frame.across(x), radius * frame.scale) for x, _, radius in scene.plan.side.outline.backdrop.wheels
    ]
    taken += [
        (x, PLATE_PX * scene.signs / 2) for x, at in plates.values() if at > y - 2 * PLATE_PX * scene.signs
    ]
    found: dict[int, Point] = {}
    for section in scene.coat.sections:
        if section.needs_step:
            middle = (frame.across(section.x_from_m) + frame.across(section.x_to_m)) / 2
            tries = sorted(
                range(int(frame.left_px + room), int(frame.right_px - room), 4), key=lambda x: abs(x - middle)
            )
            free = (x for x in tries if all(abs(x - other) >= half + room for other, half in taken))
            x = float(next(free, middle))
            found[section.order] = x, y
            taken.append((x, room))
    return found


def leader(scene: Scene, section: Section, place: Point) -> tuple[Point, ...]:
    """Line that leads from a plate beside its section into it."""
    ground = _Ground(scene, section)
    half = plate_edge(scene) / 2
    if ground.cost(place, half * 0.5) == 0.0:
        return ()
    inside = [
        spot
        for spot in _grid(scene, section, _LEADER_PX * scene.signs)
        if ground.cost(spot, _LEADER_PX * scene.signs) == 0.0
    ]
    if not inside:
        return ()
    return place, min(inside, key=lambda spot: _far(spot, place))


def _occupied(scene: Scene) -> _Cells:
    """Cells that strokes, joins and the flag take."""
    points = list(way_points(scene))
    for join in scene.coat.joins:
        line = scene.frame.all(join_line(scene.plan.side, scene.coat, join))
        points += _along(line)
    x, y = start_place(scene)
    cells = {_cell(point) for point in points}
    flag = [round(step * 3 * scene.signs) for step in range(-3, 9)]
    return cells | {_cell((x + dx, y - dy)) for dx in flag for dy in flag}


def _along(line: tuple[Point, ...]) -> list[Point]:
    """Points every few pixels along a line that rises."""
    found: list[Point] = []
    for a, b in pairwise(line):
        count = max(1, int((abs(b[0] - a[0]) + abs(b[1] - a[1])) / _CELL_PX))
        found += [
            (a[0] + (b[0] - a[0]) * i / count, a[1] + (b[1] - a[1]) * i / count) for i in range(count + 1)
        ]
    return found


def _best(scene: Scene, section: Section, half: float, taken: _Cells) -> Point:
    """The free place that is dearest to the section."""
    ground = _Ground(scene, section)
    middle = _middle(scene, section)
    choices = [
        (ground.cost(place, half) + _far(place, middle) / 1000, place)
        for place in _grid(scene, section, half)
        if taken.isdisjoint(_box(place, half))
    ]
    return min(choices)[1] if choices else (middle[0], scene.frame.bottom_px + half)


def _middle(scene: Scene, section: Section) -> Point:
    """Middle of a section by its strokes, else by its ends."""
    frame = scene.frame
    heights = [frame.at(point)[1] for way in section.path for point in way]
    x = frame.across((section.x_from_m + section.x_to_m) / 2)
    return x, sum(heights) / len(heights) if heights else (frame.top_px + frame.bottom_px) / 2


def _grid(scene: Scene, section: Section, half: float) -> Iterator[Point]:
    """Places to try: the strip over and under a section."""
    frame = scene.frame
    ends = sorted((frame.across(section.x_from_m), frame.across(section.x_to_m)))
    x = ends[0] + half if ends[1] - ends[0] > 2 * half else sum(ends) / 2
    while x <= max(ends[1] - half, sum(ends) / 2):
        y = frame.top_px + half
        while y <= frame.bottom_px - half * 0.5:
            yield x, y
            y += _STEP_PX
        x += _STEP_PX


class _Ground:
    """What lies under a place: the section's own panels, other panels, glass, a wheel or nothing."""

    def __init__(self, scene: Scene, section: Section) -> None:
        outline = scene.plan.side.outline
        self._frame = scene.frame
        self._rings = {
            "own": [ring for panel in panels_of(scene, section) for ring in panel.rings],
            "panels": [ring for panel in outline.panels for ring in panel.rings],
            "glass": list(outline.backdrop.glass),
        }
        self._wheels = outline.backdrop.wheels
        self._columns: dict[tuple[str, float], tuple[Point, ...]] = {}

    def cost(self, place: Point, half: float) -> float:
        """0 within the own panels, more on glass, outside, and most on other panels or wheels."""
        corners = [
            self._metres((place[0] + dx * half, place[1] + dy * half))
            for dx in (-1, 0, 1)
            for dy in (-1, 0, 1)
        ]
        foreign = sum(not self._within("own", corner) for corner in corners)
        if foreign == 0:
            return 0.0
        wheel = any(self._on_wheel(corner) for corner in corners)
        if wheel or any(self._within("panels", corner) for corner in corners):
            return 1.0 + 0.2 * foreign + wheel
        return 0.3 if all(self._within("glass", corner) for corner in corners) else 0.5

    def _within(self, kind: str, point: Point) -> bool:
        """Whether a point lies in one kind of rings."""
        key = (kind, point[0])
        if key not in self._columns:
            self._columns[key] = crossings(self._rings[kind], point[0])
        return any(low <= point[1] <= high for low, high in self._columns[key])

    def _on_wheel(self, point: Point) -> bool:
        """Whether a point lies on a wheel."""
        return any((point[0] - x) ** 2 + (point[1] - y) ** 2 < radius**2 for x, y, radius in self._wheels)

    def _metres(self, place: Point) -> Point:
        """Point of the vehicle under a place on the picture."""
        frame = self._frame
        run = (place[0] - frame.left_px) / frame.scale
        x = frame.bounds.right_m - run if frame.mirrored else frame.bounds.left_m + run
        return x, frame.bounds.top_m - (place[1] - frame.top_px) / frame.scale


def _far(a: Point, b: Point) -> float:
    """Distance by streets [px]."""
    return abs(a[0] - b[0]) + abs(a[1] - b[1])


def _cell(point: Point) -> tuple[int, int]:
    """Cell of a point."""
    return int(point[0] // _CELL_PX), int(point[1] // _CELL_PX)


def _box(place: Point, half: float) -> Iterable[tuple[int, int]]:
    """Cells a square takes."""
    left, top = _cell((place[0] - half, place[1] - half))
    right, bottom = _cell((place[0] + half, place[1] + half))
    return ((x, y) for x in range(left, right + 1) for y in range(top, bottom + 1))
