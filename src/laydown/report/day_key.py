"""Patterns and legend of the day picture."""

from collections.abc import Callable
from typing import Literal

from laydown.report.day_rows import last_step
from laydown.report.layer_pattern import layer_pattern
from laydown.report.measure_text import text_width
from laydown.report.style import INK, LAYER_TONES, PAPER, SMALLEST_PX
from laydown.report.svg import element, label
from laydown.schema.plan import Plan
from laydown.schema.side import Point

KEY_PX = 30.0
"""Height of the legend [px]."""

_SIGN_PX = 34.0
_AIR_PX = 26.0


def day_patterns(prefix: str) -> str:
    """Write the patterns of the bars.

    Parameters
    ----------
    prefix
        Begins every id.

    Returns
    -------
    Markup for the defs.
    """
    lines: dict[Literal["ground", "effect", "clear"], str] = {
        "ground": "#FFFFFF",
        "effect": INK,
        "clear": INK,
    }
    layers = "".join(
        layer_pattern(name, f"{prefix}-{name}", (LAYER_TONES[name], line), 8) for name, line in lines.items()
    )
    bake = element(
        "pattern",
        element("rect", width=8, height=8, fill="#F6E3C4"),
        element("path", d="M4,0V8", stroke="#8A5A12", stroke_width=1.2),
        id=f"{prefix}-bake",
        width=8,
        height=8,
        patternUnits="userSpaceOnUse",
    )
    return layers + bake


def day_key(plan: Plan, place: Point, prefix: str) -> str:
    """Draw the legend.

    Parameters
    ----------
    plan
        The plan.
    place
        Upper left corner [px].
    prefix
        Begins every id.

    Returns
    -------
    Markup in one row.
    """
    x, y = place[0], place[1] + KEY_PX / 2
    step = last_step(plan)
    end = "unmasked" if step is not None and step.kind == "unmask" else "done"
    entries: list[tuple[Callable[[float], str], str]] = [
        (lambda at: _box(at, y, f"url(#{prefix}-effect)"), "spray, with the number of the coat"),
        (lambda at: _box(at, y, "#FFFFFF", "4 3"), "flash, hands off"),
        (lambda at: _box(at, y, "#FFFFFF"), "look, dry out, cool"),
        (lambda at: _diamond(at, y), "check before you go on"),
        (lambda at: _whisker(at, y), f"{end} in 9 of 10 cases"),
    ]
    shapes: list[str] = []
    for draw, text in entries:
        shapes.append(draw(x))
        shapes.append(label(text, (x + _SIGN_PX + 6, y + 5), SMALLEST_PX, INK))
        x += _SIGN_PX + 6 + text_width(text, SMALLEST_PX) + _AIR_PX
    return element("g", *shapes, data_kind="legend")


def _box(x: float, y: float, fill: str, dashes: str | None = None) -> str:
    """A small bar."""
    return element(
        "rect",
        x=x + 2,
        y=y - 8,
        width=_SIGN_PX - 4,
        height=16,
        rx=3,
        fill=fill,
        stroke=INK,
        stroke_width=1.5 if dashes is None else 1,
        stroke_dasharray=dashes,
    )


def _diamond(x: float, y: float) -> str:
    """The sign of a check."""
    return element(
        "path",
        d=f"M{x + _SIGN_PX / 2:.1f},{y - 9:.1f}l9,9l-9,9l-9,-9Z",
        fill=PAPER,
        stroke=INK,
        stroke_width=2.4,
    )


def _whisker(x: float, y: float) -> str:
    """The sign of a range."""
    line = f"M{x + 3:.1f},{y - 4:.1f}v8m0,-4H{x + _SIGN_PX - 3:.1f}m0,-4v8"
    return element("path", d=line, stroke=INK, stroke_width=1.8, fill="none")
