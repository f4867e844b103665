"""Opening the book, wherever it is kept."""

import re
from pathlib import Path

from sqlalchemy import URL, make_url
from sqlalchemy.exc import ArgumentError

from laydown.schema.message import Message, Name, message
from laydown.schema.problem import Problem
from laydown.store.book import Book, SqlBook
from laydown.store.faults import BookError
from laydown.store.kept import OWN_SHOP
from laydown.store.postgres import open_server
from laydown.store.sqlite import open_file

SERVERS = ("postgresql", "postgres", "postgresql+psycopg")
"""How the address of a server may begin, before ``://``."""

_SCHEME = re.compile(r"(postgres[a-z0-9+]*|[a-z][a-z0-9+.-]*(?=://)):", re.IGNORECASE)
"""A misspelt address of a server is not taken for a path: the message would repeat its password."""


def open_book(where: str | Path, shop_id: str = OWN_SHOP) -> Book:
    """Open the book and bring its tables up to date."""
    scheme = _SCHEME.match(where) if isinstance(where, str) else None
    if scheme is None:
        return SqlBook(open_file(Path(where)), shop_id)
    url = _url(str(where), scheme[1])
    return SqlBook(open_server(url, place_of(url)), shop_id)


def place_of(url: URL) -> str:
    """Return an address without password and options, for messages."""
    computer = url.host or url.query.get("host") or ""
    return URL.create(
        "postgresql", url.username, None, str(computer), url.port, url.database
    ).render_as_string()


def _url(where: str, scheme: str) -> URL:
    """Read an address; what is wrong with it is said without repeating it."""
    if scheme.lower() not in SERVERS:
        raise _refused(scheme, message("book.no-place", scheme=Name(scheme)))
    try:
        url = make_url(where)
    except (ArgumentError, ValueError):
        raise _refused(scheme, message("book.address-unread")) from None
    if "@" in (url.host or "") or "@" in (url.database or ""):
        raise _refused(scheme, message("book.address-at"))
    if not url.database:
        raise _refused(scheme, message("book.address-short"))
    return url


def _refused(scheme: str, what: Message) -> BookError:
    """Fault of an address."""
    return BookError(f"{scheme}://...", (Problem("book", what, message("book.address")),))
