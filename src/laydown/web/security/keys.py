"""The secret that signs the cookies: a file that only its owner reads, the same at every start."""

import os
import secrets
import stat
from pathlib import Path

from laydown.schema.problem import InputError, Problem

SHORTEST = 32
"""Fewest characters of a secret: 128 bits in hexadecimal digits. Source: NIST SP 800-131A."""


def open_secret(file: Path) -> str:
    """Read the secret, and make it at the first start.

    Parameters
    ----------
    file
        Its file; the folder is made if needed, for its owner only.

    Returns
    -------
    The secret.

    Raises
    ------
    InputError
        The file cannot be read or written, others may read it, or it is too short.
    """
    try:
        file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        if not file.exists():
            _write_new(file, secrets.token_hex(32))
        if stat.S_IMODE(file.stat().st_mode) & 0o077:
            raise _refused(file, "may be read by others", f"take the right away: chmod 600 {file}")
        text = file.read_text(encoding="ascii").strip()
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or "it is not plain text"
        raise _refused(file, f"cannot be used: {reason}", "name a place you may write to") from None
    if len(text) < SHORTEST:
        raise _refused(file, "is too short", "remove it; the next start makes a new one")
    return text


def _refused(file: Path, what: str, hint: str) -> InputError:
    return InputError(str(file), (Problem("secret", what, hint),))


def _write_new(file: Path, text: str) -> None:
    """Write a file that only its owner reads; of two starts at once the first one wins."""
    part = file.with_name(f".{file.name}.{secrets.token_hex(4)}")
    opened = os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    try:
        with os.fdopen(opened, "w", encoding="ascii") as stream:
            stream.write(text)
            stream.flush()
            os.fsync(stream.fileno())
        try:
            os.link(part, file)
        except FileExistsError:
            return
    finally:
        part.unlink()
