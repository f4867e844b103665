"""The job on one line, from 0:00: what is sprayed, what waits, and the gates that must be passed."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from laydown.report.charts.day_rows import ROWS, Bar, bars, end_text, last_step
from laydown.report.kit.chart import watermark
from laydown.report.kit.coat_scene import layer_pattern
from laydown.report.kit.signs import spread
from laydown.report.kit.style import (
    COLOUR,
    HEAD_PX,
    INK,
    LAYER_TONES,
    MUTED,
    PAPER,
    RULE,
    SMALLEST_PX,
    TEXT_PX,
)
from laydown.report.kit.svg import element, label, picture
from laydown.report.kit.text_width import shorten, text_width
from laydown.schema.clock import Gate
from laydown.schema.message import Name
from laydown.schema.plan import Plan
from laydown.schema.side import Point
from laydown.words.numbers import gate_name, minutes
from laydown.words.show import ENGLISH, Words

KEY_PX = 30.0
"""Height of the legend [px]."""

_SIGN_PX = 34.0
_AIR_PX = 26.0


def day_patterns(prefix: str) -> str:
    """Write the patterns of the bars."""
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


def day_key(plan: Plan, place: Point, prefix: str, words: Words) -> str:
    """Draw the legend."""
    x, y = place[0], place[1] + KEY_PX / 2
    step = last_step(plan)
    is_unmasked = step is not None and step.kind == "unmask"
    entries: list[tuple[Callable[[float], str], str]] = [
        (lambda at: _box(at, y, f"url(#{prefix}-effect)"), words.say("day-legend.spray")),
        (lambda at: _box(at, y, "#FFFFFF", "4 3"), words.say("day-legend.flash")),
        (lambda at: _box(at, y, "#FFFFFF"), words.say("day-legend.wait")),
        (lambda at: _diamond(at, y), words.say("day-legend.check")),
        (lambda at: _whisker(at, y), words.say("day-legend.unmasked" if is_unmasked else "day-legend.done")),
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


_WIDTH_PX = 1200.0
_EDGE_PX = 20.0
_LEFT_PX = 130.0
_TOP_PX = 106.0
_ROW_PX = 46.0
_BAR_PX = 26.0
_TICKS_S = (300, 600, 900, 1800, 3600, 7200, 14400)
_MOST_TICKS = 14


@dataclass(frozen=True, slots=True)
class _Axis:
    """Time along the picture."""

    end_s: float
    tick_s: float

    def across(self, at_s: float) -> float:
        """Place of a time [px]."""
        return _LEFT_PX + at_s / self.end_s * (_WIDTH_PX - _LEFT_PX - _EDGE_PX - 16)


def day_svg(plan: Plan, words: Words = ENGLISH) -> str:
    """Draw the job on one line."""
    end = max((step.high_end_s for step in plan.timeline), default=3600.0)
    tick = next((tick for tick in _TICKS_S if end / tick <= _MOST_TICKS), _TICKS_S[-1])
    axis = _Axis(max(end, 60.0), tick)
    bottom = _TOP_PX + _ROW_PX * len(ROWS)
    height = bottom + 78 + KEY_PX
    prefix = f"d{plan.id}"
    drawn = bars(plan, words)
    return picture(
        (_WIDTH_PX, height),
        words.say("day-title"),
        _describe(plan, words),
        element("defs", day_patterns(prefix)),
        element("rect", width=_WIDTH_PX, height=height, fill=PAPER),
        _head(plan, words),
        _grid(axis, bottom, words),
        *(_bar(bar, axis, prefix) for bar in drawn),
        _gates(plan, axis, bottom, words),
        _numbers(drawn, axis),
        _range_of_end(plan, axis),
        day_key(plan, (_EDGE_PX, bottom + 76), prefix, words),
    )


def _describe(plan: Plan, words: Words) -> str:
    """Say every step in words."""
    steps = (
        words.say(
            "day-step-said",
            step=Name(step.id),
            start=Name(minutes(step.start_s)),
            end=Name(minutes(step.end_s)),
        )
        for step in plan.timeline
    )
    gates = (
        words.say(
            "day-gate-said",
            gate=Name(gate_name(gate, words)),
            before=Name(gate.before),
            questions=tuple(gate.ask),
        )
        for gate in plan.gates
    )
    return "; ".join((end_text(plan, words), *steps, *gates))


def _head(plan: Plan, words: Words) -> str:
    """Head and when the job is done."""
    number = words.say("plan-number", plan=Name(plan.id))
    text = " | ".join((plan.inputs.job, end_text(plan, words), number))
    parts = [
        label(words.say("day-title"), (_EDGE_PX, 34), HEAD_PX, INK, font_weight="700"),
        label(shorten(text, _WIDTH_PX - 2 * _EDGE_PX, TEXT_PX), (_EDGE_PX, 58), TEXT_PX, INK),
    ]
    if plan.inputs.invented:
        parts.append(watermark(INK, _WIDTH_PX - _EDGE_PX, words))
    return "".join(parts)


def _grid(axis: _Axis, bottom: float, words: Words) -> str:
    """Lines of time and names of rows."""
    shapes = []
    at = 0.0
    while at <= axis.end_s:
        x = axis.across(at)
        shapes.append(
            element("path", d=f"M{x:.1f},{_TOP_PX - 8:.1f}V{bottom:.1f}", stroke=RULE, stroke_width=1)
        )
        shapes.append(label(minutes(at), (x, _TOP_PX - 14), SMALLEST_PX, INK, text_anchor="middle"))
        at += axis.tick_s
    shapes.append(
        label(
            words.say("hours-minutes"), (_LEFT_PX - 24, _TOP_PX - 14), SMALLEST_PX, MUTED, text_anchor="end"
        )
    )
    for index, row in enumerate(ROWS):
        y = _TOP_PX + _ROW_PX * (index + 0.5) + 11
        shapes.append(label(words.say(f"day-row.{row}"), (_LEFT_PX - 14, y), TEXT_PX, INK, text_anchor="end"))
    return "".join(shapes)


def _bar_box(bar: Bar, axis: _Axis) -> tuple[float, float, float, float]:
    """Left, top, width and height of a bar."""
    left, right = axis.across(bar.step.start_s), axis.across(bar.step.end_s)
    high = _BAR_PX / bar.lanes
    top = _TOP_PX + _ROW_PX * bar.row + (_ROW_PX - _BAR_PX) * 0.8 + high * bar.lane
    return left, top, max(2.0, right - left), high


def _bar(bar: Bar, axis: _Axis, prefix: str) -> str:
    """One bar and, where it has room, its text."""
    left, top, wide, high = _bar_box(bar, axis)
    fills = {
        "ground": f"url(#{prefix}-ground)",
        "effect": f"url(#{prefix}-effect)",
        "clear": f"url(#{prefix}-clear)",
    }
    row = ROWS[bar.row]
    fill = fills.get(row, "#FFFFFF" if row != "prepare" else COLOUR.glass)
    if bar.step.kind == "bake":
        fill = f"url(#{prefix}-bake)"
    wait = bar.step.kind == "flash"
    box = element(
        "rect",
        x=left,
        y=top,
        width=wide,
        height=high,
        rx=min(3.0, wide / 2),
        fill=fill,
        stroke=INK,
        stroke_width=1 if wait else 1.5,
        stroke_dasharray="4 3" if wait else None,
        data_step=bar.step.id,
    )
    return box + (_on_bar(bar, (left, top, wide, high)) if fits(bar, wide) else "")


def fits(bar: Bar, wide: float) -> bool:
    """Whether the text of a bar fits on it."""
    return bar.lanes == 1 and text_width(bar.text, SMALLEST_PX, bold=True) + 12 <= wide


def _on_bar(bar: Bar, box: tuple[float, float, float, float]) -> str:
    """Text on a bar, on a white ground so that the pattern does not cross it."""
    if not bar.text:
        return ""
    left, top, wide, high = box
    room = text_width(bar.text, SMALLEST_PX, bold=True) + 8
    middle = left + wide / 2
    ground = element(
        "rect", x=middle - room / 2, y=top + 4, width=room, height=high - 8, rx=3, fill="#FFFFFF"
    )
    return ground + label(
        bar.text, (middle, top + high / 2 + 5), SMALLEST_PX, INK, font_weight="700", text_anchor="middle"
    )


def _numbers(drawn: tuple[Bar, ...], axis: _Axis) -> str:
    """Text over the bars that are too narrow for it, side by side."""
    shapes = []
    for row in range(len(ROWS)):
        narrow = [
            bar for bar in drawn if bar.row == row and bar.text and not fits(bar, _bar_box(bar, axis)[2])
        ]
        widths = [text_width(bar.text, SMALLEST_PX, bold=True) + 6 for bar in narrow]
        # What has no length stands at a check: its word keeps beside the line.
        aside = [
            wide / 2 + 4 if bar.step.kind == "polish" else 0.0
            for bar, wide in zip(narrow, widths, strict=True)
        ]
        wished = [
            _bar_box(bar, axis)[0] + _bar_box(bar, axis)[2] / 2 + more
            for bar, more in zip(narrow, aside, strict=True)
        ]
        middles = spread(wished, widths, (_LEFT_PX - 10, _WIDTH_PX - 4))
        y = _TOP_PX + _ROW_PX * row + (_ROW_PX - _BAR_PX) * 0.8 - 3
        shapes += [
            element("rect", x=middle - wide / 2, y=y - 12, width=wide, height=15, fill=PAPER)
            + label(bar.text, (middle, y), SMALLEST_PX, INK, font_weight="700", text_anchor="middle")
            for bar, middle, wide in zip(narrow, middles, widths, strict=True)
        ]
    return "".join(shapes)


def _gates(plan: Plan, axis: _Axis, bottom: float, words: Words) -> str:
    """Gates as lines over all rows, with name and time under them."""
    starts = {step.id: step for step in plan.timeline}
    placed = [(starts[gate.before].start_s, gate) for gate in plan.gates if gate.before in starts]
    placed.sort(key=lambda pair: pair[0])
    told = [_gate_text(plan, at, gate, words) for at, gate in placed]
    widths = [max(text_width(line, SMALLEST_PX, bold=True) for line in lines) + 20 for lines in told]
    middles = spread([axis.across(at) for at, _ in placed], widths, (_EDGE_PX, _WIDTH_PX - _EDGE_PX))
    shapes = []
    for (at, _), middle, lines in zip(placed, middles, told, strict=True):
        x = axis.across(at)
        shapes.append(
            element("path", d=f"M{x:.1f},{_TOP_PX - 4:.1f}V{bottom + 8:.1f}", stroke=INK, stroke_width=2.4)
        )
        diamond = f"M{x:.1f},{bottom + 4:.1f}l9,9l-9,9l-9,-9Z"
        shapes.append(element("path", d=diamond, fill="#FFFFFF", stroke=INK, stroke_width=2.4))
        for index, line in enumerate(lines):
            weight = "400" if index else "700"
            place = (middle, bottom + 40 + 18 * index)
            shapes.append(label(line, place, SMALLEST_PX, INK, font_weight=weight, text_anchor="middle"))
    return "".join(shapes)


def _gate_text(plan: Plan, at: float, gate: Gate, words: Words) -> tuple[str, str]:
    """Name and time of a gate."""
    before = [
        step for step in plan.timeline if step.kind in ("release", "check") and abs(step.end_s - at) < 1
    ]
    name, start = gate_name(gate, words), Name(minutes(at))
    if not before:
        return name, words.say("day-gate-from", start=start)
    low, high = Name(minutes(before[0].low_end_s)), Name(minutes(before[0].high_end_s))
    return name, words.say("day-gate-between", start=start, low=low, high=high)


def _range_of_end(plan: Plan, axis: _Axis) -> str:
    """Whisker from the earliest to the latest end of the last step."""
    step = last_step(plan)
    if step is None:
        return ""
    y = _TOP_PX + _ROW_PX * (len(ROWS) - 1) + (_ROW_PX - _BAR_PX) * 0.8 + _BAR_PX + 6
    low, high = axis.across(step.low_end_s), axis.across(step.high_end_s)
    line = f"M{low:.1f},{y - 4:.1f}v8m0,-4H{high:.1f}m0,-4v8"
    return element("path", d=line, stroke=INK, stroke_width=1.8, fill="none", data_kind="range")
