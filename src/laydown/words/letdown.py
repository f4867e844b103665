"""Instrument readings in words: what was read, where, at which angles."""

from collections.abc import Sequence

from laydown.schema.colour import ColourVerdict, ColourWord, ComparedBy, ZoneVerdict
from laydown.schema.reading import Readings, Role, SpotRead
from laydown.units import figures

VERDICT_WORDS: dict[ColourWord, str] = {
    "ground_unchecked": "check the ground coat first",
    "ground_wrong": "the ground coat does not fit: no count",
    "beyond_panel": "beyond the panel: spray more fields",
    "below_ground": "the car looks less coated than bare ground: no count",
    "no_fit": "no count fits the car",
    "either": "either will do, the difference will not be seen",
    "undecided": "not sure between two counts",
    "clear": "sure enough to spray",
    "no_panel": "no panel was judged",
}
"""Each verdict as a painter would say it."""

READ_WORDS: dict[ComparedBy, str] = {
    "nobody": "no panel was compared",
    "eye": "panel judged by eye",
    "instrument": "panel read with an instrument",
    "instrument and eye": "panel read with an instrument and judged by eye",
}
"""Who compared the panel with the car."""

SEEN = ((0.5, "not seen"), (1.0, "good"), (2.0, "to blend"), (float("inf"), "visible"))
"""What a CIEDE2000 difference means beside each other; house bands, assumption."""

STEEP_ANGLES_DEG = (15.0, 110.0)
"""Angles at which the limits are half as wide again; assumption."""

_WIDER = 1.5
_SAME_FILM = 0.05
_NOTHING = "nothing to be seen"


def seen_words(difference: float, angle_deg: float = 45.0) -> str:
    """Say whether a difference is seen.

    Parameters
    ----------
    difference
        CIEDE2000.
    angle_deg
        Aspecular angle [deg].

    Returns
    -------
    "not seen", "good", "to blend" or "visible".
    """
    wider = _WIDER if angle_deg <= STEEP_ANGLES_DEG[0] or angle_deg >= STEEP_ANGLES_DEG[1] else 1.0
    return next(word for limit, word in SEEN if difference <= limit * wider)


def angle_words(angle_deg: float) -> str:
    """Name an angle.

    Parameters
    ----------
    angle_deg
        Aspecular angle [deg].

    Returns
    -------
    Such as "110° flop".
    """
    side = " face" if angle_deg <= 25 else " flop" if angle_deg >= 75 else ""
    return f"{angle_deg:g}°{side}".replace("-", "\N{MINUS SIGN}")


def count_words(colour: ColourVerdict) -> str:
    """Say the count that is planned and its interval.

    Parameters
    ----------
    colour
        The verdict.

    Returns
    -------
    Such as "2.5 (2.4 to 2.9), provisional", or "2 (2 to 4), not from the panel" where the panel gives none.
    """
    if colour.effect_coats is None:
        return "no count"
    zone = zone_planned(colour)
    if zone is not None and zone.coats is not None and zone.coats != colour.effect_coats:
        between = f"{figure(colour.low)} to {figure(colour.high)}"
        return f"{colour.effect_coats:g} as fixed, the panel says {zone.coats:g} ({between})"
    notes = [", provisional"] if colour.provisional else []
    if zone is not None and zone.coats is None:
        notes.append(", not from the panel")
    between = "" if colour.low == colour.high else f" ({figure(colour.low)} to {figure(colour.high)})"
    return f"{colour.effect_coats:g}{between}{''.join(notes)}"


def verdict_line(colour: ColourVerdict) -> str:
    """Say count, verdict and who compared, in one line.

    Parameters
    ----------
    colour
        The verdict.

    Returns
    -------
    Three short sentences.
    """
    words = [VERDICT_WORDS[colour.verdict]]
    if colour.read_by != "nobody":
        words.append(READ_WORDS[colour.read_by])
    said = " ".join(f"{text[0].upper()}{text[1:]}." for text in words)
    return f"Effect coats: {count_words(colour)}. {said}"


def next_words(colour: ColourVerdict) -> str:
    """Say what to do next.

    Parameters
    ----------
    colour
        The verdict.

    Returns
    -------
    One sentence.
    """
    if colour.next_step:
        return f"Next: {colour.next_step}."
    if colour.effect_coats is None:
        return "Next: spray a let-down panel."
    coats = colour.effect_coats
    zone = zone_planned(colour)
    if zone is not None and zone.coats is not None and zone.coats != coats:
        return f"Next: decide between {coats:g} as fixed and {zone.coats:g} as the panel says."
    return f"Next: spray {coats:g} coat{'' if coats == 1 else 's'}."


def figure(coats: float) -> str:
    """Write a number of coats no finer than anybody knows it.

    Parameters
    ----------
    coats
        Any number of coats.

    Returns
    -------
    With at most one decimal.
    """
    return f"{round(coats, 1):g}"


def zone_name(zone: ZoneVerdict) -> str:
    """Name a zone.

    Parameters
    ----------
    zone
        The zone.

    Returns
    -------
    Its name, or "whole side".
    """
    return zone.zone or "whole side"


def plan_share(colour: ColourVerdict) -> float:
    """Turn coats of the panel into coats of the plan.

    Parameters
    ----------
    colour
        The verdict.

    Returns
    -------
    Factor; 1 where the films of panel and plan are not known to differ.
    """
    if not colour.panel_coats or colour.effect_coats is None:
        return 1.0
    return colour.effect_coats / colour.panel_coats


def films_differ(colour: ColourVerdict) -> bool:
    """Whether a coat of the plan is something else than a coat of the panel.

    Parameters
    ----------
    colour
        The verdict.

    Returns
    -------
    True from one part in twenty.
    """
    return abs(plan_share(colour) - 1.0) > _SAME_FILM


def zone_words(zone: ZoneVerdict, colour: ColourVerdict) -> str:
    """Say what the panel says of a zone, in coats of the plan.

    Parameters
    ----------
    zone
        The zone.
    colour
        The verdict it belongs to.

    Returns
    -------
    Count, interval and verdict.
    """
    if zone.coats is None:
        return VERDICT_WORDS[zone.verdict]
    between = ""
    if zone.low is not None and zone.high is not None:
        share = plan_share(colour)
        low, high = share * zone.low, share * zone.high
        if zone == zone_planned(colour):
            low, high = colour.low, colour.high
        between = f" ({figure(low)} to {figure(high)})"
    return f"{zone.coats:g}{between}, {VERDICT_WORDS[zone.verdict]}"


def left_words(zone: ZoneVerdict, *, parts: bool = True) -> str:
    """Say what difference is left at the best count.

    Parameters
    ----------
    zone
        The zone.
    parts
        Whether the parts of the difference are named in figures.

    Returns
    -------
    Such as "off at 110° flop: 0.8, good, car lighter"; empty where nothing was read.
    """
    if zone.worst_de is None or zone.worst_angle_deg is None:
        return ""
    seen = seen_words(zone.worst_de, zone.worst_angle_deg)
    words, bracket, figures = zone.differs.partition(" (")
    told = [f"off at {angle_words(zone.worst_angle_deg)}: {zone.worst_de:.1f}", seen]
    if words and words != _NOTHING:
        told.append(f"car {words}")
    return ", ".join(told) + (f"{bracket}{figures}" if parts else "")


def zone_planned(colour: ColourVerdict) -> ZoneVerdict | None:
    """Find the zone whose count is planned.

    Parameters
    ----------
    colour
        The verdict.

    Returns
    -------
    The zone; None where none was judged.
    """
    named = [zone for zone in colour.zones if zone.zone == colour.zone]
    return next(iter((*named, *colour.zones)), None)


ROLE_WORDS: dict[Role, str] = {"field": "field", "ground_ref": "bare ground", "car": "car"}
"""What was read, in the painter's words."""


def angle_text(angle_deg: float) -> str:
    """Write an angle.

    Parameters
    ----------
    angle_deg
        Aspecular angle [deg].

    Returns
    -------
    Such as "15°".
    """
    return f"{figures(angle_deg)}°"


def read_line(readings: Readings, spots: Sequence[SpotRead]) -> str:
    """Say in one line what was read.

    Parameters
    ----------
    readings
        All in CIELAB.
    spots
        The same by place.

    Returns
    -------
    Such as "4 fields, bare ground, car (front door); 15°, 45°, 110°; 54 colours for D65 and 10°".
    """
    fields = sum(one.role == "field" for one in spots)
    parts = [f"{fields} field{'' if fields == 1 else 's'}"]
    if any(one.role == "ground_ref" for one in spots):
        parts.append("bare ground")
    cars = [one.zone for one in spots if one.role == "car"]
    named = ", ".join(zone for zone in cars if zone)
    parts.append(f"car ({named})" if named else "car" if cars else "no car")
    angles = sorted({angle for one in spots for angle in one.lab})
    first = readings.readings[0]
    count = len(readings.readings)
    light = f"{count} colour{'' if count == 1 else 's'} for {first.illuminant} and {first.observer}°"
    return "; ".join((", ".join(parts), ", ".join(map(angle_text, angles)), light))


def spot_count_words(spot: SpotRead) -> str:
    """Say how many readings of a place count, and which do not.

    Parameters
    ----------
    spot
        The place.

    Returns
    -------
    Such as "4, without reading 3: far off".
    """
    if not spot.dropped:
        return str(spot.count)
    numbers = ", ".join(map(str, spot.dropped))
    return f"{spot.count}, without reading {numbers}: far off"
