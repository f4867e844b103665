"""The picture of one coat on the side: where to start, in which order, where the joins lie and how much time is spare."""

from dataclasses import replace

from laydown.report.kit.chart import about_text, watermark
from laydown.report.kit.coat_scene import (
    Scene,
    coat_numbered,
    coat_parts,
    layer_named,
    section_patterns,
)
from laydown.report.kit.signs import plate, sign, sign_symbols
from laydown.report.kit.style import HEAD_PX, JOIN_PX, TEXT_PX, tones
from laydown.report.kit.svg import element, label, picture, track
from laydown.report.kit.text_width import shorten
from laydown.report.kit.vehicle_frame import VehicleFrame, side_bounds
from laydown.report.side.body import body, body_lines, masked_parts, masked_pattern, wheels
from laydown.report.side.fades import reach, reach_height
from laydown.report.side.joins import join_line, join_mark
from laydown.report.side.legend import legend, legend_height
from laydown.report.side.plates import leader, plate_edge, plate_places, step_places
from laydown.report.side.ruler import METRES_PX, metres, ruler, ruler_height
from laydown.report.side.sections import flag, sections, starts, ways
from laydown.schema.coat import Coat, Layer
from laydown.schema.message import Name, message
from laydown.schema.plan import Plan
from laydown.schema.side import Point
from laydown.words.numbers import place_words
from laydown.words.show import ENGLISH, Words


def title_of(scene: Scene) -> str:
    """Head of a picture."""
    words, coat = scene.words, scene.coat
    parts = Name(coat_parts(coat, words))
    if coat.part == "drop":
        said = message("coat-title-drop", short_layer=scene.layer.name, parts=parts)
    else:
        of = sum(one.part != "drop" for one in scene.layer.coats)
        said = message("coat-title", short_layer=scene.layer.name, number=coat.number, of=of, parts=parts)
    told = words(said)
    return f"{told[:1].upper()}{told[1:]}"


def amount_of(coat: Coat, words: Words) -> str:
    """Time and paint of a coat."""
    return words.say("coat-amount", elapsed_s=round(coat.elapsed_s), sprayed_g=round(coat.sprayed_g))


def describe(scene: Scene) -> str:
    """Say in words what the picture shows."""
    side, coat = scene.plan.side, scene.coat
    said = [
        message("side-said", shape=Name(side.shape), side=side.side, start=coat.start),
        *(
            message(
                "section-said",
                number=section.order,
                panels=tuple(map(Name, section.panels)),
                spray_s=round(section.spray_s),
                sprayed_g=round(section.sprayed_g),
            )
            for section in coat.sections
        ),
        *(
            message(
                "join-said",
                join=Name(join.id),
                place=Name(place_words(join.feature)),
                join_state=join.state,
                margin_s=round(join.margin_s.value),
                low_s=round(join.margin_s.low),
                high_s=round(join.margin_s.high),
            )
            for join in coat.joins
        ),
        *(
            message("fill-said", fill_g=round(refill.fill_g), section=refill.after_section)
            for refill in coat.refills
        ),
    ]
    return " ".join(map(scene.words, said))


_WIDTH_PX = 1200.0
_NARROWEST_PX = 800.0
_GUTTER_PX = 76.0
_EDGE_PX = 20.0
_HEAD_ROOM_PX = 72.0


def side_svg(
    plan: Plan,
    layer: str,
    coat: int,
    *,
    grey: bool = False,
    words: Words = ENGLISH,
    width_px: float = _WIDTH_PX,
) -> str:
    """Draw one coat on the side."""
    if width_px < _NARROWEST_PX:
        raise ValueError(f"width_px must be {_NARROWEST_PX:g} or more; got {width_px:g}")
    scene = replace(make_scene(plan, layer, coat, grey=grey, width_px=width_px), words=words)
    legend_room = width_px - 2 * _EDGE_PX
    foot = scene.frame.bottom_px + METRES_PX
    legend_top = foot + reach_height(scene) + 4
    height = legend_top + legend_height(scene, legend_room) + 10
    return picture(
        (width_px, round(height)),
        title_of(scene),
        describe(scene),
        element("rect", width=width_px, height=round(height), fill=scene.palette.paper),
        definitions(scene),
        _head(scene),
        ruler(scene, _HEAD_ROOM_PX),
        side_shapes(scene),
        metres(scene),
        reach(scene, foot),
        legend(scene, legend_top, _EDGE_PX, legend_room),
    )


def make_scene(plan: Plan, layer: str, coat: int, *, grey: bool, width_px: float = _WIDTH_PX) -> Scene:
    """Put a coat into the frame of the whole picture."""
    bounds = side_bounds(plan.side.outline)
    scale = (width_px - _GUTTER_PX - _EDGE_PX) / (bounds.right_m - bounds.left_m)
    shown = layer_named(plan, layer)
    frame = VehicleFrame(bounds, scale, _GUTTER_PX, 0.0, plan.side.side == "right")
    prefix = f"p{plan.id}-{layer}{coat}{'g' if grey else ''}"
    scene = Scene(plan, shown, coat_numbered(shown, coat), frame, tones(grey=grey), prefix)
    top = _HEAD_ROOM_PX + ruler_height(scene)
    moved = VehicleFrame(bounds, scale, _GUTTER_PX, top, frame.mirrored)
    return Scene(plan, shown, scene.coat, moved, scene.palette, prefix)


def definitions(scene: Scene) -> str:
    """Write every pattern and symbol a picture uses."""
    return element(
        "defs",
        masked_pattern(scene.prefix, scene.palette),
        section_patterns(scene),
        sign_symbols(scene.prefix, scene.palette),
    )


def side_shapes(scene: Scene) -> str:
    """Draw the side with sections, ways, joins, refills and plates."""
    return (
        body(scene)
        + sections(scene)
        + body_lines(scene)
        + masked_parts(scene)
        + ways(scene)
        + wheels(scene.plan.side.outline.backdrop, scene.frame, scene.palette)
        + _joins(scene)
        + starts(scene)
        + flag(scene)
        + _plates(scene)
    )


def _joins(scene: Scene) -> str:
    """Every join along its line, a cup on top where the cup is filled."""
    shapes = []
    refilled = {refill.after_section for refill in scene.coat.refills}
    for join in scene.coat.joins:
        line = scene.frame.all(join_line(scene.plan.side, scene.coat, join))
        width = JOIN_PX * max(scene.signs, 0.7)
        shapes.append(element("g", join_mark(line, join.state, scene.palette, width), data_join=join.id))
        if join.between[0] in refilled:
            shapes.append(
                sign(scene.prefix, "cup", (line[-1][0], line[-1][1] + 14 * scene.signs), 56 * scene.signs)
            )
    return "".join(shapes)


def _plates(scene: Scene) -> str:
    """The number of every section, and a step where it lies above reach."""
    shapes = []
    places = plate_places(scene)
    edge = plate_edge(scene)
    for section in scene.coat.sections:
        place = places[section.order]
        mark = plate(str(section.order), place, edge, scene.palette)
        led = _leader(leader(scene, section, place), scene)
        shapes.append(element("g", led, mark, data_order=section.order))
    steps = step_places(scene, places)
    shapes += [sign(scene.prefix, "step", at, 50 * scene.signs) for at in steps.values()]
    return "".join(shapes)


def _leader(line: tuple[Point, ...], scene: Scene) -> str:
    """Line from a plate into its section, with a dot where it ends."""
    if not line:
        return ""
    end = line[-1]
    way = element("path", d=track(line), fill="none", stroke=scene.palette.ink, stroke_width=1.8)
    rim = scene.palette.paper
    return way + element(
        "circle", cx=end[0], cy=end[1], r=4, fill=scene.palette.ink, stroke=rim, stroke_width=1.5
    )


def _head(scene: Scene) -> str:
    """Head, what it is about, and the watermark."""
    plan, palette = scene.plan, scene.palette
    right_px = scene.frame.right_px
    text = about_text(plan, scene.words, amount_of(scene.coat, scene.words))
    parts = [
        label(title_of(scene), (_EDGE_PX, 34), HEAD_PX, palette.ink, font_weight="700"),
        label(shorten(text, right_px - _EDGE_PX, TEXT_PX), (_EDGE_PX, 58), TEXT_PX, palette.ink),
    ]
    if plan.inputs.invented:
        parts.append(watermark(scene.palette.ink, right_px, scene.words))
    return "".join(parts)


def all_coats(plan: Plan) -> tuple[tuple[Layer, Coat], ...]:
    """Every coat of a plan in the order of work."""
    return tuple((layer, coat) for layer in plan.layers for coat in layer.coats)
