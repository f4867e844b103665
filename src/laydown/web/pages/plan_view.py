"""What the page of a plan shows, gathered from the plan; nothing is decided here."""

from collections.abc import Iterable
from typing import Any

from laydown.desk.plans.glance import moved, tiles
from laydown.desk.plans.why import reasons
from laydown.report.charts.day import day_svg
from laydown.report.charts.maps import maps_svg
from laydown.report.charts.spare_time import spare_svg
from laydown.report.side.coat import side_svg
from laydown.report.text.why import value_text
from laydown.schema.coat import Coat, Layer, Maps
from laydown.schema.finding import Finding
from laydown.schema.plan import Because, Plan
from laydown.units import System, show, suffix
from laydown.words.numbers import duration, minutes, place_words, spread_text, water_text
from laydown.words.show import names_of, retell, told, told_plan

STATES = {"go": "wet", "care": "hurry", "stop": "late"}
"""Sign of each verdict."""

VERDICTS = {"go": "Go", "care": "With care", "stop": "No good plan"}
"""Word of each verdict in large type."""

PICTURE_PX = 820.0
"""Width of the side on the plan page: that of its column on a tablet, so that its words keep their size."""


def coat_of(plan: Plan, layer: str, coat: str) -> tuple[Layer, Coat] | None:
    """Return the coat that is shown.

    Parameters
    ----------
    plan
        The plan.
    layer, coat
        From the address.

    Returns
    -------
    Layer and coat; if there is none such, the one with the weakest join, else the first; None without coats.
    """
    every = [(one, each) for one in plan.layers for each in one.coats]
    asked = [pair for pair in every if pair[0].name == layer and str(pair[1].number) == coat]
    if asked or not every:
        return asked[0] if asked else None

    def tightest(pair: tuple[Layer, Coat]) -> float:
        return min((join.wet_chance for join in pair[1].joins), default=2.0)

    return min(every, key=tightest)


def shown_plan(plan: Plan, query: dict[str, str], system: System, *, drawn: bool = True) -> dict[str, Any]:
    """Gather the part of the page that a change moves.

    Parameters
    ----------
    plan
        The plan, tried or kept.
    query
        Values from the address: ``layer`` and ``coat``.
    system
        How figures are shown.
    drawn
        Whether the coat is drawn too, which takes as long as planning.

    Returns
    -------
    Values for the template.
    """
    names = names_of(plan)
    explained = {item: told(found, system, names) for item, found in reasons(plan).items()}
    plan = told_plan(plan, system)
    chosen = coat_of(plan, query.get("layer", ""), query.get("coat", ""))
    picture = ""
    if chosen is not None and drawn:
        name, number = chosen[0].name, chosen[1].number
        picture = side_svg(plan, name, number, system=system, width_px=PICTURE_PX)
    return {
        "plan": plan,
        "tiles": tiles(plan, system),
        "state": STATES[plan.verdict.state],
        "verdict": VERDICTS[plan.verdict.state],
        "shown": chosen,
        "picture": picture,
        "reasons": explained,
        "findings": grouped(plan.findings),
        "cures": cures(plan) if plan.verdict.state == "stop" else (),
        "words": words_in(system),
    }


def grouped(findings: Iterable[Finding]) -> tuple[tuple[Finding, tuple[str, ...]], ...]:
    """Put findings of one kind together, in the order of the plan.

    Parameters
    ----------
    findings
        Findings of a plan.

    Returns
    -------
    First of each kind, and what the others of the kind say.
    """
    kinds: dict[tuple[str, str, tuple[str, ...]], list[Finding]] = {}
    for one in findings:
        kinds.setdefault((one.level, one.code, one.do), []).append(one)
    return tuple((alike[0], tuple(one.text for one in alike[1:])) for alike in kinds.values())


def cures(plan: Plan) -> tuple[str, ...]:
    """List what would cure a plan without a good way, each cure once.

    Parameters
    ----------
    plan
        The plan.

    Returns
    -------
    Alternatives that have a way, then what helps against each finding that says stop.
    """
    ways = [f"{one.change}: {one.text}" for one in plan.alternatives if one.verdict != "stop"]
    ways += [do for one in plan.findings if one.level == "stop" for do in one.do]
    return tuple(dict.fromkeys(ways))


def words_in(system: System) -> dict[str, Any]:
    """Return the functions that write figures, for templates.

    Parameters
    ----------
    system
        How figures are shown.

    Returns
    -------
    Functions by name.
    """

    def amount(value: float, name: str) -> str:
        return show(value, name, system)

    def figure(row: Because) -> str:
        return value_text(row, system)

    def named(row: Because) -> str:
        name = row.name.rsplit(".", 1)[-1]
        return name.removesuffix(suffix(name)).replace("_", " ")

    def said(text: str) -> str:
        return retell(text, system)

    def limit(seconds: float) -> str:
        return duration(seconds, system)

    def water(share: float) -> str:
        return water_text(share, system)

    return {
        "amount": amount,
        "figure": figure,
        "limit": limit,
        "named": named,
        "water": water,
        "said": said,
        "spread": spread_text,
        "clock": minutes,
        "place": place_words,
    }


def rest_of_plan(plan: Plan, system: System) -> dict[str, Any]:
    """Gather the part of the page that is shown once a plan is kept.

    Parameters
    ----------
    plan
        The plan.
    system
        How figures are shown.

    Returns
    -------
    Values for the template.
    """
    plan = told_plan(plan, system)
    return {
        "kept": plan,
        "day": day_svg(plan) if plan.timeline else "",
        "spare": spare_svg(plan, system) if plan.layers else "",
    }


def drawn_maps(plan: Plan, maps: Maps, coat: tuple[str, int], system: System) -> str:
    """Draw the maps of a coat.

    Parameters
    ----------
    plan, maps
        The plan and its maps.
    coat
        Layer and number of the coat.
    system
        How figures are shown.

    Returns
    -------
    SVG; empty where the coat has no maps.
    """
    if all((one.layer, one.coat) != coat for one in maps.coats):
        return ""
    return maps_svg(plan, maps, *coat, system)


def moved_rows(before: Plan, after: Plan, system: System) -> tuple[tuple[str, str, str], ...]:
    """List what a change moves, the verdict first.

    Parameters
    ----------
    before, after
        The plan as it is and with the change.
    system
        How figures are shown.

    Returns
    -------
    Head, old and new.
    """
    old, new = VERDICTS[before.verdict.state], VERDICTS[after.verdict.state]
    first = (("verdict", old, new),) if old != new else ()
    return (*first, *moved(before, after, system))
