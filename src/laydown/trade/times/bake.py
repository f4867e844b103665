"""The bake, judged by the metal temperature of the slowest part.

Sources: the product sheet, unless a function names its own.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from laydown.physics.cure import equivalent_s, held_s, longest_held_s
from laydown.physics.heat import HeatUp, panel_c, time_to_s
from laydown.schema.limits import Limits
from laydown.schema.product import Bake
from laydown.trade.times.warming import Heating, Part, warming

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
    text: str


@dataclass(frozen=True, slots=True)
class MeasuredBake:
    """A bake read from a thermometer on the slowest part.

    Attributes
    ----------
    held_s
        Longest unbroken time at temperature [s].
    hottest_c
        Highest reading [°C].
    passes
        Whether it was held for the sheet's time.
    """

    held_s: float
    hottest_c: float
    passes: bool


def bake_course(
    sheet: Bake,
    limits: Limits,
    parts: Sequence[Part],
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


def _text(verdict: BakeVerdict, sheet: Bake, slowest: str, course: HeatUp, over: Sequence[str]) -> str:
    """The verdict in plain words."""
    if verdict == "ask the vehicle maker":
        return (
            "Traction battery: ask the vehicle maker for the highest temperature. No bake time is approved."
        )
    if verdict == "never reached":
        return (
            f"{slowest} ends at {course.goal_c:.0f} °C, walls counted in, and never holds {sheet.metal_c:g} °C: "
            "more air temperature, warmer walls or a longer cure at a lower temperature by the sheet."
        )
    if over:
        return f"Too hot for {', '.join(over)}: lower the air below the limit of the sheet and of the vehicle maker."
    how = {
        "measured": "read on the slowest part",
        "estimated": "computed, with one reading to set it",
        "guess": "computed only: put a thermometer on the slowest part",
    }[verdict]
    return f"The slowest part is {slowest}; its temperature is {how}."


def judge_measured(times_s: Sequence[float], metal_c: Sequence[float], sheet: Bake) -> MeasuredBake:
    """Return whether a thermometer log of the slowest part meets the sheet.

    Parameters
    ----------
    times_s, metal_c
        Instants [s], rising, and readings [°C]; at least one.
    sheet
        Metal temperature and time of the sheet.

    Raises
    ------
    ValueError
        If there is no reading, or the lists do not match.
    """
    if not metal_c:
        raise ValueError("metal_c must hold at least one reading")
    held = longest_held_s(times_s, metal_c, sheet.metal_c - METAL_TOLERANCE_K)
    hottest = max(metal_c)
    return MeasuredBake(held, hottest, held >= sheet.time_s and hottest <= _or_inf(sheet.max_c))


def _or_inf(limit: float | None) -> float:
    """No limit is an infinite one."""
    return math.inf if limit is None else limit


def _or_none(time_s: float) -> float | None:
    """Return a time, or None for never; infinity has no place in a plan."""
    return time_s if math.isfinite(time_s) else None
