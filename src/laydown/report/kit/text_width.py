"""Measures a text before it is drawn, so that nothing overflows and nothing is left out in silence."""

from laydown.report.kit.typeface import typeface

ELLIPSIS = "…"
"""Ends a text that was cut."""

UNKNOWN = "?"
"""Stands for a letter the font does not have."""


def text_width(text: str, size: float, *, bold: bool = False) -> float:
    """Width of one line of text."""
    face = typeface(bold=bold)
    last = len(face.advances) - 1
    total = sum(face.advances[min(face.glyphs[ord(letter)], last)] for letter in readable(text))
    return total * size / face.units_per_em


def readable(text: str) -> str:
    """Replace what the font cannot show by "?"."""
    known = typeface(bold=False).glyphs
    bold = typeface(bold=True).glyphs
    return "".join(letter if _shown(letter, known, bold) else UNKNOWN for letter in text)


def _shown(letter: str, known: dict[int, int], bold: dict[int, int]) -> bool:
    """Whether both faces have the letter and it is no control character."""
    return letter.isprintable() and ord(letter) in known and ord(letter) in bold


def shorten(text: str, width: float, size: float, *, bold: bool = False) -> str:
    """Cut a text to a width and say so with an ellipsis."""
    if text_width(text, size, bold=bold) <= width:
        return text
    for end in range(len(text) - 1, 0, -1):
        cut = text[:end].rstrip() + ELLIPSIS
        if text_width(cut, size, bold=bold) <= width:
            return cut
    return ELLIPSIS


def wrap(text: str, width: float, size: float, *, bold: bool = False) -> tuple[str, ...]:
    """Break a text into lines between words."""
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(longer, size, bold=bold) <= width:
            lines[-1] = longer
        else:
            lines.append(shorten(word, width, size, bold=bold))
    return tuple(lines)
