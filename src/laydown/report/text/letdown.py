"""What the let-down panel says, as plain text: count, interval, verdict, zones, chances, next step."""

from laydown.report.text.lines import NARROWEST, columns, paragraph
from laydown.schema.colour import ColourVerdict, ZoneVerdict
from laydown.schema.message import Message, Name, message
from laydown.words.letdown import (
    angle_words,
    films_differ,
    left_said,
    next_said,
    seen_words,
    verdict_line,
    zone_name,
    zone_planned,
    zone_words,
)
from laydown.words.show import ENGLISH, Words

_BAR = 40
_HEAD = 10


def strip_text(
    colour: ColourVerdict, fixed: float | None = None, width: int = 80, words: Words = ENGLISH
) -> str:
    """Write what the panel says."""
    if width < NARROWEST:
        raise ValueError(f"width must be {NARROWEST} columns or more; got {width}")
    zone = zone_planned(colour)
    left = None if zone is None else left_said(zone, words)
    lines = paragraph(_head(words, "panel"), verdict_line(colour, words), width)
    if colour.reason:
        lines += paragraph(_head(words, "because"), words(colour.reason), width)
    lines += paragraph(_head(words, "next"), words(next_said(colour)), width)
    if fixed is not None:
        lines += paragraph(_head(words, "fixed"), words(_fixed(colour, fixed)), width)
    if left is not None:
        lines += paragraph(_head(words, "off"), words(left), width)
    lines += zone_lines(colour, words, width, _head(words, "zone"))
    lines += _film(colour, words, width)
    lines += _chances(zone, colour, words)
    lines += _angles(colour, words)
    return "\n".join(lines) + "\n"


def _head(words: Words, name: str) -> str:
    """Head of a line, as wide as every other."""
    return f"{words.say(f'panel-head.{name}'):{_HEAD - 1}} "


def zone_lines(colour: ColourVerdict, words: Words, width: int, head: str) -> list[str]:
    """Write one entry for each zone, where there are several."""
    if len(colour.zones) < 2:
        return []
    lines = []
    for zone in colour.zones:
        name = zone_name(zone, words)
        if zone is zone_planned(colour):
            name = words.say("zone-planned", zone=Name(name))
        more = [zone_words(zone, colour, words)]
        if zone.joins_with:
            more.append(words.say("zone-joins", zones=tuple(map(Name, zone.joins_with))))
        if zone.coats is None and zone.next_step:
            more.append(words(zone.next_step))
        lines += paragraph(head, words.say("zone-line", zone=Name(name), said=tuple(map(Name, more))), width)
    return lines


def _fixed(colour: ColourVerdict, fixed: float) -> Message:
    """Hold the count of the job against the panel."""
    zone = zone_planned(colour)
    if zone is None or zone.coats is None:
        return message("job-fixes-alone", coats=fixed)
    if zone.coats == fixed:
        return message("job-fixes-too", coats=fixed)
    return message("job-fixes-other", coats=fixed, panel=zone.coats)


def _film(colour: ColourVerdict, words: Words, width: int) -> list[str]:
    """Say how a coat of the plan compares with one of the panel."""
    factor = colour.film_factor
    if factor is None or abs(factor - 1.0) < 0.005:
        return []
    told = words.say("film-factor", factor=factor)
    if colour.panel_coats is not None and colour.effect_coats is not None:
        told = words.say(
            "film-factor-count", factor=factor, coats=colour.effect_coats, panel=round(colour.panel_coats, 1)
        )
    return paragraph(_head(words, "film"), told, width)


def _chances(zone: ZoneVerdict | None, colour: ColourVerdict, words: Words) -> list[str]:
    """Half coats with their chances as bars."""
    if zone is None or not zone.chances:
        return []
    differ = films_differ(colour)
    lines = [f"{_head(words, 'chance')}{words.say('chance-of-panel' if differ else 'chance-nearest')}"]
    for half in zone.chances:
        bar = "#" * max(1, round(_BAR * half.chance))
        mark = f"  {words.say('chance-ordered')}" if half.coats == zone.coats and not differ else ""
        share = words.amount(half.chance, "half_chance", ".0f")
        lines.append(f"{half.coats:>8g}  {bar:<{_BAR}} {share:>5}{mark}".rstrip())
    return lines


def _angles(colour: ColourVerdict, words: Words) -> list[str]:
    """What is left at each angle at the ordered count."""
    curves = colour.evidence.curves if colour.evidence is not None else ()
    shown = [curve for curve in curves if curve.difference is not None]
    if not shown:
        return []
    lines = [f"{_head(words, 'angle')}{words.say('angles-off')}"]
    for curve in shown:
        difference = curve.difference or 0.0
        cells = (
            (angle_words(curve.angle_deg, words), 11),
            (f"{difference:.1f}", -5),
            (seen_words(difference, curve.angle_deg, words), 10),
        )
        lines.append(" " * _HEAD + columns(cells))
    return lines
