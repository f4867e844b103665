"""Judges how far the layers reach: each rule of the craft that is broken becomes a finding.

Sources: common practice, no source.
"""

from collections.abc import Mapping, Sequence

from laydown.schema.choices import Extent
from laydown.schema.finding import Finding
from laydown.trade.side.borders import Border
from laydown.trade.side.reach import LEAST_FADE_M, Reach

_RANK: Mapping[Extent, int] = {"none": 0, "fade": 1, "full": 2}


def judge(reaches: Mapping[str, Reach], meetings: Sequence[Border]) -> tuple[Finding, ...]:
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
                "No panel is new or repaired.",
                "Ground coat is proposed only inside a damaged panel, so nothing is proposed here.",
                ("give the damaged panel the state new or repaired",),
            )
        )
    return tuple(found)


def _order(reach: Reach) -> list[Finding]:
    """Ground within effect within clear."""
    found = []
    if _RANK[reach.effect] < _RANK[reach.ground]:
        found.append(
            Finding(
                "stop",
                "effect-within-ground",
                f"panel.{reach.panel}.effect",
                f"On the {reach.label} the effect coat does not cover the ground coat.",
                "Bare ground coat has another colour than the car; the effect coat must reach at least as far.",
                ("set effect = full on this panel",),
            )
        )
    if reach.clear == "none" and (reach.effect != "none" or reach.ground != "none"):
        found.append(
            Finding(
                "stop",
                "clear-missing",
                f"panel.{reach.panel}.clear",
                f"The {reach.label} gets colour but no clear coat.",
                "Waterborne colour without clear coat is neither glossy nor fast to weather.",
                ("set clear = full on this panel",),
            )
        )
    if reach.clear == "fade":
        found.append(_open_clear(reach, "it is set to fade on the panel"))
    return found


def _open_clear(reach: Reach, how: str) -> Finding:
    """A clear coat that ends in the open."""
    return Finding(
        "care",
        "clear-in-the-open",
        f"panel.{reach.panel}.clear",
        f"The clear coat ends in the open on the {reach.label}: {how}.",
        "A clear edge in the open stays visible and lifts with time; it belongs in a gap or a narrow place.",
        ("take the clear coat to the next gap", "end it at the narrowest place of a pillar"),
    )


def _ground(reach: Reach) -> list[Finding]:
    """Ground coat on the damage, and only there."""
    if reach.state == "sound" and reach.ground != "none":
        text = f"Ground coat is set on the {reach.label}, which is sound."
        why = "Beyond the damage every ground coat must match the car by itself; the effect coat alone hides the step."
        do = ("keep the ground coat inside the damaged panel and let the effect coat fade here",)
        return [Finding("care", "ground-on-sound", f"panel.{reach.panel}.ground", text, why, do)]
    if reach.state != "sound" and reach.ground == "none":
        text = f"The {reach.label} is {reach.state} but gets no ground coat."
        why = "The effect coat is translucent: the undercoat would show through."
        return [
            Finding(
                "stop", "ground-missing", f"panel.{reach.panel}.ground", text, why, ("set ground = full",)
            )
        ]
    if reach.ground == "fade":
        text = f"The ground coat fades on the {reach.label}; it is planned over the whole panel."
        why = "Where the repair lies on the panel is not known to laydown, so seconds and grams are those of all of it."
        return [Finding("note", "ground-fade-place", f"panel.{reach.panel}.ground", text, why)]
    return []


def _fade(reach: Reach) -> list[Finding]:
    """A fade that the user set has a neighbour and enough room."""
    if reach.effect != "fade":
        return []
    fades = reach.fades.get("effect", ())
    if not fades:
        text = f"The effect coat fades on the {reach.label}, but no neighbour carries it in full."
        why = "A fade starts where the layer is full; without one the whole panel is planned as full."
        do = ("set effect = full on the damaged neighbour", "set effect = none here")
        return [Finding("care", "fade-nowhere", f"panel.{reach.panel}.effect", text, why, do)]
    shortest = min(fade.length_m for fade in fades)
    if shortest >= LEAST_FADE_M or not reach.effect_given:
        return []
    text = f"The fade on the {reach.label} has only {shortest * 100:.0f} cm."
    why = "A three-stage colour wants 61 cm to fade; a shorter fade shows as a ring."
    do = (
        "set effect = none here: the effect coat stops in the gap",
        "set effect = full here and fade beyond it",
    )
    return [Finding("care", "fade-short", f"panel.{reach.panel}.effect", text, why, do)]


def _ends(reach: Reach, reaches: Mapping[str, Reach], meetings: Sequence[Border]) -> list[Finding]:
    """What happens at the borders of a panel to neighbours that get less."""
    found = []
    for border in meetings:
        if reach.panel not in border.panels:
            continue
        beyond = reaches[border.other(reach.panel)]
        if border.kind == "open" and reach.clear == "full" and beyond.clear == "none":
            found.append(_open_clear(reach, f"no gap parts it from the {beyond.label}"))
        stops = reach.ground == reach.effect == "full" and beyond.effect == "none"
        if stops and border.upright and beyond.effect_given:
            text = f"The effect coat stops with the ground coat at {reach.label}|{beyond.label}."
            why = (
                "Ground and effect then step in one line, and any difference to the car shows there at once."
            )
            do = (f"let the effect coat fade on the {beyond.label} over at least 61 cm",)
            found.append(
                Finding("care", "effect-stops-with-ground", f"panel.{beyond.panel}.effect", text, why, do)
            )
    return found
