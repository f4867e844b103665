"""Car and prediction side by side on a screen, angle by angle: for orientation only."""

from dataclasses import dataclass

from laydown.report.kit.chart import EDGE_PX, WIDE_PX, head, notes
from laydown.report.kit.style import INK, MUTED, PAPER, SMALLEST_PX, TEXT_PX
from laydown.report.kit.svg import element, label, picture
from laydown.report.kit.text_width import wrap
from laydown.schema.message import Name, Saying
from laydown.schema.plan import Plan
from laydown.words.letdown import angle_words, car_words, seen_words
from laydown.words.show import ENGLISH, Words

_LEFT_PX = 140.0
_TOP_PX = 150.0
_HIGH_PX = 190.0
_GAP_PX = 20.0
_MOST_ANGLES = 6
_LEAST_STOPS = 0.01


@dataclass(frozen=True, slots=True)
class AngleScreen:
    """One angle on a screen."""

    angle_deg: float
    car: str
    ordered: str
    magnified: str | None
    difference: float
    words: tuple[Saying, ...]


@dataclass(frozen=True, slots=True)
class ScreenPreview:
    """Car and prediction on a screen."""

    angles: tuple[AngleScreen, ...]
    zone: str
    coats: float
    exposure_stops: float
    muted: bool
    times: float


def preview_svg(plan: Plan, shown: ScreenPreview, words: Words = ENGLISH) -> str:
    """Draw car and prediction."""
    if not shown.angles:
        raise ValueError("shown must hold at least one angle")
    angles = shown.angles[:_MOST_ANGLES]
    magnified = any(angle.magnified is not None for angle in angles)
    wide = (WIDE_PX - EDGE_PX - _LEFT_PX - _GAP_PX * (len(angles) - 1)) / len(angles)
    second = _TOP_PX + _HIGH_PX + 96
    low = second + _HIGH_PX * 0.6 + 40 if magnified else _TOP_PX + _HIGH_PX + 92
    told, end = notes(
        (words.say("screen-label"), *_notes(shown, words)), (EDGE_PX, low + 18), WIDE_PX - 2 * EDGE_PX
    )
    title = words.say("screen-title")
    car = car_words(shown.zone, words)
    shapes = []
    for index, angle in enumerate(angles):
        left = _LEFT_PX + index * (wide + _GAP_PX)
        shapes.append(_pair(angle, left, wide, words))
        if angle.magnified is not None:
            shapes.append(_tiles(angle.car, angle.magnified, (left, second), (wide, _HIGH_PX * 0.6)))
    return picture(
        (WIDE_PX, end),
        title,
        " ".join((words.say("screen-label"), *(_said(row, words) for row in shown.angles))),
        element("rect", width=WIDE_PX, height=end, fill=PAPER),
        head(plan, title, words.say("screen-says", car=Name(car), coats=shown.coats), words),
        _side((words.say("screen-as-is"),), _TOP_PX),
        _side((words.say("screen-magnified", times=shown.times), words.say("screen-not-paint")), second)
        if magnified
        else "",
        *shapes,
        told,
    )


def _side(lines: tuple[str, ...], top: float) -> str:
    """Name of a row."""
    return "".join(
        label(line, (EDGE_PX, top + 22 + 22 * index), SMALLEST_PX, INK, font_weight=None if index else "700")
        for index, line in enumerate(lines)
    )


def _pair(angle: AngleScreen, left: float, wide: float, words: Words) -> str:
    """One angle: its name, two tiles that touch, the difference in numbers and words."""
    shapes = [
        label(angle_words(angle.angle_deg, words), (left, _TOP_PX - 28), TEXT_PX, INK, font_weight="700"),
        label(words.word("role", "car"), (left + 2, _TOP_PX - 8), SMALLEST_PX, MUTED),
        label(
            words.say("screen-plan"), (left + wide - 2, _TOP_PX - 8), SMALLEST_PX, MUTED, text_anchor="end"
        ),
        _tiles(angle.car, angle.ordered, (left, _TOP_PX), (wide, _HIGH_PX)),
    ]
    y = _TOP_PX + _HIGH_PX + 24
    head_text = words.say("difference-seen", difference=angle.difference, seen=_seen(angle, words))
    shapes.append(label(head_text, (left, y), TEXT_PX, INK, font_weight="700"))
    named = words.say("screen-looks", looks=angle.words) if angle.words else words.say("screen-no-look")
    for index, line in enumerate(wrap(named, wide, SMALLEST_PX)[:2]):
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


def _seen(angle: AngleScreen, words: Words) -> Name:
    """Whether the difference is seen."""
    return Name(seen_words(angle.difference, angle.angle_deg, words))


def _said(angle: AngleScreen, words: Words) -> str:
    """One angle in numbers and words."""
    where, seen = Name(angle_words(angle.angle_deg, words)), _seen(angle, words)
    if not angle.words:
        return words.say("screen-said", angle=where, difference=angle.difference, seen=seen)
    return words.say(
        "screen-said-looks", angle=where, difference=angle.difference, seen=seen, looks=angle.words
    )


def _notes(shown: ScreenPreview, words: Words) -> tuple[str, ...]:
    """What was done to the colours."""
    told = [words.say("screen-limits")]
    if shown.exposure_stops < -_LEAST_STOPS:
        told.append(words.say("screen-darkened", stops=-shown.exposure_stops))
    if shown.muted:
        told.append(words.say("screen-dulled"))
    more = len(shown.angles) - _MOST_ANGLES
    if more > 0:
        told.append(words.say("screen-more-angles", count=more))
    return tuple(told)
