"""Ground coats: what each one changes, what is still missing, and from which one on the painter sprays blind."""

from math import ceil, log10

from laydown.report.kit.chart import EDGE_PX, WIDE_PX, diamond, head, notes
from laydown.report.kit.style import DRY, INK, LAYER_TONES, MUTED, PAPER, RULE, SMALLEST_PX, TEXT_PX, WET
from laydown.report.kit.svg import element, label, picture, track
from laydown.report.kit.text_width import shorten, text_width
from laydown.schema.colour import HidingVerdict, UndercoatChoice
from laydown.schema.message import Name, message
from laydown.schema.plan import Plan
from laydown.words.show import ENGLISH, Words

BLIND_DE, HIDDEN_DE = 1.0, 0.5
"""Below these a coat is not seen, and the ground is hidden [CIEDE2000]; house limits, assumption."""

_LEFT_PX, _TOP_PX, _WIDE_PX, _HIGH_PX = 70.0, 136.0, 500.0, 330.0
_TABLE_PX = 800.0
_LOW_DE = 0.1
_TOPS_DE = (2.0, 5.0, 10.0, 20.0, 50.0, 100.0)
_MOST_COATS = 8.0
_ROW_PX = 30.0
_APART_PX = 22.0
_COLUMNS = (("lightness", 0.0), ("coats", 138.0), ("first", 220.0), ("blind", 320.0))

_Row = tuple[str, str, str | None, tuple[tuple[float, float], ...]]
"""Code of its name, shape of its marks, dashes, points."""


def hiding_svg(plan: Plan, words: Words = ENGLISH) -> str:
    """Draw what each ground coat does."""
    hiding = plan.hiding
    if not hiding.steps_de:
        raise ValueError("plan must say what each ground coat changes; it says nothing")
    rows = _rows(hiding)
    foot = max(_TOP_PX + _HIGH_PX + 78, _TOP_PX + 64 + _ROW_PX * (len(hiding.undercoats) + 1) + 44)
    told, end = notes(_notes(hiding, words), (EDGE_PX, foot + 10), WIDE_PX - 2 * EDGE_PX)
    title = words.say("hiding-title")
    return picture(
        (WIDE_PX, end),
        title,
        _description(hiding, words),
        element("defs", _hatch(plan)),
        element("rect", width=WIDE_PX, height=end, fill=PAPER),
        head(plan, title, _says(hiding, words), words),
        _blind(hiding, plan, words),
        _scale(hiding, words),
        _count(hiding),
        *(_line(row, hiding, words) for row in rows),
        _names(rows, hiding, words),
        _undercoats(hiding.undercoats, words),
        told,
    )


def _says(hiding: HidingVerdict, words: Words) -> str:
    """The verdict in a line."""
    low, high = round(hiding.low, 1), round(hiding.high, 1)
    if hiding.blind_from_coat is None:
        return words.say("hiding-seen", coats=hiding.ground_coats, low=low, high=high)
    return words.say(
        "hiding-blind", coats=hiding.ground_coats, low=low, high=high, number=hiding.blind_from_coat
    )


def _description(hiding: HidingVerdict, words: Words) -> str:
    """The picture in words."""
    steps = tuple(
        message("hiding-step", number=number, change=step) for number, step in enumerate(hiding.steps_de, 1)
    )
    says = Name(_says(hiding, words))
    return words.say("hiding-said", says=says, steps=steps, reason=hiding.reason)


def _rows(hiding: HidingVerdict) -> list[_Row]:
    """Lines to draw."""
    rows: list[_Row] = [
        ("hiding-line.changes", "square", None, tuple((n, de) for n, de in enumerate(hiding.steps_de, 1)))
    ]
    if hiding.rest_de:
        points = tuple((float(n), de) for n, de in enumerate(hiding.rest_de, 1))
        rows.append(("hiding-line.missing", "disc", "9 4", points))
    if hiding.islands_de:
        # The last one stands for the planned count, which may lie between two whole coats.
        last = len(hiding.islands_de) - 1
        points = tuple(
            (hiding.ground_coats if n == last else float(n), de) for n, de in enumerate(hiding.islands_de)
        )
        rows.append(("hiding-line.spots", "triangle", "2 4", points))
    return rows


def _coats(hiding: HidingVerdict) -> int:
    """Last coat that is drawn."""
    needed = ceil(min(max(hiding.ground_coats, hiding.high), _MOST_COATS))
    return max(len(hiding.steps_de), len(hiding.rest_de), needed)


def _x(coats: float, hiding: HidingVerdict) -> float:
    """Place of a coat [px]; half a coat of air at both ends."""
    return _LEFT_PX + (coats + 0.4) / (_coats(hiding) + 0.8) * _WIDE_PX


def _top(hiding: HidingVerdict) -> float:
    """Upper end of the scale: the next round figure over everything that is drawn."""
    highest = max(value for row in _rows(hiding) for _, value in row[3])
    return next((top for top in _TOPS_DE if top >= highest * 1.1), _TOPS_DE[-1])


def _y(difference: float, hiding: HidingVerdict) -> float:
    """Place of a difference on the logarithmic scale, held at its ends [px]."""
    top = _top(hiding)
    held = min(max(difference, _LOW_DE), top)
    share = (log10(held) - log10(_LOW_DE)) / (log10(top) - log10(_LOW_DE))
    return _TOP_PX + (1 - share) * _HIGH_PX


def _hatch(plan: Plan) -> str:
    """Hatch over the coats that are sprayed blind."""
    line = element("path", d="M-2,14L14,-2M10,14L14,10M-2,2L2,-2", stroke=RULE, stroke_width=1.2)
    return element(
        "pattern", line, id=f"h{plan.id}-blind", width=12, height=12, patternUnits="userSpaceOnUse"
    )


def _blind(hiding: HidingVerdict, plan: Plan, words: Words) -> str:
    """Coats that nobody sees arrive."""
    if hiding.blind_from_coat is None or hiding.blind_from_coat > _coats(hiding):
        return ""
    left = _x(hiding.blind_from_coat - 0.5, hiding)
    wide = _LEFT_PX + _WIDE_PX - left
    area = element("rect", x=left, y=_TOP_PX, width=wide, height=_HIGH_PX, fill=f"url(#h{plan.id}-blind)")
    text = words.say("hiding-blind-from", number=hiding.blind_from_coat)
    return area + _plain(shorten(text, wide - 12, TEXT_PX, bold=True), (left + 8, _TOP_PX + 22))


def _plain(text: str, at: tuple[float, float]) -> str:
    """Bold words on a patch of paper."""
    wide = text_width(text, TEXT_PX, bold=True) + 8
    patch = element("rect", x=at[0] - 4, y=at[1] - 16, width=wide, height=22, fill=PAPER)
    return patch + label(text, at, TEXT_PX, INK, font_weight="700")


def _scale(hiding: HidingVerdict, words: Words) -> str:
    """Frame, scale and the two limits."""
    right = _LEFT_PX + _WIDE_PX
    shapes = []
    for value in sorted({_LOW_DE, 1.0, *(value for value in (10.0, _top(hiding)) if value <= _top(hiding))}):
        y = _y(value, hiding)
        shapes.append(element("path", d=f"M{_LEFT_PX:.1f},{y:.1f}H{right:.1f}", stroke=RULE, stroke_width=1))
        shapes.append(label(f"{value:g}", (_LEFT_PX - 8, y + 5), SMALLEST_PX, INK, text_anchor="end"))
    shapes.append(
        label("0.5", (_LEFT_PX - 8, _y(HIDDEN_DE, hiding) + 5), SMALLEST_PX, INK, text_anchor="end")
    )
    for value, tone, dash in ((BLIND_DE, DRY, "12 4"), (HIDDEN_DE, WET, None)):
        line = f"M{_LEFT_PX:.1f},{_y(value, hiding):.1f}H{right:.1f}"
        shapes.append(element("path", d=line, stroke=tone, stroke_width=2, stroke_dasharray=dash))
    frame = element("rect", x=_LEFT_PX, y=_TOP_PX, width=_WIDE_PX, height=_HIGH_PX, fill="none", stroke=INK, stroke_width=1.2)  # fmt: skip
    foot = _TOP_PX + _HIGH_PX
    for coats in range(_coats(hiding) + 1):
        x = _x(coats, hiding)
        shapes.append(element("path", d=f"M{x:.1f},{foot:.1f}v6", stroke=INK, stroke_width=1.2))
        shapes.append(label(f"{coats}", (x, foot + 22), SMALLEST_PX, INK, text_anchor="middle"))
    shapes.append(label("dE00", (EDGE_PX, _TOP_PX - 12), SMALLEST_PX, MUTED))
    shapes.append(label(words.say("hiding-after"), (_LEFT_PX, foot + 48), SMALLEST_PX, MUTED))
    return "".join(shapes) + frame


def _count(hiding: HidingVerdict) -> str:
    """The planned count and its range, under the chart."""
    y = _TOP_PX + _HIGH_PX + 42
    most = _coats(hiding) + 0.4
    low, high = _x(hiding.low, hiding), _x(min(hiding.high, most), hiding)
    bar = element("path", d=f"M{low:.1f},{y:.1f}H{high:.1f}", stroke=INK, stroke_width=5)
    ends = element(
        "path", d=f"M{low:.1f},{y - 7:.1f}v14M{high:.1f},{y - 7:.1f}v14", stroke=INK, stroke_width=2
    )
    return bar + ends + diamond((_x(min(hiding.ground_coats, most), hiding), y))


def _line(row: _Row, hiding: HidingVerdict, words: Words) -> str:
    """One line with its marks."""
    name, shape, dash, points = row
    at = [(_x(coats, hiding), _y(value, hiding)) for coats, value in points]
    line = element("path", d=track(at), fill="none", stroke=INK, stroke_width=1.8, stroke_dasharray=dash)
    return element("g", line, *(_mark(shape, point) for point in at), data_line=words.say(name))


def _mark(shape: str, at: tuple[float, float]) -> str:
    """Square, disc or triangle."""
    x, y = at
    if shape == "disc":
        return element("circle", cx=x, cy=y, r=6, fill="#FFFFFF", stroke=INK, stroke_width=2)
    if shape == "square":
        return element("rect", x=x - 6, y=y - 6, width=12, height=12, fill=LAYER_TONES["ground"], stroke=INK, stroke_width=1.4)  # fmt: skip
    return element("path", d=f"M{x:.1f},{y - 8:.1f}l8,14h-16Z", fill="#FFFFFF", stroke=INK, stroke_width=2)


def _names(rows: list[_Row], hiding: HidingVerdict, words: Words) -> str:
    """Names of lines and limits beside the chart, pushed apart where they would cover each other."""
    wanted = [(_y(row[3][-1][1], hiding), row[0], row[1], row[2]) for row in rows if row[3]]
    wanted += [
        (_y(BLIND_DE, hiding), "hiding-line.seen", "", "12 4"),
        (_y(HIDDEN_DE, hiding), "hiding-line.hidden", "", None),
    ]
    wanted.sort(key=lambda row: row[0])
    places = [row[0] for row in wanted]
    for index in range(1, len(places)):
        places[index] = max(places[index], places[index - 1] + _APART_PX)
    over = places[-1] - (_TOP_PX + _HIGH_PX + 4)
    if over > 0:
        places = [
            min(place, _TOP_PX + _HIGH_PX + 4 - _APART_PX * back)
            for back, place in zip(range(len(places) - 1, -1, -1), places, strict=True)
        ]
    shapes = []
    right = _LEFT_PX + _WIDE_PX
    for (_, name, shape, dash), y in zip(wanted, places, strict=True):
        tone = INK if shape else DRY if name == "hiding-line.seen" else WET
        shapes.append(
            element(
                "path", d=f"M{right + 10:.1f},{y:.1f}h26", stroke=tone, stroke_width=2, stroke_dasharray=dash
            )
        )
        if shape:
            shapes.append(_mark(shape, (right + 23, y)))
        shapes.append(label(words.say(name), (right + 44, y + 5), SMALLEST_PX, INK))
    return "".join(shapes)


def _undercoats(choices: tuple[UndercoatChoice, ...], words: Words) -> str:
    """What other undercoats would cost and give."""
    if not choices:
        return ""
    top = _TOP_PX + 16
    shapes = [label(words.say("undercoats-title"), (_TABLE_PX, top), 18, INK, font_weight="700")]
    y = top + 34
    shapes += [
        label(words.say(f"undercoats-head.{name}"), (_TABLE_PX + x, y), SMALLEST_PX, MUTED)
        for name, x in _COLUMNS
    ]
    shapes.append(
        element(
            "path", d=f"M{_TABLE_PX:.1f},{y + 9:.1f}H{WIDE_PX - EDGE_PX:.1f}", stroke=INK, stroke_width=1.2
        )
    )
    for number, row in enumerate(choices):
        at = y + 10 + _ROW_PX * number + 20
        coats = words.say("undercoats-many") if row.coats is None else f"{row.coats:g}"
        unseen = row.blind_from_coat
        blind = "-" if unseen is None else words.say("coat-number", number=unseen)
        cells = (f"{row.lightness:.0f}", coats, f"{row.first_step_de:.1f}", blind)
        weight = "700" if row.best else None
        shapes += [
            label(cell, (_TABLE_PX + x, at), TEXT_PX, INK, font_weight=weight)
            for cell, (_, x) in zip(cells, _COLUMNS, strict=True)
        ]
        if row.best:
            shapes.append(diamond((_TABLE_PX - 16, at - 5), 8))
    if any(row.best for row in choices):
        at = y + 10 + _ROW_PX * len(choices) + 24
        shapes.append(diamond((_TABLE_PX - 16, at - 5), 8))
        text = words.say("undercoats-best")
        shapes.append(label(text, (_TABLE_PX, at), SMALLEST_PX, INK))
    return element("g", *shapes, data_kind="undercoats")


def _notes(hiding: HidingVerdict, words: Words) -> tuple[str, ...]:
    """What stands below."""
    if hiding.worst_panel:
        plan = words.say("hiding-planned-panel", coats=hiding.ground_coats, panel=Name(hiding.worst_panel))
    else:
        plan = words.say("hiding-planned", coats=hiding.ground_coats)
    card = "" if hiding.card_contrast is None else words.say("hiding-card", contrast=hiding.card_contrast)
    why = words.say("picture-why", reason=hiding.reason)
    return tuple(
        text for text in (plan, why, words.say("hiding-blind-note"), card, words.say("hiding-marks")) if text
    )
