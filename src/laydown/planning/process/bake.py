"""The bake as a noun, on the slowest part, with the clocks after it."""

import math
from dataclasses import dataclass

from laydown.planning.setup.setup import Setup
from laydown.schema.clock import BakePlan
from laydown.schema.message import Finding, Name, Saying, message
from laydown.schema.plan import Assumption
from laydown.schema.product import Bake
from laydown.trade.times.bake import bake_course
from laydown.trade.times.gate import after_bake
from laydown.trade.times.warming import Heating, parts_of_side

AIR_ABOVE_METAL_K = 5.0
"""How much warmer than the metal the booth air is set [K]; common practice, no source."""

DEFAULT_BAKE = Bake(60.0, 1800.0)
"""Where the sheet of the clear names no bake: 30 min at 60 °C metal; common practice, no source."""


@dataclass(frozen=True, slots=True)
class BakeTimes:
    """What the clock needs of the bake."""

    on_s: float | None
    handle_s: float | None
    polish_s: float | None
    text: Saying


Baked = tuple[BakePlan, BakeTimes, tuple[Finding, ...], tuple[Assumption, ...]]
"""The bake as a noun, what the clock needs of it, findings and assumptions."""


def bake_of(setup: Setup) -> Baked:
    """Return the bake of the clear."""
    job = setup.job
    air_c = job.air.temperature_c.value
    if "clear" not in setup.fields:
        plan = BakePlan(0.0, 0.0, air_c, "", None, "not needed", message("no-clear-wanted"))
        return plan, BakeTimes(None, None, None, plan.text), (), ()
    sheet = setup.paints["clear"].product.bake
    used: list[Assumption] = [
        Assumption("bake.walls", message("taken.warm-as-air"), message("source.hopeful"))
    ]
    if sheet is None:
        sheet = DEFAULT_BAKE
        used.append(
            Assumption(
                "clear.bake",
                message("bake-at-metal", hold_s=DEFAULT_BAKE.time_s, metal_c=DEFAULT_BAKE.metal_c),
                message("source.default"),
            )
        )
    material = job.surface.material
    parts = parts_of_side(material, job.surface.thickness_mm, plastic=material != "plastic")
    heating = Heating(air_c, min(150.0, sheet.metal_c + AIR_ABOVE_METAL_K))
    course = bake_course(sheet, job.limits, parts, heating)
    plan = BakePlan(
        sheet.metal_c,
        sheet.time_s,
        heating.air_c,
        course.slowest_part,
        course.reaches_s,
        course.verdict,
        course.text,
    )
    slowest = max(part.panel_s for part in course.parts)
    after = after_bake(max(part.end_c for part in course.parts), air_c, slowest)
    text = message("bake-at-metal", hold_s=sheet.time_s, metal_c=sheet.metal_c)
    times = BakeTimes(
        course.on_s,
        after.handle_s if course.on_s is not None else None,
        after.polish_s if course.on_s is not None else None,
        text,
    )
    return plan, times, tuple(_findings(plan, course.over_limit)), tuple(used)


def _findings(plan: BakePlan, over: tuple[str, ...]) -> list[Finding]:
    """What there is to fear of the bake."""
    found = []
    if plan.verdict == "ask the vehicle maker":
        found.append(
            Finding(
                "stop",
                "bake-ask-vehicle-maker",
                "bake",
                plan.text,
                message("bake-ask-vehicle-maker.why"),
                (message("do.write-metal-limit"), message("do.cure-lower")),
            )
        )
    elif plan.verdict == "never reached":
        found.append(
            Finding(
                "stop",
                "bake-never-reached",
                "bake",
                plan.text,
                message("bake-never-reached.why"),
                (message("do.set-air-higher"), message("do.warm-walls"), message("do.cure-longer-lower")),
            )
        )
    elif over:
        found.append(
            Finding(
                "stop",
                "bake-too-hot",
                "bake",
                plan.text,
                message("bake-too-hot.why", parts=tuple(map(Name, over))),
                (message("do.lower-air"), message("do.ask-vehicle-maker")),
            )
        )
    elif plan.verdict == "guess":
        reaches = plan.reaches_s if plan.reaches_s is not None and math.isfinite(plan.reaches_s) else 0.0
        found.append(
            Finding(
                "note",
                "bake-not-measured",
                "bake",
                message("bake-not-measured", part=Name(plan.slowest_part), reaches_s=reaches),
                plan.text,
                (message("do.thermometer-once"),),
            )
        )
    return found
