"""What the page of a plan shows, gathered from the plan; nothing is decided here."""

from collections.abc import Iterable
from typing import Any

from laydown.desk.plans.glance import moved, tiles
from laydown.desk.plans.why import reasons
from laydown.report.charts.day import day_svg
from laydown.report.charts.maps import maps_svg
from laydown.report.charts.margins import margin_svg
from laydown.report.side.coat import side_svg
from laydown.schema.coat import Coat, Layer, Maps
from laydown.schema.message import Finding, Saying
from laydown.schema.plan import Plan
from laydown.words.show import Words

STATES = {"go": "wet", "caution": "tight", "stop": "dry"}
"""Sign of each verdict."""

PICTURE_PX = 820.0
"""Width of the side on the plan page: that of its column on a tablet, so that its words keep their size."""


def coat_of(plan: Plan, layer: str, coat: str) -> tuple[Layer, Coat] | None:
    """Return the coat that is shown."""
    every = [(one, each) for one in plan.layers for each in one.coats]
    asked = [pair for pair in every if pair[0].name == layer and str(pair[1].number) == coat]
    if asked or not every:
        return asked[0] if asked else None

    def tightest(pair: tuple[Layer, Coat]) -> float:
        return min((join.wet_chance for join in pair[1].joins), default=2.0)

    return min(every, key=tightest)


def shown_plan(plan: Plan, query: dict[str, str], words: Words, *, drawn: bool = True) -> dict[str, Any]:
    """Gather the part of the page that a change moves."""
    chosen = coat_of(plan, query.get("layer", ""), query.get("coat", ""))
    picture = ""
    if chosen is not None and drawn:
        name, number = chosen[0].name, chosen[1].number
        picture = side_svg(plan, name, number, words=words, width_px=PICTURE_PX)
    return {
        "plan": plan,
        "tiles": tiles(plan, words),
        "state": STATES[plan.verdict.state],
        "verdict": words.word("verdict_large", plan.verdict.state),
        "shown": chosen,
        "picture": picture,
        "reasons": reasons(plan),
        "findings": grouped(plan.findings),
        "cures": cures(plan, words) if plan.verdict.state == "stop" else (),
    }


def grouped(findings: Iterable[Finding]) -> tuple[tuple[Finding, tuple[Saying, ...]], ...]:
    """Put findings of one kind together, in the order of the plan."""
    kinds: dict[tuple[str, str, tuple[Saying, ...]], list[Finding]] = {}
    for one in findings:
        kinds.setdefault((one.level, one.code, one.do), []).append(one)
    return tuple((alike[0], tuple(one.text for one in alike[1:])) for alike in kinds.values())


def cures(plan: Plan, words: Words) -> tuple[str, ...]:
    """List what would cure a plan without a good way, each cure once."""
    ways = [
        words.say("change-makes", change=one.change, text=one.text)
        for one in plan.alternatives
        if one.verdict != "stop"
    ]
    ways += [words(do) for one in plan.findings if one.level == "stop" for do in one.do]
    return tuple(dict.fromkeys(ways))


def rest_of_plan(plan: Plan, words: Words) -> dict[str, Any]:
    """Gather the part of the page that is shown once a plan is kept."""
    return {
        "kept": plan,
        "day": day_svg(plan, words) if plan.timeline else "",
        "margin": margin_svg(plan, words) if plan.layers else "",
    }


def drawn_maps(plan: Plan, maps: Maps, coat: tuple[str, int], words: Words) -> str:
    """Draw the maps of a coat."""
    if all((one.layer, one.coat) != coat for one in maps.coats):
        return ""
    return maps_svg(plan, maps, *coat, words)


def moved_rows(before: Plan, after: Plan, words: Words) -> tuple[tuple[str, str, str], ...]:
    """List what a change moves, the verdict first."""
    old, new = (words.word("verdict_large", one.verdict.state) for one in (before, after))
    first = ((words.say("moved.verdict"), old, new),) if old != new else ()
    return (*first, *moved(before, after, words))
