"""Secret of the cookies and hashes of the passwords: two files that only their owner reads."""

import json
import os
import secrets
import stat
from dataclasses import dataclass, field
from pathlib import Path
from threading import Lock

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerificationError

from laydown.schema.problem import InputError, Problem
from laydown.web.roles import ROLES, Role

SHORTEST_PASSWORD = 8
"""Fewest characters of a password. Source: NIST SP 800-63B, 5.1.1.2."""

LONGEST_PASSWORD = 256
"""Most characters of a password; assumption, keeps hashing short."""


@dataclass(slots=True)
class Keys:
    """Secret and passwords of one shop.

    Attributes
    ----------
    secret
        Signs the cookies; the same at every start, so that nobody is put out by a restart.
    hashes
        Argon2 hash of the password of each role that has one.
    file
        Where the hashes are kept; None keeps them in memory only.
    """

    secret: str
    hashes: dict[Role, str] = field(default_factory=dict)
    file: Path | None = None
    _hasher: PasswordHasher = field(default_factory=PasswordHasher)
    _one_at_a_time: Lock = field(default_factory=Lock)

    @property
    def locked(self) -> bool:
        """Whether a password is asked at all."""
        return "manager" in self.hashes

    def set_password(self, role: Role, password: str) -> None:
        """Keep a new password.

        Parameters
        ----------
        role
            Whose password.
        password
            The password.

        Raises
        ------
        InputError
            The password is too short or too long, or the first one is not the manager's.
        """
        if not SHORTEST_PASSWORD <= len(password) <= LONGEST_PASSWORD:
            hint = f"choose {SHORTEST_PASSWORD} to {LONGEST_PASSWORD} characters; a short sentence is best"
            raise InputError("", (Problem("password", f"has {len(password)} characters", hint),))
        if role != "manager" and not self.locked:
            hint = "set the manager's password first: until then everybody is the manager"
            raise InputError("", (Problem("role", "would lock nobody out", hint),))
        with self._one_at_a_time:
            self.hashes = {**self.hashes, role: self._hasher.hash(password)}
            if self.file is not None:
                write_private(self.file, json.dumps(self.hashes, indent=1) + "\n")

    def role_of(self, password: str) -> Role | None:
        """Return the role a password opens; takes a tenth of a second for each role, so call it off the loop.

        Parameters
        ----------
        password
            As typed.

        Returns
        -------
        The role; None if the password is nobody's.
        """
        if len(password) > LONGEST_PASSWORD:
            return None
        # One hash at a time: each takes 64 MiB, and guessing must not fill the memory.
        with self._one_at_a_time:
            return next((role for role in ROLES if self._fits(self.hashes.get(role), password)), None)

    def _fits(self, kept: str | None, password: str) -> bool:
        """Compare a password with a hash."""
        if kept is None:
            return False
        try:
            return self._hasher.verify(kept, password)
        except (VerificationError, InvalidHashError):
            return False


def open_keys(folder: Path) -> Keys:
    """Read the keys of a shop, and make them at the first start.

    Parameters
    ----------
    folder
        Folder of the two files ``secret`` and ``passwords.json``; made if needed, for its owner only.

    Returns
    -------
    The keys.

    Raises
    ------
    InputError
        The files cannot be read or written, or others may read them.
    """
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        secret, hashes = folder / "secret", folder / "passwords.json"
        if not secret.exists():
            write_private(secret, secrets.token_hex(32))
        for file in (secret, hashes):
            if file.exists() and stat.S_IMODE(file.stat().st_mode) & 0o077:
                raise _refused(file, "may be read by others", f"take the right away: chmod 600 {file}")
        kept = json.loads(hashes.read_text(encoding="utf-8")) if hashes.exists() else {}
        text = secret.read_text(encoding="utf-8").strip()
    except (OSError, ValueError) as error:
        raise _refused(folder, f"cannot be used: {error}", "name a folder you may write to") from None
    if len(text) < 32:
        raise _refused(secret, "is too short", "remove it; the next start makes a new one")
    return Keys(text, {role: str(kept[role]) for role in ROLES if role in kept}, hashes)


def _refused(file: Path, what: str, hint: str) -> InputError:
    return InputError(str(file), (Problem("keys", what, hint),))


def write_private(file: Path, text: str) -> None:
    """Write a file that only its owner reads, whole or not at all.

    Parameters
    ----------
    file
        The file.
    text
        Its content.

    Raises
    ------
    OSError
        It cannot be written.
    """
    part = file.with_name(f"{file.name}.{secrets.token_hex(4)}")
    opened = os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    with os.fdopen(opened, "w", encoding="utf-8") as stream:
        stream.write(text)
        stream.flush()
        os.fsync(stream.fileno())
    part.replace(file)
