"""Which noun a file holds: told by its first line, and said in plain words when it is the wrong one."""

import errno
import json
import re
import stat
import tomllib
from pathlib import Path
from typing import Any, TypeVar

from laydown.reader.decode import Decoded, decode
from laydown.reader.faults import first_line
from laydown.reader.values import nearest, short
from laydown.schema.problem import InputError, Problem

LARGEST_FILE = 2_000_000
"""Bytes of a job, product or side file read at most; assumption, a thousand times a usual job."""

LARGEST_PLAN = 30_000_000
"""Bytes of a plan document read at most; assumption, ten times a van in four coats."""

_REFUSED = {
    errno.EACCES: ("may not be read by you", "ask its owner for the right to read it"),
    errno.EPERM: ("may not be read by you", "ask its owner for the right to read it"),
    errno.ELOOP: ("is a link that leads back to itself", "give the file that the link should lead to"),
    errno.ENOTDIR: ("lies below something that is not a folder", "check the path"),
    errno.ENAMETOOLONG: ("has a name that is too long", "check the path"),
    errno.EINVAL: ("is no name a file can have", "check the path"),
}


def read_bytes(path: Path, largest: int = LARGEST_FILE) -> bytes:
    """Return the content of a plain file.

    Parameters
    ----------
    path
        The file.
    largest
        Bytes read at most.

    Returns
    -------
    The bytes.

    Raises
    ------
    InputError
        Missing, a folder, a device, a link in a circle, not readable, or too large.
    """
    try:
        status = path.stat()
        if stat.S_ISDIR(status.st_mode):
            raise refused(path, "is a folder, not a file", "name a file inside it")
        if not stat.S_ISREG(status.st_mode):
            raise refused(path, "is not a plain file", "copy its content into a file first")
        with path.open("rb") as stream:
            content = stream.read(largest + 1)
    except FileNotFoundError:
        raise refused(path, "does not exist", _neighbour(path)) from None
    except ValueError:
        raise refused(path, *_REFUSED[errno.EINVAL]) from None
    except OSError as error:
        raise refused(
            path, *_REFUSED.get(error.errno or 0, (f"cannot be read: {error.strerror}", ""))
        ) from None
    if len(content) > largest:
        raise refused(
            path, f"is larger than {largest // 1_000_000} MB", "this is hardly the file that was meant"
        )
    return content


def refused(path: Path, what: str, hint: str = "") -> InputError:
    """Return the error for a file that cannot be used as a whole.

    Parameters
    ----------
    path
        The file.
    what
        What is wrong.
    hint
        How to mend it.

    Returns
    -------
    Error with one problem whose place is ``file``.
    """
    return InputError(str(path), (Problem("file", what, hint),))


def _neighbour(path: Path) -> str:
    """Name the file in the same folder that was perhaps meant."""
    try:
        names = [item.name for item in path.parent.iterdir()][:1000]
    except OSError:
        return "check the path"
    near = nearest(path.name, names, 0.75)
    return f"did you mean {path.parent / near}?" if near else "check the path"


def read_text(path: Path, largest: int = LARGEST_FILE) -> str:
    """Return a UTF-8 text file.

    Parameters
    ----------
    path
        The file.
    largest
        Bytes read at most.

    Returns
    -------
    The text without a byte order mark.

    Raises
    ------
    InputError
        As `read_bytes`, or another encoding than UTF-8.
    """
    return text_of(read_bytes(path, largest), path)


def text_of(content: bytes, path: Path) -> str:
    """Return bytes as UTF-8 text.

    Parameters
    ----------
    content
        Content of a file.
    path
        Its name, for messages.

    Returns
    -------
    The text without a byte order mark.

    Raises
    ------
    InputError
        Another encoding than UTF-8.
    """
    advice = "save it again as UTF-8; text editors offer this in 'Save as'"
    if content.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise refused(path, "is written in UTF-16, not in UTF-8", advice)
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        column = error.start - (content.rfind(b"\n", 0, error.start) + 1) + 1
        what = f"is not UTF-8 text: byte 0x{content[error.start]:02x} in line {line}, column {column}"
        raise refused(path, what, advice) from None
    if "\0" in text:
        raise refused(path, "is not a text file: it holds zero bytes", advice)
    return text


def read_table(path: Path, largest: int = LARGEST_FILE) -> dict[str, Any]:
    """Return the raw table of a TOML or JSON file; the ending of the name tells which.

    Parameters
    ----------
    path
        The file; JSON if its name ends in .json, otherwise TOML.
    largest
        Bytes read at most.

    Returns
    -------
    The raw table.

    Raises
    ------
    InputError
        As `read_text`, or a fault of the notation with line and column.
    """
    return table_of(read_text(path, largest), path)


def table_of(text: str, path: Path) -> dict[str, Any]:
    """Return the raw table of a text in TOML or JSON.

    Parameters
    ----------
    text
        The text.
    path
        Its name; JSON if it ends in .json, otherwise TOML.

    Returns
    -------
    The raw table.

    Raises
    ------
    InputError
        A fault of the notation with line and column.
    """
    try:
        raw = _json(text) if path.suffix.lower() == ".json" else tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise refused(path, *_toml_fault(str(error))) from None
    except json.JSONDecodeError as error:
        what = f"line {error.lineno}, column {error.colno}: {error.msg.lower()}"
        raise refused(path, what, "mend the notation there, or the line above it") from None
    except RecursionError:
        raise refused(
            path, "holds lists within lists, hundreds deep", "this is hardly the file that was meant"
        ) from None
    except ValueError as error:
        raise refused(path, str(error).split(";")[0].lower(), "mend the notation") from None
    if not isinstance(raw, dict):
        raise refused(path, "does not hold a table at its top", "its first character must be {")
    return raw


def _json(text: str) -> Any:
    """Read JSON and refuse a key that stands twice."""
    return json.loads(text, object_pairs_hook=_once)


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    table = dict(pairs)
    if len(table) < len(pairs):
        names = [name for name, _ in pairs]
        twice = next(name for name in names if names.count(name) > 1)
        raise ValueError(f"the key {twice[:60]!r} stands twice in one table")
    return table


def _toml_fault(message: str) -> tuple[str, str]:
    """Put line and column first and add what usually causes the fault."""
    place = re.search(r"\(at (?:line (\d+), column (\d+)|end of document)\)", message)
    said = message[: place.start()].strip().lower() if place else message.lower()
    where = "end of the file" if place is None or place[1] is None else f"line {place[1]}, column {place[2]}"
    hint = "mend the notation there"
    if "invalid value" in said:
        hint = 'text and values with a unit stand between quotes: "55 %"'
    elif "cannot overwrite" in said:
        hint = "this name stands twice in one table"
    return f"{where}: {said}", hint


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
