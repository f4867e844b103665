"""Under the side: how far ground, effect and clear reach, one bar each, a fade as a wedge."""

from dataclasses import replace

from laydown.report.fade_picture import full_ends
from laydown.report.layer_pattern import layer_pattern
from laydown.report.scene import Scene, extent_of
from laydown.report.style import SMALLEST_PX
from laydown.report.svg import element, label, track
from laydown.schema.coat import Layer
from laydown.schema.side import Point

ROW_PX = 20.0
"""Height of a layer's row [px]."""

_BAR_PX = 12.0


def reach_height(scene: Scene) -> float:
    """Height of the bars.

    Parameters
    ----------
    scene
        What is shown.

    Returns
    -------
    Height [px].
    """
    return ROW_PX * len(scene.plan.layers) + 8


def reach(scene: Scene, top_px: float) -> str:
    """Draw how far each layer reaches.

    Parameters
    ----------
    scene
        What is shown.
    top_px
        Upper edge [px].

    Returns
    -------
    Markup.
    """
    rows = []
    for index, layer in enumerate(scene.plan.layers):
        y = top_px + ROW_PX * index + 4
        here = layer.name == scene.layer.name
        rows.append(
            label(
                layer.name,
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
    """Where a layer begins and ends along the picture.

    Parameters
    ----------
    scene
        What is shown.
    layer
        A layer of its plan.

    Returns
    -------
    Left and right end [px], or None when it has no section.
    """
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
