"""Maps of one coat in the same frame: film, age of the edge, dry spray, and the colour that comes of the film."""

from dataclasses import dataclass
from itertools import pairwise

from laydown.report.body_picture import backdrop, panel_data
from laydown.report.frame import Bounds, Frame, side_bounds
from laydown.report.map_cells import block_data, blocks, classes_of, contour_data
from laydown.report.map_scale import MapScale, scale_of
from laydown.report.measure_text import shorten, wrap
from laydown.report.retell import retell
from laydown.report.scene import coat_name, coat_numbered, layer_named
from laydown.report.side_picture import watermark
from laydown.report.style import COLOUR, HEAD_PX, INK, MUTED, PAPER, SMALLEST_PX, TEXT_PX
from laydown.report.svg import element, label, picture
from laydown.schema.maps import CoatMap, Maps
from laydown.schema.plan import Plan
from laydown.schema.side import Point
from laydown.units import System, figures

_WIDTH_PX = 1200.0
_EDGE_PX = 20.0
_GAP_PX = 32.0
_STRETCH = 1.2
_HEAD_PX = 76.0
_BLOCK_HEAD_PX = 54.0
_BLOCK_FOOT_PX = 66.0
_BAR_PX = (400.0, 16.0)
_WORDS_PX = 300.0
_HEADS = {
    "film": "Wet film of this coat",
    "age": "Age of the edge when it is joined, in open times",
    "dry spray": "Dry spray on set paint",
    "appearance": "Colour of all coats of the layer, from the film only",
}
_READING = {
    "film": "Film: blue with level lines is thin, brown with dots is thick, plain is on target.",
    "age": "Age: light is early. Past the thin line (0.7) hurry; past the thick line (1.0) the edge has closed.",
    "dry spray": "Dry spray: light is none; dark will feel rough. The line marks half of the scale.",
    "appearance": "Colour: under 0.5 not seen, from 0.5 good, from 1 to blend, from 2 visible (thick line), at the angle that "
    "shows it most. From the film only: flakes that lie differently are not in it.",
}
_THICK = ("age", "appearance")


@dataclass(frozen=True, slots=True)
class _Block:
    """One map in its place: field, scale, frame and the ids it uses."""

    plan: Plan
    field: CoatMap
    scale: MapScale
    frame: Frame
    prefix: str


def maps_svg(plan: Plan, maps: Maps, layer: str, coat: int, system: System = "metric") -> str:
    """Draw the maps of one coat.

    Parameters
    ----------
    plan
        The plan.
    maps
        Its fields.
    layer
        "ground", "effect" or "clear".
    coat
        Number of the coat, from 1.
    system
        How figures are shown.

    Returns
    -------
    A complete SVG document, readable in grey: every class limit that matters is also a line or a pattern.

    Raises
    ------
    ValueError
        When the plan has no such layer or coat, or there is no field for it.
    """
    found = [field for field in maps.coats if (field.layer, field.coat) == (layer, coat)]
    shown = coat_numbered(layer_named(plan, layer), coat)
    if not found:
        raise ValueError(f"maps must hold {layer} coat {coat}; they hold none of it")
    wide = (_WIDTH_PX - 2 * _EDGE_PX - _GAP_PX) / 2
    bounds = side_bounds(plan.side.outline)
    scale = wide / (bounds.right_m - bounds.left_m)
    high = (bounds.top_m - bounds.bottom_m) * scale + _BLOCK_HEAD_PX + _BLOCK_FOOT_PX
    places = [
        (_EDGE_PX + (wide + _GAP_PX) * (i % 2), _HEAD_PX + high * (i // 2)) for i in range(len(found) + 1)
    ]
    drawn = [
        _Block(
            plan,
            field,
            scale_of(field, system),
            _frame(plan, bounds, scale, place),
            f"m{plan.id}-{layer}{coat}-{index}",
        )
        for index, (field, place) in enumerate(zip(found, places, strict=False))
    ]
    height = round(_HEAD_PX + high * ((len(found) + 2) // 2) if len(found) % 2 else places[-1][1] + _WORDS_PX)
    title = f"{layer.capitalize()} {coat_name(shown)}: maps"
    return picture(
        (_WIDTH_PX, height),
        title,
        " ".join(f"{_HEADS[field.kind]}: {worst_text(field, system)}." for field in found),
        element("rect", width=_WIDTH_PX, height=height, fill=PAPER),
        _head(plan, title),
        *(_block(block, system) for block in drawn),
        _words(found, places[-1], wide if len(found) % 2 else 2 * wide + _GAP_PX),
    )


def _frame(plan: Plan, bounds: Bounds, scale: float, place: Point) -> Frame:
    """Frame of the side inside a block."""
    return Frame(bounds, scale, place[0], place[1] + _BLOCK_HEAD_PX, plan.side.side == "right")


def _head(plan: Plan, title: str) -> str:
    """Head of the whole picture."""
    text = f"{plan.inputs.job} | {plan.side.shape}, {plan.side.side} side | plan {plan.id}"
    parts = [
        label(title, (_EDGE_PX, 34), HEAD_PX, INK, font_weight="700"),
        label(shorten(text, _WIDTH_PX - 2 * _EDGE_PX, TEXT_PX), (_EDGE_PX, 58), TEXT_PX, INK),
    ]
    if plan.inputs.invented:
        parts.append(watermark(INK, _WIDTH_PX - _EDGE_PX))
    return "".join(parts)


def worst_text(field: CoatMap, system: System = "metric") -> str:
    """Say the worst value and where it is.

    Parameters
    ----------
    field
        A field.
    system
        How figures are shown.

    Returns
    -------
    Such as "worst 1.3 at front door, at the wing gap".
    """
    if _nowhere(field):
        return "none anywhere"
    unit = f" {field.unit}" if field.unit else ""
    where = f", {field.worst_where}" if field.worst_where else ""
    return retell(f"worst {figures(field.worst)}{unit}", system) + where


def _nowhere(field: CoatMap) -> bool:
    """Whether there is nothing to ring."""
    return field.kind != "film" and field.worst <= 0


def _block(block: _Block, system: System) -> str:
    """One map: head, cells, outline, ring and scale."""
    frame, field = block.frame, block.field
    room = frame.right_px - frame.left_px
    head = label(
        shorten(_HEADS[field.kind], room, 18, bold=True),
        (frame.left_px, frame.top_px - 32),
        18,
        INK,
        font_weight="700",
    )
    ring = "" if _nowhere(field) else _ring((frame.left_px + 9, frame.top_px - 14), 7)
    worst = label(
        shorten(worst_text(field, system), room - 24, SMALLEST_PX),
        (frame.left_px + 24, frame.top_px - 9),
        SMALLEST_PX,
        INK,
    )
    side = backdrop(block.plan.side.outline.backdrop, frame, COLOUR)
    return element(
        "g", head, ring, worst, side, _cells(block), _lines(block), _scale_bar(block), data_map=field.kind
    )


def _cells(block: _Block) -> str:
    """Coloured cells, clipped to the panels that carry values."""
    scale, field = block.scale, block.field
    classes = classes_of(field, scale.edges)
    clip = element(
        "clipPath",
        *(
            element("path", d=panel_data(panel, block.frame), clip_rule="evenodd")
            for panel in block.plan.side.outline.panels
        ),
        id=f"{block.prefix}-clip",
    )
    shapes = []
    for number, colour in enumerate(scale.colours):
        data = block_data(field, block.frame, blocks(classes, number.__eq__))
        if data:
            shapes.append(element("path", d=data, fill=colour, stroke=colour, stroke_width=0.6))
    shapes += _overlays(block)
    for limit in scale.contours:
        data = contour_data(field, block.frame, limit)
        if data:
            width = 2.4 if field.kind in _THICK and limit == scale.contours[-1] else 1.2
            shapes.append(element("path", d=data, fill="none", stroke=INK, stroke_width=width))
    return clip + element("g", *shapes, clip_path=f"url(#{block.prefix}-clip)")


def _overlays(block: _Block) -> list[str]:
    """Level lines where the film is thin, dots where it is thick."""
    scale = block.scale
    if scale.under is None or scale.over is None:
        return []
    under, over = scale.under, scale.over
    classes = classes_of(block.field, scale.edges)
    lines = element("path", d="M0,3H6", stroke=INK, stroke_width=1.1)
    dots = element("circle", cx=3, cy=3, r=1.2, fill=INK)
    shapes = []
    for name, mark, chosen in (("under", lines, lambda v: v <= under), ("over", dots, lambda v: v >= over)):
        ident = f"{block.prefix}-{name}"
        pattern = element("pattern", mark, id=ident, width=6, height=6, patternUnits="userSpaceOnUse")
        data = block_data(block.field, block.frame, blocks(classes, chosen))
        shapes.append(pattern)
        if data:
            shapes.append(element("path", d=data, fill=f"url(#{ident})"))
    return shapes


def _lines(block: _Block) -> str:
    """Outline of the panels over the cells, and the ring about the worst cell."""
    outlines = "".join(
        element("path", d=panel_data(panel, block.frame), fill="none", stroke=INK, stroke_width=1.4)
        for panel in block.plan.side.outline.panels
    )
    return outlines + ("" if _nowhere(block.field) else _ring(block.frame.at(block.field.worst_at), 11))


def _ring(at: Point, radius: float) -> str:
    """A ring in ink with a white rim."""
    casing = element("circle", cx=at[0], cy=at[1], r=radius, fill="none", stroke="#FFFFFF", stroke_width=5.5)
    return casing + element("circle", cx=at[0], cy=at[1], r=radius, fill="none", stroke=INK, stroke_width=2.5)


def _scale_bar(block: _Block) -> str:
    """The bar under a map: colours, patterns, ticks with words."""
    scale, frame = block.scale, block.frame
    left, top = frame.left_px + 30, frame.bottom_px + 14
    wide, high = _BAR_PX
    low, end = scale.ticks[0][0], scale.ticks[-1][0]
    limits = (low, *(edge for edge in scale.edges if low < edge < end), end)
    first = sum(edge <= low for edge in scale.edges)
    shapes = []
    for index, (a, b) in enumerate(pairwise(limits)):
        x, run = left + (a - low) / (end - low) * wide, (b - a) / (end - low) * wide
        number = first + index
        shapes.append(element("rect", x=x, y=top, width=run, height=high, fill=scale.colours[number]))
        name = _overlay_name(scale, number)
        if name:
            fill = f"url(#{block.prefix}-{name})"
            shapes.append(element("rect", x=x, y=top, width=run, height=high, fill=fill))
    shapes.append(
        element("rect", x=left, y=top, width=wide, height=high, fill="none", stroke=INK, stroke_width=1.2)
    )
    for value, text in scale.ticks:
        x = left + (value - low) / (end - low) * wide
        shapes.append(element("path", d=f"M{x:.1f},{top:.1f}v{high + 5:.1f}", stroke=INK, stroke_width=1.4))
        shapes.append(label(text, (x, top + high + 20), SMALLEST_PX, INK, text_anchor="middle"))
    return "".join(shapes)


def _overlay_name(scale: MapScale, number: int) -> str:
    """Which pattern a class carries."""
    if scale.under is not None and number <= scale.under:
        return "under"
    if scale.over is not None and number >= scale.over:
        return "over"
    return ""


def _words(found: list[CoatMap], place: Point, wide: float) -> str:
    """How to read the maps, beside them."""
    shapes = [label("How to read the maps", (place[0], place[1] + 22), 18, INK, font_weight="700")]
    y = place[1] + 50
    for field in found:
        for line in wrap(_READING[field.kind], wide / _STRETCH, TEXT_PX):
            shapes.append(label(line, (place[0], y), TEXT_PX, INK))
            y += 22
        y += 8
    shapes.append(_ring((place[0] + 9, y - 5), 7))
    note = "the worst place, named above each map"
    shapes.append(label(note, (place[0] + 24, y), TEXT_PX, INK))
    estimate = "Estimates from the planned strokes; the paint on the panel comes first."
    shapes += [
        label(line, (place[0], y + 30 + 20 * index), SMALLEST_PX, MUTED)
        for index, line in enumerate(wrap(estimate, wide, SMALLEST_PX))
    ]
    return "".join(shapes)
