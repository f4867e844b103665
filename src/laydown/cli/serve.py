"""laydown serve."""

import ipaddress
import os
import signal
import socket
import sys
from collections.abc import Iterable
from contextlib import suppress
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from laydown.cli.options import debug
from laydown.cli.output import say
from laydown.schema.message import Name, message
from laydown.schema.problem import InputError, Problem
from laydown.words.show import ENGLISH

if TYPE_CHECKING:
    from laydown.web.security.tls import ShopTls
    from laydown.web.server import Secured

EVERY_ADDRESS = {"0.0.0.0", "::"}  # noqa: S104 - recognised, not bound to
"""Hosts that stand for all addresses of this machine; definition."""


@dataclass(frozen=True, slots=True)
class TlsWish:
    """What somebody wished on the command line."""

    tls: bool
    certificate: Path | None
    key: Path | None
    folder: Path | None


def secured(wish: TlsWish, book: str, host: str, names: Iterable[str]) -> "tuple[Secured, bytes]":
    """Return with which certificate to serve, and say on the terminal what tablets have to trust."""
    from laydown.web.server import Secured

    _check_wish(wish)
    if not wish.tls:
        return Secured(), b""
    if wish.certificate is not None and wish.key is not None:
        from laydown.web.security.tls import check_own_files

        check_own_files(wish.certificate, wish.key)
        return Secured(str(wish.certificate), str(wish.key)), b""
    from laydown.web.security.refused import own_names
    from laydown.web.security.tls import open_shop_tls

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
        hint = message("certificate-and-key")
        problems += [
            Problem(option, message("value-is-missing" if file is None else "is-no-file"), hint)
            for option, file in given.items()
            if file is None or not file.is_file()
        ]
        if wish.folder is not None:
            what, hint = message("authority-left-aside"), message("authority-left-aside.hint")
            problems.append(Problem("--tls-folder", what, hint))
    if not wish.tls and (any(given.values()) or wish.folder is not None):
        problems.append(Problem("--tls", message("value-is-missing"), message("certificates-with-tls")))
    if problems:
        raise InputError("", tuple(problems))


def own_addresses(*, every: bool) -> tuple[str, ...]:
    """Return the addresses by which this machine can be reached."""
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
    authority = "shop-authority-new" if is_new else "shop-authority"
    say(ENGLISH.say(authority, file=Name(str(shop.ca_file))))
    say(f"  SHA-256 {shop.ca_fingerprint}")
    say(f"  {ENGLISH.say('install-authority')}")
    ends_on = Name(f"{ends:%Y-%m-%d}")
    say(ENGLISH.say("certificate-good-for", names=tuple(map(Name, names)), ends=ends_on))


def _default_folder(book: str) -> Path:
    """Beside a book file, or with this user's data."""
    if "://" not in book:
        return Path(f"{book}.tls")
    folder = os.environ.get("XDG_DATA_HOME") or Path.home() / ".local" / "share"
    return Path(folder) / "laydown" / "tls"


if TYPE_CHECKING:
    from laydown.store.book import Book
    from laydown.web.server import Secured

PORT = 8470
"""Port of the pages; assumption, taken by no well-known service."""

SWITCH_S = 0.0005
"""How long a thread calculates before another one that waits has its turn [s]; measured with ``benchmarks.load``."""


@click.command()
@click.option("--host", default="127.0.0.1", show_default=True, help="Address to answer on.")
@click.option(
    "--port", default=PORT, show_default=True, type=click.IntRange(0, 65535), help="Port; 0 takes a free one."
)
@click.option(
    "--database", "book", envvar="LAYDOWN_DATABASE", help="File, or postgresql://... Also: LAYDOWN_DATABASE."
)
@click.option("--name", "names", multiple=True, help="A name this machine is called by; may be repeated.")
@click.option(
    "--tls", is_flag=True, help="Serve with TLS: by the shop's own authority, or by files of yours."
)
@click.option(
    "--tls-folder", type=click.Path(path_type=Path), help="Where the shop's authority lies; beside the book."
)
@click.option("--certificate", type=click.Path(path_type=Path), help="Certificate chain of yours, PEM.")
@click.option("--key", type=click.Path(path_type=Path), help="Its private key, PEM.")
@click.option("--secret", type=click.Path(path_type=Path), help="File of the secret that signs cookies.")
@click.option("--set-password", "user", metavar="NAME", help="Ask for a user's password, keep it and end.")
@click.option(
    "--role",
    type=click.Choice(["manager", "painter", "reader"]),
    default="manager",
    show_default=True,
    help="What that user may do.",
)
@debug
def serve(host: str, port: int, **given: Any) -> int:
    """Serve the pages for desk, tablet and phone until it is stopped.

    Without --host it answers this machine only, and no password is needed. On
    any other address a manager must have a password first. Keep every screen
    outside the spraying enclosure.

    \b
    Examples:
      laydown serve
      laydown serve --set-password Kim
      laydown serve --host 0.0.0.0 --name booth-desk --tls
    """
    from laydown.cli.serve import TlsWish, secured
    from laydown.store.opening import open_book
    from laydown.web.request.visitor import Settings
    from laydown.web.security.keys import open_secret

    where = given["book"] or str(_default_book())
    if "://" not in where:
        _make_folder(Path(where).parent)
    book = open_book(where)
    try:
        if given["user"]:
            return _set_password(book, given["user"], given["role"])
        if not _loopback(host):
            _need_password(book)
        wish = TlsWish(given["tls"], given["certificate"], given["key"], given["tls_folder"])
        served, authority = secured(wish, where, host, given["names"])
        secret = open_secret(given["secret"] or _default_secret(where))
        settings = Settings(secret, frozenset(given["names"]), given["tls"], authority)
        return answer(book, settings, (host, port), served)
    finally:
        book.close()


def answer(book: "Book", settings: Any, address: tuple[str, int], served: "Secured", path: str = "") -> int:
    """Answer until somebody stops it."""
    import uvicorn

    from laydown.web.app import make_app
    from laydown.web.server import Server

    app = make_app(book, settings)
    # A tap goes from thread to thread many times; behind a page that calculates it would wait the usual 5 ms each time.
    sys.setswitchinterval(SWITCH_S)
    listening = _listen(*address)
    shown = f"[{address[0]}]" if ":" in address[0] else address[0]
    kind = "https" if served.certificate else "http"
    where = f"{kind}://{shown}:{listening.getsockname()[1]}/{path}"
    config = uvicorn.Config(
        app,
        log_level="warning",
        access_log=False,
        server_header=False,
        # Nobody stands between browser and program, so nobody may say who the caller is.
        proxy_headers=False,
        timeout_graceful_shutdown=3,
        **served.files(),  # type: ignore[arg-type]
    )
    # The server passes the signal on once it has ended; a stop that was asked for is no failure.
    signal.signal(signal.SIGTERM, lambda _number, _frame: None)
    with listening:
        Server(
            config, app.state.watchers, lambda: click.echo(ENGLISH.say("ready", address=Name(where))), served
        ).run([listening])
    return 0


def _listen(host: str, port: int) -> socket.socket:
    """Take the address, or say why it cannot be had."""
    try:
        kind = socket.getaddrinfo(host, port, type=socket.SOCK_STREAM)[0][0]
        listening = socket.create_server((host, port), family=kind)
    except OSError as error:
        hint = message("choose-another-port" if port else "choose-another-host")
        what = message("cannot-be-had", reason=_reason(error))
        raise InputError("", (Problem(f"{host}:{port}", what, hint),)) from None
    # Each call takes this over. Without it the body of an answer waits for the receipt of its head, which the other
    # side may hold back for 40 ms.
    listening.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
    return listening


def _loopback(host: str) -> bool:
    """Whether only this machine can reach an address."""
    try:
        return host == "localhost" or ipaddress.ip_address(host).is_loopback
    except ValueError:
        return False


def _need_password(book: "Book") -> None:
    """Refuse to answer others while anybody may do everything."""
    if not any(one.role == "manager" and one.password_hash for one in book.users()):
        what, hint = message("host-without-password"), message("host-without-password.hint")
        raise InputError("", (Problem("--host", what, hint),))


def _set_password(book: "Book", name: str, role: str) -> int:
    """Ask for a password and keep it."""
    from laydown.web.security.passwords import set_user

    asked = ENGLISH.say("ask-password")
    password = click.prompt(asked, hide_input=True, confirmation_prompt=True, err=True)
    set_user(book, name, role, password)  # type: ignore[arg-type]
    say(ENGLISH.say("password-kept", name=Name(name), user=role))
    return 0


def _default_book() -> Path:
    """Where the book of this user lies."""
    folder = os.environ.get("XDG_DATA_HOME") or Path.home() / ".local" / "share"
    return Path(folder) / "laydown" / "shop.book"


def _default_secret(book: str) -> Path:
    """Beside a book file, or with this user's settings."""
    if "://" not in book:
        return Path(f"{book}.secret")
    folder = os.environ.get("XDG_CONFIG_HOME") or Path.home() / ".config"
    return Path(folder) / "laydown" / "secret"


def _make_folder(folder: Path) -> None:
    """Make the folder of the book."""
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    except OSError as error:
        what, hint = message("folder-cannot-be-made", reason=_reason(error)), message("choose-another-file")
        raise InputError(str(folder), (Problem("--database", what, hint),)) from None


def _reason(error: OSError) -> Name:
    """What the system says of its refusal."""
    return Name(error.strerror or error)
