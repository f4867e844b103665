"""What is kept of a whole plan: the figures a painter would notice if they changed."""

import json
import math
from dataclasses import replace
from pathlib import Path

from cases.planning import DRY, FADE, MILD, SEVERE, VAN, Case, quick
from cases.speech import english

FOLDER = Path(__file__).parent

NOTE = "made by this program: tells what changed, never what is right"

TOLERANCE = 0.01
"""Share by which a figure may differ before it counts as changed."""

CASES: dict[str, Case] = {
    "hatch-mild": MILD,
    "hatch-dry": DRY,
    "hatch-severe": SEVERE,
    "saloon-two-painters": replace(DRY, shape="large saloon", painters=2),
    "van-spare-cup": replace(VAN, spare_cup=True),
    "wing-and-door-fade": FADE,
}


def extract(case: Case) -> dict:
    """Adjustment, joins, seconds, grams, film and clock of a plan."""
    plan = quick(case).plan
    found: dict = {
        "verdict": plan.verdict.state,
        "timeline_s": round(max(step.end_s for step in plan.timeline), 1),
        "ground_coats": plan.hiding.ground_coats,
        "effect_coats": plan.colour.effect_coats,
    }
    for layer in plan.layers:
        chosen = getattr(plan.adjustment, layer.name)
        found[layer.name] = {
            "reducer": chosen.reducer,
            "water": chosen.water,
            "hardener": chosen.hardener,
            "nozzle_mm": chosen.nozzle_mm,
            "coats": [
                {
                    "part": coat.part,
                    "direction": english(coat.direction),
                    "joins": [
                        [join.feature, round(join.x_m, 3), round(join.age_s.value, 1)] for join in coat.joins
                    ],
                    "refill_after": [refill.after_section for refill in coat.refills],
                    "elapsed_s": round(coat.elapsed_s, 1),
                    "sprayed_g": round(coat.sprayed_g, 1),
                    "film_wet_g_m2": round(coat.film_wet_g_m2, 2),
                    "open_s": round(coat.open_s.value, 1),
                    "flash_s": round(coat.flash_s.value, 1),
                }
                for coat in layer.coats
            ],
        }
    return found


def path_of(name: str) -> Path:
    """Where a stored extract lies."""
    return FOLDER / f"{name}.json"


def stored(name: str) -> dict:
    """A stored extract."""
    return json.loads(path_of(name).read_text(encoding="utf-8"))["plan"]


def store(name: str, plan: dict) -> None:
    """Write an extract."""
    text = json.dumps({"note": NOTE, "plan": plan}, indent=1, ensure_ascii=False)
    path_of(name).write_text(text + "\n", encoding="utf-8")


def flat(value: object, where: str = "") -> dict[str, object]:
    """Every leaf with its place."""
    if isinstance(value, dict):
        return {
            place: leaf for key, one in value.items() for place, leaf in flat(one, f"{where}.{key}").items()
        }
    if isinstance(value, list):
        inner = {
            place: leaf
            for index, one in enumerate(value)
            for place, leaf in flat(one, f"{where}[{index}]").items()
        }
        return inner or {where: "none"}
    return {where.lstrip("."): value}


def same(old: object, new: object) -> bool:
    """Equal, or two numbers within the tolerance."""
    numbers = [isinstance(one, (int, float)) and not isinstance(one, bool) for one in (old, new)]
    if all(numbers):
        return math.isclose(old, new, rel_tol=TOLERANCE, abs_tol=1e-9)
    return type(old) is type(new) and old == new


def table(old: dict, new: dict) -> list[str]:
    """Lines of what changed: place, old, new."""
    before, after = flat(old), flat(new)
    places = [*before, *(place for place in after if place not in before)]
    changed = [
        (place, before.get(place, "-"), after.get(place, "-"))
        for place in places
        if place not in before or place not in after or not same(before[place], after[place])
    ]
    width = max((len(place) for place, _, _ in changed), default=0)
    return [f"{place:<{width}}  {was!s:>16}  {now!s:>16}" for place, was, now in changed]
