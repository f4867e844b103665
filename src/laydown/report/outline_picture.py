"""The picture of a bare side: panels with their names, before anything is planned."""

from itertools import pairwise

from laydown.report.body_picture import backdrop, panel_shape
from laydown.report.frame import Frame, crossings, side_bounds
from laydown.report.measure_text import text_width, wrap
from laydown.report.style import SMALLEST_PX, TEXT_PX, Tones, tones
from laydown.report.svg import label, picture
from laydown.schema.side import Point, Side, SidePanel

_WIDTH_PX = 1200.0
_EDGE_PX = 20.0
_STEPS = 24
_AIR_PX = 8.0
_LEAST_M = 0.3


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
    names = [_name(panel, frame, palette) for panel in side.panels]
    described = f"{side.name}, {side.side} side: {', '.join(panel.label for panel in side.panels)}"
    size = (_WIDTH_PX, frame.bottom_px + _EDGE_PX)
    return picture(size, side.name, described, backdrop(side.backdrop, frame, palette), *panels, *names)


def _name(panel: SidePanel, frame: Frame, palette: Tones) -> str:
    """Name of a panel in as many lines as it takes to stay inside, smaller where it is narrow."""
    place = roomiest(panel)
    spans = crossings([tuple((y, x) for x, y in ring) for ring in panel.rings], place[1])
    wide = next((high - low for low, high in spans if low <= place[0] <= high), _LEAST_M) * frame.scale
    size = TEXT_PX if text_width(panel.label, TEXT_PX) <= wide - _AIR_PX else SMALLEST_PX
    lines = wrap(panel.label, wide - _AIR_PX, size)
    x, y = frame.at(place)
    first = y + size * (0.35 - 0.6 * (len(lines) - 1))
    return "".join(
        label(line, (x, first + 1.2 * size * row), size, palette.ink, text_anchor="middle")
        for row, line in enumerate(lines)
    )


def roomiest(panel: SidePanel) -> Point:
    """Place inside a panel that lies farthest from its outline, up and down counting double: names are wide.

    Parameters
    ----------
    panel
        The panel.

    Returns
    -------
    x and y on the vehicle [m].
    """
    across = [x for x, _ in panel.rings[0]]
    low, high = min(across), max(across)
    places = [
        (x, lower + (upper - lower) * share)
        for x in (low + (high - low) * (step + 0.5) / _STEPS for step in range(_STEPS))
        for lower, upper in crossings(panel.rings, x)
        for share in (0.3, 0.5, 0.7)
    ]
    return max(places, key=lambda place: _room(panel, place))


def _room(panel: SidePanel, place: Point) -> float:
    """Distance to the nearest edge of a panel, heights counted double."""
    at = complex(place[0], 2 * place[1])
    edges = [
        (complex(first[0], 2 * first[1]), complex(second[0], 2 * second[1]))
        for ring in panel.rings
        for first, second in pairwise((*ring, ring[0]))
    ]
    return min(_distance(at, first, second) for first, second in edges)


def _distance(at: complex, first: complex, second: complex) -> float:
    """Distance of a point to a straight edge."""
    along = second - first
    length = abs(along) ** 2
    share = 0.0 if length == 0 else ((at - first) * along.conjugate()).real / length
    return abs(at - first - along * min(1.0, max(0.0, share)))
