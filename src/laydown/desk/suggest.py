"""What laydown would spray where, while the damage is still being tapped."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, get_args

from laydown.report.choice_picture import Chosen
from laydown.schema.panel import Extent, PanelState, PanelWork
from laydown.schema.problem import InputError, Problem
from laydown.schema.side import Side
from laydown.trade.extents import propose_extents
from laydown.trade.reach import Extents, Reach

Tap = Literal["suggest", "repaired", "new", "blend", "clear", "leave"]
"""What a person says of a panel; suggest leaves it to laydown."""

TAPS: tuple[Tap, ...] = get_args(Tap)
"""All of them, in the order in which a tap goes through them."""


@dataclass(frozen=True, slots=True)
class Suggestion:
    """How far the layers would reach.

    Attributes
    ----------
    extents
        All panels, with reasons and findings.
    chosen
        The same for the picture.
    """

    extents: Extents
    chosen: dict[str, Chosen]


def works_of(side: Side, taps: Mapping[str, str]) -> tuple[PanelWork, ...]:
    """Turn taps into work on panels.

    Parameters
    ----------
    side
        The side.
    taps
        What was said, by panel id; others are left to laydown.

    Returns
    -------
    One entry for each panel something was said of, in the order of the side.

    Raises
    ------
    InputError
        A tap says nothing known.
    """
    problems = [
        Problem(f"work.{name}", f"'{tap[:20]}' is no choice", f"choose one of {', '.join(TAPS)}")
        for name, tap in taps.items()
        if tap not in TAPS
    ]
    if problems:
        raise InputError("", tuple(problems))
    said = [(panel.label, taps.get(panel.id, "suggest")) for panel in side.panels]
    return tuple(_work(label, tap) for label, tap in said if tap != "suggest")


def _work(label: str, tap: str) -> PanelWork:
    """Work on one panel."""
    states: dict[str, PanelState] = {"repaired": "repaired", "new": "new"}
    if tap in states:
        return PanelWork(label, states[tap])
    reach: dict[str, tuple[Extent, Extent, Extent]] = {
        "blend": ("none", "fade", "full"),
        "clear": ("none", "none", "full"),
        "leave": ("none", "none", "none"),
    }
    ground, effect, clear = reach[tap]
    return PanelWork(label, ground=ground, effect=effect, clear=clear)


def suggest(side: Side, taps: Mapping[str, str]) -> Suggestion:
    """Say how far the layers would reach.

    Parameters
    ----------
    side
        The side.
    taps
        What was said, by panel id.

    Returns
    -------
    The suggestion; where nothing is damaged it is empty.

    Raises
    ------
    InputError
        A tap says nothing known.
    """
    ids = {panel.label: panel.id for panel in side.panels}
    extents = propose_extents(side, {ids[work.name]: work for work in works_of(side, taps)})
    return Suggestion(extents, {reach.panel: _chosen(reach) for reach in extents.panels})


def _chosen(reach: Reach) -> Chosen:
    """Lowest layer of a panel, and whether it is damaged."""
    lowest = next((layer for layer in ("ground", "effect", "clear") if reach.of(layer) != "none"), "")
    return Chosen(lowest, damaged=reach.state != "sound")
