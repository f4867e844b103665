"""The let-down panel as it was judged: its fields, the chosen count between them, and how sure that is."""

from dataclasses import dataclass
from itertools import pairwise
from math import ceil

from laydown.report.kit.chart import EDGE_PX, WIDE_PX, diamond, head, notes
from laydown.report.kit.style import INK, LAYER_TONES, MUTED, PAPER, RULE, SMALLEST_PX, TEXT_PX
from laydown.report.kit.svg import element, label, picture
from laydown.report.kit.text_width import shorten, text_width
from laydown.schema.choices import FieldJudgement
from laydown.schema.colour import ColourVerdict, PanelEvidence, PanelField, ZoneVerdict
from laydown.schema.message import Name
from laydown.schema.plan import Plan
from laydown.words.letdown import (
    coats_words,
    left_words,
    next_words,
    plan_share,
    verdict_line,
    zone_name,
    zone_planned,
    zone_words,
)
from laydown.words.show import ENGLISH, Words

_LEFT_PX, _RIGHT_PX = 210.0, 1100.0
_TILE_TOP_PX, _BARE_PX, _CLEARED_PX = 138.0, 52.0, 92.0
_WIDEST_TILE_PX = 150.0
_CHANCE_PX = 96.0
_ROW_PX = 40.0
_LEAST_CHANCE = 0.01
_ALIKE = 0.005


@dataclass(frozen=True, slots=True)
class _Axis:
    """Coats across the picture."""

    low: float
    high: float

    def across(self, coats: float) -> float:
        """Place of a number of coats, held at the ends [px]."""
        share = (min(max(coats, self.low), self.high) - self.low) / (self.high - self.low)
        return _LEFT_PX + share * (_RIGHT_PX - _LEFT_PX)


def panel_svg(plan: Plan, words: Words = ENGLISH) -> str:
    """Draw the let-down panel."""
    colour = plan.colour
    if colour.evidence is None or not colour.evidence.fields:
        raise ValueError("plan must hold the evidence of a let-down panel; it has none")
    axis = _axis(colour.evidence, colour)
    judged = _judged_rows(colour.evidence)
    under = _TILE_TOP_PX + _BARE_PX + _CLEARED_PX + 14 + 32 * len(judged)
    zone = zone_planned(colour)
    highest = max((half.chance for half in zone.chances), default=0.0) if zone is not None else 0.0
    base = under + _CHANCE_PX * highest + 56 if highest else under - 44
    zones = colour.zones
    foot = base + 52 + _ROW_PX * max(1, len(zones))
    told, end = notes(_notes(colour, words), (EDGE_PX, foot + 14), WIDE_PX - 2 * EDGE_PX)
    title = words.say("panel-title")
    return picture(
        (WIDE_PX, end),
        title,
        _description(colour, words),
        element("defs", _clear_pattern(plan)),
        element("rect", width=WIDE_PX, height=end, fill=PAPER),
        head(plan, title, verdict_line(colour, words), words),
        _pin(axis, colour, (_TILE_TOP_PX - 12, under + 2, base)),
        *(_tile(field, (axis, colour.evidence), plan, words) for field in colour.evidence.fields),
        *(
            _judged(name, index, (axis, colour.evidence), words)
            for index, name in enumerate(judged)
        ),
        _chances(colour, axis, base, words) if highest else "",
        *(_zone(zone, (axis, base + 62 + _ROW_PX * index), colour, words) for index, zone in enumerate(zones)),
        told,
    )  # fmt: skip


def _axis(evidence: PanelEvidence, colour: ColourVerdict) -> _Axis:
    """From the first field to the last, and on to where a count may lie."""
    coats = [field.coats for field in evidence.fields]
    for zone in colour.zones:
        coats += [] if zone.high is None else [zone.high, _on_panel(zone, colour)]
    return _Axis(min(coats), max(ceil(2 * max(coats)) / 2, min(coats) + 1.0))


def _judged_rows(evidence: PanelEvidence) -> tuple[str, ...]:
    """Geometries that were judged by eye."""
    return tuple(
        name for name in ("face", "flop") if any(_judgement(field, name) for field in evidence.fields)
    )


def _judgement(field: PanelField, name: str) -> FieldJudgement | None:
    """Judgement of a field."""
    return field.face if name == "face" else field.flop


def _on_panel(zone: ZoneVerdict, colour: ColourVerdict) -> float:
    """Count of a zone in coats of the panel."""
    return (zone.coats or 0.0) / plan_share(colour)


def _description(colour: ColourVerdict, words: Words) -> str:
    """The picture in words."""
    zones = " ".join(
        words.say(
            "panel-zone-said", zone=Name(zone_name(zone, words)), said=Name(zone_words(zone, colour, words))
        )
        for zone in colour.zones
    )
    return words.say(
        "panel-said",
        verdict=Name(verdict_line(colour, words)),
        zones=Name(zones),
        reason=colour.reason,
        next=Name(next_words(colour, words)),
    )


def _notes(colour: ColourVerdict, words: Words) -> tuple[str, ...]:
    """What stands below."""
    why = words.say("picture-why", reason=colour.reason) if colour.reason else ""
    film = ""
    factor = colour.film_factor
    if (
        factor is not None
        and abs(factor - 1) >= _ALIKE
        and colour.panel_coats is not None
        and colour.effect_coats is not None
    ):
        there = round(colour.panel_coats, 1)
        film = words.say("panel-film", factor=factor, panel=there, coats=colour.effect_coats)
    marks = words.say("panel-tones")
    if any(zone.chances for zone in colour.zones):
        marks = f"{words.say('panel-marks')} {marks}"
    return tuple(text for text in (next_words(colour, words), why, film, marks) if text)


def _clear_pattern(plan: Plan) -> str:
    """Hatch of the cleared half."""
    line = element("path", d="M-2,12L12,-2M8,12L12,8M-2,2L2,-2", stroke=MUTED, stroke_width=1.1)
    ident = f"p{plan.id}-clear"
    return element("pattern", line, id=ident, width=10, height=10, patternUnits="userSpaceOnUse")


def _wide(axis: _Axis, evidence: PanelEvidence) -> float:
    """Width of a tile [px]."""
    at = sorted(axis.across(field.coats) for field in evidence.fields)
    gaps = [b - a for a, b in pairwise(at) if b > a]
    return min(_WIDEST_TILE_PX, 0.84 * min(gaps, default=_WIDEST_TILE_PX))


def _tile(field: PanelField, drawn: tuple[_Axis, PanelEvidence], plan: Plan, words: Words) -> str:
    """One field: bare half, cleared half, and its coats as lines."""
    axis, evidence = drawn
    wide, middle, top = _wide(axis, evidence), axis.across(field.coats), _TILE_TOP_PX
    left, split = middle - wide / 2, _TILE_TOP_PX + _BARE_PX
    told = coats_words(field.coats, words)
    size = SMALLEST_PX if text_width(told, TEXT_PX, bold=True) > wide - 8 else TEXT_PX
    shapes = [
        element("rect", x=left, y=top, width=wide, height=_BARE_PX + _CLEARED_PX, fill="#FFFFFF"),
        element("rect", x=left, y=split, width=wide, height=_CLEARED_PX, fill=f"url(#p{plan.id}-clear)"),
        label(shorten(told, wide - 8, size, bold=True), (middle, top + 31), size, INK, font_weight="700", text_anchor="middle"),
    ]  # fmt: skip
    foot = split + _CLEARED_PX
    for number in range(int(field.coats + 0.5)):
        high = 4.0 if number + 1 <= field.coats else 2.0
        y = foot - 12 - 8.0 * number
        shapes.append(
            element("rect", x=left + 6, y=y, width=wide - 12, height=high + 2, fill=LAYER_TONES["effect"], stroke=INK, stroke_width=0.8)
        )  # fmt: skip
    shapes.append(
        element("rect", x=left, y=top, width=wide, height=_BARE_PX + _CLEARED_PX, fill="none", stroke=INK, stroke_width=1.6)
    )  # fmt: skip
    shapes.append(element("path", d=f"M{left:.1f},{split:.1f}h{wide:.1f}", stroke=INK, stroke_width=1.2))
    return element("g", *shapes, data_field=f"{field.coats:g}")


def _judged(name: str, index: int, drawn: tuple[_Axis, PanelEvidence], words: Words) -> str:
    """One row of judgements, each a shape and a word."""
    axis, evidence = drawn
    y = _TILE_TOP_PX + _BARE_PX + _CLEARED_PX + 30 + 32 * index
    shapes = [label(words.word("looked_at", name), (EDGE_PX, y + 5), TEXT_PX, INK, font_weight="700")]
    roomy = _wide(axis, evidence) >= 96
    for field in evidence.fields:
        said = _judgement(field, name)
        if said is None:
            continue
        x, told = axis.across(field.coats), words.word("judgement", said)
        if roomy:
            shapes.append(_sign(said, (x - 32, y)))
            shapes.append(label(told, (x - 16, y + 5), TEXT_PX, INK))
        else:
            shapes.append(_sign(said, (x, y - 5)))
            shapes.append(label(told, (x, y + 18), SMALLEST_PX, INK, text_anchor="middle"))
    return element("g", *shapes, data_judged=name)


def _sign(said: FieldJudgement, at: tuple[float, float]) -> str:
    """Few: ring with a minus; match: full disc with an equals sign; many: square with a plus."""
    x, y = at
    if said == "match":
        disc = element("circle", cx=x, cy=y, r=10, fill=INK)
        return disc + element("path", d=f"M{x - 5:.1f},{y - 3:.1f}h10M{x - 5:.1f},{y + 3:.1f}h10", stroke=PAPER, stroke_width=2.2)  # fmt: skip
    minus = f"M{x - 5:.1f},{y:.1f}h10"
    if said == "few":
        ring = element("circle", cx=x, cy=y, r=9, fill="none", stroke=INK, stroke_width=1.8)
        return ring + element("path", d=minus, stroke=INK, stroke_width=2.2)
    box = element("rect", x=x - 9, y=y - 9, width=18, height=18, fill="none", stroke=INK, stroke_width=1.8)
    return box + element("path", d=f"{minus}M{x:.1f},{y - 5:.1f}v10", stroke=INK, stroke_width=2.2)


def _pin(axis: _Axis, colour: ColourVerdict, places: tuple[float, float, float]) -> str:
    """Dashed line from the chosen count up to the panel, and through it where no field lies in its way."""
    count = colour.panel_coats
    if count is None or colour.evidence is None or not axis.low <= count <= axis.high:
        return ""
    x, (top, under, base) = axis.across(count), places
    tip = element("path", d=f"M{x - 8:.1f},{top - 8:.1f}h16l-8,12Z", fill=INK)
    half = _wide(axis, colour.evidence) / 2 + 4
    free = all(abs(axis.across(field.coats) - x) > half for field in colour.evidence.fields)
    line = f"M{x:.1f},{top if free else under:.1f}V{base:.1f}"
    return tip + element("path", d=line, stroke=INK, stroke_width=1.6, stroke_dasharray="7 5")


def _chances(colour: ColourVerdict, axis: _Axis, base: float, words: Words) -> str:
    """Half coats as bars on the axis of coats."""
    shapes = [element("path", d=f"M{_LEFT_PX:.1f},{base:.1f}H{_RIGHT_PX:.1f}", stroke=INK, stroke_width=1.4)]
    for step in range(round(2 * (axis.high - axis.low)) + 1):
        coats = axis.low + step / 2
        x, whole = axis.across(coats), float(coats).is_integer()
        tick = 8 if whole else 5
        shapes.append(
            element("path", d=f"M{x:.1f},{base:.1f}v{tick}", stroke=INK if whole else RULE, stroke_width=1.4)
        )
        shapes.append(
            label(f"{coats:g}", (x, base + 24), SMALLEST_PX, INK if whole else MUTED, text_anchor="middle")
        )
    zone = zone_planned(colour)
    shapes.append(label(words.say("panel-chance"), (EDGE_PX, base - 30), TEXT_PX, INK, font_weight="700"))
    shapes.append(label(words.say("panel-chance-of"), (EDGE_PX, base - 10), SMALLEST_PX, MUTED))
    shapes.append(label(words.say("panel-coats"), (EDGE_PX, base + 24), SMALLEST_PX, INK))
    for half in zone.chances if zone is not None else ():
        if half.chance < _LEAST_CHANCE or not axis.low <= half.coats <= axis.high:
            continue
        high = _CHANCE_PX * half.chance
        x = axis.across(half.coats)
        shapes.append(
            element("rect", x=x - 14, y=base - high, width=28, height=high, fill=LAYER_TONES["effect"], stroke=INK, stroke_width=1.2)
        )  # fmt: skip
        text = words.amount(half.chance, "half_chance", ".0f")
        wide = text_width(text, SMALLEST_PX) + 6
        shapes.append(element("rect", x=x - wide / 2, y=base - high - 20, width=wide, height=17, fill=PAPER))
        shapes.append(label(text, (x, base - high - 7), SMALLEST_PX, INK, text_anchor="middle"))
    return element("g", *shapes, data_kind="chances")


def _zone(zone: ZoneVerdict, drawn: tuple[_Axis, float], colour: ColourVerdict, words: Words) -> str:
    """One zone: its interval, the ordered count and the words."""
    axis, y = drawn
    planned = zone == zone_planned(colour)
    name = zone_name(zone, words)
    if planned and len(colour.zones) > 1:
        name = words.say("zone-planned", zone=Name(name))
    name = shorten(name, 160, TEXT_PX, bold=True)
    shapes = [label(name, (EDGE_PX, y + 5), TEXT_PX, INK, font_weight="700" if planned else None)]
    told = zone_words(zone, colour, words)
    left = left_words(zone, words, parts=False)
    if zone.low is None or zone.high is None:
        text = told + (f"; {left}" if left else "")
        shapes.append(label(shorten(text, _RIGHT_PX - _LEFT_PX, TEXT_PX), (_LEFT_PX, y + 5), TEXT_PX, INK))
        return element("g", *shapes, data_zone=zone_name(zone))
    low, high = axis.across(zone.low), axis.across(zone.high)
    shapes.append(
        element("path", d=f"M{low:.1f},{y - 7:.1f}v14M{high:.1f},{y - 7:.1f}v14", stroke=INK, stroke_width=2)
    )
    shapes.append(element("path", d=f"M{low:.1f},{y:.1f}H{high:.1f}", stroke=INK, stroke_width=5))
    if zone.coats is not None:
        shapes.append(diamond((axis.across(_on_panel(zone, colour)), y)))
    lines = [text for text in (told, left) if text]
    if zone.coats is not None:
        mark = axis.across(_on_panel(zone, colour))
        low, high = min(low, mark), max(high, mark)
    after = WIDE_PX - EDGE_PX - high - 24
    before = low - 24 - _LEFT_PX
    widest = max(text_width(text, SMALLEST_PX) for text in lines)
    right = widest <= after or after >= before
    x, anchor, room = (high + 24, None, after) if right else (low - 24, "end", before)
    first = y + 5 if len(lines) == 1 else y - 4
    for index, text in enumerate(lines):
        fitted = shorten(text, room, SMALLEST_PX)
        shapes.append(label(fitted, (x, first + 18 * index), SMALLEST_PX, INK, text_anchor=anchor))
    return element("g", *shapes, data_zone=zone_name(zone))
