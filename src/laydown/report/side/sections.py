"""Draws the sections of a coat: their tint, and the flag where it starts."""

from itertools import pairwise
from math import hypot

from laydown.report.kit.coat_scene import Scene, extent_of, panels_of
from laydown.report.kit.signs import sign
from laydown.report.kit.style import PLATE_PX
from laydown.report.kit.svg import element, track
from laydown.report.kit.vehicle_frame import crossings
from laydown.report.side.body import panel_shape
from laydown.report.side.fades import fade
from laydown.report.side.joins import join_line
from laydown.schema.coat import Section
from laydown.schema.side import Point, Ring, SidePanel

PITCH_PX = PLATE_PX + 14.0
"""Least distance of two drawn strokes, so that a plate fits between them [px]."""

_ARROW_PX = 11.0
_INSIDE_M = 0.03
_SHIFT_M = 0.15
_SHORT_M = 0.2
_PARTS = 6


def ways(scene: Scene) -> str:
    """Draw the way of the gun through every section."""
    shapes = []
    tone = scene.palette.muted
    for section in () if scene.plain else scene.coat.sections:
        drawn = section_ways(scene, section)
        shapes += [_way(points, tone, section.order) for points in drawn]
        if drawn:
            # Strokes go upward: the way ends where its highest line does.
            highest = min(drawn, key=lambda points: points[-1][1])
            shapes.append(_arrow(highest, tone, _ARROW_PX * max(scene.signs, 0.7)))
    return "".join(shapes)


def starts(scene: Scene) -> str:
    """Mark where the sections after the first one start; the flag marks the first."""
    return "".join(
        _start(drawn[0][0], scene)
        for section in scene.coat.sections[1:]
        if not scene.plain and (drawn := section_ways(scene, section))
    )


def start_place(scene: Scene) -> Point:
    """Find the foot of the flag."""
    for section in scene.coat.sections[:1]:
        for way in section_ways(scene, section):
            return way[0]
    return scene.frame.at(scene.coat.start_at)


def section_ways(scene: Scene, section: Section) -> tuple[tuple[Point, ...], ...]:
    """Lines of a section as they are drawn."""
    rings = [ring for panel in panels_of(scene, section) for ring in panel.rings]
    pitch_m = PITCH_PX * scene.signs / scene.frame.scale
    found: list[tuple[Point, ...]] = []
    for way in section.path:
        if len(way) > 1 and (not found or len(way) > 2 or _apart(way[0], way[1]) >= _SHORT_M):
            found.append(scene.frame.all(kept_on(fewer_strokes(way, pitch_m), rings)))
    return tuple(found)


def kept_on(way: tuple[Point, ...], rings: list[Ring]) -> tuple[Point, ...]:
    """Move strokes whose middle lies beside the paint, as at an edge, onto it."""
    if not rings or len(way) % 2:
        return way
    found: list[Point] = []
    for a, b in zip(way[::2], way[1::2], strict=True):
        parts = [
            (a[0] + (b[0] - a[0]) * part / _PARTS, a[1] + (b[1] - a[1]) * part / _PARTS)
            for part in range(_PARTS + 1)
        ]
        moved = [(x, _on_paint(crossings(rings, x), y)) for x, y in parts]
        found += [a, b] if moved == parts else moved
    return tuple(found)


def _on_paint(spans: tuple[Point, ...], y: float) -> float:
    """Nearest height on the paint, a little inside its edge; unchanged where none is near."""
    best = y
    least = _SHIFT_M
    for low, high in spans:
        inside = min(_INSIDE_M, (high - low) / 2)
        near = min(max(y, low + inside), high - inside)
        if abs(near - y) < least:
            best, least = near, abs(near - y)
    return best


def fewer_strokes(points: tuple[Point, ...], pitch: float) -> tuple[Point, ...]:
    """Draw only every third, fifth ... stroke of a way whose strokes lie too close to be told apart."""
    count = len(points) // 2
    if len(points) % 2 or count < 4:
        return points
    strokes = [points[2 * index : 2 * index + 2] for index in range(count)]
    apart = sum(_apart(a[1], b[0]) for a, b in pairwise(strokes)) / (count - 1)
    step = next((step for step in range(1, count, 2) if apart * step >= pitch), count - 1)
    kept = list(range(0, count, step))
    if (count - 1 - kept[-1]) % 2:
        kept.append(count - 1)
    else:
        kept[-1] = count - 1
    return tuple(point for index in kept for point in strokes[index])


def way_points(scene: Scene) -> tuple[Point, ...]:
    """Points every few pixels along every drawn way; a plate keeps clear of them."""
    found: list[Point] = []
    for section in () if scene.plain else scene.coat.sections:
        for way in section_ways(scene, section):
            for a, b in pairwise(way):
                count = max(1, int(_apart(a, b) / 5))
                found += [
                    (a[0] + (b[0] - a[0]) * i / count, a[1] + (b[1] - a[1]) * i / count)
                    for i in range(count + 1)
                ]
    return tuple(found)


def _way(points: tuple[Point, ...], tone: str, order: int) -> str:
    """One unbroken way of the gun."""
    return element(
        "path",
        d=track(points),
        fill="none",
        stroke=tone,
        stroke_width=1.8,
        stroke_linejoin="round",
        data_section=order,
    )


def _start(at: Point, scene: Scene) -> str:
    """Open dot where a section starts, with a rim that keeps it apart from a join beneath."""
    radius = max(3.0, 5.5 * scene.signs)
    rim = element("circle", cx=at[0], cy=at[1], r=radius + 3, fill=scene.palette.paper)
    return rim + element(
        "circle",
        cx=at[0],
        cy=at[1],
        r=radius,
        fill=scene.palette.paper,
        stroke=scene.palette.muted,
        stroke_width=2.2,
        data_kind="start",
    )


def _arrow(points: tuple[Point, ...], tone: str, long: float) -> str:
    """Arrow head at the end of a way."""
    tip = points[-1]
    tail = next((point for point in reversed(points[:-1]) if _apart(point, tip) > 1), points[0])
    run = _apart(tail, tip) or 1.0
    x, y = (tip[0] - tail[0]) / run, (tip[1] - tail[1]) / run
    back = (tip[0] - x * long, tip[1] - y * long)
    wide = long * 0.5
    head = (tip, (back[0] - y * wide, back[1] + x * wide), (back[0] + y * wide, back[1] - x * wide))
    return element("path", d=track(head, closed=True), fill=tone)


def _apart(a: Point, b: Point) -> float:
    """Distance of two points."""
    return hypot(a[0] - b[0], a[1] - b[1])


_FAR_M = 50.0


def sections(scene: Scene) -> str:
    """Tint every section."""
    return "".join(
        _tinted(scene, section, panel)
        for section in scene.coat.sections
        for panel in panels_of(scene, section)
    )


def _tinted(scene: Scene, section: Section, panel: SidePanel) -> str:
    """One panel of one section."""
    planned = next((row for row in scene.plan.side.panels if row.id == panel.id), None)
    if planned is not None and extent_of(planned, scene.layer.name) == "fade":
        shape = panel_shape(panel, scene.frame, scene.palette.paper, scene.palette, "section")
        return shape + fade(scene, panel, planned) if _first(scene, section, panel) else ""
    fill = f"url(#{scene.prefix}-section{section.order % 2})"
    shape = panel_shape(panel, scene.frame, fill, scene.palette, "section")
    if not _shared(scene, panel):
        return shape
    name = f"{scene.prefix}-clip-{section.order}-{panel.id}"
    clip = element("clipPath", element("path", d=track(_area(scene, section), closed=True)), id=name)
    return clip + element("g", shape, clip_path=f"url(#{name})")


def _shared(scene: Scene, panel: SidePanel) -> bool:
    """Whether more than one section lies on a panel."""
    return sum(panel in panels_of(scene, section) for section in scene.coat.sections) > 1


def _first(scene: Scene, section: Section, panel: SidePanel) -> bool:
    """Whether a section is the first one on a panel."""
    return all(
        panel not in panels_of(scene, other) for other in scene.coat.sections if other.order < section.order
    )


def _area(scene: Scene, section: Section) -> tuple[Point, ...]:
    """Area between the two ends of a section, along its joins [px]."""
    low = _end(scene, section, section.x_from_m, -_FAR_M)
    high = _end(scene, section, section.x_to_m, _FAR_M)
    return scene.frame.all((*low, *high[::-1]))


def _end(scene: Scene, section: Section, x_m: float, far_m: float) -> tuple[Point, ...]:
    """Bottom-to-top line at one end of a section; far away where no join lies."""
    joins = [join for join in scene.coat.joins if section.order in join.between and abs(join.x_m - x_m) < 0.3]
    if not joins:
        return ((far_m, -1.0), (far_m, 9.0))
    line = join_line(scene.plan.side, scene.coat, min(joins, key=lambda join: abs(join.x_m - x_m)))
    return ((line[0][0], -1.0), *line, (line[-1][0], 9.0))


def flag(scene: Scene) -> str:
    """Plant the flag where the coat starts."""
    return sign(scene.prefix, "flag", start_place(scene), 60 * scene.signs)
