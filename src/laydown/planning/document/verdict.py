"""Findings of the coats, and the verdict of the whole plan."""

from collections.abc import Sequence

from laydown.planning.process.process import Process
from laydown.planning.setup.paint import CLOSED_G_M2
from laydown.schema.coat import Coat, Join, Layer
from laydown.schema.message import Finding, Message, Name, message
from laydown.schema.plan import Alternative, Verdict

THIN_CAUTION = 0.05
"""Share of the area below the closed film from which it is said; a choice."""

NO_GOOD_PLAN = "no-good-plan"
"""Code of the finding that says that no good plan exists; its ways out are ranked."""


def _join_finding(layer: Layer, coat: Coat, join: Join, ways: tuple[Message, ...]) -> Finding | None:
    """What there is to fear of one join."""
    if join.state == "wet":
        return None
    code, level = ("join-tight", "caution") if join.state == "tight" else ("join-dry", "stop")
    return Finding(
        level,  # type: ignore[arg-type]
        code,
        f"{layer.name}.{coat.number}.{join.id}",
        message(code, feature=_place(join.feature), coat=_numbered(layer, coat), wet_chance=join.wet_chance),
        message(
            "join-age",
            age_s=join.age_s.value,
            age_low_s=join.age_s.low,
            age_high_s=join.age_s.high,
            open_s=join.open_s.value,
            open_low_s=join.open_s.low,
            open_high_s=join.open_s.high,
        ),
        ways,
    )


def _numbered(layer: Layer, coat: Coat) -> Message:
    """A coat by its layer and number."""
    return message("numbered-coat", layer=layer.name, number=coat.number)


def _place(feature: str) -> Name:
    """The label of a place for people."""
    return Name(feature.replace("|", " / "))


def _margin(join: Join) -> Message:
    """Spare time of a join with its range; a negative middle is said as late."""
    margin, low, high = (
        round(value) for value in (join.margin_s.value, join.margin_s.low, join.margin_s.high)
    )
    if high < 0:
        return message("margin.none", late_s=-margin, least_s=-high, most_s=-low)
    if margin < 0:
        return message("margin.late", late_s=-margin, low_s=low, high_s=high)
    return message("margin.left", margin_s=margin, low_s=low, high_s=high)


def ways_out(alternatives: Sequence[Alternative]) -> tuple[Message, ...]:
    """Return the changes that make the tightest join safe, best first."""
    good = [one for one in alternatives if one.verdict == "go"] or [
        one for one in alternatives if one.verdict == "caution"
    ]
    return tuple(message("change-and-gain", change=one.change, gain=one.text) for one in good[:5])


def coat_findings(layers: Sequence[Layer], alternatives: Sequence[Alternative]) -> list[Finding]:
    """Return what there is to fear of joins, thin spots, refills and reach.

    Source: Common practice, no source.
    """
    found: list[Finding] = []
    ways = ways_out(alternatives)
    for layer in layers:
        for coat in layer.coats:
            found += [
                one for join in coat.joins if (one := _join_finding(layer, coat, join, ways)) is not None
            ]
            if (
                coat.part in {"full_light", "full"}
                and layer.name != "clear"
                and coat.thin_fraction > THIN_CAUTION
            ):
                found.append(_thin_finding(layer, coat))
            if coat.refills and coat.part != "light":
                found.append(_refill_finding(layer, coat))
    high = sorted(
        {
            (layer.name, coat.number)
            for layer in layers
            for coat in layer.coats
            if any(section.needs_step for section in coat.sections)
        }
    )
    if high:
        coats = tuple(message("numbered-coat", layer=name, number=number) for name, number in high)
        why, first = message("step-needed.why", coats=coats), message("do.place-step-first")
        found.append(Finding("note", "step-needed", "side", message("step-needed"), why, (first,)))
    return found


def _thin_finding(layer: Layer, coat: Coat) -> Finding:
    """A coat that may stay open in places."""
    return Finding(
        "caution",
        "film-not-closed",
        f"{layer.name}.{coat.number}",
        message("film-not-closed", thin_fraction=coat.thin_fraction, coat=_numbered(layer, coat)),
        message(
            "film-not-closed.why",
            mean_g_m2=coat.film_wet_g_m2,
            spread_share=coat.film_cv,
            closed_g_m2=CLOSED_G_M2,
        ),
        tuple(map(message, ("do.more-overlap", "do.slower-hand", "do.weigh-flow"))),
    )


def _refill_finding(layer: Layer, coat: Coat) -> Finding:
    """A coat that is stopped to fill the cup."""
    stops = tuple(
        message("refill-after", section=refill.after_section, feature=_place(refill.feature))
        for refill in coat.refills
    )
    return Finding(
        "note",
        "refill-in-coat",
        f"{layer.name}.{coat.number}",
        message("refill-in-coat", coat=_numbered(layer, coat), count=len(coat.refills)),
        message("one-after-another", parts=stops),
        (message("do.second-cup"),),
    )


def no_good_plan(
    process: Process, layers: Sequence[Layer], alternatives: Sequence[Alternative]
) -> Finding | None:
    """Return the finding that no good plan exists, if none does."""
    late = [
        message("coat-and-place", coat=_numbered(layer, coat), feature=_place(join.feature))
        for layer in layers
        if layer.name != "clear"
        for coat in layer.coats
        for join in coat.joins
        if join.state == "dry"
    ]
    if process.is_possible() and not late:
        return None
    why = message("no-good-plan.late", joins=tuple(late)) if late else message("no-good-plan.sections")
    ways = ways_out(alternatives)
    return Finding(
        "stop",
        NO_GOOD_PLAN,
        "plan",
        message(NO_GOOD_PLAN),
        why,
        ways or (message("do.fewer-panels"), message("do.another-day")),
    )


def verdict_of(findings: Sequence[Finding], layers: Sequence[Layer]) -> Verdict:
    """Return the plan in a word."""
    stops = list(dict.fromkeys(one.code for one in findings if one.level == "stop"))
    cautions = list(dict.fromkeys(one.code for one in findings if one.level == "caution"))
    joins = [
        (join, layer, coat)
        for layer in layers
        if layer.name != "clear"
        for coat in layer.coats
        for join in coat.joins
    ]
    if joins:
        join, layer, coat = min(joins, key=lambda one: one[0].wet_chance)
        tight = message(
            "tightest-join",
            feature=_place(join.feature),
            coat=_numbered(layer, coat),
            wet_chance=join.wet_chance,
            margin=_margin(join),
        )
    else:
        tight = message("no-join-across")
    if stops:
        first = next(one for one in findings if one.level == "stop")
        return Verdict("stop", message("parts", parts=(first.text, tight)), (*stops, *cautions))
    return Verdict("caution" if cautions else "go", tight, tuple(cautions))
