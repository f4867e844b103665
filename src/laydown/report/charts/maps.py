"""Maps of one coat in the same frame: film, age of the edge, dry spray, and the colour that comes of the film."""

from dataclasses import dataclass
from itertools import pairwise

from laydown.report.charts.map_cells import block_data, blocks, classes_of, contour_data
from laydown.report.charts.map_scale import AGE_BANDS, SEEN_BANDS, MapScale, scale_of
from laydown.report.kit.chart import about_text, watermark
from laydown.report.kit.coat_scene import coat_name, coat_numbered, layer_named
from laydown.report.kit.style import COLOUR, HEAD_PX, INK, MUTED, PAPER, SMALLEST_PX, TEXT_PX
from laydown.report.kit.svg import element, label, picture
from laydown.report.kit.text_width import shorten, wrap
from laydown.report.kit.vehicle_frame import DrawnBox, VehicleFrame, side_bounds
from laydown.report.side.body import backdrop, panel_data
from laydown.schema.coat import CoatMap, Maps
from laydown.schema.message import Message, Name, message
from laydown.schema.plan import Plan
from laydown.schema.side import Point
from laydown.words.show import ENGLISH, Words

_STRETCH = 1.2
_LINE_PX = 22.0


def nowhere(field: CoatMap) -> bool:
    """Say whether there is nothing to show."""
    return field.kind != "film" and field.worst <= 0


def _shows(field: CoatMap, words: Words) -> str:
    """Say what a map shows."""
    return words.say(f"map-head.{_code(field)}")


def _code(field: CoatMap) -> str:
    """Kind of a map as it stands in codes."""
    return field.kind.replace(" ", "-")


def _reading(field: CoatMap, words: Words) -> str:
    """How to read a map."""
    return words.say(f"map-none.{_code(field)}" if nowhere(field) else f"map-reading.{_code(field)}")


def worst_text(field: CoatMap, words: Words = ENGLISH) -> str:
    """Say the worst value, what it means and where it is."""
    if nowhere(field):
        return words.say("map-nowhere")
    told = words(_worst(field))
    if not field.worst_where:
        return told
    return words.say("map-where", worst=Name(told), where=field.worst_where)


def _worst(field: CoatMap) -> Message:
    """The worst value and what it means."""
    worst = field.worst
    if field.kind == "film":
        name = "thinnest" if worst < field.target else "thickest"
        if not field.target:
            return message(f"map-film.{name}", film_g_m2=worst)
        return message(f"map-film-of.{name}", film_g_m2=worst, film_share=worst / field.target)
    if field.kind == "age":
        return message("map-oldest", age_share=worst, age_band=_band(AGE_BANDS, worst))
    if field.kind == "appearance":
        return message("map-worst", worst=worst, unit=Name(field.unit), seen=_band(SEEN_BANDS, worst))
    return message("map-most", dry_g_m2=worst)


def _band(bands: tuple[tuple[float, float, str], ...], value: float) -> str:
    """Label of the band a value lies in."""
    return next((word for _, high, word in bands if value < high), bands[-1][2])


def reading_words(
    found: list[CoatMap], place: Point, column: tuple[float, float], columns: int, words: Words
) -> tuple[str, float]:
    """Write how to read the maps."""
    wide, gap = column
    parts = [wrap(_reading(field, words), wide / _STRETCH, TEXT_PX) for field in found]
    half = len(parts) if columns == 1 else (len(parts) + 1) // 2
    shapes = [label(words.say("maps-reading"), (place[0], place[1] + 22), 18, INK, font_weight="700")]
    lowest = 0.0
    for number, mine in enumerate((parts[:half], parts[half:])):
        x, y = place[0] + number * (wide + gap), place[1] + 50
        for lines in mine:
            shapes += [label(line, (x, y + _LINE_PX * row), TEXT_PX, INK) for row, line in enumerate(lines)]
            y += _LINE_PX * len(lines) + 8
        lowest = max(lowest, y)
    shapes.append(ring((place[0] + 9, lowest - 5), 7))
    shapes.append(label(words.say("maps-ring"), (place[0] + 24, lowest), TEXT_PX, INK))
    aside = columns == 2
    at = (place[0] + wide + gap, lowest) if aside else (place[0], lowest + 28)
    shapes += [
        label(line, (at[0], at[1] + 20 * row), SMALLEST_PX, MUTED)
        for row, line in enumerate(wrap(words.say("maps-estimate"), wide / _STRETCH, SMALLEST_PX))
    ]
    return "".join(shapes), at[1] + 30 - place[1]


def ring(at: Point, radius: float) -> str:
    """Draw a ring in ink with a white rim."""
    casing = element("circle", cx=at[0], cy=at[1], r=radius, fill="none", stroke="#FFFFFF", stroke_width=5.5)
    return casing + element("circle", cx=at[0], cy=at[1], r=radius, fill="none", stroke=INK, stroke_width=2.5)


_WIDTH_PX = 1200.0
_EDGE_PX = 20.0
_GAP_PX = 32.0
_HEAD_PX = 76.0
_BLOCK_HEAD_PX = 54.0
_BLOCK_FOOT_PX = 84.0
_BAR_PX = (400.0, 16.0)
_THICK = ("age", "appearance")


@dataclass(frozen=True, slots=True)
class _Block:
    """One map in its place: field, scale, frame and the ids it uses."""

    plan: Plan
    field: CoatMap
    scale: MapScale
    frame: VehicleFrame
    prefix: str


def maps_svg(plan: Plan, maps: Maps, layer: str, coat: int, words: Words = ENGLISH) -> str:
    """Draw the maps of one coat."""
    found = [field for field in maps.coats if (field.layer, field.coat) == (layer, coat)]
    shown = coat_numbered(layer_named(plan, layer), coat)
    if not found:
        raise ValueError(f"maps must hold {layer} coat {coat}; they hold none of it")
    mapped = [field for field in found if not nowhere(field)] or found
    wide = (_WIDTH_PX - 2 * _EDGE_PX - _GAP_PX) / 2
    bounds = side_bounds(plan.side.outline)
    scale = wide / (bounds.right_m - bounds.left_m)
    high = (bounds.top_m - bounds.bottom_m) * scale + _BLOCK_HEAD_PX + _BLOCK_FOOT_PX
    places = [
        (_EDGE_PX + (wide + _GAP_PX) * (i % 2), _HEAD_PX + high * (i // 2)) for i in range(len(mapped) + 1)
    ]
    drawn = [
        _Block(
            plan,
            field,
            scale_of(field, words),
            _frame(plan, bounds, scale, place),
            f"m{plan.id}-{layer}{coat}-{index}",
        )
        for index, (field, place) in enumerate(zip(mapped, places, strict=False))
    ]
    columns = 1 if len(mapped) % 2 else 2
    reading, reading_high = reading_words(found, places[-1], (wide, _GAP_PX), columns, words)
    height = round(max(_HEAD_PX + high * ((len(mapped) + 1) // 2), places[-1][1] + reading_high) + 12)
    told = words.say("maps-title", short_layer=layer, coat=Name(coat_name(shown, words)))
    title = f"{told[:1].upper()}{told[1:]}"
    return picture(
        (_WIDTH_PX, height),
        title,
        " ".join(
            words.say("maps-said", map=Name(_shows(field, words)), worst=Name(worst_text(field, words)))
            for field in found
        ),
        element("rect", width=_WIDTH_PX, height=height, fill=PAPER),
        _head(plan, title, words),
        *(_block(block, words) for block in drawn),
        reading,
    )


def _frame(plan: Plan, bounds: DrawnBox, scale: float, place: Point) -> VehicleFrame:
    """Frame of the side inside a block."""
    return VehicleFrame(bounds, scale, place[0], place[1] + _BLOCK_HEAD_PX, plan.side.side == "right")


def _head(plan: Plan, title: str, words: Words) -> str:
    """Head of the whole picture."""
    text = about_text(plan, words)
    parts = [
        label(title, (_EDGE_PX, 34), HEAD_PX, INK, font_weight="700"),
        label(shorten(text, _WIDTH_PX - 2 * _EDGE_PX, TEXT_PX), (_EDGE_PX, 58), TEXT_PX, INK),
    ]
    if plan.inputs.invented:
        parts.append(watermark(INK, _WIDTH_PX - _EDGE_PX, words))
    return "".join(parts)


def _block(block: _Block, words: Words) -> str:
    """One map: head, cells, outline, ring and scale."""
    frame, field = block.frame, block.field
    room = frame.right_px - frame.left_px
    head = label(
        shorten(_shows(field, words), room, 18, bold=True),
        (frame.left_px, frame.top_px - 32),
        18,
        INK,
        font_weight="700",
    )
    mark = "" if nowhere(field) else ring((frame.left_px + 9, frame.top_px - 14), 7)
    worst = label(
        shorten(worst_text(field, words), room - 24, SMALLEST_PX),
        (frame.left_px + 24, frame.top_px - 9),
        SMALLEST_PX,
        INK,
    )
    side = backdrop(block.plan.side.outline.backdrop, frame, COLOUR)
    return element(
        "g", head, mark, worst, side, _cells(block), _lines(block), _scale_bar(block), data_map=field.kind
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
    return outlines + ("" if nowhere(block.field) else ring(block.frame.at(block.field.worst_at), 11))


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
    for a, b, word in scale.bands:
        x = left + ((a + b) / 2 - low) / (end - low) * wide
        shapes.append(
            label(word, (x, top + high + 38), SMALLEST_PX, INK, text_anchor="middle", font_weight="700")
        )
    shapes.append(label(scale.unit, (left + wide + 12, top + high - 3), SMALLEST_PX, INK))
    return "".join(shapes)


def _overlay_name(scale: MapScale, number: int) -> str:
    """Which pattern a class carries."""
    if scale.under is not None and number <= scale.under:
        return "under"
    if scale.over is not None and number >= scale.over:
        return "over"
    return ""
