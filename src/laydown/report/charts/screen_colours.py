"""Car and prediction side by side on a screen, angle by angle: for orientation only."""

from dataclasses import dataclass

from laydown.report.kit.chart import EDGE_PX, WIDE_PX, head, notes
from laydown.report.kit.style import INK, MUTED, PAPER, SMALLEST_PX, TEXT_PX
from laydown.report.kit.svg import element, label, picture
from laydown.report.kit.text_width import wrap
from laydown.schema.plan import Plan
from laydown.words.letdown import angle_words, seen_words

LABEL = "Screen colour. For orientation, not for matching."
"""Stands under every pair of tiles."""

_LEFT_PX = 140.0
_TOP_PX = 150.0
_HIGH_PX = 190.0
_GAP_PX = 20.0
_MOST_ANGLES = 6
_LEAST_STOPS = 0.01


@dataclass(frozen=True, slots=True)
class AngleScreen:
    """One angle on a screen.

    Attributes
    ----------
    angle_deg
        Aspecular angle [deg].
    car, ordered
        Screen colours as hex.
    magnified
        The prediction with its difference to the car enlarged; None where that is not shown.
    difference
        CIEDE2000.
    words
        How the prediction differs from the car.
    """

    angle_deg: float
    car: str
    ordered: str
    magnified: str | None
    difference: float
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ScreenPreview:
    """Car and prediction on a screen.

    Attributes
    ----------
    angles
        One for each angle.
    zone
        Zone of the car; may be empty.
    coats
        The predicted count.
    exposure_stops
        By how many stops all tiles were darkened together, 0 or less.
    muted
        Whether the screen lacks a colour, so that it was dulled.
    times
        How many times differences are enlarged in the second row.
    """

    angles: tuple[AngleScreen, ...]
    zone: str
    coats: float
    exposure_stops: float
    muted: bool
    times: float


def preview_svg(plan: Plan, shown: ScreenPreview) -> str:
    """Draw car and prediction.

    Parameters
    ----------
    plan
        The plan.
    shown
        Screen colours, computed elsewhere.

    Returns
    -------
    A complete SVG document; every difference stands in numbers and words.

    Raises
    ------
    ValueError
        When there is no angle to show.
    """
    if not shown.angles:
        raise ValueError("shown must hold at least one angle")
    angles = shown.angles[:_MOST_ANGLES]
    magnified = any(angle.magnified is not None for angle in angles)
    wide = (WIDE_PX - EDGE_PX - _LEFT_PX - _GAP_PX * (len(angles) - 1)) / len(angles)
    second = _TOP_PX + _HIGH_PX + 96
    low = second + _HIGH_PX * 0.6 + 40 if magnified else _TOP_PX + _HIGH_PX + 92
    told, end = notes((LABEL, *_notes(shown)), (EDGE_PX, low + 18), WIDE_PX - 2 * EDGE_PX)
    title = "Car and prediction on the screen"
    car = f"car, {shown.zone}" if shown.zone else "car"
    shapes = []
    for index, angle in enumerate(angles):
        left = _LEFT_PX + index * (wide + _GAP_PX)
        shapes.append(_pair(angle, left, wide))
        if angle.magnified is not None:
            shapes.append(_tiles(angle.car, angle.magnified, (left, second), (wide, _HIGH_PX * 0.6)))
    return picture(
        (WIDE_PX, end),
        title,
        f"{LABEL} " + " ".join(f"{angle_words(row.angle_deg)}: {_difference(row)}." for row in shown.angles),
        element("rect", width=WIDE_PX, height=end, fill=PAPER),
        head(plan, title, f"Left: {car}. Right: {shown.coats:g} coats. {LABEL}"),
        _side(("as they are",), _TOP_PX),
        _side((f"difference x{shown.times:g}", "not the paint!"), second) if magnified else "",
        *shapes,
        told,
    )


def _side(words: tuple[str, ...], top: float) -> str:
    """Name of a row."""
    return "".join(
        label(line, (EDGE_PX, top + 22 + 22 * index), SMALLEST_PX, INK, font_weight=None if index else "700")
        for index, line in enumerate(words)
    )


def _pair(angle: AngleScreen, left: float, wide: float) -> str:
    """One angle: its name, two tiles that touch, the difference in numbers and words."""
    shapes = [
        label(angle_words(angle.angle_deg), (left, _TOP_PX - 28), TEXT_PX, INK, font_weight="700"),
        label("car", (left + 2, _TOP_PX - 8), SMALLEST_PX, MUTED),
        label("plan", (left + wide - 2, _TOP_PX - 8), SMALLEST_PX, MUTED, text_anchor="end"),
        _tiles(angle.car, angle.ordered, (left, _TOP_PX), (wide, _HIGH_PX)),
    ]
    y = _TOP_PX + _HIGH_PX + 24
    head_text = f"{angle.difference:.1f}, {seen_words(angle.difference, angle.angle_deg)}"
    shapes.append(label(head_text, (left, y), TEXT_PX, INK, font_weight="700"))
    words = f"plan {', '.join(angle.words)}" if angle.words else "no direction to name"
    for index, line in enumerate(wrap(words, wide, SMALLEST_PX)[:2]):
        shapes.append(label(line, (left, y + 21 + 19 * index), SMALLEST_PX, INK))
    return element("g", *shapes, data_angle=f"{angle.angle_deg:g}")


def _tiles(car: str, ordered: str, at: tuple[float, float], size: tuple[float, float]) -> str:
    """Two tiles that touch; only the outer frame is drawn, because a line between them hides a small step."""
    (x, y), (wide, high) = at, size
    return (
        element("rect", x=x, y=y, width=wide / 2 + 0.5, height=high, fill=car)
        + element("rect", x=x + wide / 2, y=y, width=wide / 2, height=high, fill=ordered)
        + element("rect", x=x, y=y, width=wide, height=high, fill="none", stroke=INK, stroke_width=1.4)
        + element("path", d=f"M{x + wide / 2:.1f},{y - 6:.1f}v6M{x + wide / 2:.1f},{y + high:.1f}v6", stroke=INK, stroke_width=1.4)
    )  # fmt: skip


def _difference(angle: AngleScreen) -> str:
    """Difference in numbers and words."""
    words = f", plan {', '.join(angle.words)}" if angle.words else ""
    return f"{angle.difference:.1f}, {seen_words(angle.difference, angle.angle_deg)}{words}"


def _notes(shown: ScreenPreview) -> tuple[str, ...]:
    """What was done to the colours."""
    told = [
        "One step of a screen is 0.2 to 0.5 near white: it cannot show a match. Sparkle, grain and gloss are not shown."
    ]
    if shown.exposure_stops < -_LEAST_STOPS:
        told.append(
            f"All tiles are darkened together by {-shown.exposure_stops:.2f} stops, because the brightest is brighter than white paper."
        )
    if shown.muted:
        told.append("The screen has no such colour at some angle; it was dulled there.")
    more = len(shown.angles) - _MOST_ANGLES
    if more > 0:
        told.append(f"{more} more angles are not drawn.")
    return tuple(told)
