"""What the planner is asked, and what it gives back."""

from dataclasses import dataclass, fields, replace
from typing import Annotated

from laydown.schema.choices import Reducer
from laydown.schema.coat import Maps
from laydown.schema.figure import SHARE, Figure, Within
from laydown.schema.job import Job
from laydown.schema.message import message
from laydown.schema.plan import Plan
from laydown.schema.product import Product
from laydown.schema.reading import Readings
from laydown.schema.side import Side


@dataclass(frozen=True, slots=True)
class Changes:
    """What to change in a job; what is None stays."""

    temperature_c: Annotated[Figure, Within(5, 45)] | None = None
    rh: Annotated[Figure, SHARE] | None = None
    reducer: Reducer | None = None
    water: Annotated[float, SHARE] | None = None
    hardener: bool | None = None
    nozzle_mm: Annotated[float, Within(0.8, 2.2)] | None = None
    ground_coats: Annotated[float, Within(1, 6, message("coats-in-halves", low=1, high=6))] | None = None
    effect_coats: Annotated[float, Within(0.5, 8, message("coats-in-halves", low=0.5, high=8))] | None = None
    painters: Annotated[int, Within(1, 2, message("one-or-two-painters"))] | None = None
    can_walk: bool | None = None
    spare_cup: bool | None = None
    refill_s: Annotated[float, Within(5, 300)] | None = None
    speed_m_s: Annotated[Figure, Within(0.15, 1.2)] | None = None


_CHOICES = ("reducer", "water", "hardener", "nozzle_mm", "ground_coats", "effect_coats")
_TASK = ("painters", "can_walk", "spare_cup")


def changed(job: Job, changes: Changes) -> Job:
    """Return the job with the changes made.

    A change of the adjustment is a fixed choice, so the planner keeps and judges it. In other air the panel is taken
    to have followed: what was measured on it no longer holds.
    """
    given = {item.name: getattr(changes, item.name) for item in fields(changes)}
    given = {name: value for name, value in given.items() if value is not None}
    task = {name: given[name] for name in _TASK if name in given}
    has_spare_cup = given.get("spare_cup", job.job.spare_cup)
    if "refill_s" in given:
        task["spare_cup_s" if has_spare_cup else "refill_s"] = given["refill_s"]
    air = {name: given[name] for name in ("temperature_c", "rh") if name in given}
    gun = {"speed_m_s": given["speed_m_s"]} if "speed_m_s" in given else {}
    return replace(
        job,
        job=replace(job.job, **task),
        air=replace(job.air, **air),
        surface=replace(job.surface, temperature_c=None, effect_temperature_c=None)
        if "temperature_c" in air
        else job.surface,
        gun=replace(job.gun, **gun),
        choices=replace(job.choices, **{name: given[name] for name in _CHOICES if name in given}),
    )


@dataclass(frozen=True, slots=True)
class Products:
    """The three products of a job."""

    ground: Product
    effect: Product
    clear: Product


@dataclass(frozen=True, slots=True)
class Request:
    """Everything a plan is made from; no clock and no file is read behind it."""

    job: Job
    side: Side
    products: Products
    version: str
    made_at: str | None = None
    readings: Readings | None = None


@dataclass(frozen=True, slots=True)
class Planned:
    """A plan with its maps."""

    plan: Plan
    maps: Maps
