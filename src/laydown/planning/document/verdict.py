"""Findings of the coats, and the verdict of the whole plan."""

from collections.abc import Sequence

from laydown.planning.process.process import Process
from laydown.schema.coat import Coat, Join, Layer
from laydown.schema.finding import Finding
from laydown.schema.plan import Alternative, Verdict

THIN_CARE = 0.05
"""Share of the area below the closed film from which it is said; a choice."""

NO_GOOD_PLAN = "no-good-plan"
"""Code of the finding that says that no good plan exists; its ways out are ranked."""


def _join_finding(layer: Layer, coat: Coat, join: Join, ways: tuple[str, ...]) -> Finding | None:
    """What there is to fear of one join."""
    if join.state == "wet":
        return None
    code, level = ("join-hurry", "care") if join.state == "hurry" else ("join-late", "stop")
    words = "is tight" if join.state == "hurry" else "comes too late"
    return Finding(
        level,  # type: ignore[arg-type]
        code,
        f"{layer.name}.{coat.number}.{join.id}",
        f"the join {_place(join.feature)} of {layer.name} coat {coat.number} {words}: wet in {join.wet_chance * 100:.0f} of 100 cases.",
        f"the edge is {join.age_s.value:.0f} s old when it is reached ({join.age_s.low:.0f} to {join.age_s.high:.0f}) and open for "
        f"{join.open_s.value:.0f} s ({join.open_s.low:.0f} to {join.open_s.high:.0f})",
        ways,
    )


def _place(feature: str) -> str:
    """Write the label of a place for people."""
    return feature.replace("|", " / ")


def _spare(join: Join) -> str:
    """Spare time of a join with its range; a negative middle is said as late."""
    spare, low, high = (round(value) for value in (join.spare_s.value, join.spare_s.low, join.spare_s.high))
    said = f"{spare} s to spare" if spare >= 0 else f"{-spare} s too late"
    return f"{said} ({-high} to {-low} s late)" if high < 0 else f"{said} ({low} to {high})"


def ways_out(alternatives: Sequence[Alternative]) -> tuple[str, ...]:
    """Return the changes that make the tightest join safe, best first.

    Parameters
    ----------
    alternatives
        What was tried.

    Returns
    -------
    Up to five ways; spraying wetter is never one of them by itself.

    Sources
    -------
    ``laydown.planning.document.alternatives``.
    """
    good = [one for one in alternatives if one.verdict == "go"] or [
        one for one in alternatives if one.verdict == "care"
    ]
    return tuple(f"{one.change}: {one.text}" for one in good[:5])


def _refills(count: int) -> str:
    """A number of refills in words."""
    return (
        "one refill, at the end of a section"
        if count == 1
        else f"{count} refills, each at the end of a section"
    )


def coat_findings(layers: Sequence[Layer], alternatives: Sequence[Alternative]) -> list[Finding]:
    """Return what there is to fear of joins, thin spots, refills and reach.

    Parameters
    ----------
    layers
        Planned layers.
    alternatives
        What was tried, for the ways out.

    Returns
    -------
    Findings in the order of work.

    Sources
    -------
    Common practice, no source.
    """
    found: list[Finding] = []
    ways = ways_out(alternatives)
    for layer in layers:
        for coat in layer.coats:
            found += [
                one for join in coat.joins if (one := _join_finding(layer, coat, join, ways)) is not None
            ]
            where = f"{layer.name}.{coat.number}"
            if coat.part in {"full", "closed"} and layer.name != "clear" and coat.thin_fraction > THIN_CARE:
                found.append(
                    Finding(
                        "care",
                        "film-not-closed",
                        where,
                        f"{coat.thin_fraction * 100:.0f} % of {layer.name} coat {coat.number} may stay below the closed film.",
                        f"mean {coat.film_wet_g_m2:.0f} g/m², spread {coat.film_cv * 100:.0f} %, closed from about 35 g/m²",
                        (
                            "5 to 10 % more overlap",
                            "a slower hand where the light shows specks",
                            "weigh the flow again",
                        ),
                    )
                )
            if coat.refills and coat.part != "light":
                found.append(
                    Finding(
                        "note",
                        "refill-in-coat",
                        where,
                        f"{layer.name} coat {coat.number} needs {_refills(len(coat.refills))}.",
                        "; ".join(
                            f"after section {refill.after_section} at {_place(refill.feature)}"
                            for refill in coat.refills
                        ),
                        ("keep a second cup filled and at hand",),
                    )
                )
    high = sorted(
        {
            f"{layer.name} {coat.number}"
            for layer in layers
            for coat in layer.coats
            if any(section.needs_step for section in coat.sections)
        }
    )
    if high:
        found.append(
            Finding(
                "note",
                "step-needed",
                "side",
                "parts of the side lie above the reach from the floor: set a step or a plank beside the car.",
                f"coats: {', '.join(high)}",
                ("place it before the first coat, so that nothing is moved while the film is wet",),
            )
        )
    return found


def no_good_plan(
    process: Process, layers: Sequence[Layer], alternatives: Sequence[Alternative]
) -> Finding | None:
    """Return the finding that no good plan exists, if none does.

    Parameters
    ----------
    process, layers
        The best found.
    alternatives
        What was tried.

    Returns
    -------
    The finding with its ranked cures, or None. A plan is not good where a join of the ground or effect coat comes too
    late, or where no sections fit cup, arm and stagger.

    Sources
    -------
    ``state_of``.
    """
    late = [
        f"{layer.name} {coat.number}, {_place(join.feature)}"
        for layer in layers
        if layer.name != "clear"
        for coat in layer.coats
        for join in coat.joins
        if join.state == "late"
    ]
    if process.is_possible() and not late:
        return None
    why = (
        f"too late: {'; '.join(late)}"
        if late
        else "no sections fit the cup, the arm and the stagger of the joins"
    )
    ways = ways_out(alternatives)
    return Finding(
        "stop",
        NO_GOOD_PLAN,
        "plan",
        "no good plan exists for this air, crew and gun; the best found is shown.",
        why,
        ways or ("fewer panels in one go, stopping at gaps", "another day"),
    )


def verdict_of(findings: Sequence[Finding], layers: Sequence[Layer]) -> Verdict:
    """Return the plan in a word.

    Parameters
    ----------
    findings
        All findings.
    layers
        Planned layers.

    Returns
    -------
    State, one sentence about the tightest join, and the codes behind it.

    Sources
    -------
    Definition.
    """
    stops = list(dict.fromkeys(one.code for one in findings if one.level == "stop"))
    cares = list(dict.fromkeys(one.code for one in findings if one.level == "care"))
    joins = [
        (join, layer, coat)
        for layer in layers
        if layer.name != "clear"
        for coat in layer.coats
        for join in coat.joins
    ]
    if joins:
        join, layer, coat = min(joins, key=lambda one: one[0].wet_chance)
        tight = (
            f"tightest join: {_place(join.feature)}, {layer.name} coat {coat.number}, "
            f"wet in {join.wet_chance * 100:.0f} of 100 cases, {_spare(join)}"
        )
    else:
        tight = "no join across the side"
    if stops:
        first = next(one for one in findings if one.level == "stop")
        return Verdict("stop", f"{first.text} {tight[0].upper()}{tight[1:]}.", (*stops, *cares))
    return Verdict("care" if cares else "go", f"{tight[0].upper()}{tight[1:]}.", tuple(cares))
