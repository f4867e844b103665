"""TLS of the pages: the shop's own authority and a certificate of the server in a folder, or the files of somebody else."""

import ipaddress
import os
import re
import secrets
import shutil
import ssl
import stat
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.serialization import load_pem_private_key

from laydown.schema.problem import InputError, Problem
from laydown.web.security.shop_authority import (
    RENEWED_BEFORE,
    Authority,
    fingerprint,
    make_authority,
    make_served,
    may_vouch,
    needs_renewal,
    pem_of,
    pem_of_key,
    served_names,
)

CA_FILE, CA_KEY, SERVED = "laydown-shop-ca.crt", "laydown-shop-ca.key", "served.pem"
"""Names of the authority's certificate and key, and of the file with the server's key and certificates."""

_NAME = re.compile(r"[a-z0-9_]([a-z0-9_.-]{0,200}[a-z0-9_])?")
_OWNER_ONLY = 0o600
_OTHERS = 0o077
_EVERYBODY = 0o007


@dataclass(frozen=True, slots=True)
class ShopTls:
    """TLS by the shop's own authority.

    Attributes
    ----------
    folder
        Where authority and certificate lie.
    names
        Names and addresses that are served.
    authority
        The authority.
    """

    folder: Path
    names: tuple[str, ...]
    authority: Authority = field(repr=False)

    @property
    def ca_file(self) -> Path:
        """Certificate of the authority, as it is installed on a tablet."""
        return self.folder / "ca" / CA_FILE

    @property
    def served_file(self) -> Path:
        """Key and certificates of the server."""
        return self.folder / SERVED

    @property
    def ca_fingerprint(self) -> str:
        """What a tablet shows of the authority before it trusts it."""
        return fingerprint(self.authority.certificate)

    def renew(self, now: datetime) -> bool:
        """Make the server's certificate anew if that is due.

        Parameters
        ----------
        now
            The time, with its zone.

        Returns
        -------
        Whether there is a new one.
        """
        old = _served_certificate(self.served_file)
        if old is not None and not needs_renewal(old, self.authority.certificate, self.names, now):
            return False
        made = make_served(self.authority, self.names, now)
        # The authority's own certificate goes along, so that a person can look at the whole chain.
        chain = (pem_of_key(made.key), pem_of(made.certificate), pem_of(self.authority.certificate))
        _replace(self.served_file, b"".join(chain))
        return True

    def good_for(self) -> tuple[tuple[str, ...], datetime]:
        """Return the names that the server's certificate is good for, and when it ends."""
        certificate = x509.load_pem_x509_certificates(self.served_file.read_bytes())[0]
        return served_names(certificate), certificate.not_valid_after_utc


def open_shop_tls(folder: Path, asked: Sequence[str], found: Sequence[str], now: datetime) -> ShopTls:
    """Open the TLS of a shop, and make its authority at the first start.

    Parameters
    ----------
    folder
        Where it lies; made if needed, for its owner only.
    asked
        Names and addresses that somebody named.
    found
        Those the machine has besides; what the authority cannot vouch for is left out.
    now
        The time, with its zone.

    Returns
    -------
    TLS with a certificate that is good now.

    Raises
    ------
    InputError
        A key may be read by others, a file is missing or damaged, the authority ends, or cannot vouch for a name.
    """
    named, problems = _plain_names(asked)
    if problems:
        raise InputError("", problems)
    besides = [plain for one in found if (plain := _plain(one))]
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        if not (folder / "ca").exists():
            _write_authority(folder, make_authority([*named, *besides], now))
        authority = _read_authority(folder / "ca", now)
        _check_mode(folder / SERVED, _OTHERS)
        strange = [name for name in named if not may_vouch(authority.certificate, name)]
        if strange:
            raise InputError(str(folder), tuple(_not_vouched(folder, name) for name in strange))
        kept = [name for name in besides if may_vouch(authority.certificate, name)]
        tls = ShopTls(folder, tuple(dict.fromkeys([*named, *kept])), authority)
        tls.renew(now)
    except OSError as error:
        what = f"cannot be used: {error.strerror or error}"
        hint = "name a folder you may write to with --tls-folder"
        raise InputError(str(folder), (Problem("--tls", what, hint),)) from None
    return tls


def check_own_files(certificate: Path, key: Path) -> None:
    """Check certificate and key that somebody else made.

    Parameters
    ----------
    certificate, key
        PEM files.

    Raises
    ------
    InputError
        They cannot be read, do not belong together, or everybody may read the key.
    """
    _check_mode(key, _EVERYBODY)
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    try:
        context.load_cert_chain(certificate, key, password=_no_password)
    except _EncryptedError:
        what, hint = "is encrypted", "give a key without a password, readable by its owner only"
        raise InputError(str(key), (Problem("--key", what, hint),)) from None
    except (ssl.SSLError, OSError, ValueError) as error:
        reason = getattr(error, "reason", None) or getattr(error, "strerror", None) or "they cannot be read"
        # A key of another kind finds no certificate that it could belong to.
        mismatch = "MISMATCH" in str(reason) or "NO_CERTIFICATE_ASSIGNED" in str(reason)
        what = (
            "do not belong together"
            if mismatch
            else f"cannot be used: {str(reason).lower().replace('_', ' ')}"
        )
        hint = (
            "give the certificate's own key" if mismatch else "both are PEM: see docs/howto/trust-the-desk.md"
        )
        raise InputError("--certificate and --key", (Problem("--tls", what, hint),)) from None


class _EncryptedError(Exception):
    """A key asks for a password; nobody is there to type it."""


def _no_password() -> str:
    raise _EncryptedError


def _plain_names(asked: Sequence[str]) -> tuple[list[str], tuple[Problem, ...]]:
    """Write names as certificates hold them; list those that are none."""
    named: list[str] = []
    problems: list[Problem] = []
    for one in asked:
        plain = _plain(one.casefold())
        if plain is not None:
            named.append(plain)
        else:
            what = f"{one[:60]!r} is no name of a machine"
            problems.append(Problem("--name", what, "such as booth-desk, or an address"))
    return named, tuple(problems)


def _plain(name: str) -> str | None:
    """Write a name or an address as certificates hold it; None if it is none."""
    try:
        return str(ipaddress.ip_address(name))
    except ValueError:
        pass
    try:
        plain = name if name.isascii() else name.encode("idna").decode("ascii")
    except UnicodeError:
        return None
    return plain if _NAME.fullmatch(plain) else None


def _read_authority(folder: Path, now: datetime) -> Authority:
    """Read the authority of a shop."""
    _check_mode(folder / CA_KEY, _OTHERS)
    hint = f"put back a copy of {folder}, or move it away: the next start makes a new one for all tablets"
    try:
        certificate = x509.load_pem_x509_certificate((folder / CA_FILE).read_bytes())
        key = load_pem_private_key((folder / CA_KEY).read_bytes(), None)
    except FileNotFoundError as error:
        raise _refused(folder, f"lacks {Path(error.filename).name}", hint) from None
    except (ValueError, TypeError):
        raise _refused(folder, "holds something that is no certificate or key", hint) from None
    if not isinstance(key, ec.EllipticCurvePrivateKey) or key.public_key() != certificate.public_key():
        raise _refused(folder, "holds a key that does not belong to its certificate", hint)
    if certificate.not_valid_after_utc - now < RENEWED_BEFORE:
        ends = f"{certificate.not_valid_after_utc:%Y-%m-%d}"
        raise _refused(
            folder,
            f"ends on {ends}",
            f"move {folder} away, start again, and install the new one on every tablet",
        )
    return Authority(certificate, key)


def _write_authority(folder: Path, authority: Authority) -> None:
    """Write a new authority; of two starts at once the first one wins."""
    part = folder / f".ca.{secrets.token_hex(4)}"
    part.mkdir(mode=0o700)
    _write(part / CA_KEY, pem_of_key(authority.key), _OWNER_ONLY)
    _write(part / CA_FILE, pem_of(authority.certificate), 0o644)
    try:
        part.rename(folder / "ca")
    except OSError:
        shutil.rmtree(part)
        if not (folder / "ca").is_dir():
            raise


def _served_certificate(file: Path) -> x509.Certificate | None:
    """Read the server's certificate; None where a new one has to be made."""
    try:
        return x509.load_pem_x509_certificates(file.read_bytes())[0]
    except (FileNotFoundError, ValueError):
        return None


def _replace(file: Path, content: bytes) -> None:
    """Put a file in the place of an older one, whole or not at all."""
    part = file.with_name(f".{file.name}.{secrets.token_hex(4)}")
    _write(part, content, _OWNER_ONLY)
    part.replace(file)


def _write(file: Path, content: bytes, mode: int) -> None:
    """Write a new file and wait for the disk."""
    opened = os.open(file, os.O_WRONLY | os.O_CREAT | os.O_EXCL, mode)
    with os.fdopen(opened, "wb") as stream:
        os.fchmod(stream.fileno(), mode)
        stream.write(content)
        stream.flush()
        os.fsync(stream.fileno())


def _check_mode(file: Path, forbidden: int) -> None:
    """Refuse a key that others may read."""
    if file.exists() and stat.S_IMODE(file.stat().st_mode) & forbidden:
        who = "others" if forbidden == _OTHERS else "everybody"
        raise _refused(file, f"holds a key, and {who} may read it", f"take the right away: chmod 600 {file}")


def _refused(place: Path, what: str, hint: str) -> InputError:
    """Fault of a file or folder."""
    return InputError(str(place), (Problem("--tls", what, hint),))


def _not_vouched(folder: Path, name: str) -> Problem:
    """Fault of a name that came after the authority was made."""
    what = f"'{name}' is a name that the shop's authority was not made for"
    hint = f"leave it out, or move {folder / 'ca'} away, start again, and install the new one on every tablet"
    return Problem("--name", what, hint)
