"""The sketch on the card: the side, its sections and joins, and the ruler, without words that a table repeats."""

from laydown.report.kit.coat_scene import Scene, coat_numbered, layer_named
from laydown.report.kit.style import tones
from laydown.report.kit.svg import element, picture
from laydown.report.kit.vehicle_frame import VehicleFrame, side_bounds
from laydown.report.side.coat import definitions, describe, side_shapes, title_of
from laydown.report.side.legend import LegendNeeds, legend, legend_height, shown_in
from laydown.report.side.plates import plate_edge, plate_places
from laydown.report.side.ruler import plain_ruler, plain_ruler_height
from laydown.schema.coat import Layer
from laydown.schema.plan import Plan
from laydown.words.show import ENGLISH, Words

_GUTTER_PX = 24.0
_EDGE_PX = 3.0
_LARGE_PX = 500.0
_PLAIN_PX = 400.0
_KEY_ROW_PX = 27.0


def sketch_svg(plan: Plan, layer: str, coat: int, width_px: float, words: Words = ENGLISH) -> str:
    """Draw one coat for print, in black on white."""
    shown = layer_named(plan, layer)
    bounds = side_bounds(plan.side.outline)
    scale = (width_px - _GUTTER_PX - _EDGE_PX) / (bounds.right_m - bounds.left_m)
    top = plain_ruler_height(shown)
    signs = 1.0 if width_px >= _LARGE_PX else 0.62
    frame = VehicleFrame(bounds, scale, _GUTTER_PX, top, plan.side.side == "right")
    scene = Scene(
        plan,
        shown,
        coat_numbered(shown, coat),
        frame,
        tones(grey=True),
        f"c{plan.id}-{layer}{coat}",
        signs,
        plain=width_px < _PLAIN_PX,
        words=words,
    )
    lowest = max((y for _, y in plate_places(scene).values()), default=0.0) + plate_edge(scene) / 2
    height = round(max(frame.bottom_px, lowest) + 4)
    return picture(
        (width_px, height),
        title_of(scene),
        describe(scene),
        element("rect", width=width_px, height=height, fill="#FFFFFF"),
        definitions(scene),
        plain_ruler(scene),
        side_shapes(scene),
    )


def key_svg(
    plan: Plan, layers: tuple[Layer, ...], width_px: float, sketch_px: float, words: Words = ENGLISH
) -> str:
    """Draw the legend of all sketches of a card."""
    frame = VehicleFrame(side_bounds(plan.side.outline), 1.0, 0.0, 0.0, mirrored=False)
    scenes = [
        Scene(plan, layer, coat, frame, tones(grey=True), f"k{plan.id}", words=words)
        for layer in layers
        for coat in layer.coats
    ]
    kinds = [shown_in(scene) for scene in scenes]
    shown = LegendNeeds(
        way=sketch_px >= _PLAIN_PX,
        refills=any(kind.refills for kind in kinds),
        steps=any(kind.steps for kind in kinds),
        fades=any(kind.fades for kind in kinds),
        row_px=_KEY_ROW_PX,
        short=True,
    )
    scene = scenes[0]
    height = legend_height(scene, width_px, shown)
    return picture(
        (width_px, height),
        words.say("key-title"),
        words.say("key-said"),
        definitions(scene),
        legend(scene, 0, 0, width_px, shown),
    )
