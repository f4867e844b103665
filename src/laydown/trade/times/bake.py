"""The bake, judged by the metal temperature of the slowest part.

Sources: the product sheet, unless a function names its own.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from laydown.physics.cure import equivalent_s, held_s
from laydown.physics.heat import HeatUp, panel_c, time_to_s
from laydown.schema.limits import Limits
from laydown.schema.message import Message, Saying, message
from laydown.schema.product import Bake
from laydown.trade.times.warming import HeatedPart, Heating, part_said, warming

BakeVerdict = Literal["measured", "estimated", "guess", "never reached", "ask the vehicle maker"]
"""How far a bake is known: by thermometer, by a model with one reading, by a model alone, or not at all."""

Evidence = Literal["measured", "anchored", "model"]
"""Where the metal temperature comes from: a log on the slowest part, a model set by one reading, a model."""

METAL_TOLERANCE_K = 2.0
"""A part counts as at temperature this far below the sheet's figure [K]; common practice, no source."""

_VERDICTS: dict[Evidence, BakeVerdict] = {"measured": "measured", "anchored": "estimated", "model": "guess"}


@dataclass(frozen=True, slots=True)
class PartCourse:
    """How one class of parts goes through the bake.

    Attributes
    ----------
    name
        The part.
    panel_s
        Its time constant [s].
    goal_c
        What it would reach in the end, walls counted in [°C].
    reaches_s
        When it is at the sheet's temperature; ``None``: never [s].
    end_c
        Where it is when the heat goes off [°C].
    held_s
        How long it was at temperature [s].
    equivalent_s
        What that is worth at the sheet's temperature [s]; information, never a pass.
    """

    name: str
    panel_s: float
    goal_c: float
    reaches_s: float | None
    end_c: float
    held_s: float
    equivalent_s: float


@dataclass(frozen=True, slots=True)
class BakeCourse:
    """The bake of a side.

    Attributes
    ----------
    verdict
        How far it is known.
    on_s
        How long the heat must be on; ``None`` where no time may be approved [s].
    slowest_part
        The part that decides.
    reaches_s
        When that part is at temperature; ``None``: never [s].
    passes
        Whether every part is held for the sheet's time and none goes past a limit.
    over_limit
        Parts that go past the limit of the sheet or of the vehicle maker.
    parts
        Each class of parts.
    text
        The verdict in plain words.
    """

    verdict: BakeVerdict
    on_s: float | None
    slowest_part: str
    reaches_s: float | None
    passes: bool
    over_limit: tuple[str, ...]
    parts: tuple[PartCourse, ...]
    text: Saying


def bake_course(
    sheet: Bake,
    limits: Limits,
    parts: Sequence[HeatedPart],
    heating: Heating,
    *,
    evidence: Evidence = "model",
    on_s: float | None = None,
) -> BakeCourse:
    """Return how a side goes through its bake and how far that is known.

    Parameters
    ----------
    sheet
        Metal temperature and time of the sheet.
    limits
        The vehicle maker's limit and whether there is a traction battery.
    parts
        Classes of parts that carry the paint; at least one.
    heating
        The booth.
    evidence
        Where the metal temperature comes from.
    on_s
        How long the shop's programme heats [s]; left out: as long as the slowest part needs.

    Raises
    ------
    ValueError
        If there is no part, or the booth or a part is outside its range.

    Notes
    -----
    At temperature means within 2 K. Heat is on until the slowest part has held the sheet's time after the
    later of reaching the temperature and the sheet's shortest ramp. A traction battery without the vehicle
    maker's limit gets no time at all. Equivalent time decides nothing.
    """
    if not parts:
        raise ValueError("parts must hold at least one part")
    threshold = sheet.metal_c - METAL_TOLERANCE_K
    courses = {part.name: warming(part, heating) for part in parts}
    reaches = {name: time_to_s(threshold, course) for name, course in courses.items()}
    slowest = max(reaches, key=lambda name: (reaches[name], courses[name].panel_s))
    needed = max(reaches[slowest], sheet.ramp_min_s) + sheet.time_s
    heated = on_s if on_s is not None else needed if math.isfinite(needed) else sheet.time_s
    limit = min(_or_inf(sheet.max_c), _or_inf(limits.metal_max_c))
    results = tuple(_part_course(name, course, sheet, heated, limit) for name, course in courses.items())
    over = tuple(result.name for result in results if result.end_c > limit)
    verdict = _verdict(limits, reaches[slowest], evidence)
    approved = verdict in _VERDICTS.values()
    return BakeCourse(
        verdict=verdict,
        on_s=heated if approved else None,
        slowest_part=slowest,
        reaches_s=_or_none(reaches[slowest]),
        passes=approved and not over and all(result.held_s >= sheet.time_s - 1e-6 for result in results),
        over_limit=over,
        parts=results,
        text=_text(verdict, sheet, slowest, courses[slowest], over),
    )


def _part_course(name: str, course: HeatUp, sheet: Bake, on_s: float, limit_c: float) -> PartCourse:
    """One class of parts through the bake."""
    threshold = sheet.metal_c - METAL_TOLERANCE_K
    return PartCourse(
        name,
        course.panel_s,
        course.goal_c,
        _or_none(time_to_s(threshold, course)),
        panel_c(on_s, course),
        held_s(threshold, course, on_s),
        equivalent_s(course, on_s, reference_c=sheet.metal_c, max_c=limit_c),
    )


def _verdict(limits: Limits, reaches_s: float, evidence: Evidence) -> BakeVerdict:
    """How far the bake is known; what is missing or impossible comes first."""
    if limits.electric_vehicle and limits.metal_max_c is None:
        return "ask the vehicle maker"
    return "never reached" if math.isinf(reaches_s) else _VERDICTS[evidence]


def _text(verdict: BakeVerdict, sheet: Bake, slowest: str, course: HeatUp, over: Sequence[str]) -> Message:
    """The verdict in plain words."""
    if verdict == "ask the vehicle maker":
        return message("bake-verdict.ask-the-vehicle-maker")
    if verdict == "never reached":
        return message(
            "bake-verdict.never-reached", part=part_said(slowest), goal_c=course.goal_c, metal_c=sheet.metal_c
        )
    if over:
        return message("bake-verdict.too-hot", parts=tuple(map(part_said, over)))
    return message(f"bake-verdict.{verdict}", part=part_said(slowest))


def _or_inf(limit: float | None) -> float:
    """No limit is an infinite one."""
    return math.inf if limit is None else limit


def _or_none(time_s: float) -> float | None:
    """Return a time, or None for never; infinity has no place in a plan."""
    return time_s if math.isfinite(time_s) else None
