"""What there is to fear of the number of effect coats."""

from collections.abc import Iterator
from dataclasses import replace

from laydown.physics.colour.coat_count import FILM_SCATTER
from laydown.planning.counts.ground_check import OTHER_SETTINGS_SCATTER
from laydown.planning.counts.readings import PanelReadings
from laydown.planning.setup.paint import Paint
from laydown.schema.choices import Choices, Sample
from laydown.schema.colour import ColourVerdict, ColourWord, ZoneVerdict
from laydown.schema.message import Finding, Message, Name, message

FILM_SAID = 0.05
"""Share from which a difference of the films of a coat of panel and plan is said; assumption."""

_VERDICTS: dict[ColourWord, Finding] = {
    "ground_wrong": Finding("stop", "ground-wrong", "effect", message("ground-wrong"), ""),
    "below_ground": Finding("stop", "below-ground", "effect", message("below-ground"), ""),
    "ground_unchecked": Finding("caution", "ground-unchecked", "effect", message("ground-unchecked"), ""),
    "beyond_panel": Finding("caution", "beyond-panel", "effect", message("beyond-panel"), ""),
    "no_fit": Finding("caution", "no-fit", "effect", message("no-fit"), ""),
    "undecided": Finding("caution", "coats-undecided", "effect", message("coats-undecided"), ""),
}
"""What a verdict of the panel says; why and what to do are filled in."""


def colour_findings(
    verdict: ColourVerdict,
    paint: Paint,
    said: tuple[Sample, Choices],
    read: PanelReadings | None,
    unusable: Message | None,
) -> Iterator[Finding]:
    """List what there is to fear of the count of the effect coat.

    Source: Range of the sheet; no count without a matching ground coat, too many cannot be taken off:
    common practice, no source.
    """
    sample, choices = said
    fixed = choices.effect_coats
    told = _VERDICTS.get(verdict.verdict)
    if told is not None:
        # Whoever fixes the count has decided; a ground coat that is wrong stays a stop.
        level = "note" if fixed is not None and told.level == "caution" else told.level
        yield replace(told, level=level, why=verdict.reason, do=(verdict.next_step,))
    if verdict.provisional:
        yield _provisional(verdict)
    if verdict.effect_coats is not None:
        yield from _against_sheet(verdict.effect_coats, paint)
    if fixed is not None and verdict.zones:
        yield from _against_panel(verdict, fixed)
    yield from _film(verdict)
    yield from _zones(verdict)
    yield from _panel(sample, read, unusable)


def _provisional(verdict: ColourVerdict) -> Finding:
    """A count that may not be relied on."""
    ways = (verdict.next_step, message("do.write-count"))
    text = message("coats-provisional", low=verdict.low, high=verdict.high)
    return Finding(
        "caution", "coats-provisional", "effect", text, verdict.reason, tuple(way for way in ways if way)
    )


def _against_sheet(coats: float, paint: Paint) -> Iterator[Finding]:
    """A count outside the range of the sheet."""
    if not paint.coats_min <= coats <= paint.coats_max:
        text = message("effect-beyond-sheet", coats=coats, least=paint.coats_min, most=paint.coats_max)
        ways = (message("do.read-panel-again"), message("do.ask-supplier"))
        yield Finding(
            "caution", "effect-beyond-sheet", "effect", text, message("effect-beyond-sheet.why"), ways
        )


def _against_panel(verdict: ColourVerdict, fixed: float) -> Iterator[Finding]:
    """A fixed count that the panel speaks against."""
    deciding = next((zone for zone in verdict.zones if zone.zone == verdict.zone), None)
    if deciding is None or deciding.coats is None or verdict.low <= fixed <= verdict.high:
        return
    text = message("fixed-too-many" if fixed > verdict.high else "fixed-too-few", coats=fixed)
    why = message("fixed-against-panel.why", coats=deciding.coats, low=verdict.low, high=verdict.high)
    ways = (message("do.leave-count-out"), message("do.compare-in-daylight"))
    yield Finding("caution", "fixed-against-panel", "effect", text, why, ways)


def _film(verdict: ColourVerdict) -> Iterator[Finding]:
    """Coats of panel and plan that are not of one film."""
    factor = verdict.film_factor
    if factor is None or abs(factor - 1.0) <= FILM_SAID:
        return
    text = message("film-per-coat", factor=factor)
    if verdict.effect_coats is not None and verdict.panel_coats is not None:
        text = message(
            "film-per-coat-counted", factor=factor, coats=verdict.effect_coats, panel=verdict.panel_coats
        )
    ways = tuple(map(message, ("do.spray-like-panel", "do.panel-like-car", "do.weigh-panel")))
    yield Finding("caution", "film-per-coat", "effect", text, message("film-per-coat.why"), ways)


def _zones(verdict: ColourVerdict) -> Iterator[Finding]:
    """Zones of the car that need another count."""
    own = next((zone for zone in verdict.zones if zone.zone == verdict.zone), None)
    if own is None:
        return
    apart = [
        zone
        for zone in verdict.zones
        if zone is not own and zone.zone not in own.joins_with and zone.coats != own.coats
    ]
    if not apart:
        return
    text = message("zones-differ", zones=tuple(map(_zone, apart)))
    here = Name(own.zone) if own.zone else message("this-side")
    why = message("zones-differ.why", zone=here, coats=verdict.effect_coats or 0.0)
    ways = (message("do.change-at-gap"), message("do.zone-as-job"))
    yield Finding("caution", "zones-differ", "effect", text, why, ways)


def _zone(zone: ZoneVerdict) -> Message:
    """A zone with its count, or why it has none."""
    name = Name(zone.zone) if zone.zone else message("unnamed-zone")
    if zone.coats is None:
        return message("zone-uncounted", zone=name, uncounted=zone.verdict)
    return message("zone-counted", zone=name, coats=zone.coats)


def _panel(sample: Sample, read: PanelReadings | None, unusable: Message | None) -> Iterator[Finding]:
    """What makes the panel itself doubtful."""
    if unusable is not None:
        ways = (message("do.mend-readings"), message("do.judge-by-eye"))
        text = message("readings-unusable", why=unusable)
        yield Finding("caution", "readings-unusable", "effect", text, unusable, ways)
    if not sample.same_settings:
        text = message("panel-settings")
        why = message("panel-settings.why", scatter=OTHER_SETTINGS_SCATTER, usual=FILM_SCATTER)
        ways = (message("do.strip-like-job"), message("do.weigh-strip"))
        yield Finding("caution", "panel-settings", "effect", text, why, ways)
    if read is not None:
        yield from _fields(read)


def _fields(read: PanelReadings) -> Iterator[Finding]:
    """What makes the readings of a panel doubtful."""
    if read.fit.is_uneven:
        field = float(read.fit.coats[read.fit.worst_field])
        text, why = message("fields-uneven"), message("fields-uneven.why")
        ways = (message("do.look-at-field", coats=field), message("do.weigh-every-coat"))
        yield Finding("caution", "fields-uneven", "effect", text, why, ways)
    if read.fit.is_rough:
        text, why = message("panel-rough"), message("panel-rough.why")
        yield Finding("caution", "panel-rough", "effect", text, why, (message("do.read-three-fields"),))
    if read.dropped:
        text, why = message("readings-far-off", count=read.dropped), message("readings-far-off.why")
        yield Finding("note", "readings-dropped", "effect", text, why, (message("do.read-spot-again"),))
    if read.left_out_deg:
        angles = tuple(message("angle-read", angle_deg=angle) for angle in read.left_out_deg)
        text, why = message("angles-left-out", angles=angles), message("angles-left-out.why")
        yield Finding("note", "angles-left-out", "effect", text, why, (message("do.read-all-angles"),))
