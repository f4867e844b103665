"""Head and notes that the pictures of the let-down panel share."""

from laydown.report.kit.style import HEAD_PX, INK, MUTED, SMALLEST_PX, TEXT_PX
from laydown.report.kit.svg import element, label
from laydown.report.kit.text_width import shorten, text_width, wrap
from laydown.schema.message import Name
from laydown.schema.plan import Plan
from laydown.schema.side import Point
from laydown.words.show import Words

WIDE_PX = 1200.0
"""Width of the pictures of the panel [px]."""

EDGE_PX = 20.0
"""Room at their edges [px]."""


def invented(words: Words) -> str:
    """Say what stands on every page and picture whose job is invented."""
    return words.say("invented-data")


def watermark(tone: str, right_px: float, words: Words) -> str:
    """Draw the frame that says that the data are invented."""
    told = invented(words)
    wide = text_width(told, TEXT_PX, bold=True) + 24
    box = element(
        "rect", x=right_px - wide, y=10, width=wide, height=28, rx=4, fill="none", stroke=tone, stroke_width=2
    )
    text = label(told, (right_px - wide / 2, 29.5), TEXT_PX, tone, font_weight="700", text_anchor="middle")
    return box + text


def about_text(plan: Plan, words: Words, more: str = "") -> str:
    """Say which job, side and plan a picture is of."""
    side = words.say("picture-side", shape=Name(plan.side.shape), side=plan.side.side)
    number = words.say("plan-number", plan=Name(plan.id))
    return " | ".join(part for part in (plan.inputs.job, side, more, number) if part)


def head(plan: Plan, title: str, says: str, words: Words) -> str:
    """Draw the head of a picture."""
    about = about_text(plan, words)
    room = WIDE_PX - 2 * EDGE_PX
    parts = [
        label(title, (EDGE_PX, 34), HEAD_PX, INK, font_weight="700"),
        label(shorten(about, room, TEXT_PX), (EDGE_PX, 58), TEXT_PX, INK),
        label(shorten(says, room, 18, bold=True), (EDGE_PX, 90), 18, INK, font_weight="700"),
    ]
    if plan.inputs.invented:
        parts.append(watermark(INK, WIDE_PX - EDGE_PX, words))
    return "".join(parts)


def notes(texts: tuple[str, ...], at: Point, room: float) -> tuple[str, float]:
    """Write notes under a picture, the first in larger type."""
    parts = []
    y = at[1]
    for number, text in enumerate(texts):
        size, tone = (SMALLEST_PX, MUTED) if number else (TEXT_PX, INK)
        for line in wrap(text, room, size, bold=not number):
            parts.append(label(line, (at[0], y), size, tone, font_weight=None if number else "700"))
            y += size + 7
    return "".join(parts), y


def diamond(at: Point, size: float = 11.0) -> str:
    """Draw the mark of the chosen count."""
    shape = f"M{at[0]:.1f},{at[1] - size:.1f}l{size:g},{size:g}l-{size:g},{size:g}l-{size:g},-{size:g}Z"
    return element("path", d=shape, fill=INK, stroke="#FFFFFF", stroke_width=2)
