"""What can still be done about a fault, asked beside a kept plan."""

from dataclasses import dataclass, replace

from laydown.desk.session_fault import WHOLE_SIDE, read_asked, rescue_table, ways_for
from laydown.schema.plan import Plan
from laydown.schema.problem import InputError
from laydown.schema.rescue import Fault, WayOut
from laydown.schema.session import Session

STAGES: dict[str, str] = {
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
        rescue_table().faults[asked.fault], f"{STAGES[stage.replace('_', '-')]}; {where}, {size}", ways
    )
