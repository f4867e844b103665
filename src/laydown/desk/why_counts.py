"""Why the plan has so many effect and ground coats: interval, chances, what was compared, what is left."""

from collections.abc import Iterator

from laydown.report.panel_words import (
    READ_WORDS,
    VERDICT_WORDS,
    angle_words,
    count_words,
    figure,
    films_differ,
    seen_words,
    zone_name,
    zone_planned,
    zone_words,
)
from laydown.schema.colour import ColourVerdict, HidingVerdict, PanelEvidence, ZoneVerdict
from laydown.schema.explanation import Because, Explanation

PANEL, MODEL = "let-down panel", "computed"
"""Sources of figures."""


def why_colour(colour: ColourVerdict) -> Explanation:
    """Explain the count of effect coats.

    Parameters
    ----------
    colour
        The verdict.

    Returns
    -------
    Decision, reason, and the figures of the panel.
    """
    says = f"{count_words(colour)} effect coats, {VERDICT_WORDS[colour.verdict]}"
    reason = colour.reason.rstrip(".")
    if colour.next_step:
        reason = f"{reason}. Next: {colour.next_step}"
    return Explanation("colour", says, reason, tuple(_colour_figures(colour)), _second(colour), ())


def _colour_figures(colour: ColourVerdict) -> Iterator[Because]:
    """Who compared, the interval, the chances, films, zones, angles."""
    zone = zone_planned(colour)
    yield Because("compared by", READ_WORDS[colour.read_by], PANEL)
    if zone is not None and zone.low is not None and zone.high is not None:
        yield Because("middle 90 %", f"{figure(zone.low)} to {figure(zone.high)}", "coats of the panel")
    for half in zone.chances if zone is not None else ():
        yield Because(
            f"chance of {half.coats:g}", f"{100 * half.chance:.0f} %", "nearest half, panel's coats"
        )
    if colour.film_factor is not None:
        yield Because("film of a coat", f"{colour.film_factor:.2f} of panel's", MODEL)
    if colour.panel_coats is not None:
        yield Because("planned count", f"{figure(colour.panel_coats)} of panel's", MODEL)
    for other in colour.zones:
        if other is not zone:
            yield Because(zone_name(other), _short(other), zone_words(other, colour))
    if colour.evidence is not None:
        yield from _evidence(colour.evidence)


def _short(zone: ZoneVerdict) -> str:
    """Count of a zone, or none."""
    return "no count" if zone.coats is None else f"{zone.coats:g}"


def _evidence(evidence: PanelEvidence) -> Iterator[Because]:
    """The panel as it was read."""
    fields = ", ".join(f"{field.coats:g}" for field in evidence.fields)
    if fields:
        yield Because("fields", fields, PANEL)
    if evidence.illuminant:
        yield Because("light", f"{evidence.illuminant}, {evidence.observer}°", "file of readings")
    if evidence.ground_de is not None:
        text = f"{evidence.ground_de:.1f}, {seen_words(evidence.ground_de)}"
        yield Because("ground, car to panel", text, "dE00, 25° to 75°")
    for curve in evidence.curves:
        if curve.difference is not None:
            text = f"{curve.difference:.1f}, {seen_words(curve.difference, curve.angle_deg)}"
            yield Because(f"left at {angle_words(curve.angle_deg)}", text, "dE00, ordered count to car")


def _second(colour: ColourVerdict) -> str:
    """The next likely half coat."""
    zone = zone_planned(colour)
    if zone is None or zone.coats is None or zone.coats != colour.effect_coats or films_differ(colour):
        return ""
    others = [half for half in zone.chances if half.coats != zone.coats]
    if not others:
        return ""
    best = max(others, key=lambda half: half.chance)
    why = "too few can be added, too many not taken off" if best.coats > zone.coats else "less likely"
    return f"{best.coats:g} coats, the nearest in {100 * best.chance:.0f} of 100 cases: {why}"


def why_hiding(hiding: HidingVerdict) -> Explanation:
    """Explain the count of ground coats.

    Parameters
    ----------
    hiding
        The verdict.

    Returns
    -------
    Decision, reason, what each coat changes and what other undercoats would cost.
    """
    says = f"{hiding.ground_coats:g} ground coats ({figure(hiding.low)} to {figure(hiding.high)})"
    if hiding.blind_from_coat is not None:
        says += f", blind from coat {hiding.blind_from_coat}"
    return Explanation("hiding", says, hiding.reason, tuple(_hiding_figures(hiding)), _undercoat(hiding), ())


def _hiding_figures(hiding: HidingVerdict) -> Iterator[Because]:
    """What each coat changes and leaves."""
    yield Because("worst panel", hiding.worst_panel, MODEL)
    yield Because("middle 90 %", f"{figure(hiding.low)} to {figure(hiding.high)}", "coats")
    for number, step in enumerate(hiding.steps_de, start=1):
        rest = f", {hiding.rest_de[number - 1]:.2g} missing" if number <= len(hiding.rest_de) else ""
        yield Because(f"coat {number} changes", f"{step:.2g}{rest}", "dE00, missing to full hiding")
    if hiding.islands_de:
        text = f"{hiding.islands_de[0]:.2g} to {hiding.islands_de[-1]:.2g}"
        yield Because("repaired spots show", text, "dE00, bare to planned count")
    if hiding.card_contrast is not None:
        yield Because("card contrast", f"{hiding.card_contrast:.3f}", "0.98 is the usual mark")


def _undercoat(hiding: HidingVerdict) -> str:
    """The undercoat that would serve best."""
    for row in hiding.undercoats:
        if row.best and row.coats is not None:
            return f"an undercoat of L* {row.lightness:.0f} would take {row.coats:g} coats, and the first would be seen ({row.first_step_de:.1f} dE00)"
    return ""
