"""Lines of plain text for a terminal, a log or a serial printer: no table drawing, no number torn apart."""

import re
import textwrap
from collections.abc import Iterable

NARROWEST = 72
"""Least width of a text [columns]."""

_CUT = ".."
_GLUE = "\N{NO-BREAK SPACE}"
_AFTER_NUMBER = re.compile(r"(?<=\d) (?=\S)")
_CONTROL = re.compile(r"[\x00-\x1f\x7f-\x9f\u2028\u2029]")


def fit(text: str, width: int) -> str:
    """Fill or cut a text to a width."""
    shown = plain(text)
    if len(shown) <= width:
        return shown.ljust(width)
    return (shown[: width - len(_CUT)].rstrip() + _CUT).ljust(width)


def plain(text: str) -> str:
    """Replace control characters, so that a name from a file cannot move the cursor."""
    return _CONTROL.sub("?", text)


def paragraph(head: str, text: str, width: int, hang: int | None = None) -> list[str]:
    """Break a text into lines behind a head; a number stays with its unit."""
    glued = _AFTER_NUMBER.sub(_GLUE, plain(text))
    found = textwrap.wrap(
        glued,
        width,
        initial_indent=head,
        subsequent_indent=" " * (len(head) if hang is None else hang),
        break_on_hyphens=False,
    )
    return [line.replace(_GLUE, " ") for line in found] or [head.rstrip()]


def columns(cells: Iterable[tuple[str, int]], gap: int = 2) -> str:
    """Set cells side by side."""
    parts = [plain(text).rjust(-width) if width < 0 else fit(text, width) for text, width in cells]
    return (" " * gap).join(parts).rstrip()
