"""The picture of a side on which panels are chosen: what is damaged, and how far each layer would reach."""

from collections.abc import Mapping
from dataclasses import dataclass

from laydown.report.kit.coat_scene import layer_pattern
from laydown.report.kit.style import COLOUR, INK, LAYER_TONES
from laydown.report.kit.svg import element, picture
from laydown.report.kit.vehicle_frame import VehicleFrame, side_bounds
from laydown.report.side.body import backdrop, panel_data, roomiest, wheels
from laydown.schema.message import Name
from laydown.schema.side import Point, Side, SidePanel
from laydown.words.show import ENGLISH, Words

_WIDTH_PX = 800.0
_EDGE_PX = 6.0
_LINES = {"ground": "#FFFFFF", "effect": INK, "clear": "#3F5873"}
_CELL_PX = 12.0


@dataclass(frozen=True, slots=True)
class Chosen:
    """What a panel shows."""

    outermost: str
    damaged: bool


def choice_svg(
    side: Side,
    chosen: Mapping[str, Chosen],
    *,
    mirrored: bool,
    prefix: str = "choice",
    words: Words = ENGLISH,
) -> str:
    """Draw a side with what is chosen on its panels."""
    bounds = side_bounds(side)
    scale = (_WIDTH_PX - 2 * _EDGE_PX) / (bounds.right_m - bounds.left_m)
    frame = VehicleFrame(bounds, scale, _EDGE_PX, _EDGE_PX, mirrored=mirrored)
    patterns = [
        layer_pattern(layer, f"{prefix}-{layer}", (LAYER_TONES[layer], _LINES[layer]), _CELL_PX)
        for layer in LAYER_TONES
    ]
    nothing = Chosen("", damaged=False)
    panels = [_panel(panel, frame, chosen.get(panel.id, nothing), prefix) for panel in side.panels]
    crosses = [
        _cross(frame.at(roomiest(panel))) for panel in side.panels if chosen.get(panel.id, nothing).damaged
    ]
    return picture(
        (_WIDTH_PX, frame.bottom_px + _EDGE_PX),
        words.say("choice-title", shape=Name(side.name)),
        _described(side, chosen, words),
        element("defs", *patterns),
        backdrop(side.backdrop, frame, COLOUR),
        *panels,
        wheels(side.backdrop, frame, COLOUR),
        *crosses,
    )


def _described(side: Side, chosen: Mapping[str, Chosen], words: Words) -> str:
    """Say in words what the picture shows."""
    told = [
        words.say(f"choice.{chosen[panel.id].outermost}", panel=Name(panel.label))
        for panel in side.panels
        if panel.id in chosen and chosen[panel.id].outermost
    ]
    return "; ".join(told) or words.say("choice-none")


def _panel(panel: SidePanel, frame: VehicleFrame, shown: Chosen, prefix: str) -> str:
    """One panel in the pattern of its lowest layer."""
    fill = f"url(#{prefix}-{shown.outermost})" if shown.outermost else COLOUR.paper
    return element(
        "path",
        d=panel_data(panel, frame),
        fill=fill,
        fill_rule="evenodd",
        stroke=INK,
        stroke_width=4.0 if shown.damaged else 1.8,
        stroke_linejoin="round",
        data_panel=panel.id,
    )


def _cross(at: Point) -> str:
    """The mark of damage: a cross on a plate."""
    x, y = at
    plate = element(
        "rect", x=x - 17, y=y - 17, width=34, height=34, rx=6, fill=INK, stroke="#FFFFFF", stroke_width=3
    )
    cross = element(
        "path",
        d=f"M{x - 8:.1f},{y - 8:.1f}l16,16m0,-16l-16,16",
        stroke="#FFFFFF",
        stroke_width=4.5,
        stroke_linecap="round",
    )
    return element("g", plate, cross, pointer_events="none")
