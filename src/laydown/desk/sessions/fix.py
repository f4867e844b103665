"""What can still be done about a defect, asked beside a kept plan."""

from dataclasses import dataclass
from functools import cache

from laydown.booth.defect_stage import context_of
from laydown.reader.papers.tables import STAGES, read_rescue
from laydown.schema.message import Message, Name, message
from laydown.schema.plan import Plan
from laydown.schema.problem import InputError, Problem
from laydown.schema.rescue import Defect, DefectKey, RescueTable, Stage, WayOut
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
"""How large a defect is said to be, and how many spots that counts as."""

SIZE_WORDS: dict[str, Message] = {
    "a spot, 5 cm": message("defect-size.spot", across_m=0.05),
    "15 cm": message("defect-size.across", across_m=0.15),
    "30 cm": message("defect-size.across", across_m=0.3),
    "several spots": message("defect-size.several"),
    "all over": message("defect-size.all-over"),
}
"""What the sizes are called."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What was said about a defect: stage, defect, panel (or whole side) and size."""

    stage: Stage
    defect: DefectKey
    panel: str = WHOLE_SIDE
    size: str = "all over"


@cache
def rescue_table() -> RescueTable:
    """Return the shipped table of defects and ways, read once."""
    return read_rescue()


def read_asked(stage: str, defect: str, panel: str, size: str, plan: Plan, joint: str = "_") -> Asked:
    """Read what was said about a defect; what joins the words of a name where it is typed stands in what is refused."""
    panels = {one.name for one in plan.side.panels} | {WHOLE_SIDE}
    known: dict[str, tuple[str, set[str]]] = {
        "stage": (stage, set(STAGES)),
        "defect": (defect, set(rescue_table().defects)),
        "panel": (panel, panels),
        "size": (size, {name for name, _ in SIZES}),
    }
    problems = tuple(
        Problem(
            name,
            message("word-not-known", typed=Name(said[:40])),
            message("one-of", known=tuple(Name(one.replace("_", joint)) for one in sorted(names))),
        )
        for name, (said, names) in known.items()
        if said not in names
    )
    if problems:
        raise InputError("", problems)
    return Asked(stage, defect, panel, size)  # type: ignore[arg-type]


def ways_for(plan: Plan, session: Session, now_s: float, asked: Asked) -> tuple[WayOut, ...]:
    """Return the ways out of a defect with the figures of the job."""
    panels = () if asked.panel == WHOLE_SIDE else (asked.panel,)
    context = context_of(plan, session, now_s, panels, dict(SIZES)[asked.size])
    return ways_out(asked.defect, asked.stage, context, rescue_table())


STAGE_WORDS: dict[str, Message] = {stage.replace("_", "-"): message(f"stage.{stage}") for stage in STAGES}
"""Stages in the order of work as they are typed, and what they are called."""


@dataclass(frozen=True, slots=True)
class Rescue:
    """A defect and its ways out."""

    defect: Defect
    where: Message
    ways: tuple[WayOut, ...]


def defects() -> tuple[Defect, ...]:
    """Return everything that may go wrong, as the shipped table has it."""
    return tuple(rescue_table().defects.values())


def rescue(plan: Plan, stage: str, defect: str, panel: str = "", size: str = "all over") -> Rescue:
    """Return what can still be done about a defect."""
    where = panel or WHOLE_SIDE
    # Typed words have hyphens where those of the table have underlines.
    asked = read_asked(stage.replace("-", "_"), defect.replace("-", "_"), where, size, plan, "-")
    seen = message(
        "defect-seen",
        stage=asked.stage,
        panel=message("whole-side") if where == WHOLE_SIDE else Name(where),
        size=SIZE_WORDS[size],
    )
    ways = ways_for(plan, Session(plan.id), 0.0, asked)
    return Rescue(rescue_table().defects[asked.defect], seen, ways)
