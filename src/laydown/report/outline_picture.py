"""The picture of a bare side: panels with their names, before anything is planned."""

from laydown.report.body_picture import backdrop, panel_shape
from laydown.report.frame import Frame, side_bounds
from laydown.report.style import TEXT_PX, tones
from laydown.report.svg import label, picture
from laydown.schema.side import Side

_WIDTH_PX = 1200.0
_EDGE_PX = 20.0


def outline_svg(side: Side, *, grey: bool = False) -> str:
    """Draw a side with the names of its panels.

    Parameters
    ----------
    side
        The side; a right one is drawn with its front to the right.
    grey
        For printing without colour.

    Returns
    -------
    SVG.
    """
    palette = tones(grey=grey)
    bounds = side_bounds(side)
    scale = (_WIDTH_PX - 2 * _EDGE_PX) / (bounds.right_m - bounds.left_m)
    frame = Frame(bounds, scale, _EDGE_PX, _EDGE_PX, mirrored=side.side == "right")
    panels = [panel_shape(panel, frame, palette.paper, palette, "outline") for panel in side.panels]
    names = [
        label(panel.label, frame.at(_middle(panel.rings[0])), TEXT_PX, palette.ink, text_anchor="middle")
        for panel in side.panels
    ]
    described = f"{side.name}, {side.side} side: {', '.join(panel.label for panel in side.panels)}"
    size = (_WIDTH_PX, frame.bottom_px + _EDGE_PX)
    return picture(size, side.name, described, backdrop(side.backdrop, frame, palette), *panels, *names)


def _middle(ring: tuple[tuple[float, float], ...]) -> tuple[float, float]:
    """Middle of the box around a ring."""
    across, up = [x for x, _ in ring], [y for _, y in ring]
    return (min(across) + max(across)) / 2, (min(up) + max(up)) / 2
