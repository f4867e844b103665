"""What there is to fear of the number of effect coats."""

from collections.abc import Iterator
from dataclasses import replace

from laydown.planning.counts.ground_check import OTHER_SETTINGS_SCATTER
from laydown.planning.counts.readings import PanelReadings
from laydown.planning.setup.paint import Paint
from laydown.schema.choices import Choices, Sample
from laydown.schema.colour import ColourVerdict, ColourWord
from laydown.schema.finding import Finding

FILM_SAID = 0.05
"""Share from which a difference of the films of a coat of panel and plan is said; assumption."""

_VERDICTS: dict[ColourWord, Finding] = {
    "ground_wrong": Finding(
        "stop",
        "ground-wrong",
        "effect",
        "The ground coat does not match the car: no number of effect coats puts that right.",
        "",
    ),
    "below_ground": Finding(
        "stop",
        "below-ground",
        "effect",
        "The car looks like bare ground coat or less: the ground coat of the panel is not that of the car.",
        "",
    ),
    "ground_unchecked": Finding(
        "care",
        "ground-unchecked",
        "effect",
        "The let-down panel gives no count before its ground coat has been compared with the car's.",
        "",
    ),
    "beyond_panel": Finding(
        "care", "beyond-panel", "effect", "The car has more effect coats than the let-down panel shows.", ""
    ),
    "no_fit": Finding(
        "care", "no-fit", "effect", "No number of effect coats gives the colour of the car.", ""
    ),
    "undecided": Finding(
        "care", "coats-undecided", "effect", "The let-down panel does not tell two half coats apart.", ""
    ),
}
"""What a verdict of the panel says; why and what to do are filled in."""


def colour_findings(
    verdict: ColourVerdict,
    paint: Paint,
    said: tuple[Sample, Choices],
    read: PanelReadings | None,
    unusable: str,
) -> Iterator[Finding]:
    """List what there is to fear of the count of the effect coat.

    Parameters
    ----------
    verdict
        The count with its zones.
    paint
        The effect coat.
    said
        What the job says of the panel, and what the user fixed.
    read, unusable
        What an instrument read; or why that cannot be used.

    Returns
    -------
    Findings; may be empty.

    Sources
    -------
    Range of the sheet; no count without a matching ground coat, too many cannot be taken off: common practice, no
    source.
    """
    sample, choices = said
    fixed = choices.effect_coats
    told = _VERDICTS.get(verdict.verdict)
    if told is not None:
        # Whoever fixes the count has decided; a ground coat that is wrong stays a stop.
        level = "note" if fixed is not None and told.level == "care" else told.level
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
    ways = (verdict.next_step, "write the count you decide on as choices.effect_coats")
    text = f"The number of effect coats is provisional: {verdict.low:g} to {verdict.high:g}."
    return Finding(
        "care", "coats-provisional", "effect", text, verdict.reason, tuple(way for way in ways if way)
    )


def _against_sheet(coats: float, paint: Paint) -> Iterator[Finding]:
    """A count outside the range of the sheet."""
    if not paint.coats_min <= coats <= paint.coats_max:
        text = f"{coats:g} effect coats lie outside the sheet's {paint.coats_min:g} to {paint.coats_max:g}."
        ways = ("read the let-down panel again", "ask the paint supplier")
        yield Finding("care", "effect-beyond-sheet", "effect", text, "the sheet's range of coats", ways)


def _against_panel(verdict: ColourVerdict, fixed: float) -> Iterator[Finding]:
    """A fixed count that the panel speaks against."""
    deciding = next((zone for zone in verdict.zones if zone.zone == verdict.zone), None)
    if deciding is None or deciding.coats is None or verdict.low <= fixed <= verdict.high:
        return
    many = fixed > verdict.high
    text = f"{fixed:g} effect coats, as fixed, are too {'many' if many else 'few'} by the let-down panel."
    why = f"the panel says {deciding.coats:g}, {verdict.low:g} to {verdict.high:g}"
    ways = ("leave choices.effect_coats out", "compare once more in daylight, at face and flop")
    yield Finding("care", "fixed-against-panel", "effect", text, why, ways)


def _film(verdict: ColourVerdict) -> Iterator[Finding]:
    """Coats of panel and plan that are not of one film."""
    factor = verdict.film_factor
    if factor is None or abs(factor - 1.0) <= FILM_SAID:
        return
    counted = (
        f"; {verdict.effect_coats:g} coats of the plan are {verdict.panel_coats:g} of the panel"
        if verdict.effect_coats is not None and verdict.panel_coats is not None
        else ""
    )
    text = f"A coat of the plan has {factor:.2f} times the film of a coat of the panel{counted}."
    ways = (
        "spray the car with overlap, speed and flow of the panel",
        "spray a new panel with those of the car",
        "weigh the panel before and after a coat: coat_g_m2 settles it",
    )
    why = "the colour of an effect coat goes with its film: another overlap, speed or flow is another number of coats"
    yield Finding("care", "film-per-coat", "effect", text, why, ways)


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
    parts = ", ".join(
        f"{zone.zone or 'unnamed'} {zone.verdict.replace('_', ' ') if zone.coats is None else f'{zone.coats:g}'}"
        for zone in apart
    )
    text = f"Other zones of the car need a count of their own: {parts}."
    why = f"{own.zone or 'this side'} is planned with {verdict.effect_coats or 0:g}; faded clear and plastic look otherwise"
    ways = ("change the count at a gap, never on a panel", "plan such a zone as a job of its own")
    yield Finding("care", "zones-differ", "effect", text, why, ways)


def _panel(sample: Sample, read: PanelReadings | None, unusable: str) -> Iterator[Finding]:
    """What makes the panel itself doubtful."""
    if unusable:
        ways = ("mend the file of readings", "judge the fields by eye: face and flop")
        yield Finding(
            "care", "readings-unusable", "effect", f"No count from the readings: {unusable}.", unusable, ways
        )
    if not sample.same_settings:
        text = "The let-down panel was not sprayed with the settings of this job: its count is less sure."
        why = f"a coat of the panel is taken to scatter by {OTHER_SETTINGS_SCATTER:g} instead of 0.07 coats"
        ways = ("spray a strip with gun, adjustment and air of the job", "weigh it: coat_g_m2")
        yield Finding("care", "panel-settings", "effect", text, why, ways)
    if read is None:
        return
    if read.fit.is_uneven:
        field = f"{read.fit.coats[read.fit.worst_field]:g}"
        text = "The fields of the let-down panel do not lie on one curve: their coats were not alike."
        ways = (f"look at the field of {field} coats first", "spray a new panel, weigh every coat")
        yield Finding(
            "care", "fields-uneven", "effect", text, "misfit over 25 times the scatter of reading", ways
        )
    if read.fit.is_rough:
        text = "Only two fields were read: how the colour bends between them is a guess."
        yield Finding(
            "care", "panel-rough", "effect", text, "a straight line was drawn", ("read three fields or more",)
        )
    if read.dropped:
        text = f"{read.dropped} reading{'s' if read.dropped > 1 else ''} lay far off and did not count."
        yield Finding(
            "note",
            "readings-dropped",
            "effect",
            text,
            "median and spread of each spot",
            ("read the spot again",),
        )
    if read.left_out_deg:
        angles = ", ".join(f"{angle:g}°" for angle in read.left_out_deg)
        text = f"Angles that were not read everywhere did not count: {angles}."
        yield Finding(
            "note",
            "angles-left-out",
            "effect",
            text,
            "panel and car are compared angle by angle",
            ("read all angles",),
        )
