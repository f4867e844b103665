"""With which certificate ``laydown serve`` answers: none, files of somebody else, or the shop's own authority."""

import ipaddress
import os
import socket
from collections.abc import Iterable
from contextlib import suppress
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

import click

from laydown.schema.problem import InputError, Problem

if TYPE_CHECKING:
    from laydown.web.server import Secured
    from laydown.web.tls import ShopTls

EVERY_ADDRESS = {"0.0.0.0", "::"}  # noqa: S104 - recognised, not bound to
"""Hosts that stand for all addresses of this machine; definition."""


@dataclass(frozen=True, slots=True)
class TlsWish:
    """What somebody wished on the command line.

    Attributes
    ----------
    tls
        Whether to serve with TLS.
    certificate, key
        Files of somebody else.
    folder
        Where the shop's own authority lies; None: beside the book.
    """

    tls: bool
    certificate: Path | None
    key: Path | None
    folder: Path | None


def secured(wish: TlsWish, book: str, host: str, names: Iterable[str]) -> "tuple[Secured, bytes]":
    """Return with which certificate to serve, and say on the terminal what tablets have to trust.

    Parameters
    ----------
    wish
        What somebody wished.
    book
        The book: a path or an address.
    host
        Address that is answered on.
    names
        Names the machine is called by.

    Returns
    -------
    The certificate, and that of the shop's authority; empty without one.

    Raises
    ------
    InputError
        Everything that is wrong with files and options.
    """
    from laydown.web.server import Secured

    _check_wish(wish)
    if not wish.tls:
        return Secured(), b""
    if wish.certificate is not None and wish.key is not None:
        from laydown.web.tls import check_own_files

        check_own_files(wish.certificate, wish.key)
        return Secured(str(wish.certificate), str(wish.key)), b""
    from laydown.web.security import own_names
    from laydown.web.tls import open_shop_tls

    asked = [*names, *([] if host in EVERY_ADDRESS else [host])]
    found = [*sorted(own_names()), *own_addresses(every=host in EVERY_ADDRESS)]
    folder = wish.folder or _default_folder(book)
    is_new = not (folder / "ca").exists()
    shop = open_shop_tls(folder, asked, found, datetime.now(UTC))
    _tell(shop, is_new=is_new)
    file = str(shop.served_file)
    return Secured(file, file, shop.renew), shop.ca_file.read_bytes()


def _check_wish(wish: TlsWish) -> None:
    """Refuse options that do not go together."""
    given = {"--certificate": wish.certificate, "--key": wish.key}
    problems: list[Problem] = []
    if any(given.values()):
        hint = "give both, or neither: then the shop makes its own"
        problems += [
            Problem(option, "is missing" if file is None else "is no file", hint)
            for option, file in given.items()
            if file is None or not file.is_file()
        ]
        if wish.folder is not None:
            what = "holds the shop's own authority, which --certificate and --key leave aside"
            problems.append(Problem("--tls-folder", what, "leave one of the two out"))
    if not wish.tls and (any(given.values()) or wish.folder is not None):
        problems.append(Problem("--tls", "is missing", "certificates are used with --tls only"))
    if problems:
        raise InputError("", tuple(problems))


def own_addresses(*, every: bool) -> tuple[str, ...]:
    """Return the addresses by which this machine can be reached.

    Parameters
    ----------
    every
        Whether also those on the network.

    Returns
    -------
    Addresses as text; those of the machine itself first.
    """
    found = ["127.0.0.1", "::1"]
    if not every:
        return tuple(found)
    # A machine whose own name is known to nobody has addresses all the same.
    with suppress(OSError):
        found += [str(one[4][0]) for one in socket.getaddrinfo(socket.gethostname(), None)]
    for family, far in ((socket.AF_INET, "192.0.2.1"), (socket.AF_INET6, "2001:db8::1")):
        # Nothing is sent: the system only chooses the address it would send from (documentation addresses, RFC 5737, RFC 3849).
        with suppress(OSError), socket.socket(family, socket.SOCK_DGRAM) as asking:
            asking.connect((far, 9))
            found.append(str(asking.getsockname()[0]))
    plain = (str(ipaddress.ip_address(one.partition("%")[0])) for one in found)
    return tuple(dict.fromkeys(plain))


def _tell(shop: "ShopTls", *, is_new: bool) -> None:
    """Say which authority tablets have to trust, and what the certificate is good for."""
    names, ends = shop.good_for()
    click.echo(f"shop authority{', new' if is_new else ''}: {shop.ca_file}", err=True)
    click.echo(f"  SHA-256 {shop.ca_fingerprint}", err=True)
    click.echo("  install it once on every tablet: docs/howto/trust-the-desk.md", err=True)
    click.echo(f"good for {', '.join(names)}; renewed by itself before {ends:%Y-%m-%d}", err=True)


def _default_folder(book: str) -> Path:
    """Beside a book file, or with this user's data."""
    if "://" not in book:
        return Path(f"{book}.tls")
    folder = os.environ.get("XDG_DATA_HOME") or Path.home() / ".local" / "share"
    return Path(folder) / "laydown" / "tls"
