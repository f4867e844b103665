"""Head and notes that the pictures of the let-down panel share."""

from laydown.report.kit.style import HEAD_PX, INK, MUTED, SMALLEST_PX, TEXT_PX
from laydown.report.kit.svg import element, label
from laydown.report.kit.text_width import shorten, wrap
from laydown.report.side.coat import watermark
from laydown.schema.plan import Plan
from laydown.schema.side import Point

WIDE_PX = 1200.0
"""Width of the pictures of the panel [px]."""

EDGE_PX = 20.0
"""Room at their edges [px]."""


def head(plan: Plan, title: str, says: str) -> str:
    """Draw the head of a picture.

    Parameters
    ----------
    plan
        The plan.
    title
        What the picture is.
    says
        What it says, in one line.

    Returns
    -------
    Markup, 10 to 98 px from the top.
    """
    about = f"{plan.inputs.job} | {plan.side.shape}, {plan.side.side} side | plan {plan.id}"
    room = WIDE_PX - 2 * EDGE_PX
    parts = [
        label(title, (EDGE_PX, 34), HEAD_PX, INK, font_weight="700"),
        label(shorten(about, room, TEXT_PX), (EDGE_PX, 58), TEXT_PX, INK),
        label(shorten(says, room, 18, bold=True), (EDGE_PX, 90), 18, INK, font_weight="700"),
    ]
    if plan.inputs.invented:
        parts.append(watermark(INK, WIDE_PX - EDGE_PX))
    return "".join(parts)


def notes(texts: tuple[str, ...], at: Point, room: float) -> tuple[str, float]:
    """Write notes under a picture, the first in larger type.

    Parameters
    ----------
    texts
        One after the other.
    at
        Start of the first baseline [px].
    room
        Width of a line [px].

    Returns
    -------
    Markup, and where the next baseline would be [px].
    """
    parts = []
    y = at[1]
    for number, text in enumerate(texts):
        size, tone = (SMALLEST_PX, MUTED) if number else (TEXT_PX, INK)
        for line in wrap(text, room, size, bold=not number):
            parts.append(label(line, (at[0], y), size, tone, font_weight=None if number else "700"))
            y += size + 7
    return "".join(parts), y


def diamond(at: Point, size: float = 11.0) -> str:
    """Draw the mark of the chosen count.

    Parameters
    ----------
    at
        Its middle [px].
    size
        From its middle to a corner [px].

    Returns
    -------
    Markup.
    """
    shape = f"M{at[0]:.1f},{at[1] - size:.1f}l{size:g},{size:g}l-{size:g},{size:g}l-{size:g},-{size:g}Z"
    return element("path", d=shape, fill=INK, stroke="#FFFFFF", stroke_width=2)
