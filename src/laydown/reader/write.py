"""Writing files whole or not at all."""

import errno
import os
import secrets
import stat
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from laydown.reader.files import refused
from laydown.schema.message import Name, message
from laydown.schema.problem import InputError

_CAUSES = {
    errno.EACCES: ("may-not-be-written", "choose-another-folder"),
    errno.EPERM: ("may-not-be-written", "choose-another-folder"),
    errno.EROFS: ("on-a-disk-for-reading", "choose-another-folder"),
    errno.ENOSPC: ("disk-is-full", "make-room-or-choose-a-disk"),
    errno.EDQUOT: ("share-of-the-disk-is-full", "make-room"),
    errno.ENOTDIR: ("below-no-folder", "check-the-path"),
    errno.ENOENT: ("folder-does-not-exist", "make-the-folder"),
    errno.ELOOP: ("leads-back-to-itself", "choose-another-file-name"),
    errno.ENAMETOOLONG: ("name-too-long", "choose-a-shorter-name"),
}
"""Codes of what is wrong and of how to mend it."""


def write_file(path: Path, content: bytes) -> None:
    """Write one file so that a reader sees the old or the new content, never a part."""
    _replace_all({path: content})


def write_folder(folder: Path, contents: Mapping[str, bytes]) -> list[Path]:
    """Write several files into a folder, which is made if needed; all of them or none."""
    paths = {folder / name: content for name, content in contents.items()}
    for below in dict.fromkeys([folder, *(path.parent for path in paths)]):
        try:
            below.mkdir(parents=True, exist_ok=True)
        except FileExistsError:
            what = message("file-where-a-folder-belongs")
            raise refused(below, what, message("choose-another-file-name")) from None
        except OSError as error:
            raise _cause(below, error) from None
    _replace_all(paths)
    return list(paths)


def _replace_all(paths: Mapping[Path, bytes]) -> None:
    """Write all beside their targets first, then rename; on a fault before that, remove all again."""
    waiting: list[tuple[Path, Path]] = []
    try:
        for path, content in paths.items():
            target = _target(path)
            beside = target.with_name(f".{target.name[:80]}.{secrets.token_hex(4)}.part")
            waiting.append((beside, target))
            _write_beside(beside, path, content)
        for beside, target in waiting:
            try:
                beside.replace(target)
            except OSError as error:
                raise _cause(target, error) from None
    finally:
        for beside, _ in waiting:
            with suppress(OSError):
                beside.unlink(missing_ok=True)


def _target(path: Path) -> Path:
    """Follow links and refuse what is not a plain file."""
    try:
        target = Path(os.path.realpath(path))
        status = target.stat()
    except FileNotFoundError:
        return target
    except ValueError:
        raise refused(path, message("no-name-of-a-file"), message("choose-another-file-name")) from None
    except OSError as error:
        raise _cause(path, error) from None
    if stat.S_ISDIR(status.st_mode):
        raise refused(path, message("folder-where-a-file-belongs"), message("name-a-file-inside"))
    if not stat.S_ISREG(status.st_mode):
        raise refused(path, message("not-a-plain-file"), message("choose-a-file-name"))
    return target


def _write_beside(beside: Path, path: Path, content: bytes) -> None:
    """Write the temporary file down to the disk."""
    try:
        with beside.open("xb") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
    except OSError as error:
        raise _cause(path, error) from None


def _cause(path: Path, error: OSError) -> InputError:
    """Say in plain words why a file cannot be written."""
    if error.errno in _CAUSES:
        return refused(path, *map(message, _CAUSES[error.errno]))
    what = message("cannot-be-written", reason=Name(error.strerror or type(error).__name__))
    return refused(path, what, message("choose-another-folder"))
