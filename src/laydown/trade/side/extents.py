"""Proposes how far ground, effect and clear coat reach on each panel, from what is damaged and what the user set.

Sources: common practice, no source; 61 cm: a data sheet for three-stage colours, from memory.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from laydown.schema.choices import Extent, PanelState, PanelWork
from laydown.schema.message import Finding, Message, Name, message
from laydown.schema.problem import InputError
from laydown.schema.product import LayerName
from laydown.schema.side import Side
from laydown.trade.side.borders import Border, borders, run_beyond_m
from laydown.trade.side.build import find_panel, panel_problems
from laydown.trade.side.extent_rules import judge
from laydown.trade.side.reach import LEAST_FADE_M, LONGEST_FADE_M, Extents, Fade, PanelReach

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
    why: list[Message]


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
    why = [message("reach.ground-stays", panel_state=entry.state)] if damaged else []
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
        draft.why.append(message("reach.no-room", panel=here))
        return [_no_room(side, border, name, room)]
    length = _fade_length(room)
    draft.effect = "fade"
    draft.fades.append(Fade(name, length))
    draft.why.append(message("reach.fades", length_m=length, panel=here))
    if room < LEAST_FADE_M:
        text = message("fade-short.open-border", length_m=room, panel=there)
        why = message("fade-short.no-gap", fade_m=LEAST_FADE_M)
        do = (message("do.take-in-the-panel-beyond", panel=there),)
        return [Finding("caution", "fade-short", f"panel.{beyond}.effect", text, why, do)]
    return []


def _no_room(side: Side, border: Border, name: str, room: float) -> Finding:
    """Say that a neighbour is too short for a fade, with both ways out."""
    beyond = border.other(name)
    here, there = _label(side, name), _label(side, beyond)
    stop = "do.stop-at-the-gap" if border.kind == "gap" else "do.stop-at-the-narrow-place"
    return Finding(
        "caution",
        "fade-short",
        f"panel.{beyond}.effect",
        message("fade-short.no-room", panel=there, length_m=room),
        message("fade-short.shows-as-a-ring", fade_m=LEAST_FADE_M),
        (message(stop, panel=here, beyond=there), message("do.effect-over-the-whole-panel", panel=there)),
    )


def _close_between(drafts: Mapping[str, _Draft]) -> None:
    """Where two fades on one panel would run into each other, the effect coat goes right across."""
    for draft in drafts.values():
        if len(draft.fades) < 2:
            continue
        room = min(fade.length_m for fade in draft.fades)
        draft.effect = "full"
        draft.fades.clear()
        draft.why = [message("reach.between-two", length_m=room)]


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
) -> PanelReach:
    """Add the clear coat and write the reason down."""
    touched = draft.ground != "none" or draft.effect != "none"
    clear: Extent = entry.clear or ("full" if touched else "none")
    fades: dict[LayerName, tuple[Fade, ...]] = (
        {"effect": tuple(draft.fades)} if draft.effect == "fade" else {}
    )
    why = list(draft.why)
    if draft.effect_given:
        why.append(message("reach.effect-as-set"))
    if clear == "full":
        why.append(_clear_end(name, side, meetings))
    proposed = (touched or clear != "none") and None in (entry.ground, entry.effect, entry.clear)
    reason = message("reach.because", reasons=tuple(why)) if why else message("reach.untouched")
    return PanelReach(
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


def _clear_end(name: str, side: Side, meetings: Sequence[Border]) -> Message:
    """Say where the clear coat of a panel ends."""
    if any(cut.kind == "pillar" and name in cut.panels for cut in side.cuts):
        return message("reach.clear-to-a-narrow-place")
    gaps = any(border.kind == "gap" and name in border.panels for border in meetings)
    return message("reach.clear-to-gaps" if gaps else "reach.clear-to-edges")


def _label(side: Side, name: str) -> Name:
    """Trade name of a panel."""
    return next(Name(panel.label) for panel in side.panels if panel.id == name)


def match_panels(side: Side, work: Sequence[PanelWork]) -> dict[str, PanelWork]:
    """Find the panels the job names.

    Parameters
    ----------
    side
        The side.
    work
        Entries of the job.

    Returns
    -------
    Work by panel id.

    Raises
    ------
    InputError
        Every unknown or repeated name at once.
    """
    problems = panel_problems(side, [entry.name for entry in work])
    if problems:
        raise InputError("job", problems)
    return {find_panel(side, entry.name).id: entry for entry in work}
