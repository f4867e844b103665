"""Proposes how far ground, effect and clear coat reach on each panel, from what is damaged and what the user set.

Sources: common practice, no source; 61 cm: a data sheet for three-stage colours, from memory.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from laydown.schema.choices import Extent, PanelState, PanelWork
from laydown.schema.finding import Finding
from laydown.schema.problem import Problem
from laydown.schema.side import Side
from laydown.trade.side.borders import Border, borders, run_beyond_m
from laydown.trade.side.build import find_panel
from laydown.trade.side.extent_rules import judge
from laydown.trade.side.reach import LEAST_FADE_M, LONGEST_FADE_M, Extents, Fade, Layer, Reach

_NOTHING = PanelWork("untouched")
"""Work on a panel the job does not name."""


@dataclass(slots=True)
class _Draft:
    """What is decided about one panel while the proposal is made."""

    state: PanelState
    ground: Extent
    effect: Extent
    effect_given: bool
    fades: list[Fade]
    why: list[str]


def propose_extents(side: Side, work: Mapping[str, PanelWork]) -> Extents:
    """Propose how far the layers reach.

    Parameters
    ----------
    side
        The side.
    work
        What is done to the panels, by panel id; panels left out are sound. An extent the user set is kept and judged.

    Returns
    -------
        Extents of every panel with fades and reasons, and the findings.

    Notes
    -----
    Ground coat stays inside the damaged panel. The effect coat goes on over each upright border: it fades in the next
    panel over at least 61 cm, or stops in the gap when there is no room, and at level gaps it always stops. The clear
    coat covers every panel that is touched, to its gaps. Fewer panels win.
    """
    labels = {panel.id: panel.label for panel in side.panels}
    drafts = {name: _start(work.get(name, _NOTHING)) for name in labels}
    meetings = borders(side)
    findings: list[Finding] = []
    for border in meetings:
        for name in border.panels:
            if drafts[name].state != "sound" and (border.upright or border.kind == "open"):
                findings += _carry_on(side, drafts, border, name)
    _close_between(drafts)
    _place_given_fades(side, drafts, meetings)
    reaches = {
        name: _finish(name, label, drafts[name], work.get(name, _NOTHING), side, meetings)
        for name, label in labels.items()
    }
    return Extents(tuple(reaches.values()), (*findings, *judge(reaches, meetings)))


def _start(entry: PanelWork) -> _Draft:
    """Ground as given or inside the damage; effect as given or on the damage."""
    damaged = entry.state != "sound"
    ground: Extent = entry.ground or ("full" if damaged else "none")
    effect: Extent = entry.effect or ("full" if damaged else "none")
    why = [f"{entry.state}: ground coat stays on this panel"] if damaged else []
    return _Draft(entry.state, ground, effect, entry.effect is not None, [], why)


def _carry_on(side: Side, drafts: Mapping[str, _Draft], border: Border, name: str) -> list[Finding]:
    """Let the effect coat of a damaged panel go on beyond one border."""
    beyond = border.other(name)
    draft = drafts[beyond]
    if draft.state != "sound" or draft.effect_given or drafts[name].effect != "full":
        return []
    here, there = _label(side, name), _label(side, beyond)
    room = run_beyond_m(side, beyond, border)
    if room < LEAST_FADE_M and border.kind != "open":
        draft.why.append(f"no room for a fade from the {here}: the effect coat stops at the border")
        return [_no_room(side, border, name, room)]
    length = _fade_length(room)
    draft.effect = "fade"
    draft.fades.append(Fade(name, length))
    draft.why.append(f"the effect coat fades over {length * 100:.0f} cm away from the {here}")
    if room < LEAST_FADE_M:
        text = f"The effect coat has only {room * 100:.0f} cm to fade in the {there}."
        why = "There is no gap between the panels to stop in, and a three-stage colour wants 61 cm."
        return [
            Finding(
                "care",
                "fade-short",
                f"panel.{beyond}.effect",
                text,
                why,
                (f"take in the panel beyond the {there}",),
            )
        ]
    return []


def _no_room(side: Side, border: Border, name: str, room: float) -> Finding:
    """Say that a neighbour is too short for a fade, with both ways out."""
    beyond = border.other(name)
    here, there = _label(side, name), _label(side, beyond)
    place = "gap" if border.kind == "gap" else "narrow place"
    return Finding(
        "care",
        "fade-short",
        f"panel.{beyond}.effect",
        f"The {there} has {room * 100:.0f} cm of room: too short for a fade.",
        "A three-stage colour wants 61 cm to fade; a shorter fade shows as a ring.",
        (
            f"let the effect coat stop at the {place} {here}|{there}: one panel fewer, the step lies in the {place}",
            f"carry the effect coat over the whole {there} and let it fade or stop beyond it",
        ),
    )


def _close_between(drafts: Mapping[str, _Draft]) -> None:
    """Where two fades on one panel would run into each other, the effect coat goes right across."""
    for draft in drafts.values():
        if len(draft.fades) < 2:
            continue
        room = min(fade.length_m for fade in draft.fades)
        draft.effect = "full"
        draft.fades.clear()
        draft.why = [
            f"lies between two damaged panels: {room * 100:.0f} cm cannot hold two fades, so the effect coat goes across"
        ]


def _place_given_fades(side: Side, drafts: Mapping[str, _Draft], meetings: Sequence[Border]) -> None:
    """Give a fade that the user set its neighbours and its length."""
    for name, draft in drafts.items():
        if draft.effect_given and draft.effect == "fade":
            draft.fades = _fades(side, name, meetings, {other: d.effect for other, d in drafts.items()})


def _fades(side: Side, name: str, meetings: Sequence[Border], extents: Mapping[str, Extent]) -> list[Fade]:
    """Fades away from every upright or open neighbour where the layer is full."""
    return [
        Fade(border.other(name), _fade_length(run_beyond_m(side, name, border)))
        for border in meetings
        if name in border.panels
        and (border.upright or border.kind == "open")
        and extents[border.other(name)] == "full"
    ]


def _fade_length(room: float) -> float:
    """Use the room there is, in whole centimetres, up to the longest fade that helps [m]."""
    return max(0.05, int(min(room, LONGEST_FADE_M) * 100 + 1e-6) / 100)


def _finish(
    name: str, label: str, draft: _Draft, entry: PanelWork, side: Side, meetings: Sequence[Border]
) -> Reach:
    """Add the clear coat and write the reason down."""
    touched = draft.ground != "none" or draft.effect != "none"
    clear: Extent = entry.clear or ("full" if touched else "none")
    fades: dict[Layer, tuple[Fade, ...]] = {"effect": tuple(draft.fades)} if draft.effect == "fade" else {}
    why = list(draft.why)
    if draft.effect_given:
        why.append("effect coat as you set it")
    if clear == "full":
        why.append(_clear_end(name, side, meetings))
    proposed = (touched or clear != "none") and None in (entry.ground, entry.effect, entry.clear)
    reason = "; ".join(why) or "not touched: masked"
    return Reach(
        name,
        label,
        entry.state,
        draft.ground,
        draft.effect,
        clear,
        fades,
        draft.effect_given,
        proposed,
        reason,
    )


def _clear_end(name: str, side: Side, meetings: Sequence[Border]) -> str:
    """Say where the clear coat of a panel ends."""
    narrow = any(cut.kind == "pillar" and name in cut.panels for cut in side.cuts)
    gaps = any(border.kind == "gap" and name in border.panels for border in meetings)
    if narrow:
        return "clear coat to the gaps or to the narrow place"
    return (
        "clear coat over the whole panel, to its gaps"
        if gaps
        else "clear coat over the whole panel, to its edges"
    )


def _label(side: Side, name: str) -> str:
    """Trade name of a panel."""
    return next(panel.label for panel in side.panels if panel.id == name)


def match_panels(side: Side, work: Sequence[PanelWork]) -> dict[str, PanelWork] | tuple[Problem, ...]:
    """Find the panels the job names.

    Parameters
    ----------
    side
        The side.
    work
        Entries of the job.

    Returns
    -------
        Work by panel id, or every unknown or repeated name at once.
    """
    matched: dict[str, PanelWork] = {}
    faults = []
    for number, entry in enumerate(work, 1):
        found = find_panel(side, entry.name)
        if isinstance(found, Problem):
            faults.append(Problem(f"panel[{number}].name", found.what, found.hint))
        elif found.id in matched:
            faults.append(
                Problem(f"panel[{number}].name", f"'{entry.name}' stands twice", "write each panel once")
            )
        else:
            matched[found.id] = entry
    return tuple(faults) if faults else matched
