"""The picture of one coat on the side: where to start, in which order, where the joins lie and how much time is spare."""

from dataclasses import replace

from laydown.report.kit.coat_scene import (
    Scene,
    coat_name,
    coat_numbered,
    coat_parts,
    layer_named,
    section_patterns,
)
from laydown.report.kit.signs import plate, sign, sign_symbols
from laydown.report.kit.style import HEAD_PX, JOIN_PX, JOIN_WORDS, TEXT_PX, tones
from laydown.report.kit.svg import element, label, picture, track
from laydown.report.kit.text_width import shorten, text_width
from laydown.report.kit.vehicle_frame import Frame, side_bounds
from laydown.report.side.body import body, body_lines, masked_parts, masked_pattern, wheels
from laydown.report.side.fades import reach, reach_height
from laydown.report.side.joins import join_line, join_mark
from laydown.report.side.legend import legend, legend_height
from laydown.report.side.plates import leader, plate_edge, plate_places, step_places
from laydown.report.side.ruler import METRES_PX, metres, ruler, ruler_height
from laydown.report.side.sections import flag, sections, starts, ways
from laydown.schema.coat import Coat, Layer
from laydown.schema.plan import Plan
from laydown.schema.side import Point
from laydown.units import System, show
from laydown.words.numbers import place_words


def title_of(scene: Scene) -> str:
    """Head of a picture.

    Parameters
    ----------
    scene
        What is shown.

    Returns
    -------
    Such as "Effect coat 1 of 3: closed pass and light pass".
    """
    name = f"{scene.layer.name.capitalize()} {coat_name(scene.coat)}"
    if scene.coat.part != "control":
        name += f" of {sum(coat.part != 'control' for coat in scene.layer.coats)}"
    return f"{name}: {coat_parts(scene.coat)}"


def amount_of(coat: Coat) -> str:
    """Time and paint of a coat.

    Parameters
    ----------
    coat
        The coat.

    Returns
    -------
    Such as "3 min 18 s, 542 g".
    """
    return f"{show(round(coat.elapsed_s), 'elapsed_s')}, {show(round(coat.sprayed_g), 'sprayed_g')}"


def describe(scene: Scene) -> str:
    """Say in words what the picture shows.

    Parameters
    ----------
    scene
        What is shown.

    Returns
    -------
    One sentence for each section and each join.
    """
    plan = scene.plan
    parts = [f"{plan.side.shape}, {plan.side.side} side, start at {scene.coat.start}."]
    parts += [
        f"Section {section.order}: {', '.join(section.panels)}, {show(round(section.spray_s), 'spray_s')}, "
        f"{show(round(section.sprayed_g), 'sprayed_g')}."
        for section in scene.coat.sections
    ]
    parts += [
        f"Join {join.id} at {place_words(join.feature)}: {JOIN_WORDS[join.state]}, spare {round(join.spare_s.value)} s "
        f"({round(join.spare_s.low)} to {round(join.spare_s.high)})."
        for join in scene.coat.joins
    ]
    parts += [
        f"Fill {show(round(refill.fill_g), 'fill_g')} after section {refill.after_section}."
        for refill in scene.coat.refills
    ]
    return " ".join(parts)


INVENTED = "invented data"
"""Stands on every page and picture whose job is invented."""

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
    system: System = "metric",
    width_px: float = _WIDTH_PX,
) -> str:
    """Draw one coat on the side.

    Parameters
    ----------
    plan
        The plan.
    layer
        "ground", "effect" or "clear".
    coat
        Number of the coat, from 1.
    grey
        True for print in black and white.
    system
        How figures are shown.
    width_px
        How wide it is shown, from 800 px; words keep their size.

    Returns
    -------
    A complete SVG document, as high as its content.

    Raises
    ------
    ValueError
        When the plan has no such layer or coat, or the width is under 800 px.
    """
    if width_px < _NARROWEST_PX:
        raise ValueError(f"width_px must be {_NARROWEST_PX:g} or more; got {width_px:g}")
    scene = replace(make_scene(plan, layer, coat, grey=grey, width_px=width_px), system=system)
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
    """Put a coat into the frame of the whole picture.

    Parameters
    ----------
    plan
        The plan.
    layer, coat
        What is shown.
    grey
        True for print.
    width_px
        Width of the picture.

    Returns
    -------
    The scene.
    """
    bounds = side_bounds(plan.side.outline)
    scale = (width_px - _GUTTER_PX - _EDGE_PX) / (bounds.right_m - bounds.left_m)
    shown = layer_named(plan, layer)
    frame = Frame(bounds, scale, _GUTTER_PX, 0.0, plan.side.side == "right")
    prefix = f"p{plan.id}-{layer}{coat}{'g' if grey else ''}"
    scene = Scene(plan, shown, coat_numbered(shown, coat), frame, tones(grey=grey), prefix)
    top = _HEAD_ROOM_PX + ruler_height(scene)
    moved = Frame(bounds, scale, _GUTTER_PX, top, frame.mirrored)
    return Scene(plan, shown, scene.coat, moved, scene.palette, prefix)


def definitions(scene: Scene) -> str:
    """Write every pattern and symbol a picture uses.

    Parameters
    ----------
    scene
        What is shown.

    Returns
    -------
    The defs element.
    """
    return element(
        "defs",
        masked_pattern(scene.prefix, scene.palette),
        section_patterns(scene),
        sign_symbols(scene.prefix, scene.palette),
    )


def side_shapes(scene: Scene) -> str:
    """Draw the side with sections, ways, joins, refills and plates.

    Parameters
    ----------
    scene
        What is shown.

    Returns
    -------
    Markup.
    """
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
    text = f"{plan.inputs.job} | {plan.side.shape}, {plan.side.side} side | {amount_of(scene.coat)} | plan {plan.id}"
    parts = [
        label(title_of(scene), (_EDGE_PX, 34), HEAD_PX, palette.ink, font_weight="700"),
        label(shorten(text, right_px - _EDGE_PX, TEXT_PX), (_EDGE_PX, 58), TEXT_PX, palette.ink),
    ]
    if plan.inputs.invented:
        parts.append(watermark(scene.palette.ink, right_px))
    return "".join(parts)


def watermark(tone: str, right_px: float) -> str:
    """Draw the frame that says that the data are invented.

    Parameters
    ----------
    tone
        Colour.
    right_px
        Right edge [px].

    Returns
    -------
    Markup, 10 to 38 px from the top.
    """
    wide = text_width(INVENTED, TEXT_PX, bold=True) + 24
    box = element(
        "rect", x=right_px - wide, y=10, width=wide, height=28, rx=4, fill="none", stroke=tone, stroke_width=2
    )
    text = label(
        INVENTED, (right_px - wide / 2, 29.5), TEXT_PX, tone, font_weight="700", text_anchor="middle"
    )
    return box + text


def all_coats(plan: Plan) -> tuple[tuple[Layer, Coat], ...]:
    """Every coat of a plan in the order of work.

    Parameters
    ----------
    plan
        The plan.

    Returns
    -------
    Layer and coat.
    """
    return tuple((layer, coat) for layer in plan.layers for coat in layer.coats)
