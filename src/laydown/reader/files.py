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
from laydown.reader.values import nearest, shown
from laydown.schema.message import Message, Name, Saying, message
from laydown.schema.problem import InputError, Problem

LARGEST_FILE = 2_000_000
"""Bytes of a job, product or side file read at most; assumption, a thousand times a usual job."""

LARGEST_PLAN = 30_000_000
"""Bytes of a plan document read at most; assumption, ten times a van in four coats."""

_REFUSED = {
    errno.EACCES: ("may-not-be-read", "ask-its-owner"),
    errno.EPERM: ("may-not-be-read", "ask-its-owner"),
    errno.ELOOP: ("leads-back-to-itself", "give-the-file-behind"),
    errno.ENOTDIR: ("below-no-folder", "check-the-path"),
    errno.ENAMETOOLONG: ("name-too-long", "check-the-path"),
    errno.EINVAL: ("no-name-of-a-file", "check-the-path"),
}
"""Codes of what is wrong and of how to mend it."""


def read_bytes(path: Path, largest: int = LARGEST_FILE) -> bytes:
    """Return the content of a plain file."""
    try:
        status = path.stat()
        if stat.S_ISDIR(status.st_mode):
            raise refused(path, message("folder-not-a-file"), message("name-a-file-inside"))
        if not stat.S_ISREG(status.st_mode):
            raise refused(path, message("not-a-plain-file"), message("copy-its-content"))
        with path.open("rb") as stream:
            content = stream.read(largest + 1)
    except FileNotFoundError:
        raise refused(path, message("does-not-exist"), _neighbour(path)) from None
    except ValueError:
        raise refused(path, *map(message, _REFUSED[errno.EINVAL])) from None
    except OSError as error:
        if error.errno in _REFUSED:
            raise refused(path, *map(message, _REFUSED[error.errno])) from None
        raise refused(path, message("cannot-be-read", reason=Name(error.strerror))) from None
    if len(content) > largest:
        what = message("larger-than", megabytes=largest // 1_000_000)
        raise refused(path, what, message("hardly-this-file"))
    return content


def refused(path: Path, what: Saying, hint: Saying = "") -> InputError:
    """Return the error for a file that cannot be used as a whole."""
    return InputError(str(path), (Problem("file", what, hint),))


def _neighbour(path: Path) -> Message:
    """Name the file in the same folder that was perhaps meant."""
    try:
        names = [item.name for item in path.parent.iterdir()][:1000]
    except OSError:
        return message("check-the-path")
    near = nearest(path.name, names, 0.75)
    return message("did-you-mean", near=Name(path.parent / near)) if near else message("check-the-path")


def read_text(path: Path, largest: int = LARGEST_FILE) -> str:
    """Return a UTF-8 text file."""
    return text_of(read_bytes(path, largest), path)


def text_of(content: bytes, path: Path) -> str:
    """Return bytes as UTF-8 text."""
    advice = message("save-as-utf-8")
    if content.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise refused(path, message("written-in-utf-16"), advice)
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        column = error.start - (content.rfind(b"\n", 0, error.start) + 1) + 1
        byte = Name(f"0x{content[error.start]:02x}")
        what = message("not-utf-8", byte=byte, line=line, column=column)
        raise refused(path, what, advice) from None
    if "\0" in text:
        raise refused(path, message("holds-zero-bytes"), advice)
    return text


def read_table(path: Path, largest: int = LARGEST_FILE) -> dict[str, Any]:
    """Return the raw table of a TOML or JSON file; the ending of the name tells which."""
    return table_of(read_text(path, largest), path)


def table_of(text: str, path: Path) -> dict[str, Any]:
    """Return the raw table of a text in TOML or JSON."""
    try:
        raw = _json(text, path) if path.suffix.lower() == ".json" else tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise refused(path, *_toml_fault(str(error))) from None
    except json.JSONDecodeError as error:
        said = Name(error.msg.lower())
        what = message("notation-at-a-line", line=error.lineno, column=error.colno, said=said)
        raise refused(path, what, message("mend-the-notation-there-or-above")) from None
    except RecursionError:
        raise refused(path, message("lists-within-lists"), message("hardly-this-file")) from None
    except ValueError as error:
        what = message("in-other-words", said=Name(str(error).split(";")[0].lower()))
        raise refused(path, what, message("mend-the-notation")) from None
    if not isinstance(raw, dict):
        raise refused(path, message("no-table-at-the-top"), message("begin-with-a-brace"))
    return raw


def _json(text: str, path: Path) -> Any:
    """Read JSON and refuse a key that stands twice."""

    def once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
        table = dict(pairs)
        if len(table) < len(pairs):
            names = [name for name, _ in pairs]
            twice = next(name for name in names if names.count(name) > 1)
            what = message("key-stands-twice", key=Name(repr(twice[:60])))
            raise refused(path, what, message("mend-the-notation"))
        return table

    return json.loads(text, object_pairs_hook=once)


def _toml_fault(fault: str) -> tuple[Message, Message]:
    """Put line and column first and add what usually causes the fault."""
    place = re.search(r"\(at (?:line (\d+), column (\d+)|end of document)\)", fault)
    said = Name(fault[: place.start()].strip().lower() if place else fault.lower())
    if place is None or place[1] is None:
        what = message("notation-at-the-end", said=said)
    else:
        what = message("notation-at-a-line", line=int(place[1]), column=int(place[2]), said=said)
    hint = "mend-the-notation-there"
    if "invalid value" in said:
        hint = "values-between-quotes"
    elif "cannot overwrite" in said:
        hint = "name-stands-twice"
    return what, message(hint)


Noun = TypeVar("Noun")

KINDS = {"laydown-job": "job", "laydown-product": "product", "laydown-side": "side", "laydown-plan": "plan"}
"""Name before the slash of each format, and the kind of file it is."""


def kind_of(raw: dict[str, Any]) -> str:
    """Return what kind of file a raw table says it is."""
    said = raw.get("format")
    return KINDS.get(said.split("/")[0], "") if isinstance(said, str) else ""


def decode_file(noun: type[Noun], raw: dict[str, Any], path: Path, source: str) -> Decoded[Noun]:
    """Decode a raw table after a look at its format."""
    wanted = first_line(noun)
    said = raw.get("format")
    kind = kind_of(raw)
    if said == wanted or said is None:
        return decode(noun, raw, source)
    expected = KINDS[wanted.split("/")[0]]
    if kind and kind != expected:
        right = message(f"file-kind.{expected}")
        raise refused(
            path,
            message("another-kind-of-file", found=message(f"file-kind.{kind}"), wanted=right),
            message("begins-with-format", wanted=right, format=Name(wanted)),
        )
    what = message("format-not-read", format=shown(said))
    raise refused(path, what, message("reads-the-format", format=Name(wanted)))
