"""Faults, stages and ways out as plain text."""

from collections.abc import Mapping, Sequence

from laydown.report.text.lines import columns, paragraph
from laydown.schema.rescue import Fault, WayOut

_MARKS = {"sound": "=", "risky": "-", "not possible": "Z"}
"""Mark before the word, as for joins: what holds, what may hold, what does not."""


def faults_text(faults: Sequence[Fault], stages: Mapping[str, str], width: int = 80) -> str:
    """Write which faults and stages there are.

    Parameters
    ----------
    faults
        All faults.
    stages
        What each stage is called, by the word it is asked for.
    width
        Columns there are.

    Returns
    -------
    Lines, each ended by a line feed.
    """
    lines = ["STAGES"]
    lines += [f"  {columns(((word, 14), (called, width - 18)))}" for word, called in stages.items()]
    lines += ["", "FAULTS"]
    for fault in faults:
        lines.append(f"  {columns(((word_of(fault.key), 24), (fault.title, width - 28)))}")
        lines += paragraph("      seen   ", fault.sign, width)
        lines += paragraph("      from   ", fault.causes, width)
    return "\n".join(lines) + "\n"


def ways_text(head: str, fault: Fault, ways: Sequence[WayOut], width: int = 80) -> str:
    """Write the ways out of a fault.

    Parameters
    ----------
    head
        Stage, place and size in words.
    fault
        What went wrong.
    ways
        The ways, the cheapest sound one first.
    width
        Columns there are.

    Returns
    -------
    Lines, each ended by a line feed.
    """
    lines = [*paragraph("", fault.title.upper(), width), *paragraph("  when   ", head, width)]
    lines += [*paragraph("  seen   ", fault.sign, width), ""]
    for letter, way in zip("ABCDEFGHIJ", ways, strict=False):
        lines += paragraph(f"{letter}  ", way.text, width)
        lines += paragraph(f"   {_MARKS[way.soundness]} {way.soundness}   ", _figures(way), width)
        lines += paragraph("   then   ", way.consequence, width)
        if way.needs:
            lines += paragraph("   needs  ", "; ".join(way.needs), width)
    lines += ["", "minutes and grams come from this plan; the data sheet decides what may be done"]
    return "\n".join(lines) + "\n"


def _figures(way: WayOut) -> str:
    """Minutes, grams and coats of a way; nothing of one that is not possible."""
    if way.soundness == "not possible":
        return ""
    figures = [f"{way.minutes.value:+.0f} min ({way.minutes.low:.0f}-{way.minutes.high:.0f})"]
    figures += [f"{way.sprayed_g:+.0f} g"] if way.sprayed_g else []
    figures += [
        f"{coats:+g} {layer} coat{'' if abs(coats) == 1.0 else 's'}"
        for coats, layer in ((way.ground_coats, "ground"), (way.effect_coats, "effect"))
        if coats
    ]
    return "   ".join(figures)


def word_of(key: str) -> str:
    """Return a key as it is typed: with hyphens."""
    return key.replace("_", "-")
