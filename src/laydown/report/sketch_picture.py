"""The sketch on the card: the side, its sections and joins, and the ruler, without words that a table repeats."""

from laydown.report.frame import Frame, side_bounds
from laydown.report.plate_places import plate_edge, plate_places
from laydown.report.ruler_picture import plain_ruler, plain_ruler_height
from laydown.report.scene import Scene, coat_numbered, layer_named
from laydown.report.side_picture import definitions, describe, side_shapes, title_of
from laydown.report.style import tones
from laydown.report.svg import element, picture
from laydown.schema.plan import Plan
from laydown.units import System

_GUTTER_PX = 24.0
_EDGE_PX = 3.0
_LARGE_PX = 500.0


def sketch_svg(plan: Plan, layer: str, coat: int, width_px: float, system: System = "metric") -> str:
    """Draw one coat for print, in black on white.

    Parameters
    ----------
    plan
        The plan.
    layer
        "ground", "effect" or "clear".
    coat
        Number of the coat, from 1.
    width_px
        Width [px]; signs keep their size, so a narrow sketch shows less of the way of the gun.
    system
        How figures are shown.

    Returns
    -------
    A complete SVG document.

    Raises
    ------
    ValueError
        When the plan has no such layer or coat.
    """
    shown = layer_named(plan, layer)
    bounds = side_bounds(plan.side.outline)
    scale = (width_px - _GUTTER_PX - _EDGE_PX) / (bounds.right_m - bounds.left_m)
    top = plain_ruler_height(shown)
    signs = 1.0 if width_px >= _LARGE_PX else 0.62
    frame = Frame(bounds, scale, _GUTTER_PX, top, plan.side.side == "right")
    scene = Scene(
        plan,
        shown,
        coat_numbered(shown, coat),
        frame,
        tones(grey=True),
        f"c{plan.id}-{layer}{coat}",
        signs,
        system,
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
