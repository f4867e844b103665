"""The secret that signs the cookies: a file that only its owner reads, the same at every start."""

import os
import secrets
import stat
from pathlib import Path

from laydown.schema.message import Message, Name, message
from laydown.schema.problem import InputError, Problem

SHORTEST = 32
"""Fewest characters of a secret: 128 bits in hexadecimal digits. Source: NIST SP 800-131A."""


def open_secret(file: Path) -> str:
    """Read the secret, and make it at the first start."""
    try:
        file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        if not file.exists():
            _write_new(file, secrets.token_hex(32))
        if stat.S_IMODE(file.stat().st_mode) & 0o077:
            raise _refused(file, message("secret-read-by-others"), message("do.chmod", file=Name(file)))
        text = file.read_text(encoding="ascii").strip()
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None)
        what = message("cannot-be-used", reason=Name(reason)) if reason else message("secret-no-text")
        raise _refused(file, what, message("secret-no-text.hint")) from None
    if len(text) < SHORTEST:
        raise _refused(file, message("secret-short"), message("secret-short.hint"))
    return text


def _refused(file: Path, what: Message, hint: Message) -> InputError:
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
