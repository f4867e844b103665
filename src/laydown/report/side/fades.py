"""Under the side: how far ground, effect and clear reach, one bar each, a fade as a wedge."""

from collections.abc import Iterable
from dataclasses import replace
from itertools import pairwise
from math import hypot

from laydown.report.kit.coat_scene import Scene, extent_of, layer_pattern
from laydown.report.kit.style import SMALLEST_PX
from laydown.report.kit.svg import element, label, number, track
from laydown.report.kit.vehicle_frame import crossings
from laydown.report.side.body import panel_data, thinned
from laydown.schema.coat import Layer
from laydown.schema.plan import PlannedPanel
from laydown.schema.side import Point, SidePanel

_CELL_PX = 10.0
_WIDEST_PX = 4.6
_LEAST = 0.04
_SIZES = 8

_Edge = tuple[Point, Point]


def fade(scene: Scene, panel: SidePanel, planned: PlannedPanel) -> str:
    """Draw a fading panel."""
    frame = scene.frame
    clip = f"{scene.prefix}-fade-{panel.id}"
    sizes: dict[int, list[Point]] = {}
    for place, weight in fade_weights(scene, panel, planned):
        if weight > _LEAST:
            sizes.setdefault(max(1, round(weight**0.5 * _SIZES)), []).append(place)
    dots = [
        element(
            "path",
            d="".join(f"M{number(x)},{number(y)}h.1" for x, y in places),
            stroke=scene.tints[2],
            stroke_width=_WIDEST_PX * size / _SIZES,
            stroke_linecap="round",
        )
        for size, places in sorted(sizes.items())
    ]
    shape = element("clipPath", element("path", d=panel_data(panel, frame), clip_rule="evenodd"), id=clip)
    return shape + element("g", *dots, clip_path=f"url(#{clip})", data_kind="fade")


def fade_weights(scene: Scene, panel: SidePanel, planned: PlannedPanel) -> tuple[tuple[Point, float], ...]:
    """How much of the layer is left on a fading panel, dot by dot."""
    frame = scene.frame
    outline = frame.all(panel.rings[0])
    left, right = min(x for x, _ in outline), max(x for x, _ in outline)
    length = planned.fade_m * frame.scale if planned.fade_m else right - left
    edges = [edge for ring in _full_rings(scene) for edge in pairwise((*ring, ring[0]))]
    rings = [frame.all(ring) for ring in panel.rings]
    found: list[tuple[Point, float]] = []
    x = (left // _CELL_PX + 0.5) * _CELL_PX
    while x < right:
        found += [(place, _left_over(place, edges, length)) for place in _column(rings, x)]
        x += _CELL_PX
    return tuple(found)


def full_ends(scene: Scene) -> Point | None:
    """Where the panels that carry the layer in full begin and end along the picture."""
    places = [x for ring in _full_rings(scene) for x, _ in ring]
    return (min(places), max(places)) if places else None


def _full_rings(scene: Scene) -> list[tuple[Point, ...]]:
    """Outlines of the panels on which the layer is full [px]."""
    full = {panel.id for panel in scene.plan.side.panels if extent_of(panel, scene.layer.name) == "full"}
    return [
        thinned(scene.frame.all(panel.rings[0]))
        for panel in scene.plan.side.outline.panels
        if panel.id in full
    ]


def _column(rings: list[tuple[Point, ...]], x: float) -> Iterable[Point]:
    """Dots of one column that touch the panel."""
    for low, high in crossings(rings, x):
        y = (low // _CELL_PX + 0.5) * _CELL_PX
        while y <= high + _CELL_PX / 2:
            yield x, y
            y += _CELL_PX


def _left_over(place: Point, edges: list[_Edge], length: float) -> float:
    """Share of the layer at a place: it falls softly at both ends of the fade."""
    if not edges:
        return 1.0
    run = min(1.0, min(_distance(place, edge) for edge in edges) / length)
    return 1.0 - (3.0 * run**2 - 2.0 * run**3)


def _distance(place: Point, edge: _Edge) -> float:
    """Distance of a point from a straight edge [px]."""
    (x_a, y_a), (x_b, y_b) = edge
    along, down = x_b - x_a, y_b - y_a
    square = along**2 + down**2
    share = ((place[0] - x_a) * along + (place[1] - y_a) * down) / square if square else 0.0
    share = min(1.0, max(0.0, share))
    return hypot(place[0] - x_a - share * along, place[1] - y_a - share * down)


ROW_PX = 20.0
"""Height of a layer's row [px]."""

_BAR_PX = 12.0


def reach_height(scene: Scene) -> float:
    """Height of the bars."""
    return ROW_PX * len(scene.plan.layers) + 8


def reach(scene: Scene, top_px: float) -> str:
    """Draw how far each layer reaches."""
    rows = []
    for index, layer in enumerate(scene.plan.layers):
        y = top_px + ROW_PX * index + 4
        here = layer.name == scene.layer.name
        rows.append(
            label(
                scene.words.word("short_layer", layer.name),
                (scene.frame.left_px - 10, y + _BAR_PX),
                SMALLEST_PX,
                scene.palette.ink,
                text_anchor="end",
                font_weight="700" if here else "400",
            )
        )
        rows.append(_bar(replace(scene, layer=layer), y))
    return element("g", *rows, data_kind="reach")


def _pattern(scene: Scene, y: float) -> str:
    """Pattern of one bar, laid so that a repeat begins at its edge."""
    name, palette = scene.layer.name, scene.palette
    fill = palette.layers[name]
    line = "#FFFFFF" if name == "ground" and fill != "#FFFFFF" else palette.ink
    return layer_pattern(name, f"{scene.prefix}-bar-{name}", (fill, line), _BAR_PX / 2, y)


def _bar(scene: Scene, y: float) -> str:
    """One layer's bar."""
    ends = layer_ends(scene, scene.layer)
    if ends is None:
        return ""
    left, right = ends
    begin, end = _full_part(scene, left, right)
    points = [(begin, y), (end, y), (right, y + _BAR_PX), (left, y + _BAR_PX)]
    return _pattern(scene, y) + element(
        "path",
        d=track(points, closed=True),
        fill=f"url(#{scene.prefix}-bar-{scene.layer.name})",
        stroke=scene.palette.ink,
        stroke_width=1.2,
        stroke_linejoin="round",
        data_layer=scene.layer.name,
    )


def layer_ends(scene: Scene, layer: Layer) -> Point | None:
    """Where a layer begins and ends along the picture."""
    places = [
        scene.frame.across(x)
        for coat in layer.coats
        for row in coat.sections
        for x in (row.x_from_m, row.x_to_m)
    ]
    return (min(places), max(places)) if places else None


def _full_part(scene: Scene, left: float, right: float) -> Point:
    """Where the layer is full between its ends; beyond lies a fade, at the side of every fading panel [px]."""
    full = full_ends(scene)
    fading = [
        sum(scene.frame.across(x) for x, _ in panel.rings[0]) / len(panel.rings[0])
        for panel in scene.plan.side.outline.panels
        if any(
            row.id == panel.id and extent_of(row, scene.layer.name) == "fade"
            for row in scene.plan.side.panels
        )
    ]
    if full is None:
        return left, right
    middle = sum(full) / 2
    begin = max(left, full[0]) if any(x < middle for x in fading) else left
    end = min(right, full[1]) if any(x > middle for x in fading) else right
    return begin, end
