"""Spare time at every join: how many seconds the edge stays open after the next section reaches it."""

from laydown.report.kit.chart import watermark
from laydown.report.kit.signs import sign, sign_symbols
from laydown.report.kit.style import (
    COLOUR,
    HEAD_PX,
    INK,
    JOIN_STATES,
    MUTED,
    PAPER,
    RULE,
    SMALLEST_PX,
    TEXT_PX,
    join_tone,
)
from laydown.report.kit.svg import element, label, picture
from laydown.report.kit.text_width import shorten, text_width
from laydown.schema.coat import Coat, Join
from laydown.schema.message import Name, message
from laydown.schema.plan import Plan
from laydown.words.numbers import place_words
from laydown.words.show import ENGLISH, Words

_WIDTH_PX = 1200.0
_EDGE_PX = 20.0
_TOP_PX = 118.0
_ROW_PX = 30.0
_LEFT_PX = 420.0
_RIGHT_PX = 960.0
_MOST_S = 150.0
_LEAST_S = -150.0
_BEYOND = 1.08
_PLACE_PX = 156.0
_STEPS_S = (15, 30, 60, 120, 300, 600)
_MOST_TICKS = 8
_SIGNS = {"wet": "drop", "tight": "hourglass", "dry": "broken"}

_Row = tuple[str, Join]


def margin_svg(plan: Plan, words: Words = ENGLISH) -> str:
    """Draw the margin of every join with its interval."""
    rows = join_rows(plan, words)
    height = _TOP_PX + _ROW_PX * max(1, len(rows)) + 48
    span = _span(rows)
    prefix = f"s{plan.id}"
    return picture(
        (_WIDTH_PX, height),
        words.say("margin-title"),
        " ".join(
            words.say(
                "margin-said",
                coats=Name(name),
                place=Name(place(join, words)),
                join_state=join.state,
                margin=Name(margin_text(join, words)),
            )
            for name, join in rows
        ),
        element("defs", sign_symbols(prefix, COLOUR)),
        element("rect", width=_WIDTH_PX, height=height, fill=PAPER),
        _head(plan, words),
        _axis(span, height, words),
        *(_row(row, index, (span, prefix), words) for index, row in enumerate(rows)),
        "" if rows else label(words.say("margin-no-joins"), (_EDGE_PX, _TOP_PX + 20), TEXT_PX, INK),
        _legend(prefix, height - 18, words),
    )


def join_rows(plan: Plan, words: Words = ENGLISH) -> tuple[_Row, ...]:
    """Every join, like coats of a layer in one row."""
    rows: list[_Row] = []
    for layer in plan.layers:
        alike: dict[tuple[float | str, ...], list[tuple[Coat, Join]]] = {}
        for coat in layer.coats:
            for join in coat.joins:
                alike.setdefault(_key(join), []).append((coat, join))
        for same in alike.values():
            names = tuple(
                Name(words.say("drop") if coat.part == "drop" else str(coat.number)) for coat, _ in same
            )
            named = message("coats-named", count=len(names), names=names)
            rows.append((words.say("layer-coats", short_layer=layer.name, coats=(named,)), same[0][1]))
    return tuple(rows)


def _key(join: Join) -> tuple[float | str, ...]:
    """What two joins share when one row can stand for both."""
    margin = join.margin_s
    return (
        -round(join.x_m, 2),
        join.feature,
        join.state,
        round(margin.value),
        round(margin.low),
        round(margin.high),
    )


def place(join: Join, words: Words = ENGLISH) -> str:
    """Say where a join lies."""
    where = place_words(join.feature) or words.word("feature_kind", join.kind)
    return words.say("margin-place", place=Name(where), x_m=round(join.x_m, 2))


def margin_text(join: Join, words: Words = ENGLISH) -> str:
    """Say the margin of a join with its interval."""
    margin = join.margin_s
    value, low, high = round(margin.value), round(margin.low), round(margin.high)
    return words.say("spread-signed", value_s=value, low_s=low, high_s=high).replace("-", "\N{MINUS SIGN}")


def _span(rows: tuple[_Row, ...]) -> tuple[float, float]:
    """Ends of the axis [s]: every middle lies on it, a range may go on beyond it."""
    low = min((join.margin_s.low for _, join in rows), default=0.0)
    high = max((join.margin_s.high for _, join in rows), default=60.0)
    middles = [join.margin_s.value for _, join in rows]
    least = min([_LEAST_S, *(middle * _BEYOND for middle in middles)])
    most = max([_MOST_S, *(middle * _BEYOND for middle in middles)])
    return max(least, min(-15.0, low)), min(most, max(30.0, high))


def _across(seconds: float, span: tuple[float, float]) -> float:
    """Place of a time, held at the ends of the axis [px]."""
    share = (min(max(seconds, span[0]), span[1]) - span[0]) / (span[1] - span[0])
    return _LEFT_PX + share * (_RIGHT_PX - _LEFT_PX)


def _head(plan: Plan, words: Words) -> str:
    """Head of the picture."""
    number = words.say("plan-number", plan=Name(plan.id))
    text = " | ".join((plan.inputs.job, words.say("margin-about"), number))
    parts = [
        label(words.say("margin-title"), (_EDGE_PX, 34), HEAD_PX, INK, font_weight="700"),
        label(shorten(text, _WIDTH_PX - 2 * _EDGE_PX, TEXT_PX), (_EDGE_PX, 58), TEXT_PX, INK),
    ]
    if plan.inputs.invented:
        parts.append(watermark(INK, _WIDTH_PX - _EDGE_PX, words))
    return "".join(parts)


def _axis(span: tuple[float, float], height: float, words: Words) -> str:
    """Ticks at round seconds and the line at which the edge closes."""
    wide = span[1] - span[0]
    step = next((step for step in _STEPS_S if wide / step <= _MOST_TICKS), _STEPS_S[-1])
    shapes = []
    first = -int(-span[0] // step) * step
    for at in range(first, int(span[1]) + 1, step):
        x = _across(at, span)
        shapes.append(
            element(
                "path",
                d=f"M{x:.1f},{_TOP_PX - 12:.1f}V{height - 44:.1f}",
                stroke=INK if at == 0 else RULE,
                stroke_width=2.6 if at == 0 else 1,
            )
        )
        text = words.amount(at, "margin_s", ".0f").replace("-", "\N{MINUS SIGN}")
        shapes.append(label(text, (x, _TOP_PX - 18), SMALLEST_PX, INK, text_anchor="middle"))
    zero = _across(0, span)
    shapes.append(
        label(words.say("margin-closed"), (zero - 8, _TOP_PX - 36), SMALLEST_PX, MUTED, text_anchor="end")
    )
    shapes.append(label(words.say("margin-open"), (zero + 8, _TOP_PX - 36), SMALLEST_PX, MUTED))
    return "".join(shapes)


def _row(row: _Row, index: int, drawn: tuple[tuple[float, float], str], words: Words) -> str:
    """One join: name, interval, sign and figures."""
    name, join = row
    span, prefix = drawn
    y = _TOP_PX + _ROW_PX * (index + 0.5)
    tone = join_tone(join.state, COLOUR)
    low, high = _across(join.margin_s.low, span), _across(join.margin_s.high, span)
    shapes = [
        label(
            shorten(name, _PLACE_PX - 10, TEXT_PX, bold=True),
            (_EDGE_PX, y + 5),
            TEXT_PX,
            INK,
            font_weight="700",
        ),
        label(_fitted(place(join, words)), (_EDGE_PX + _PLACE_PX, y + 5), SMALLEST_PX, INK),
        element(
            "path", d=f"M{low:.1f},{y:.1f}H{high:.1f}", stroke=tone, stroke_width=5, stroke_linecap="round"
        ),
    ]
    if join.margin_s.high > span[1]:
        shapes.append(element("path", d=f"M{high + 12:.1f},{y:.1f}l-10,-7v14Z", fill=tone))
    if join.margin_s.low < span[0]:
        shapes.append(element("path", d=f"M{low - 12:.1f},{y:.1f}l10,-7v14Z", fill=tone))
    middle = _across(join.margin_s.value, span)
    shapes.append(element("circle", cx=middle, cy=y, r=13, fill=PAPER))
    shapes.append(sign(prefix, _SIGNS[join.state], (middle, y), 40))
    shapes.append(label(margin_text(join, words), (_RIGHT_PX + 24, y + 5), TEXT_PX, INK, font_weight="700"))
    return element("g", *shapes, data_join=join.id)


def _fitted(text: str) -> str:
    """Place of a join in its column: the name is cut, its metre never."""
    name, comma, metre = text.rpartition(", ")
    end = f"{comma}{metre}"
    room = _LEFT_PX - _EDGE_PX - _PLACE_PX - 24 - text_width(end, SMALLEST_PX)
    return shorten(name, room, SMALLEST_PX) + end


def _legend(prefix: str, y: float, words: Words) -> str:
    """Signs with their words, and what bar and arrow mean."""
    shapes = []
    x = _EDGE_PX
    for state in JOIN_STATES:
        text = words.word("join_state", state)
        shapes.append(sign(prefix, _SIGNS[state], (x + 14, y), 40))
        shapes.append(label(text, (x + 34, y + 5), SMALLEST_PX, INK))
        x += 34 + 8 * len(text) + 20
    text = words.say("margin-legend")
    shapes.append(label(text, (x + 10, y + 5), SMALLEST_PX, MUTED))
    return "".join(shapes)
