"""The bake as a noun, on the slowest part, with the clocks after it."""

import math
from dataclasses import dataclass

from laydown.planning.setup.setup import Setup
from laydown.schema.clock import BakePlan
from laydown.schema.finding import Finding
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
    """What the clock needs of the bake.

    Attributes
    ----------
    on_s
        How long the heat is on [s]; None where no time is approved.
    handle_s, polish_s
        From the end of the heat to handling and to polishing [s]; None: never in this air.
    text
        In words.
    """

    on_s: float | None
    handle_s: float | None
    polish_s: float | None
    text: str


Baked = tuple[BakePlan, BakeTimes, tuple[Finding, ...], tuple[Assumption, ...]]
"""The bake as a noun, what the clock needs of it, findings and assumptions."""


def bake_of(setup: Setup) -> Baked:
    """Return the bake of the clear.

    Parameters
    ----------
    setup
        The job and the sheet of the clear.

    Returns
    -------
    The noun, what the clock needs, findings and assumptions.

    Sources
    -------
    ``laydown.trade.times.bake`` and ``laydown.trade.times.gate``.
    """
    job = setup.job
    air_c = job.air.temperature_c.value
    if "clear" not in setup.fields:
        plan = BakePlan(0.0, 0.0, air_c, "", None, "not needed", "no clear coat is wanted")
        return plan, BakeTimes(None, None, None, plan.text), (), ()
    sheet = setup.paints["clear"].product.bake
    used: list[Assumption] = [
        Assumption("bake.walls", "as warm as the air", "assumption, on the hopeful side")
    ]
    if sheet is None:
        sheet = DEFAULT_BAKE
        used.append(
            Assumption(
                "clear.bake",
                "30 min at 60 °C metal",
                "default, not from the sheet: common practice, no source",
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
    text = f"{sheet.time_s / 60:.0f} min at {sheet.metal_c:g} °C metal"
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
                "traction battery, and no limit in the job",
                (
                    "write the vehicle maker's limit as limits.metal_max_c",
                    "cure at a lower temperature by the sheet",
                ),
            )
        )
    elif plan.verdict == "never reached":
        found.append(
            Finding(
                "stop",
                "bake-never-reached",
                "bake",
                plan.text,
                "air and walls against the metal of the slowest part",
                ("set the air higher", "warm the walls", "a longer cure at lower temperature by the sheet"),
            )
        )
    elif over:
        found.append(
            Finding(
                "stop",
                "bake-too-hot",
                "bake",
                plan.text,
                f"above the limit: {', '.join(over)}",
                ("lower the air", "ask the vehicle maker"),
            )
        )
    elif plan.verdict == "guess":
        reaches = plan.reaches_s if plan.reaches_s is not None and math.isfinite(plan.reaches_s) else 0.0
        found.append(
            Finding(
                "note",
                "bake-not-measured",
                "bake",
                f"the metal of the {plan.slowest_part} is at temperature after about {reaches / 60:.0f} min: computed, not measured.",
                plan.text,
                ("put a thermometer on the slowest part once",),
            )
        )
    return found
