"""Instrument readings in words: what was read, where, at which angles."""

from collections.abc import Sequence

from laydown.schema.colour import ColourVerdict, ColourWord, ComparedBy, ZoneVerdict
from laydown.schema.message import Message, Name, Said, message
from laydown.schema.reading import Readings, SpotRead
from laydown.units import figures
from laydown.words.numbers import plural
from laydown.words.show import ENGLISH, Words

SEEN = ((0.5, "not_seen"), (1.0, "good"), (2.0, "to_blend"), (float("inf"), "visible"))
"""What a CIEDE2000 difference means beside each other, by label; house bands, assumption."""

STEEP_ANGLES_DEG = (15.0, 110.0)
"""Angles at which the limits are half as wide again; assumption."""

_WIDER = 1.5
_SAME_FILM = 0.05


def verdict_words(verdict: ColourWord, words: Words = ENGLISH) -> str:
    """Say a verdict as a painter would."""
    return words.word("colour_verdict", verdict)


def read_words(read_by: ComparedBy, words: Words = ENGLISH) -> str:
    """Say who compared the panel with the car."""
    return words.word("compared_by", read_by.replace(" ", "_"))


def seen_said(difference: float, angle_deg: float = 45.0) -> Message:
    """Say by code whether a difference is seen."""
    wider = _WIDER if angle_deg <= STEEP_ANGLES_DEG[0] or angle_deg >= STEEP_ANGLES_DEG[1] else 1.0
    return message(f"seen.{next(word for limit, word in SEEN if difference <= limit * wider)}")


def seen_words(difference: float, angle_deg: float = 45.0, words: Words = ENGLISH) -> str:
    """Say whether a difference is seen."""
    return words(seen_said(difference, angle_deg))


def angle_said(angle_deg: float) -> Message:
    """Name an angle by code."""
    angle = Name(f"{angle_deg:g}".replace("-", "\N{MINUS SIGN}"))
    if angle_deg <= 25:
        return message("angle-face", angle=angle)
    return message("angle-flop", angle=angle) if angle_deg >= 75 else message("angle", angle=angle)


def angle_words(angle_deg: float, words: Words = ENGLISH) -> str:
    """Name an angle."""
    return words(angle_said(angle_deg))


def effect_count_words(colour: ColourVerdict, words: Words = ENGLISH) -> str:
    """Say the count that is planned and its interval."""
    return words(effect_count_said(colour))


def effect_count_said(colour: ColourVerdict) -> Message:
    """Say by code the count that is planned and its interval."""
    coats = colour.effect_coats
    if coats is None:
        return message("no-count")
    low, high = round(colour.low, 1), round(colour.high, 1)
    zone = zone_planned(colour)
    if zone is not None and zone.coats is not None and zone.coats != coats:
        return message("count-fixed", coats=coats, panel=zone.coats, low=low, high=high)
    alone = colour.low == colour.high
    said = [
        message("count", coats=coats) if alone else message("count-range", coats=coats, low=low, high=high)
    ]
    said += [message("count-provisional")] if colour.provisional else []
    said += [message("count-not-from-panel")] if zone is not None and zone.coats is None else []
    return message("count-parts", counts=tuple(said))


def verdict_line(colour: ColourVerdict, words: Words = ENGLISH) -> str:
    """Say count, verdict and who compared, in one line."""
    count = Name(effect_count_words(colour, words))
    verdict = _begun(verdict_words(colour.verdict, words))
    if colour.read_by == "nobody":
        return words.say("verdict-line", effect_coats=count, verdict=verdict)
    read = _begun(read_words(colour.read_by, words))
    return words.say("verdict-line-read", effect_coats=count, verdict=verdict, read=read)


def _begun(text: str) -> Name:
    """Write words as the beginning of a sentence."""
    return Name(f"{text[0].upper()}{text[1:]}")


def next_words(colour: ColourVerdict, words: Words = ENGLISH) -> str:
    """Say what to do next."""
    return words.say("next-step", step=next_said(colour))


def next_said(colour: ColourVerdict) -> Message:
    """Say what to do next, behind a head that says so."""
    if colour.next_step:
        return message("next-as-told", step=colour.next_step)
    coats = colour.effect_coats
    if coats is None:
        return message("next-spray-panel")
    zone = zone_planned(colour)
    if zone is not None and zone.coats is not None and zone.coats != coats:
        return message("next-decide", coats=coats, panel=zone.coats)
    return message("next-spray", count=plural(coats), coats=coats)


def coats_words(coats: float, words: Words) -> str:
    """Say what lies on a field of the panel."""
    return words.say("ground-only") if coats == 0 else words.say("coats", count=plural(coats), coats=coats)


def zone_name(zone: ZoneVerdict, words: Words = ENGLISH) -> str:
    """Say which part of the car a count is for."""
    return zone.zone or words.say("whole-side")


def car_words(zone: str, words: Words) -> str:
    """Name the car, and its zone where several were read."""
    return words.say("car-zone", zone=Name(zone)) if zone else words.word("role", "car")


def plan_share(colour: ColourVerdict) -> float:
    """Turn coats of the panel into coats of the plan."""
    if not colour.panel_coats or colour.effect_coats is None:
        return 1.0
    return colour.effect_coats / colour.panel_coats


def films_differ(colour: ColourVerdict) -> bool:
    """Whether a coat of the plan is something else than a coat of the panel."""
    return abs(plan_share(colour) - 1.0) > _SAME_FILM


def zone_words(zone: ZoneVerdict, colour: ColourVerdict, words: Words = ENGLISH) -> str:
    """Say what the panel says of a zone, in coats of the plan."""
    return words(zone_said(zone, colour))


def zone_said(zone: ZoneVerdict, colour: ColourVerdict) -> Message:
    """Say by code what the panel says of a zone, in coats of the plan."""
    if zone.coats is None:
        return message(f"colour_verdict.{zone.verdict}")
    if zone.low is None or zone.high is None:
        return message("zone-count", coats=zone.coats, colour_verdict=zone.verdict)
    share = plan_share(colour)
    low, high = share * zone.low, share * zone.high
    if zone == zone_planned(colour):
        low, high = colour.low, colour.high
    return message(
        "zone-count-range",
        coats=zone.coats,
        low=round(low, 1),
        high=round(high, 1),
        colour_verdict=zone.verdict,
    )


def left_words(zone: ZoneVerdict, words: Words = ENGLISH, *, parts: bool = True) -> str:
    """Say what difference is left at the best count."""
    left = left_said(zone, words, parts=parts)
    return "" if left is None else words.say("left-off", left=left)


def left_said(zone: ZoneVerdict, words: Words = ENGLISH, *, parts: bool = True) -> Message | None:
    """Say what difference is left at the best count, behind a head that says so; its parts in numbers where asked for."""
    if zone.worst_de is None or zone.worst_angle_deg is None:
        return None
    found = dict(zone.differs.figures) if isinstance(zone.differs, Message) else {}
    looks = found.pop("looks", ())
    said: dict[str, Said] = {
        "angle": Name(angle_words(zone.worst_angle_deg, words)),
        "difference": zone.worst_de,
        "seen": Name(seen_words(zone.worst_de, zone.worst_angle_deg, words)),
    }
    if looks:
        said["looks"] = looks
    if parts and found:
        said["parts"] = message("colour-parts", **found)
        return message("left-differs-in-parts" if looks else "left-in-parts", **said)
    return message("left-differs" if looks else "left", **said)


def zone_planned(colour: ColourVerdict) -> ZoneVerdict | None:
    """Find the zone whose count is planned."""
    named = [zone for zone in colour.zones if zone.zone == colour.zone]
    return next(iter((*named, *colour.zones)), None)


def angle_text(angle_deg: float) -> str:
    """Write an angle."""
    return f"{figures(angle_deg)}°"


def read_line(readings: Readings, spots: Sequence[SpotRead], words: Words = ENGLISH) -> str:
    """Say in one line what was read."""
    cars = [one.zone for one in spots if one.role == "car"]
    named = tuple(Name(zone) for zone in cars if zone)
    car = message("read-car-zones", zones=named) if named else message("read-car" if cars else "read-no-car")
    places = (
        message("read-fields", count=sum(one.role == "field" for one in spots)),
        *([message("read-ground")] if any(one.role == "ground_ref" for one in spots) else []),
        car,
    )
    first = readings.readings[0]
    light = message(
        "read-light",
        count=len(readings.readings),
        illuminant=Name(first.illuminant),
        observer=Name(str(first.observer)),
    )
    angles = sorted({angle for one in spots for angle in one.lab})
    parts = (", ".join(map(words, places)), ", ".join(map(angle_text, angles)), words(light))
    return "; ".join(parts)


def readings_counted(spot: SpotRead, words: Words = ENGLISH) -> str:
    """Say how many readings of a place count, and which do not."""
    if not spot.dropped:
        return str(spot.count)
    return words.say("readings-dropped", kept=spot.count, numbers=tuple(spot.dropped))
