"""Which noun a file holds: told by its first line, and said in plain words when it is the wrong one."""

from pathlib import Path
from typing import Any, TypeVar

from laydown.reader.decode import Decoded, decode
from laydown.reader.files import refused
from laydown.reader.leaf import short
from laydown.reader.message import first_line

Noun = TypeVar("Noun")

KINDS = {"laydown-job": "job", "laydown-product": "product", "laydown-side": "side", "laydown-plan": "plan"}
"""Name before the slash of each format, and the kind of file it is."""


def kind_of(raw: dict[str, Any]) -> str:
    """Return what kind of file a raw table says it is.

    Parameters
    ----------
    raw
        As read.

    Returns
    -------
    ``job``, ``product``, ``side`` or ``plan``; empty if it does not say.
    """
    said = raw.get("format")
    return KINDS.get(said.split("/")[0], "") if isinstance(said, str) else ""


def decode_file(noun: type[Noun], raw: dict[str, Any], path: Path, source: str) -> Decoded[Noun]:
    """Decode a raw table after a look at its format.

    Parameters
    ----------
    noun
        What it should hold.
    raw
        As read.
    path
        The file, for messages.
    source
        Source of figures that name none.

    Returns
    -------
    The noun or its problems.

    Raises
    ------
    InputError
        The file holds another kind of noun, or a format number that this laydown does not read.
    """
    wanted = first_line(noun)
    said = raw.get("format")
    kind = kind_of(raw)
    if said == wanted or said is None:
        return decode(noun, raw, source)
    expected = KINDS[wanted.split("/")[0]]
    if kind and kind != expected:
        raise refused(
            path,
            f"is a {kind} file, not a {expected} file",
            f'a {expected} file begins with format = "{wanted}"',
        )
    what = f"has the format {short(said)}, which this laydown does not read"
    raise refused(path, what, f"it reads {wanted}; a newer file needs a newer laydown")
