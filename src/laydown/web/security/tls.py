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

from laydown.schema.message import Message, Name, message
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
    """TLS by the shop's own authority."""

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
        """Make the server's certificate anew if that is due."""
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
    """Open the TLS of a shop, and make its authority at the first start."""
    named = _plain_names(asked)
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
        what = message("cannot-be-used", reason=Name(error.strerror or error))
        raise InputError(str(folder), (Problem("--tls", what, message("tls-folder")),)) from None
    return tls


def check_own_files(certificate: Path, key: Path) -> None:
    """Check certificate and key that somebody else made."""
    _check_mode(key, _EVERYBODY)
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    try:
        context.load_cert_chain(certificate, key, password=_no_password)
    except _EncryptedError:
        what, hint = message("key-encrypted"), message("key-encrypted.hint")
        raise InputError(str(key), (Problem("--key", what, hint),)) from None
    except (ssl.SSLError, OSError, ValueError) as error:
        reason = str(getattr(error, "reason", None) or getattr(error, "strerror", None) or "")
        raise InputError("--certificate and --key", (_misfit(reason),)) from None


def _misfit(reason: str) -> Problem:
    """Fault of a certificate and a key, by what the library says of them."""
    # A key of another kind finds no certificate that it could belong to.
    if "MISMATCH" in reason or "NO_CERTIFICATE_ASSIGNED" in reason:
        return Problem("--tls", message("key-of-another"), message("key-of-another.hint"))
    if not reason:
        return Problem("--tls", message("key-unread"), message("key-unread.hint"))
    what = message("cannot-be-used", reason=Name(reason.lower().replace("_", " ")))
    return Problem("--tls", what, message("key-unread.hint"))


class _EncryptedError(Exception):
    """A key asks for a password; nobody is there to type it."""


def _no_password() -> str:
    raise _EncryptedError


def _plain_names(asked: Sequence[str]) -> list[str]:
    """Write names as certificates hold them; those that are none are refused at once."""
    named: list[str] = []
    problems: list[Problem] = []
    for one in asked:
        plain = _plain(one.casefold())
        if plain is not None:
            named.append(plain)
        else:
            what = message("no-machine", name=Name(repr(one[:60])))
            problems.append(Problem("--name", what, message("no-machine.hint")))
    if problems:
        raise InputError("", tuple(problems))
    return named


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
    hint = message("authority-anew", folder=Name(folder))
    try:
        certificate = x509.load_pem_x509_certificate((folder / CA_FILE).read_bytes())
        key = load_pem_private_key((folder / CA_KEY).read_bytes(), None)
    except FileNotFoundError as error:
        raise _refused(
            folder, message("authority-lacks", file=Name(Path(error.filename).name)), hint
        ) from None
    except (ValueError, TypeError):
        raise _refused(folder, message("authority-strange"), hint) from None
    if not isinstance(key, ec.EllipticCurvePrivateKey) or key.public_key() != certificate.public_key():
        raise _refused(folder, message("authority-other-key"), hint)
    if certificate.not_valid_after_utc - now < RENEWED_BEFORE:
        what = message("authority-ends", date=Name(f"{certificate.not_valid_after_utc:%Y-%m-%d}"))
        raise _refused(folder, what, message("authority-ends.hint", folder=Name(folder)))
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
        what = message("key-read-by-others" if forbidden == _OTHERS else "key-read-by-all")
        raise _refused(file, what, message("do.chmod", file=Name(file)))


def _refused(place: Path, what: Message, hint: Message) -> InputError:
    """Fault of a file or folder."""
    return InputError(str(place), (Problem("--tls", what, hint),))


def _not_vouched(folder: Path, name: str) -> Problem:
    """Fault of a name that came after the authority was made."""
    hint = message("not-vouched.hint", folder=Name(folder / "ca"))
    return Problem("--name", message("not-vouched", name=Name(name)), hint)
