"""The picture of a bare side: panels with their names, before anything is planned."""

from itertools import pairwise

from laydown.report.kit.coat_scene import Scene, extent_of
from laydown.report.kit.style import SMALLEST_PX, TEXT_PX, Tones, tones
from laydown.report.kit.svg import element, label, picture, track
from laydown.report.kit.text_width import text_width, wrap
from laydown.report.kit.vehicle_frame import VehicleFrame, crossings, side_bounds
from laydown.schema.message import Name
from laydown.schema.plan import PlannedPanel
from laydown.schema.side import Backdrop, Point, Side, SidePanel
from laydown.words.show import ENGLISH, Words

_HANDLE_M = (0.16, 0.032)


def body(scene: Scene) -> str:
    """Draw everything behind the sections."""
    outline = scene.plan.side.outline
    planned = {panel.id: panel for panel in scene.plan.side.panels}
    masked = [panel for panel in outline.panels if not painted(planned.get(panel.id), scene.layer.name)]
    return backdrop(outline.backdrop, scene.frame, scene.palette) + "".join(
        panel_shape(panel, scene.frame, f"url(#{scene.prefix}-masked)", scene.palette, "masked")
        for panel in masked
    )


def painted(panel: PlannedPanel | None, layer: str) -> bool:
    """Whether a layer is sprayed on a panel."""
    return panel is not None and extent_of(panel, layer) != "none"


def backdrop(parts: Backdrop, frame: VehicleFrame, palette: Tones) -> str:
    """Draw the vehicle without its panels."""
    shapes = []
    if parts.silhouette:
        shapes.append(_filled(frame.all(parts.silhouette), palette.glass, palette.ink, 1.6))
    shapes += [_filled(frame.all(ring), palette.glass, palette.muted, 1.0) for ring in parts.bumpers]
    shapes += [_filled(frame.all(ring), palette.glass, palette.muted, 1.2) for ring in parts.glass]
    ground = frame.bottom_px
    shapes.append(
        element(
            "path",
            d=track([(frame.left_px, ground), (frame.right_px, ground)]),
            stroke=palette.muted,
            stroke_width=1.5,
        )
    )
    return "".join(shapes) + wheels(parts, frame, palette)


def wheels(parts: Backdrop, frame: VehicleFrame, palette: Tones) -> str:
    """Draw the wheels, which also hide the strokes that run over them."""
    return "".join(_wheel(wheel, frame, palette) for wheel in parts.wheels)


def panel_shape(panel: SidePanel, frame: VehicleFrame, fill: str, palette: Tones, kind: str) -> str:
    """Draw one panel with its holes."""
    return element(
        "path",
        d=panel_data(panel, frame),
        fill=fill,
        fill_rule="evenodd",
        stroke=palette.ink,
        stroke_width=1.6,
        stroke_linejoin="round",
        data_panel=panel.id,
        data_kind=kind,
    )


def panel_data(panel: SidePanel, frame: VehicleFrame) -> str:
    """Path data of a panel."""
    return "".join(track(thinned(frame.all(ring)), closed=True) for ring in panel.rings)


def thinned(points: tuple[Point, ...]) -> tuple[Point, ...]:
    """Drop points nearer than 1.2 px to the last one kept; keeps pictures small."""
    kept = [points[0]]
    for point in points[1:]:
        if abs(point[0] - kept[-1][0]) + abs(point[1] - kept[-1][1]) >= 1.2:
            kept.append(point)
    return tuple(kept)


def masked_parts(scene: Scene) -> str:
    """Draw handles and whatever else is masked on painted panels."""
    outline, frame, palette = scene.plan.side.outline, scene.frame, scene.palette
    shapes = [
        element(
            "path",
            d="".join(track(frame.all(ring), closed=True) for ring in part.rings),
            fill=f"url(#{scene.prefix}-masked)",
            stroke=palette.muted,
            stroke_width=1.2,
            data_kind="masked",
        )
        for part in outline.masked
    ]
    width, height = (_HANDLE_M[0] * frame.scale, _HANDLE_M[1] * frame.scale)
    for place in outline.backdrop.handles if not outline.masked else ():
        x, y = frame.at(place)
        shapes.append(
            element(
                "rect",
                x=x - width / 2,
                y=y - height / 2,
                width=width,
                height=height,
                rx=height * 0.45,
                fill=palette.paper,
                stroke=palette.muted,
                stroke_width=1.2,
            )
        )
    return "".join(shapes)


def body_lines(scene: Scene) -> str:
    """Draw gaps, arch edges and lines over the sections."""
    outline, frame, palette = scene.plan.side.outline, scene.frame, scene.palette
    gaps = [_stroke(frame.all(cut.points), palette.ink, 1.6) for cut in outline.cuts]
    lines = [_stroke(frame.all(line.points), palette.rule, 1.4) for line in outline.lines]
    return "".join(lines + gaps)


def masked_pattern(prefix: str, palette: Tones) -> str:
    """Write the pattern of what is masked: crossing lines."""
    return element(
        "pattern",
        element("rect", width=9, height=9, fill=palette.paper),
        element("path", d="M0,0L9,9M9,0L0,9", stroke=palette.masked, stroke_width=0.9),
        id=f"{prefix}-masked",
        width=9,
        height=9,
        patternUnits="userSpaceOnUse",
    )


def _filled(points: tuple[Point, ...], fill: str, stroke: str, width: float) -> str:
    """One filled ring."""
    return element(
        "path", d=track(thinned(points), closed=True), fill=fill, stroke=stroke, stroke_width=width
    )


def _stroke(points: tuple[Point, ...], stroke: str, width: float) -> str:
    """One open line."""
    return element("path", d=track(thinned(points)), fill="none", stroke=stroke, stroke_width=width)


def _wheel(wheel: tuple[float, float, float], frame: VehicleFrame, palette: Tones) -> str:
    """One wheel: tyre, rim, hub."""
    x, y = frame.at((wheel[0], wheel[1]))
    radius = wheel[2] * frame.scale
    tyre = element(
        "circle",
        cx=x,
        cy=y,
        r=radius * 0.87,
        fill=palette.paper,
        stroke=palette.muted,
        stroke_width=radius * 0.24,
    )
    rim = element("circle", cx=x, cy=y, r=radius * 0.58, fill="none", stroke=palette.rule, stroke_width=1.5)
    return tyre + rim


_WIDTH_PX = 1200.0
_EDGE_PX = 20.0
_STEPS = 24
_AIR_PX = 8.0
_LEAST_M = 0.3


def outline_svg(side: Side, *, grey: bool = False, words: Words = ENGLISH) -> str:
    """Draw a side with the names of its panels."""
    palette = tones(grey=grey)
    bounds = side_bounds(side)
    scale = (_WIDTH_PX - 2 * _EDGE_PX) / (bounds.right_m - bounds.left_m)
    frame = VehicleFrame(bounds, scale, _EDGE_PX, _EDGE_PX, mirrored=side.side == "right")
    panels = [panel_shape(panel, frame, palette.paper, palette, "outline") for panel in side.panels]
    names = [_name(panel, frame, palette) for panel in side.panels]
    panels_said = tuple(Name(panel.label) for panel in side.panels)
    described = words.say("outline-said", shape=Name(side.name), side=side.side, panels=panels_said)
    size = (_WIDTH_PX, frame.bottom_px + _EDGE_PX)
    return picture(size, side.name, described, backdrop(side.backdrop, frame, palette), *panels, *names)


def _name(panel: SidePanel, frame: VehicleFrame, palette: Tones) -> str:
    """Name of a panel in as many lines as it takes to stay inside, smaller where it is narrow."""
    place = roomiest(panel)
    spans = crossings([tuple((y, x) for x, y in ring) for ring in panel.rings], place[1])
    wide = next((high - low for low, high in spans if low <= place[0] <= high), _LEAST_M) * frame.scale
    size = TEXT_PX if text_width(panel.label, TEXT_PX) <= wide - _AIR_PX else SMALLEST_PX
    lines = wrap(panel.label, wide - _AIR_PX, size)
    x, y = frame.at(place)
    first = y + size * (0.35 - 0.6 * (len(lines) - 1))
    return "".join(
        label(line, (x, first + 1.2 * size * row), size, palette.ink, text_anchor="middle")
        for row, line in enumerate(lines)
    )


def roomiest(panel: SidePanel) -> Point:
    """Place inside a panel that lies farthest from its outline, up and down counting double: names are wide."""
    across = [x for x, _ in panel.rings[0]]
    low, high = min(across), max(across)
    places = [
        (x, lower + (upper - lower) * share)
        for x in (low + (high - low) * (step + 0.5) / _STEPS for step in range(_STEPS))
        for lower, upper in crossings(panel.rings, x)
        for share in (0.3, 0.5, 0.7)
    ]
    return max(places, key=lambda place: _room(panel, place))


def _room(panel: SidePanel, place: Point) -> float:
    """Distance to the nearest edge of a panel, heights counted double."""
    at = complex(place[0], 2 * place[1])
    edges = [
        (complex(first[0], 2 * first[1]), complex(second[0], 2 * second[1]))
        for ring in panel.rings
        for first, second in pairwise((*ring, ring[0]))
    ]
    return min(_distance(at, first, second) for first, second in edges)


def _distance(at: complex, first: complex, second: complex) -> float:
    """Distance of a point to a straight edge."""
    along = second - first
    length = abs(along) ** 2
    share = 0.0 if length == 0 else ((at - first) * along.conjugate()).real / length
    return abs(at - first - along * min(1.0, max(0.0, share)))
