"""Why the plan says what it says: decision, reason, runner-up and the figures behind it."""

from collections.abc import Iterator

from laydown.desk.plans.glance import weakest_join
from laydown.reader.values import nearest
from laydown.schema.coat import Coat, Join, Layer
from laydown.schema.colour import ColourVerdict, HidingVerdict, PanelEvidence, ZoneVerdict
from laydown.schema.figure import Spread
from laydown.schema.finding import Finding
from laydown.schema.plan import Adjustment, Because, Explanation, Plan
from laydown.schema.problem import InputError, Problem
from laydown.schema.supplies import Mix
from laydown.words.letdown import (
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


COMPUTED = "computed"
"""Source of a figure that the plan itself computed."""


def why(plan: Plan, item: str | None) -> tuple[Explanation, ...]:
    """Explain an item of a plan.

    Parameters
    ----------
    plan
        The plan.
    item
        Name of the item, or its beginning; None for the choices that weigh most.

    Returns
    -------
    One explanation or several.

    Raises
    ------
    InputError
        The plan has no such item.
    """
    known = tuple(_explanations(plan))
    if item is None:
        return _weightiest(plan, known)
    wanted = item.casefold().replace(" ", "_").removeprefix("join.").removeprefix("finding.")
    found = [one for one in known if one.item.casefold() == wanted]
    found = found or [one for one in known if one.item.startswith(f"{wanted}.")]
    if not found:
        names = list(dict.fromkeys(one.item for one in known))
        near = nearest(wanted, names)
        hint = f"did you mean '{near}'? " if near else ""
        raise InputError(
            "", (Problem("ITEM", f"the plan has no '{item}'", f"{hint}items: {', '.join(names)}"),)
        )
    return tuple(found)


def items(plan: Plan) -> tuple[str, ...]:
    """Return the names that can be asked for.

    Parameters
    ----------
    plan
        The plan.

    Returns
    -------
    Names, in the order of the plan.
    """
    return tuple(dict.fromkeys(one.item for one in _explanations(plan)))


def reasons(plan: Plan) -> dict[str, tuple[Explanation, ...]]:
    """Return every explanation of a plan.

    Parameters
    ----------
    plan
        The plan.

    Returns
    -------
    Explanations by the name of their item, in the order of the plan.
    """
    found: dict[str, tuple[Explanation, ...]] = {}
    for one in _explanations(plan):
        found[one.item] = (*found.get(one.item, ()), one)
    return found


def _weightiest(plan: Plan, known: tuple[Explanation, ...]) -> tuple[Explanation, ...]:
    """Verdict, adjustment, counts, and the weakest join of the plan."""
    weakest = weakest_join(plan)
    wanted = ("verdict", "adjustment.effect", "colour", "hiding", weakest.id if weakest else "")
    return tuple(one for name in wanted for one in known if one.item == name)


def _explanations(plan: Plan) -> Iterator[Explanation]:
    """Go through everything in a plan that was decided."""
    yield _verdict(plan)
    chosen = plan.adjustment
    for name, adjustment in (("ground", chosen.ground), ("effect", chosen.effect), ("clear", chosen.clear)):
        yield _adjustment(name, adjustment, plan)
    yield why_colour(plan.colour)
    yield why_hiding(plan.hiding)
    for panel in plan.side.panels:
        reach = f"ground {panel.ground}, effect {panel.effect}, clear {panel.clear}"
        area = (Because("area_m2", panel.area_m2, COMPUTED),)
        reason = panel.reason or "the job file says so"
        yield Explanation(f"panel.{panel.id}", f"{panel.name}: {reach}", reason, area, "", ())
    for layer in plan.layers:
        for coat in layer.coats:
            yield _coat(layer, coat)
            yield from (_join(join) for join in coat.joins)
    yield from (_mix(mix) for mix in plan.mixes)
    metal = (
        Because("metal_c", plan.bake.metal_c, "product sheet"),
        Because("hold_s", plan.bake.hold_s, "product sheet"),
    )
    yield Explanation("bake", plan.bake.verdict, plan.bake.text, metal, "", ())
    yield _limits_of_use(plan)
    yield from (_finding(finding) for finding in plan.findings)


def _verdict(plan: Plan) -> Explanation:
    """The verdict rests on findings."""
    reason = " ".join(_behind(plan)) or "no finding speaks against it"
    return Explanation(
        "verdict", f"{plan.verdict.state}: {plan.verdict.text}", reason, (), "", plan.verdict.because
    )


def _behind(plan: Plan) -> Iterator[str]:
    """What each kind of finding behind the verdict says first, and how many more of its kind there are."""
    for code in plan.verdict.because:
        texts = list(dict.fromkeys(finding.text for finding in plan.findings if finding.code == code))
        if texts and texts[0] not in plan.verdict.text:
            more = f" ({len(texts) - 1} more like it)" if len(texts) > 1 else ""
            yield f"{texts[0][:1].upper()}{texts[0][1:]}{more}"


def _adjustment(name: str, chosen: Adjustment, plan: Plan) -> Explanation:
    """Reducer, water, hardener and nozzle; they rest on the air."""
    other = chosen.runner_up
    second = ""
    if other is not None:
        second = (
            f"{_set(other.reducer, other.water, other.nozzle_mm, hardener=other.hardener)}: {other.why_not}"
        )
    figures = tuple(Because(key, figure.value, figure.source) for key, figure in plan.inputs.air.items())
    says = f"{name}: {_set(chosen.reducer, chosen.water, chosen.nozzle_mm, hardener=chosen.hardener)}"
    return Explanation(f"adjustment.{name}", says, chosen.reason, figures, second, ())


def _set(reducer: str, water: float, nozzle_mm: float, *, hardener: bool) -> str:
    """Write an adjustment in a line."""
    with_hardener = "hardener" if hardener else "no hardener"
    return f"{reducer} reducer, {100 * water:g} % water, {with_hardener}, nozzle {nozzle_mm:g} mm"


def _coat(layer: Layer, coat: Coat) -> Explanation:
    """Order and start of a coat."""
    says = f"{layer.name} coat {coat.number}: {coat.pattern}, {coat.direction}, start {coat.start}"
    figures = (
        Because("spray_s", coat.spray_s, COMPUTED),
        Because("sprayed_g", coat.sprayed_g, COMPUTED),
        *_spread("open_s", coat.open_s),
        *_spread("flash_s", coat.flash_s),
    )
    return Explanation(f"coat.{layer.name}.{coat.number}", says, coat.reason, figures, "", ())


def _join(join: Join) -> Explanation:
    """Place of a join."""
    kind = join.kind.replace("_", " ")
    says = f"at {join.x_m:.2f} m, {join.feature.replace('|', ' / ')} ({kind}): {join.state}, wet in {100 * join.wet_chance:.0f} of 100 cases"
    other = join.runner_up
    second = (
        f"at {other.x_m:.2f} m, {other.feature.replace('|', ' / ')}: {other.why_not}"
        if other is not None
        else ""
    )
    figures = (
        *_spread("age_s", join.age_s),
        *_spread("open_s", join.open_s),
        *_spread("spare_s", join.spare_s),
    )
    return Explanation(join.id, says, join.reason, figures, second, ())


def _mix(mix: Mix) -> Explanation:
    """Size of a mix, and what the sheet leaves open."""
    figures = [Because("need_ml", mix.need_ml, COMPUTED), Because("mix_ml", mix.mix_ml, COMPUTED)]
    figures.append(Because("mix_g", mix.mix_g, COMPUTED))
    figures += [Because("water_g", reading.water_g, f"read as {reading.reading}") for reading in mix.readings]
    says = f"{mix.layer}: {mix.mix_ml:.0f} mL of {mix.product}"
    reason = "what the coats need, a reserve, and what stays in the gun" + (f". {mix.ask}" if mix.ask else "")
    return Explanation(f"mix.{mix.layer}", says, reason, tuple(figures), "", ())


def _limits_of_use(plan: Plan) -> Explanation:
    """Air the plan is good for."""
    limits = plan.limits_of_use
    figures = (
        Because("temperature_low_c", limits.temperature_low_c, COMPUTED),
        Because("temperature_high_c", limits.temperature_high_c, COMPUTED),
        Because("rh_low", limits.rh_low, COMPUTED),
        Because("rh_high", limits.rh_high, COMPUTED),
    )
    return Explanation(
        "limits_of_use", "good for this air; outside it, plan again", limits.text, figures, "", ()
    )


def _finding(finding: Finding) -> Explanation:
    """What was found, why, and what helps."""
    helps = "".join(f" {number}) {text}." for number, text in enumerate(finding.do, start=1))
    reason = f"{finding.why.rstrip('.')}. What helps:{helps}" if helps else finding.why
    return Explanation(finding.code, f"{finding.level}, {finding.where}: {finding.text}", reason, (), "", ())


def _spread(name: str, spread: Spread) -> tuple[Because, ...]:
    """Write a computed time with its ends, in whole seconds: no finer one is known."""
    stem, unit = name.rsplit("_", 1)
    return (
        Because(name, round(spread.value), COMPUTED),
        Because(f"{stem}_low_{unit}", round(spread.low), "middle 90 %"),
        Because(f"{stem}_high_{unit}", round(spread.high), "middle 90 %"),
    )
