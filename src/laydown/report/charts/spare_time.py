"""Spare time at every join: how many seconds the edge stays open after the next section reaches it."""

from laydown.report.kit.coat_scene import coat_name
from laydown.report.kit.signs import sign, sign_symbols
from laydown.report.kit.style import (
    COLOUR,
    HEAD_PX,
    INK,
    JOIN_WORDS,
    MUTED,
    PAPER,
    RULE,
    SMALLEST_PX,
    TEXT_PX,
    join_tone,
)
from laydown.report.kit.svg import element, label, picture
from laydown.report.kit.text_width import shorten, text_width
from laydown.report.side.coat import watermark
from laydown.schema.coat import Join
from laydown.schema.plan import Plan
from laydown.units import System, show
from laydown.words.numbers import place_words

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
_SIGNS = {"wet": "drop", "hurry": "hourglass", "late": "broken"}

_Row = tuple[str, Join]


def spare_svg(plan: Plan, system: System = "metric") -> str:
    """Draw the spare time of every join with its interval.

    Parameters
    ----------
    plan
        The plan.
    system
        How figures are shown.

    Returns
    -------
    A complete SVG document; a plan without joins says so.
    """
    rows = join_rows(plan)
    height = _TOP_PX + _ROW_PX * max(1, len(rows)) + 48
    span = _span(rows)
    prefix = f"s{plan.id}"
    return picture(
        (_WIDTH_PX, height),
        "Spare time at each join",
        " ".join(
            f"{name}, {place(join, system)}: {JOIN_WORDS[join.state]}, {spare_text(join)}."
            for name, join in rows
        ),
        element("defs", sign_symbols(prefix, COLOUR)),
        element("rect", width=_WIDTH_PX, height=height, fill=PAPER),
        _head(plan),
        _axis(span, height),
        *(_row(row, index, (span, prefix), system) for index, row in enumerate(rows)),
        "" if rows else label("This plan has no joins.", (_EDGE_PX, _TOP_PX + 20), TEXT_PX, INK),
        _legend(prefix, height - 18),
    )


def join_rows(plan: Plan) -> tuple[_Row, ...]:
    """Every join, like coats of a layer in one row.

    Parameters
    ----------
    plan
        The plan.

    Returns
    -------
    Name of layer and coats, and the join; joins of one layer with the same place, state and figures share a row.
    """
    rows: list[_Row] = []
    for layer in plan.layers:
        alike: dict[tuple[float | str, ...], list[tuple[str, Join]]] = {}
        for coat in layer.coats:
            for join in coat.joins:
                alike.setdefault(_key(join), []).append((coat_name(coat), join))
        for same in alike.values():
            names = [name.removeprefix("coat ").removesuffix(" coat") for name, _ in same]
            word = "coats" if len(names) > 1 else "coat"
            rows.append((f"{layer.name} {word} {', '.join(names)}", same[0][1]))
    return tuple(rows)


def _key(join: Join) -> tuple[float | str, ...]:
    """What two joins share when one row can stand for both."""
    spare = join.spare_s
    return (
        -round(join.x_m, 2),
        join.feature,
        join.state,
        round(spare.value),
        round(spare.low),
        round(spare.high),
    )


def place(join: Join, system: System = "metric") -> str:
    """Say where a join lies.

    Parameters
    ----------
    join
        The join.
    system
        How figures are shown.

    Returns
    -------
    Its feature, or the open panel, and its place along the vehicle.
    """
    where = place_words(join.feature) or join.kind.replace("_", " ")
    return f"{where}, {show(round(join.x_m, 2), 'x_m', system)}"


def spare_text(join: Join) -> str:
    """Say the spare time of a join with its interval.

    Parameters
    ----------
    join
        The join.

    Returns
    -------
    Such as "9 s (3 to 16)".
    """
    spare = join.spare_s
    text = f"{round(spare.value)} s ({round(spare.low)} to {round(spare.high)})"
    return text.replace("-", "\N{MINUS SIGN}")


def _span(rows: tuple[_Row, ...]) -> tuple[float, float]:
    """Ends of the axis [s]: every middle lies on it, a range may go on beyond it."""
    low = min((join.spare_s.low for _, join in rows), default=0.0)
    high = max((join.spare_s.high for _, join in rows), default=60.0)
    middles = [join.spare_s.value for _, join in rows]
    least = min([_LEAST_S, *(middle * _BEYOND for middle in middles)])
    most = max([_MOST_S, *(middle * _BEYOND for middle in middles)])
    return max(least, min(-15.0, low)), min(most, max(30.0, high))


def _across(seconds: float, span: tuple[float, float]) -> float:
    """Place of a time, held at the ends of the axis [px]."""
    share = (min(max(seconds, span[0]), span[1]) - span[0]) / (span[1] - span[0])
    return _LEFT_PX + share * (_RIGHT_PX - _LEFT_PX)


def _head(plan: Plan) -> str:
    """Head of the picture."""
    text = f"{plan.inputs.job} | seconds between the next section's arrival and the end of the open time | plan {plan.id}"
    parts = [
        label("Spare time at each join", (_EDGE_PX, 34), HEAD_PX, INK, font_weight="700"),
        label(shorten(text, _WIDTH_PX - 2 * _EDGE_PX, TEXT_PX), (_EDGE_PX, 58), TEXT_PX, INK),
    ]
    if plan.inputs.invented:
        parts.append(watermark(INK, _WIDTH_PX - _EDGE_PX))
    return "".join(parts)


def _axis(span: tuple[float, float], height: float) -> str:
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
        text = f"{at} s".replace("-", "\N{MINUS SIGN}")
        shapes.append(label(text, (x, _TOP_PX - 18), SMALLEST_PX, INK, text_anchor="middle"))
    zero = _across(0, span)
    shapes.append(label("closed", (zero - 8, _TOP_PX - 36), SMALLEST_PX, MUTED, text_anchor="end"))
    shapes.append(label("still open", (zero + 8, _TOP_PX - 36), SMALLEST_PX, MUTED))
    return "".join(shapes)


def _row(row: _Row, index: int, drawn: tuple[tuple[float, float], str], system: System) -> str:
    """One join: name, interval, sign and figures."""
    name, join = row
    span, prefix = drawn
    y = _TOP_PX + _ROW_PX * (index + 0.5)
    tone = join_tone(join.state, COLOUR)
    low, high = _across(join.spare_s.low, span), _across(join.spare_s.high, span)
    shapes = [
        label(
            shorten(name, _PLACE_PX - 10, TEXT_PX, bold=True),
            (_EDGE_PX, y + 5),
            TEXT_PX,
            INK,
            font_weight="700",
        ),
        label(_fitted(place(join, system)), (_EDGE_PX + _PLACE_PX, y + 5), SMALLEST_PX, INK),
        element(
            "path", d=f"M{low:.1f},{y:.1f}H{high:.1f}", stroke=tone, stroke_width=5, stroke_linecap="round"
        ),
    ]
    if join.spare_s.high > span[1]:
        shapes.append(element("path", d=f"M{high + 12:.1f},{y:.1f}l-10,-7v14Z", fill=tone))
    if join.spare_s.low < span[0]:
        shapes.append(element("path", d=f"M{low - 12:.1f},{y:.1f}l10,-7v14Z", fill=tone))
    middle = _across(join.spare_s.value, span)
    shapes.append(element("circle", cx=middle, cy=y, r=13, fill=PAPER))
    shapes.append(sign(prefix, _SIGNS[join.state], (middle, y), 40))
    shapes.append(label(spare_text(join), (_RIGHT_PX + 24, y + 5), TEXT_PX, INK, font_weight="700"))
    return element("g", *shapes, data_join=join.id)


def _fitted(text: str) -> str:
    """Place of a join in its column: the name is cut, its metre never."""
    name, comma, metre = text.rpartition(", ")
    end = f"{comma}{metre}"
    room = _LEFT_PX - _EDGE_PX - _PLACE_PX - 24 - text_width(end, SMALLEST_PX)
    return shorten(name, room, SMALLEST_PX) + end


def _legend(prefix: str, y: float) -> str:
    """Signs with their words, and what bar and arrow mean."""
    shapes = []
    x = _EDGE_PX
    for state, text in JOIN_WORDS.items():
        shapes.append(sign(prefix, _SIGNS[state], (x + 14, y), 40))
        shapes.append(label(text, (x + 34, y + 5), SMALLEST_PX, INK))
        x += 34 + 8 * len(text) + 20
    text = "bar: 9 of 10 cases; an arrow: it goes on beyond the scale"
    shapes.append(label(text, (x + 10, y + 5), SMALLEST_PX, MUTED))
    return "".join(shapes)
