"""The signs: one symbol each, drawn by shape so that they are told apart without colour."""

from laydown.report.kit.style import Tones
from laydown.report.kit.svg import element, label
from laydown.schema.side import Point


def spread(places: list[float], widths: list[float], room: Point) -> list[float]:
    """Push labels apart along a line until none touches the next."""
    middles = list(places)
    for index in range(len(middles)):
        least = room[0] + widths[0] / 2
        if index:
            least = middles[index - 1] + (widths[index - 1] + widths[index]) / 2
        middles[index] = max(middles[index], least)
    most = room[1]
    for index in reversed(range(len(middles))):
        middles[index] = min(middles[index], most - widths[index] / 2)
        most = middles[index] - widths[index] / 2
    return middles


_BOX = "-24 -24 48 48"


def sign_symbols(prefix: str, palette: Tones) -> str:
    """Write the symbols of all signs."""
    ink, paper = palette.ink, palette.paper
    shapes = {
        "flag": element("path", d="M0,0V-21L15,-15.5L0,-10", fill=ink, stroke=ink, stroke_width=2.4)
        + element("circle", cx=0, cy=0, r=5, fill=ink, stroke=paper, stroke_width=2),
        "cup": element("path", d="M-10,-12H10L6.5,12H-6.5Z", fill=paper, stroke=ink, stroke_width=2.4)
        + element("path", d="M-8.6,-2H8.6L6.3,11H-6.3Z", fill=ink),
        "drop": element("path", d="M0,-13C6,-4 9,0 9,5A9,9 0 0 1 -9,5C-9,0 -6,-4 0,-13Z", fill=palette.wet),
        "hourglass": element(
            "path",
            d="M-9,-12H9L-9,12H9Z",
            fill=paper,
            stroke=palette.tight,
            stroke_width=3,
            stroke_linejoin="round",
        ),
        "broken": element(
            "path",
            d="M-3,-14L3,-8L-3,-2M3,2L-3,8L3,14M-9,2L9,-2",
            fill="none",
            stroke=palette.dry,
            stroke_width=3,
        ),
        "diamond": element("path", d="M0,-10L10,0L0,10L-10,0Z", fill=paper, stroke=ink, stroke_width=2.4),
        "step": element("path", d="M-12,10H-4V3H4V-4H12V10Z", fill=paper, stroke=ink, stroke_width=2.2)
        + element("path", d="M-8,-3V-13M-12,-9L-8,-13L-4,-9", fill="none", stroke=ink, stroke_width=2.2),
    }
    return "".join(
        element("symbol", shape, id=f"{prefix}-{name}", viewBox=_BOX, overflow="visible")
        for name, shape in shapes.items()
    )


def sign(prefix: str, name: str, at: tuple[float, float], size: float = 48) -> str:
    """Place a sign."""
    return element(
        "use", href=f"#{prefix}-{name}", x=at[0] - size / 2, y=at[1] - size / 2, width=size, height=size
    )


def plate(text: str, at: tuple[float, float], edge: float, palette: Tones) -> str:
    """Draw the plate with the number of a section."""
    square = element(
        "rect",
        x=at[0] - edge / 2,
        y=at[1] - edge / 2,
        width=edge,
        height=edge,
        rx=edge * 0.22,
        fill=palette.ink,
        stroke=palette.paper,
        stroke_width=2,
    )
    numeral = label(
        text,
        (at[0], at[1] + edge * 0.235),
        edge * 0.68,
        palette.paper,
        font_weight="700",
        text_anchor="middle",
    )
    return square + numeral
