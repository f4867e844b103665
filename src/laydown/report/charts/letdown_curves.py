"""How the panel moves with coats: one small chart for each angle, lightness above and yellowness below."""

from dataclasses import dataclass
from math import ceil, floor

from laydown.report.kit.chart import EDGE_PX, WIDE_PX, head, notes
from laydown.report.kit.style import INK, MUTED, PAPER, RULE, SMALLEST_PX, TEXT_PX, WET
from laydown.report.kit.svg import element, label, picture, track
from laydown.report.kit.text_width import shorten, text_width
from laydown.schema.colour import AngleColour, AngleCurve, ColourVerdict, PanelEvidence
from laydown.schema.message import Name, message
from laydown.schema.plan import Plan
from laydown.words.letdown import angle_words, car_words, next_words, seen_words, verdict_line, zone_planned
from laydown.words.show import ENGLISH, Words

_LEFT_PX, _GAP_PX = 96.0, 20.0
_TOP_PX = 156.0
_HIGH_PX = {"L*": 250.0, "b*": 130.0}
_PART = {"L*": 0, "b*": 2}
_BETWEEN_PX = 34.0
_LEAST_SPAN = 4.0
_MOST_ANGLES = 6
_DASHES = (None, "10 4", "2 4")
_BAND = "#D5E8EA"
_TICKS = (1.0, 2.0, 5.0, 10.0, 20.0, 50.0)
_MOST_TICKS = 6


@dataclass(frozen=True, slots=True)
class _Chart:
    """One small chart: which value, where, and its scales."""

    value: str
    left: float
    top: float
    wide: float
    coats: tuple[float, float]
    span: tuple[float, float]

    @property
    def foot(self) -> float:
        """Lower edge [px]."""
        return self.top + _HIGH_PX[self.value]

    def x(self, coats: float) -> float:
        """Place of a number of coats [px]."""
        low, high = self.coats
        return self.left + (min(max(coats, low), high) - low) / (high - low) * self.wide

    def y(self, value: float) -> float:
        """Place of a value [px]."""
        low, high = self.span
        return self.foot - (value - low) / (high - low) * _HIGH_PX[self.value]

    def at(self, colour: AngleColour) -> tuple[float, float]:
        """Place of a colour whose coats are known [px]."""
        return self.x(colour.coats or 0.0), self.y(colour.lab[_PART[self.value]])


def curve_svg(plan: Plan, words: Words = ENGLISH) -> str:
    """Draw the curves of a panel that was read with an instrument."""
    evidence = plan.colour.evidence
    if evidence is None or not evidence.curves:
        raise ValueError("plan must hold curves of a panel that was read with an instrument; it has none")
    curves = evidence.curves[:_MOST_ANGLES]
    wide = (WIDE_PX - EDGE_PX - _LEFT_PX - _GAP_PX * (len(curves) - 1)) / len(curves)
    shapes = []
    top = _TOP_PX
    for value in ("L*", "b*"):
        span = _span(curves, value)
        for index, curve in enumerate(curves):
            left = _LEFT_PX + index * (wide + _GAP_PX)
            chart = _Chart(value, left, top, wide, _coats(curves), span)
            shapes.append(_chart(chart, curve, plan.colour, words=words if index == 0 else None))
        top += _HIGH_PX[value] + _BETWEEN_PX
    shapes += [
        _angle_head(curve, _LEFT_PX + index * (wide + _GAP_PX), wide, words)
        for index, curve in enumerate(curves)
    ]
    key, key_end = _key(plan.colour, curves[0], top + 24, words)
    told, end = notes(_notes(plan.colour, evidence, words), (EDGE_PX, key_end + 12), WIDE_PX - 2 * EDGE_PX)
    title = words.say("curves-title")
    return picture(
        (WIDE_PX, end),
        title,
        " ".join(_said(curve, words) for curve in evidence.curves),
        element("rect", width=WIDE_PX, height=end, fill=PAPER),
        head(plan, title, verdict_line(plan.colour, words), words),
        *shapes,
        key,
        told,
    )


def _coats(curves: tuple[AngleCurve, ...]) -> tuple[float, float]:
    """First and last coats that are drawn."""
    found = [
        point.coats for curve in curves for point in (*curve.curve, *curve.fields) if point.coats is not None
    ]
    low, high = min(found, default=0.0), max(found, default=1.0)
    return floor(low), max(ceil(high), floor(low) + 1)


def _span(curves: tuple[AngleCurve, ...], value: str) -> tuple[float, float]:
    """One scale for all angles, so that they compare."""
    part = _PART[value]
    found = [
        point.lab[part] for curve in curves for point in (*curve.curve, *curve.fields, *curve.car)
    ]  # fmt: skip
    middle, half = (min(found) + max(found)) / 2, max((max(found) - min(found)) / 2, _LEAST_SPAN / 2)
    return middle - 1.12 * half, middle + 1.12 * half


def _angle_head(curve: AngleCurve, left: float, wide: float, words: Words) -> str:
    """Angle and what is left there."""
    parts = [
        label(angle_words(curve.angle_deg, words), (left, _TOP_PX - 32), TEXT_PX, INK, font_weight="700")
    ]
    if curve.difference is not None:
        seen = Name(seen_words(curve.difference, curve.angle_deg, words))
        text = words.say("curves-off", difference=curve.difference, seen=seen)
        parts.append(label(shorten(text, wide, SMALLEST_PX), (left, _TOP_PX - 12), SMALLEST_PX, INK))
    return "".join(parts)


def _chart(chart: _Chart, curve: AngleCurve, colour: ColourVerdict, *, words: Words | None) -> str:
    """One chart: band of the count, grid, car, curve, fields, count."""
    shapes = [_band(chart, colour), _grid(chart, words)]
    for index, car in enumerate(curve.car[: len(_DASHES)]):
        y = chart.y(car.lab[_PART[chart.value]])
        line = f"M{chart.left:.1f},{y:.1f}h{chart.wide:.1f}"
        shapes.append(element("path", d=line, stroke=WET, stroke_width=2.2, stroke_dasharray=_DASHES[index]))
    shapes.append(
        element("path", d=track(chart.at(point) for point in curve.curve), fill="none", stroke=INK, stroke_width=2.4)
    )  # fmt: skip
    for field in curve.fields:
        x, y = chart.at(field)
        shapes.append(element("circle", cx=x, cy=y, r=5, fill=INK, stroke="#FFFFFF", stroke_width=1.6))
    if curve.ordered is not None:
        x, y = chart.at(curve.ordered)
        shapes.append(
            element("path", d=f"M{x:.1f},{chart.top:.1f}V{chart.foot:.1f}", stroke=INK, stroke_width=1.8)
        )
        mark = f"M{x:.1f},{y - 9:.1f}l9,9l-9,9l-9,-9Z"
        shapes.append(element("path", d=mark, fill="#FFFFFF", stroke=INK, stroke_width=2))
    return element("g", *shapes, data_curve=f"{chart.value} {curve.angle_deg:g}")


def _band(chart: _Chart, colour: ColourVerdict) -> str:
    """Interval of the count that the zone's own panel gives."""
    zone = zone_planned(colour)
    if zone is None or zone.low is None or zone.high is None:
        return ""
    left, right = chart.x(zone.low), chart.x(zone.high)
    return element(
        "rect", x=left, y=chart.top, width=max(right - left, 1.0), height=_HIGH_PX[chart.value], fill=_BAND
    )


def _grid(chart: _Chart, words: Words | None) -> str:
    """Frame, level lines, and their figures; the first chart of a row has words."""
    low, high = chart.span
    step = next((size for size in _TICKS if (high - low) / size <= _MOST_TICKS), _TICKS[-1])
    shapes = []
    for number in range(ceil(low / step), floor(high / step) + 1):
        y = chart.y(number * step)
        shapes.append(
            element("path", d=f"M{chart.left:.1f},{y:.1f}h{chart.wide:.1f}", stroke=RULE, stroke_width=1)
        )
        if words is not None:
            text = f"{number * step:g}".replace("-", "\N{MINUS SIGN}")
            shapes.append(label(text, (chart.left - 8, y + 5), SMALLEST_PX, INK, text_anchor="end"))
    shapes.append(
        element(
            "rect", x=chart.left, y=chart.top, width=chart.wide, height=_HIGH_PX[chart.value], fill="none", stroke=INK, stroke_width=1.2,
        )
    )  # fmt: skip
    for coats in range(round(chart.coats[0]), round(chart.coats[1]) + 1):
        x = chart.x(coats)
        shapes.append(element("path", d=f"M{x:.1f},{chart.foot:.1f}v5", stroke=INK, stroke_width=1.2))
        shapes.append(label(f"{coats}", (x, chart.foot + 20), SMALLEST_PX, INK, text_anchor="middle"))
    if words is not None:
        shapes.append(label(chart.value, (EDGE_PX, chart.top + 16), 18, INK, font_weight="700"))
        shapes.append(label(words.say("curves-coats"), (EDGE_PX, chart.foot + 20), SMALLEST_PX, MUTED))
    return "".join(shapes)


def _key(colour: ColourVerdict, curve: AngleCurve, y: float, words: Words) -> tuple[str, float]:
    """What each mark is, in as many lines as it takes."""
    entries: list[tuple[str, str]] = [
        (element("circle", cx=14, cy=0, r=5, fill=INK), words.say("curves-legend.field")),
        (element("path", d="M0,6C8,-2 18,-6 28,-7", fill="none", stroke=INK, stroke_width=2.4), words.say("curves-legend.curve")),
    ]  # fmt: skip
    for index, car in enumerate(curve.car[: len(_DASHES)]):
        name = car_words(car.zone, words)
        if car.zone and car.zone == colour.zone:
            name = words.say("zone-planned", zone=Name(name))
        line = element("path", d="M0,0h28", stroke=WET, stroke_width=2.2, stroke_dasharray=_DASHES[index])
        entries.append((line, name))
    hidden = len(curve.car) - len(_DASHES)
    if hidden > 0:
        entries.append(("", words.say("curves-more-zones", count=hidden)))
    if curve.ordered is not None:
        mark = element("path", d="M14,-9l9,9l-9,9l-9,-9Z", fill="#FFFFFF", stroke=INK, stroke_width=2)
        entries.append((mark, words.say("curves-legend.ordered")))
    entries.append(
        (element("rect", x=4, y=-9, width=20, height=18, fill=_BAND), words.say("nine-of-ten-cases"))
    )
    shapes, x = [], EDGE_PX
    for shape, text in entries:
        wide = 38 + text_width(text, SMALLEST_PX) + 26
        if x + wide > WIDE_PX - EDGE_PX and x > EDGE_PX:
            x, y = EDGE_PX, y + 26
        shapes.append(element("g", shape, transform=f"translate({x:.1f},{y:.1f})"))
        shapes.append(label(text, (x + 38, y + 5), SMALLEST_PX, INK))
        x += wide
    return "".join(shapes), y + 28


def _notes(colour: ColourVerdict, evidence: PanelEvidence, words: Words) -> tuple[str, ...]:
    """What stands below."""
    said = [message("curves-scale")]
    if evidence.illuminant:
        observer = Name(str(evidence.observer))
        said.append(message("curves-light", illuminant=Name(evidence.illuminant), observer=observer))
    if evidence.ground_de is not None:
        seen = Name(seen_words(evidence.ground_de, words=words))
        said.append(message("curves-ground", difference=evidence.ground_de, seen=seen))
    more = len(evidence.curves) - _MOST_ANGLES
    if more > 0:
        said.append(message("curves-more-angles", count=more))
    return (next_words(colour, words), " ".join(map(words, said)))


def _said(curve: AngleCurve, words: Words) -> str:
    """One angle in words."""
    angle = Name(angle_words(curve.angle_deg, words))
    if not curve.curve:
        return words.say("curves-said-none", angle=angle)
    first, last = curve.curve[0].lab[0], curve.curve[-1].lab[0]
    if curve.difference is None:
        return words.say("curves-said", angle=angle, first=first, last=last)
    return words.say("curves-said-left", angle=angle, first=first, last=last, left=curve.difference)
