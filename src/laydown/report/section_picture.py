"""Draws the sections of a coat: their tint, the way of the gun, and the flag where it starts."""

from itertools import pairwise
from math import hypot

from laydown.report.body_picture import panel_shape
from laydown.report.join_picture import join_line
from laydown.report.layer_pattern import fade
from laydown.report.scene import Scene, extent_of
from laydown.report.signs import sign
from laydown.report.svg import element, track
from laydown.schema.coat import Section
from laydown.schema.side import Point, SidePanel

_FAR_M = 50.0
_ARROW_PX = 11.0
_PITCH_PX = 54.0


def sections(scene: Scene) -> str:
    """Tint every section.

    Parameters
    ----------
    scene
        What is shown.

    Returns
    -------
    Markup: the panels of each section, clipped where two sections share a panel.
    """
    return "".join(
        _tinted(scene, section, panel)
        for section in scene.coat.sections
        for panel in panels_of(scene, section)
    )


def panels_of(scene: Scene, section: Section) -> tuple[SidePanel, ...]:
    """Painted panels that reach into a section, slivers too: nothing that is sprayed stays without a section.

    Parameters
    ----------
    scene
        What is shown.
    section
        One of its sections.

    Returns
    -------
    The panels of the side, in its order.
    """
    planned = {row.id: row for row in scene.plan.side.panels}
    return tuple(
        panel
        for panel in scene.plan.side.outline.panels
        if panel.id in planned
        and extent_of(planned[panel.id], scene.layer.name) != "none"
        and min(x for x, _ in panel.rings[0]) < section.x_to_m
        and max(x for x, _ in panel.rings[0]) > section.x_from_m
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


def ways(scene: Scene) -> str:
    """Draw the way of the gun through every section.

    Parameters
    ----------
    scene
        What is shown.

    Returns
    -------
    Markup: thin lines from an open dot to an arrow in each section.
    """
    shapes = []
    tone = scene.palette.muted
    for section in scene.coat.sections:
        drawn = [
            fewer_strokes(scene.frame.all(way), _PITCH_PX * scene.signs)
            for way in section.path
            if len(way) > 1
        ]
        shapes += [_way(points, tone, section.order) for points in drawn]
        if drawn:
            shapes += [_start(drawn[0][0], scene), _arrow(drawn[-1], tone)]
    return "".join(shapes)


def flag(scene: Scene) -> str:
    """Plant the flag where the coat starts.

    Parameters
    ----------
    scene
        What is shown.

    Returns
    -------
    Markup.
    """
    return sign(scene.prefix, "flag", scene.frame.at(scene.coat.start_at), 60 * scene.signs)


def fewer_strokes(points: tuple[Point, ...], pitch_px: float = _PITCH_PX) -> tuple[Point, ...]:
    """Draw only every third, fifth ... stroke of a way whose strokes lie too close to be told apart.

    Parameters
    ----------
    points
        A way of strokes to and fro, two points each [px]; any other way stays as it is.
    pitch_px
        Least distance of two drawn strokes, so that a plate fits between them [px].

    Returns
    -------
    The first stroke, the last one, and as many between them as leave room; turns keep their side.
    """
    count = len(points) // 2
    if len(points) % 2 or count < 4:
        return points
    strokes = [points[2 * index : 2 * index + 2] for index in range(count)]
    pitch = sum(_apart(a[1], b[0]) for a, b in pairwise(strokes)) / (count - 1)
    step = next((step for step in range(1, count, 2) if pitch * step >= pitch_px), count - 1)
    kept = list(range(0, count, step))
    if (count - 1 - kept[-1]) % 2:
        kept.append(count - 1)
    else:
        kept[-1] = count - 1
    return tuple(point for index in kept for point in strokes[index])


def way_points(scene: Scene) -> tuple[Point, ...]:
    """Points every few pixels along every drawn way; a plate keeps clear of them.

    Parameters
    ----------
    scene
        What is shown.

    Returns
    -------
    Points [px].
    """
    found: list[Point] = []
    for section in scene.coat.sections:
        for way in section.path:
            for a, b in pairwise(fewer_strokes(scene.frame.all(way), _PITCH_PX * scene.signs)):
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
    """Open dot where a section starts."""
    return element(
        "circle",
        cx=at[0],
        cy=at[1],
        r=max(3.0, 5.5 * scene.signs),
        fill=scene.palette.paper,
        stroke=scene.palette.muted,
        stroke_width=2.2,
        data_kind="start",
    )


def _arrow(points: tuple[Point, ...], tone: str) -> str:
    """Arrow head at the end of a way."""
    tip = points[-1]
    tail = next((point for point in reversed(points[:-1]) if _apart(point, tip) > 1), points[0])
    run = _apart(tail, tip) or 1.0
    x, y = (tip[0] - tail[0]) / run, (tip[1] - tail[1]) / run
    back = (tip[0] - x * _ARROW_PX, tip[1] - y * _ARROW_PX)
    wide = _ARROW_PX * 0.5
    head = (tip, (back[0] - y * wide, back[1] + x * wide), (back[0] + y * wide, back[1] - x * wide))
    return element("path", d=track(head, closed=True), fill=tone)


def _apart(a: Point, b: Point) -> float:
    """Distance of two points."""
    return hypot(a[0] - b[0], a[1] - b[1])
