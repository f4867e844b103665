"""Judges how far the layers reach: each rule of the craft that is broken becomes a finding.

Sources: common practice, no source.
"""

from collections.abc import Mapping, Sequence

from laydown.schema.choices import Extent
from laydown.schema.message import Finding, Message, Name, message
from laydown.trade.side.borders import Border
from laydown.trade.side.reach import LEAST_FADE_M, PanelReach

_RANK: Mapping[Extent, int] = {"none": 0, "fade": 1, "full": 2}


def judge(reaches: Mapping[str, PanelReach], meetings: Sequence[Border]) -> tuple[Finding, ...]:
    """List what is to be feared of the extents.

    Parameters
    ----------
    reaches
        All panels by id.
    meetings
        All borders of the side.

    Returns
    -------
        One finding per broken rule and panel, in the order of the side. Undercoat lies within ground, ground within
        effect, effect within clear; ground stays on damaged panels; the effect coat reaches beyond the ground by a fade
        or stops in a gap; the clear coat ends in a gap or a narrow place.
    """
    found: list[Finding] = []
    for reach in reaches.values():
        found += _order(reach)
        found += _ground(reach)
        found += _fade(reach)
        found += _ends(reach, reaches, meetings)
    if all(reach.state == "sound" for reach in reaches.values()):
        found.append(
            Finding(
                "note",
                "nothing-damaged",
                "panel",
                message("nothing-damaged"),
                message("nothing-damaged.why"),
                (message("do.name-the-damaged-panel"),),
            )
        )
    return tuple(found)


def _order(reach: PanelReach) -> list[Finding]:
    """Ground within effect within clear."""
    found = []
    if _RANK[reach.effect] < _RANK[reach.ground]:
        found.append(
            Finding(
                "stop",
                "effect-within-ground",
                f"panel.{reach.panel}.effect",
                message("effect-within-ground", panel=Name(reach.label)),
                message("effect-within-ground.why"),
                (message("do.set-effect-full-here"),),
            )
        )
    if reach.clear == "none" and (reach.effect != "none" or reach.ground != "none"):
        found.append(
            Finding(
                "stop",
                "clear-missing",
                f"panel.{reach.panel}.clear",
                message("clear-missing", panel=Name(reach.label)),
                message("clear-missing.why"),
                (message("do.set-clear-full-here"),),
            )
        )
    if reach.clear == "fade":
        found.append(_open_clear(reach, message("clear-in-the-open.set-to-fade", panel=Name(reach.label))))
    return found


def _open_clear(reach: PanelReach, text: Message) -> Finding:
    """A clear coat that ends in the open."""
    return Finding(
        "caution",
        "clear-in-the-open",
        f"panel.{reach.panel}.clear",
        text,
        message("clear-in-the-open.why"),
        (message("do.clear-to-the-next-gap"), message("do.clear-to-a-narrow-place")),
    )


def _ground(reach: PanelReach) -> list[Finding]:
    """Ground coat on the damage, and only there."""
    if reach.state == "sound" and reach.ground != "none":
        text, why = message("ground-on-sound", panel=Name(reach.label)), message("ground-on-sound.why")
        do = (message("do.keep-ground-inside-the-damage"),)
        return [Finding("caution", "ground-on-sound", f"panel.{reach.panel}.ground", text, why, do)]
    if reach.state != "sound" and reach.ground == "none":
        text = message("ground-missing", panel=Name(reach.label), panel_state=reach.state)
        why, do = message("ground-missing.why"), (message("do.set-ground-full"),)
        return [Finding("stop", "ground-missing", f"panel.{reach.panel}.ground", text, why, do)]
    if reach.ground == "fade":
        text = message("ground-fade-place", panel=Name(reach.label))
        why = message("ground-fade-place.why")
        return [Finding("note", "ground-fade-place", f"panel.{reach.panel}.ground", text, why)]
    return []


def _fade(reach: PanelReach) -> list[Finding]:
    """A fade that the user set has a neighbour and enough room."""
    if reach.effect != "fade":
        return []
    fades = reach.fades.get("effect", ())
    if not fades:
        text, why = message("fade-nowhere", panel=Name(reach.label)), message("fade-nowhere.why")
        do = (message("do.set-effect-full-on-the-neighbour"), message("do.set-effect-none"))
        return [Finding("caution", "fade-nowhere", f"panel.{reach.panel}.effect", text, why, do)]
    shortest = min(fade.length_m for fade in fades)
    if shortest >= LEAST_FADE_M or not reach.effect_given:
        return []
    text = message("fade-short.as-set", panel=Name(reach.label), length_m=shortest)
    why = message("fade-short.shows-as-a-ring", fade_m=LEAST_FADE_M)
    do = (message("do.set-effect-none-to-the-gap"), message("do.set-effect-full-and-fade-beyond"))
    return [Finding("caution", "fade-short", f"panel.{reach.panel}.effect", text, why, do)]


def _ends(reach: PanelReach, reaches: Mapping[str, PanelReach], meetings: Sequence[Border]) -> list[Finding]:
    """What happens at the borders of a panel to neighbours that get less."""
    found = []
    for border in meetings:
        if reach.panel not in border.panels:
            continue
        beyond = reaches[border.other(reach.panel)]
        if border.kind == "open" and reach.clear == "full" and beyond.clear == "none":
            found.append(
                _open_clear(
                    reach,
                    message("clear-in-the-open.no-gap", panel=Name(reach.label), beyond=Name(beyond.label)),
                )
            )
        stops = reach.ground == reach.effect == "full" and beyond.effect == "none"
        if stops and border.upright and beyond.effect_given:
            here, there = Name(reach.label), Name(beyond.label)
            text = message("effect-stops-with-ground", panel=here, beyond=there)
            why = message("effect-stops-with-ground.why")
            do = (message("do.fade-on-the-neighbour", panel=there, fade_m=LEAST_FADE_M),)
            found.append(
                Finding("caution", "effect-stops-with-ground", f"panel.{beyond.panel}.effect", text, why, do)
            )
    return found
