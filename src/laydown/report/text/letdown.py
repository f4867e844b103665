"""What the let-down panel says, as plain text: count, interval, verdict, zones, chances, next step."""

from laydown.report.text.lines import NARROWEST, columns, paragraph
from laydown.schema.colour import ColourVerdict, ZoneVerdict
from laydown.words.letdown import (
    angle_words,
    figure,
    films_differ,
    left_words,
    next_words,
    seen_words,
    verdict_line,
    zone_name,
    zone_planned,
    zone_words,
)

_BAR = 40
_HEAD = 10


def strip_text(colour: ColourVerdict, fixed: float | None = None, width: int = 80) -> str:
    """Write what the panel says.

    Parameters
    ----------
    colour
        The verdict.
    fixed
        A count that the job fixes; None without one.
    width
        Columns there are, 72 or more.

    Returns
    -------
    Lines of at most that width, each ended by a line feed.

    Raises
    ------
    ValueError
        When the width is under 72 columns.
    """
    if width < NARROWEST:
        raise ValueError(f"width must be {NARROWEST} columns or more; got {width}")
    zone = zone_planned(colour)
    lines = paragraph("PANEL     ", verdict_line(colour), width)
    if colour.reason:
        lines += paragraph("because   ", colour.reason, width)
    lines += paragraph("NEXT      ", next_words(colour).removeprefix("Next: "), width)
    if fixed is not None:
        lines += paragraph("fixed     ", _fixed(colour, fixed), width)
    if zone is not None and left_words(zone):
        lines += paragraph("off       ", left_words(zone).removeprefix("off "), width)
    lines += zone_lines(colour, width, "zone      ")
    lines += _film(colour, width)
    lines += _chances(zone, colour)
    lines += _angles(colour)
    return "\n".join(lines) + "\n"


def zone_lines(colour: ColourVerdict, width: int, head: str) -> list[str]:
    """Write one entry for each zone, where there are several.

    Parameters
    ----------
    colour
        The verdict.
    width
        Columns there are.
    head
        Stands before each.

    Returns
    -------
    Lines; none for a single zone.
    """
    if len(colour.zones) < 2:
        return []
    lines = []
    for zone in colour.zones:
        planned = " (planned)" if zone is zone_planned(colour) else ""
        more = [zone_words(zone, colour)]
        if zone.joins_with:
            more.append(f"may share its count with {', '.join(zone.joins_with)}")
        if zone.coats is None and zone.next_step:
            more.append(zone.next_step)
        lines += paragraph(head, f"{zone_name(zone)}{planned}: {'; '.join(more)}", width)
    return lines


def _fixed(colour: ColourVerdict, fixed: float) -> str:
    """Hold the count of the job against the panel."""
    zone = zone_planned(colour)
    if zone is None or zone.coats is None:
        return f"the job fixes {fixed:g} coats; the panel neither confirms nor refuses them"
    if zone.coats == fixed:
        return f"the job fixes {fixed:g} coats too"
    return f"the job fixes {fixed:g} coats: take choices.effect_coats out, or write {zone.coats:g} there"


def _film(colour: ColourVerdict, width: int) -> list[str]:
    """Say how a coat of the plan compares with one of the panel."""
    factor = colour.film_factor
    if factor is None or abs(factor - 1.0) < 0.005:
        return []
    same = ""
    if colour.panel_coats is not None and colour.effect_coats is not None:
        same = f"; {colour.effect_coats:g} of the plan are {figure(colour.panel_coats)} of the panel"
    return paragraph("film      ", f"a coat of the plan is {factor:.2f} of a coat of the panel{same}", width)


def _chances(zone: ZoneVerdict | None, colour: ColourVerdict) -> list[str]:
    """Half coats with their chances as bars."""
    if zone is None or not zone.chances:
        return []
    differ = films_differ(colour)
    lines = [f"chance    that this half coat{' of the panel' if differ else ''} is the nearest"]
    for half in zone.chances:
        bar = "#" * max(1, round(_BAR * half.chance))
        mark = "  <- ordered" if half.coats == zone.coats and not differ else ""
        share = f"{100 * half.chance:.0f} %"
        lines.append(f"{half.coats:>8g}  {bar:<{_BAR}} {share:>5}{mark}".rstrip())
    return lines


def _angles(colour: ColourVerdict) -> list[str]:
    """What is left at each angle at the ordered count."""
    curves = colour.evidence.curves if colour.evidence is not None else ()
    shown = [curve for curve in curves if curve.difference is not None]
    if not shown:
        return []
    lines = ["angle     off at the ordered count, dE00; sparkle, grain, gloss not judged"]
    for curve in shown:
        difference = curve.difference or 0.0
        cells = (
            (angle_words(curve.angle_deg), 11),
            (f"{difference:.1f}", -5),
            (seen_words(difference, curve.angle_deg), 10),
        )
        lines.append(" " * _HEAD + columns(cells))
    return lines
