"""Writing files whole or not at all."""

import errno
import os
import secrets
import stat
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from laydown.reader.files import refused
from laydown.schema.problem import InputError

_CAUSES = {
    errno.EACCES: ("may not be written by you", "choose another folder with -o"),
    errno.EPERM: ("may not be written by you", "choose another folder with -o"),
    errno.EROFS: ("lies on a disk that can only be read", "choose another folder with -o"),
    errno.ENOSPC: ("does not fit: the disk is full", "make room or choose another disk; nothing was changed"),
    errno.EDQUOT: ("does not fit: your share of the disk is full", "make room; nothing was changed"),
    errno.ENOTDIR: ("lies below something that is not a folder", "check the path"),
    errno.ENOENT: ("lies in a folder that does not exist", "make the folder first or check the path"),
    errno.ELOOP: ("is a link that leads back to itself", "choose another name"),
    errno.ENAMETOOLONG: ("has a name that is too long", "choose a shorter one"),
}


def write_file(path: Path, content: bytes) -> None:
    """Write one file so that a reader sees the old or the new content, never a part.

    Parameters
    ----------
    path
        Where to; its folder must exist.
    content
        Whole content.

    Raises
    ------
    InputError
        It cannot be written; what stood there before still stands.
    """
    _replace_all({path: content})


def write_folder(folder: Path, contents: Mapping[str, bytes]) -> list[Path]:
    """Write several files into a folder, which is made if needed; all of them or none.

    Parameters
    ----------
    folder
        Where to.
    contents
        Content by file name; a name may have one folder before it.

    Returns
    -------
    The paths written, in order.

    Raises
    ------
    InputError
        The folder cannot be made or a file cannot be written.
    """
    paths = {folder / name: content for name, content in contents.items()}
    for below in dict.fromkeys([folder, *(path.parent for path in paths)]):
        try:
            below.mkdir(parents=True, exist_ok=True)
        except FileExistsError:
            raise refused(below, "is a file, so no folder can be made there", "choose another name") from None
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
        raise refused(path, "is no name a file can have", "choose another name") from None
    except OSError as error:
        raise _cause(path, error) from None
    if stat.S_ISDIR(status.st_mode):
        raise refused(path, "is a folder, so no file can be written there", "name a file inside it")
    if not stat.S_ISREG(status.st_mode):
        raise refused(path, "is not a plain file", "choose a file name")
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
    fallback = (
        f"cannot be written: {error.strerror or type(error).__name__}",
        "choose another folder with -o",
    )
    return refused(path, *_CAUSES.get(error.errno or 0, fallback))
