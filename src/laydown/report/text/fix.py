"""Defects, stages and ways out as plain text."""

from collections.abc import Mapping, Sequence

from laydown.report.text.lines import columns, paragraph
from laydown.schema.message import Saying, message
from laydown.schema.rescue import Defect, WayOut
from laydown.words.numbers import plural
from laydown.words.show import ENGLISH, Words

_MARKS = {"sound": "=", "risky": "-", "not possible": "Z"}
"""Mark before the word, as for joins: what holds, what may hold, what does not."""

_HEAD = 7


def defects_text(
    defects: Sequence[Defect], stages: Mapping[str, Saying], width: int = 80, words: Words = ENGLISH
) -> str:
    """Write which defects and stages there are."""
    lines = [words.say("defects-stages")]
    lines += [f"  {columns(((word, 14), (words(called), width - 18)))}" for word, called in stages.items()]
    lines += ["", words.say("defects-defects")]
    for defect in defects:
        lines.append(f"  {columns(((word_of(defect.key), 24), (words(defect.title), width - 28)))}")
        lines += paragraph(_head(words, "seen", 6), words(defect.sign), width)
        lines += paragraph(_head(words, "from", 6), words(defect.causes), width)
    return "\n".join(lines) + "\n"


def ways_text(
    head: Saying, defect: Defect, ways: Sequence[WayOut], width: int = 80, words: Words = ENGLISH
) -> str:
    """Write the ways out of a defect."""
    lines = paragraph("", words(defect.title).upper(), width)
    lines += paragraph(_head(words, "when", 2), words(head), width)
    lines += [*paragraph(_head(words, "seen", 2), words(defect.sign), width), ""]
    for letter, way in zip("ABCDEFGHIJ", ways, strict=False):
        soundness = words.word("soundness", way.soundness.replace(" ", "_"))
        lines += paragraph(f"{letter}  ", words(way.text), width)
        lines += paragraph(f"   {_MARKS[way.soundness]} {soundness}   ", _figures(way, words), width)
        lines += paragraph(_head(words, "then", 3), words(way.consequence), width)
        if way.needs:
            lines += paragraph(_head(words, "needs", 3), "; ".join(map(words, way.needs)), width)
    lines += ["", words.say("ways-end")]
    return "\n".join(lines) + "\n"


def _head(words: Words, name: str, indent: int) -> str:
    """Head of a line, as wide as every other."""
    return f"{' ' * indent}{words.say(f'ways-head.{name}'):{_HEAD - 1}} "


def _figures(way: WayOut, words: Words) -> str:
    """Minutes, grams and coats of a way; nothing of one that is not possible."""
    if way.soundness == "not possible":
        return ""
    longer = way.minutes
    said = [message("ways-minutes", minutes=longer.value, low=longer.low, high=longer.high)]
    said += [message("ways-grams", sprayed_g=way.sprayed_g)] if way.sprayed_g else []
    said += [
        message(code, count=plural(abs(coats)), coats=coats)
        for code, coats in (("ways-ground", way.ground_coats), ("ways-effect", way.effect_coats))
        if coats
    ]
    return "   ".join(map(words, said))


def word_of(key: str) -> str:
    """Return a key as it is typed: with hyphens."""
    return key.replace("_", "-")
