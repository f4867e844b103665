"""Why the plan says what it says: decision, reason, runner-up and the figures behind it."""

from collections.abc import Iterator

from laydown.desk.plans.glance import weakest_join
from laydown.reader.values import nearest
from laydown.schema.coat import Coat, Join, Layer
from laydown.schema.colour import ColourVerdict, HidingVerdict, PanelEvidence, ZoneVerdict
from laydown.schema.figure import Figure, Spread
from laydown.schema.message import Finding, Message, Name, Saying, message, parts_of
from laydown.schema.plan import Adjustment, Because, Explanation, Plan, PlannedPanel
from laydown.schema.problem import InputError, Problem
from laydown.schema.supplies import Mix
from laydown.words.letdown import (
    angle_said,
    effect_count_said,
    films_differ,
    seen_said,
    zone_planned,
    zone_said,
)
from laydown.words.numbers import place_words

NOT_GIVEN = Figure(0.0).source
"""What stands as the source of a figure where nobody gave one."""

PANEL, MODEL = message("because-from.panel"), message("because-from.model")
"""Sources of figures."""


def why_colour(colour: ColourVerdict) -> Explanation:
    """Explain the count of effect coats."""
    says = message("why-colour", effect_coats=effect_count_said(colour), colour_verdict=colour.verdict)
    reason = message("why-colour.reason", reason=colour.reason)
    if colour.next_step:
        reason = message("why-colour.reason-and-next", reason=colour.reason, next_step=colour.next_step)
    return Explanation("colour", says, reason, tuple(_colour_figures(colour)), _second(colour), ())


def _colour_figures(colour: ColourVerdict) -> Iterator[Because]:
    """Who compared, the interval, the chances, films, zones, angles."""
    zone = zone_planned(colour)
    read = message(f"compared_by.{colour.read_by.replace(' ', '_')}")
    yield Because(message("because.compared-by"), read, PANEL)
    if zone is not None and zone.low is not None and zone.high is not None:
        yield Because(
            message("because.middle"), _coats(zone.low, zone.high), message("because-from.panel-coats")
        )
    for half in zone.chances if zone is not None else ():
        name = message("because.chance-of", coats=half.coats)
        yield Because(
            name, message("because-is.chance", of_chance=half.chance), message("because-from.nearest-half")
        )
    if colour.film_factor is not None:
        yield Because(message("because.film"), message("because-is.film", factor=colour.film_factor), MODEL)
    if colour.panel_coats is not None:
        planned = message("because-is.planned", coats=round(colour.panel_coats, 1))
        yield Because(message("because.planned-count"), planned, MODEL)
    for other in colour.zones:
        if other is not zone:
            place = Name(other.zone) if other.zone else message("whole-side")
            yield Because(place, _short(other), zone_said(other, colour))
    if colour.evidence is not None:
        yield from _evidence(colour.evidence)


def _coats(low: float, high: float) -> Message:
    """Two counts, no finer than anybody knows them."""
    return message("because-is.coats", low=round(low, 1), high=round(high, 1))


def _short(zone: ZoneVerdict) -> Message:
    """Count of a zone, or none."""
    return message("no-count") if zone.coats is None else message("count", coats=zone.coats)


def _evidence(evidence: PanelEvidence) -> Iterator[Because]:
    """The panel as it was read."""
    if evidence.fields:
        fields = tuple(field.coats for field in evidence.fields)
        yield Because(message("because.fields"), message("because-is.fields", fields=fields), PANEL)
    if evidence.illuminant:
        observer = Name(str(evidence.observer))
        light = message("because-is.light", illuminant=Name(evidence.illuminant), observer=observer)
        yield Because(message("because.light"), light, message("because-from.readings"))
    if evidence.ground_de is not None:
        seen = message(
            "because-is.difference", difference=evidence.ground_de, seen=seen_said(evidence.ground_de)
        )
        yield Because(message("because.ground-difference"), seen, message("because-from.ground-difference"))
    for curve in evidence.curves:
        if curve.difference is not None:
            seen = message(
                "because-is.difference",
                difference=curve.difference,
                seen=seen_said(curve.difference, curve.angle_deg),
            )
            name = message("because.left-at", angle=angle_said(curve.angle_deg))
            yield Because(name, seen, message("because-from.ordered-count"))


def _second(colour: ColourVerdict) -> Saying:
    """The next likely half coat."""
    zone = zone_planned(colour)
    if zone is None or zone.coats is None or zone.coats != colour.effect_coats or films_differ(colour):
        return ""
    others = [half for half in zone.chances if half.coats != zone.coats]
    if not others:
        return ""
    best = max(others, key=lambda half: half.chance)
    code = "instead.more-coats" if best.coats > zone.coats else "instead.fewer-coats"
    return message(code, coats=best.coats, nearest_chance=best.chance)


def why_hiding(hiding: HidingVerdict) -> Explanation:
    """Explain the count of ground coats."""
    says = message(
        "why-hiding", coats=hiding.ground_coats, low=round(hiding.low, 1), high=round(hiding.high, 1)
    )
    if hiding.blind_from_coat is not None:
        says = message("why-hiding.blind", hiding=says, coat=hiding.blind_from_coat)
    return Explanation("hiding", says, hiding.reason, tuple(_hiding_figures(hiding)), _undercoat(hiding), ())


def _hiding_figures(hiding: HidingVerdict) -> Iterator[Because]:
    """What each coat changes and leaves."""
    yield Because(message("because.worst-panel"), Name(hiding.worst_panel), MODEL)
    yield Because(message("because.middle"), _coats(hiding.low, hiding.high), message("because-from.coats"))
    for number, step in enumerate(hiding.steps_de, start=1):
        change = message("because-is.step", difference=step)
        if number <= len(hiding.rest_de):
            change = message("because-is.step-and-rest", difference=step, rest=hiding.rest_de[number - 1])
        yield Because(message("because.coat-changes", number=number), change, message("because-from.missing"))
    if hiding.islands_de:
        islands = message("because-is.islands", first=hiding.islands_de[0], last=hiding.islands_de[-1])
        yield Because(message("because.islands"), islands, message("because-from.islands"))
    if hiding.card_contrast is not None:
        contrast = message("because-is.contrast", contrast=hiding.card_contrast)
        yield Because(message("because.contrast"), contrast, message("because-from.contrast"))


def _undercoat(hiding: HidingVerdict) -> Saying:
    """The undercoat that would serve best."""
    for row in hiding.undercoats:
        if row.best and row.coats is not None:
            return message(
                "instead.undercoat",
                lightness=row.lightness,
                coats=row.coats,
                difference=row.first_step_de,
            )
    return ""


def why(plan: Plan, item: str | None) -> tuple[Explanation, ...]:
    """Explain an item of a plan."""
    known = tuple(_explanations(plan))
    if item is None:
        return _weightiest(plan, known)
    wanted = item.casefold().replace(" ", "_").removeprefix("join.").removeprefix("finding.")
    found = [one for one in known if one.item.casefold() == wanted]
    found = found or [one for one in known if one.item.startswith(f"{wanted}.")]
    if not found:
        names = list(dict.fromkeys(one.item for one in known))
        near = nearest(wanted, names)
        there = tuple(Name(one) for one in names)
        hint = (
            message("no-item.near", near=Name(near), items=there)
            if near
            else message("no-item.hint", items=there)
        )
        raise InputError("", (Problem("ITEM", message("no-item", item=Name(item)), hint),))
    return tuple(found)


def items(plan: Plan) -> tuple[str, ...]:
    """Return the names that can be asked for."""
    return tuple(dict.fromkeys(one.item for one in _explanations(plan)))


def reasons(plan: Plan) -> dict[str, tuple[Explanation, ...]]:
    """Return every explanation of a plan."""
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
    yield from (_panel(panel) for panel in plan.side.panels)
    for layer in plan.layers:
        for coat in layer.coats:
            yield _coat(layer, coat)
            yield from (_join(join) for join in coat.joins)
    yield from (_mix(mix) for mix in plan.mixes)
    sheet = message("because-from.product-sheet")
    metal = (Because("metal_c", plan.bake.metal_c, sheet), Because("hold_s", plan.bake.hold_s, sheet))
    known = message(f"metal_known.{plan.bake.verdict.replace(' ', '_')}")
    yield Explanation("bake", known, plan.bake.text, metal, "", ())
    yield _limits_of_use(plan)
    yield from (_finding(finding) for finding in plan.findings)


def _verdict(plan: Plan) -> Explanation:
    """The verdict rests on findings."""
    behind = tuple(_behind(plan))
    reason = message("parts", parts=behind) if behind else message("why-verdict.nothing")
    says = message("why-verdict", verdict=plan.verdict.state, text=plan.verdict.text)
    return Explanation("verdict", says, reason, (), "", plan.verdict.because)


def _behind(plan: Plan) -> Iterator[Message]:
    """What each kind of finding behind the verdict says first, and how many more of its kind there are."""
    said = (plan.verdict.text, *parts_of(plan.verdict.text))
    for code in plan.verdict.because:
        texts = list(dict.fromkeys(finding.text for finding in plan.findings if finding.code == code))
        if texts and texts[0] not in said:
            more = message("why-verdict.more", count=len(texts) - 1, finding=texts[0])
            yield more if len(texts) > 1 else message("why-verdict.finding", finding=texts[0])


def _panel(panel: PlannedPanel) -> Explanation:
    """How far each layer reaches on a panel."""
    says = message(
        "why-panel",
        panel=Name(panel.name),
        ground=message(f"extent.{panel.ground}"),
        effect=message(f"extent.{panel.effect}"),
        clear=message(f"extent.{panel.clear}"),
    )
    area = (Because("area_m2", panel.area_m2, MODEL),)
    return Explanation(f"panel.{panel.id}", says, panel.reason or message("why-panel.job"), area, "", ())


def _adjustment(name: str, chosen: Adjustment, plan: Plan) -> Explanation:
    """Reducer, water, hardener and nozzle; they rest on the air."""
    other = chosen.runner_up
    second: Saying = ""
    if other is not None:
        next_best = _set(other.reducer, other.water, other.nozzle_mm, hardener=other.hardener)
        second = message("instead.adjustment", chosen=next_best, why_not=other.why_not)
    figures = tuple(Because(key, figure.value, _given(figure)) for key, figure in plan.inputs.air.items())
    chosen_set = _set(chosen.reducer, chosen.water, chosen.nozzle_mm, hardener=chosen.hardener)
    says = message("why-adjustment", short_layer=name, chosen=chosen_set)
    return Explanation(f"adjustment.{name}", says, chosen.reason, figures, second, ())


def _given(figure: Figure) -> Saying:
    """Where a figure of the job comes from, in the words of the job."""
    return message("value.not-given") if figure.source == NOT_GIVEN else Name(figure.source)


def _set(reducer: str, water: float, nozzle_mm: float, *, hardener: bool) -> Message:
    """Write an adjustment in a line."""
    code = "adjusted-with-hardener" if hardener else "adjusted"
    return message(code, reducer=reducer, water=water, nozzle_mm=nozzle_mm)


def _coat(layer: Layer, coat: Coat) -> Explanation:
    """Order and start of a coat."""
    says = message(
        "why-coat",
        short_layer=layer.name,
        number=coat.number,
        pattern=coat.pattern,
        direction=coat.direction,
        start=coat.start,
    )
    figures = (
        Because("spray_s", coat.spray_s, MODEL),
        Because("sprayed_g", coat.sprayed_g, MODEL),
        *_spread("open_s", coat.open_s),
        *_spread("flash_s", coat.flash_s),
    )
    return Explanation(f"coat.{layer.name}.{coat.number}", says, coat.reason, figures, "", ())


def _join(join: Join) -> Explanation:
    """Place of a join."""
    says = message(
        "why-join",
        x_m=join.x_m,
        feature=Name(place_words(join.feature)),
        feature_kind=join.kind,
        join=join.state,
        wet_chance=join.wet_chance,
    )
    other = join.runner_up
    second: Saying = ""
    if other is not None:
        place = Name(place_words(other.feature))
        second = message("instead.join", x_m=other.x_m, feature=place, why_not=other.why_not)
    figures = (
        *_spread("age_s", join.age_s),
        *_spread("open_s", join.open_s),
        *_spread("margin_s", join.margin_s),
    )
    return Explanation(join.id, says, join.reason, figures, second, ())


def _mix(mix: Mix) -> Explanation:
    """Size of a mix, and what the sheet leaves open."""
    figures = [Because("need_ml", mix.need_ml, MODEL), Because("mix_ml", mix.mix_ml, MODEL)]
    figures.append(Because("mix_g", mix.mix_g, MODEL))
    figures += [
        Because("water_g", one.water_g, message("because-from.reading", reading=one.reading))
        for one in mix.readings
    ]
    says = message("why-mix", short_layer=mix.layer, mix_ml=mix.mix_ml, product=Name(mix.product))
    reason = message("why-mix.reason-and-ask", ask=mix.ask) if mix.ask else message("why-mix.reason")
    return Explanation(f"mix.{mix.layer}", says, reason, tuple(figures), "", ())


def _limits_of_use(plan: Plan) -> Explanation:
    """Air the plan is good for."""
    limits = plan.limits_of_use
    figures = (
        Because("temperature_low_c", limits.temperature_low_c, MODEL),
        Because("temperature_high_c", limits.temperature_high_c, MODEL),
        Because("rh_low", limits.rh_low, MODEL),
        Because("rh_high", limits.rh_high, MODEL),
    )
    return Explanation("limits_of_use", message("why-limits"), limits.text, figures, "", ())


def _finding(finding: Finding) -> Explanation:
    """What was found, why, and what helps."""
    says = message("why-finding", level=finding.level, where=Name(finding.where), finding=finding.text)
    ways = tuple(message("numbered-way", number=number, way=way) for number, way in enumerate(finding.do, 1))
    reason = message("what-helps", why=finding.why, ways=ways) if ways else finding.why
    return Explanation(finding.code, says, reason, (), "", ())


def _spread(name: str, spread: Spread) -> tuple[Because, ...]:
    """Write a computed time with its ends, in whole seconds: no finer one is known."""
    stem, unit = name.rsplit("_", 1)
    return (
        Because(name, round(spread.value), MODEL),
        Because(f"{stem}_low_{unit}", round(spread.low), message("because-from.middle")),
        Because(f"{stem}_high_{unit}", round(spread.high), message("because-from.middle")),
    )
