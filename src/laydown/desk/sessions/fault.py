"""What can still be done about a fault, asked beside a kept plan."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cache

from laydown.booth.day_steps import Leg, legs_of
from laydown.booth.progress import State, replay
from laydown.reader.papers.tables import STAGES, read_rescue
from laydown.schema.figure import Spread
from laydown.schema.plan import Plan
from laydown.schema.problem import InputError, Problem
from laydown.schema.product import Kind
from laydown.schema.rescue import Fault, FaultKey, LayerFigures, RescueContext, RescueTable, Stage, WayOut
from laydown.schema.session import Session
from laydown.trade.rescue import ways_out

WHOLE_SIDE = "whole side"
"""Said instead of a panel."""

SIZES: tuple[tuple[str, int], ...] = (
    ("a spot, 5 cm", 1),
    ("15 cm", 1),
    ("30 cm", 1),
    ("several spots", 2),
    ("all over", 1),
)
"""How large a fault is said to be, and how many spots that counts as."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What was said about a fault: stage, fault, panel (or whole side) and size."""

    stage: Stage
    fault: FaultKey
    panel: str = WHOLE_SIDE
    size: str = "all over"


@cache
def rescue_table() -> RescueTable:
    """Return the shipped table of faults and ways, read once."""
    return read_rescue()


def read_asked(stage: str, fault: str, panel: str, size: str, plan: Plan) -> Asked:
    """Read what was said about a fault.

    Parameters
    ----------
    stage, fault, panel, size
        As sent by a page.
    plan
        Names the panels.

    Returns
    -------
    What was asked.

    Raises
    ------
    InputError
        Everything that is not known.
    """
    panels = {one.name for one in plan.side.panels} | {WHOLE_SIDE}
    known: dict[str, tuple[str, set[str]]] = {
        "stage": (stage, set(STAGES)),
        "fault": (fault, set(rescue_table().faults)),
        "panel": (panel, panels),
        "size": (size, {name for name, _ in SIZES}),
    }
    problems = tuple(
        Problem(name, f"'{said[:40]}' is not known", f"one of {', '.join(sorted(names))}")
        for name, (said, names) in known.items()
        if said not in names
    )
    if problems:
        raise InputError("", problems)
    return Asked(stage, fault, panel, size)  # type: ignore[arg-type]


def stage_now(plan: Plan, session: Session, now_s: float) -> Stage:
    """Return the stage at which a fault would be found now.

    Parameters
    ----------
    plan, session
        The plan that is followed, and the log.
    now_s
        The clock, seconds since 1970.

    Returns
    -------
    Wet while a coat is sprayed or flashes, dry after it; baked from the bake on.
    """
    legs = legs_of(plan)
    state = replay(legs, session, now_s)
    leg = legs[state.leg]
    if leg.kind in {"bake", "cool", "unmask", "close"} or (leg.kind == "release" and leg.layer is None):
        return "baked" if state.leg > 0 else "ground_wet"
    before = _last_sprayed(legs, state)
    if leg.kind in {"spray", "flash"} and leg.layer is not None and state.phase != "waiting":
        return _WET[leg.layer]
    return _DRY[before] if before is not None else "ground_wet"


_WET: dict[Kind, Stage] = {"ground": "ground_wet", "effect": "effect_wet", "clear": "clear_wet"}
_DRY: dict[Kind, Stage] = {"ground": "ground_dry", "effect": "effect_dry", "clear": "clear_wet"}


def _last_sprayed(legs: Sequence[Leg], state: State) -> Kind | None:
    """Layer of the last coat that was sprayed."""
    return next((leg.layer for leg in reversed(legs[: state.leg]) if leg.kind == "spray"), None)


def ways_for(plan: Plan, session: Session, now_s: float, asked: Asked) -> tuple[WayOut, ...]:
    """Return the ways out of a fault with the figures of the job.

    Parameters
    ----------
    plan, session, now_s
        As in ``stage_now``.
    asked
        What was said.

    Returns
    -------
    Ways, the cheapest sound one first.
    """
    return ways_out(asked.fault, asked.stage, _context(plan, session, now_s, asked), rescue_table())


def _context(plan: Plan, session: Session, now_s: float, asked: Asked) -> RescueContext:
    """What the ways are reckoned from."""
    legs = legs_of(plan)
    state = replay(legs, session, now_s)
    panel_m2 = next((one.area_m2 for one in plan.side.panels if one.name == asked.panel), plan.side.area_m2)
    effect_end = next((leg.id for leg in reversed(legs) if leg.kind == "spray" and leg.layer == "effect"), "")
    ended_s = state.ended_s(legs, effect_end) if effect_end else None
    return RescueContext(
        _figures(plan, "ground"),
        _figures(plan, "effect"),
        _figures(plan, "clear"),
        min(1.0, panel_m2 / plan.side.area_m2) if plan.side.area_m2 > 0.0 else 1.0,
        _length_s(plan, {"dehydrate"}),
        _length_s(plan, {"bake", "cool"}),
        plan.adjustment.ground.hardener,
        max(0.0, now_s - ended_s) if ended_s is not None else 0.0,
        next(
            (one.limit_s for one in plan.clocks if one.kind == "recoat_max" and "effect" in one.starts), None
        ),
        dict(SIZES)[asked.size],
    )


def _figures(plan: Plan, name: Kind) -> LayerFigures:
    """One layer in figures; nothing where the plan has none."""
    coats = [coat for layer in plan.layers if layer.name == name for coat in layer.coats]
    counts = sum(coat.counts for coat in coats)
    if not coats or counts <= 0.0:
        return LayerFigures(0.0, 0.0, 0.0, Spread(0.0, 0.0, 0.0))
    return LayerFigures(
        counts,
        sum(coat.elapsed_s for coat in coats) / counts,
        sum(coat.sprayed_g for coat in coats) / counts,
        coats[-1].flash_s,
    )


def _length_s(plan: Plan, kinds: set[str]) -> float:
    """Planned time of some steps [s]."""
    return sum(step.end_s - step.start_s for step in plan.timeline if step.kind in kinds)


STAGE_WORDS: dict[str, str] = {
    "ground-wet": "ground coat, still wet",
    "ground-dry": "ground coat, matt",
    "effect-wet": "effect coat, still wet",
    "effect-dry": "effect coat, matt",
    "clear-wet": "clear coat, still wet",
    "baked": "after the bake",
}
"""Stages in the order of work, and what they are called."""


@dataclass(frozen=True, slots=True)
class Rescue:
    """A fault and its ways out.

    Attributes
    ----------
    fault
        What went wrong.
    where
        Stage, panel and size in words.
    ways
        The ways, the cheapest sound one first.
    """

    fault: Fault
    where: str
    ways: tuple[WayOut, ...]


def faults() -> tuple[Fault, ...]:
    """Return everything that may go wrong, as the shipped table has it."""
    return tuple(rescue_table().faults.values())


def rescue(plan: Plan, stage: str, fault: str, panel: str = "", size: str = "all over") -> Rescue:
    """Return what can still be done about a fault.

    Parameters
    ----------
    plan
        Minutes and grams come from it.
    stage, fault
        Words as typed, with hyphens.
    panel
        Where; empty = the whole side.
    size
        How large it is.

    Returns
    -------
    The fault and its ways.

    Raises
    ------
    InputError
        Everything that is not known.
    """
    where = panel or WHOLE_SIDE
    try:
        asked = read_asked(stage.replace("-", "_"), fault.replace("-", "_"), where, size, plan)
    except InputError as error:
        # Typed words have hyphens where those of the table have underlines.
        typed = (replace(one, hint=one.hint.replace("_", "-")) for one in error.problems)
        raise InputError(error.file, tuple(typed)) from None
    ways = ways_for(plan, Session(plan.id), 0.0, asked)
    return Rescue(
        rescue_table().faults[asked.fault], f"{STAGE_WORDS[stage.replace('_', '-')]}; {where}, {size}", ways
    )
