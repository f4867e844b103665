"""Who is calling: a signed cookie with a random mark and a name, and the token of that visitor's forms."""

import secrets
from dataclasses import dataclass, field
from hashlib import sha256
from hmac import compare_digest
from typing import Literal

from itsdangerous import BadSignature, URLSafeSerializer, URLSafeTimedSerializer
from starlette.requests import Request
from starlette.responses import Response

from laydown.store.book import Book
from laydown.store.kept import Role, User

ROLES: tuple[Role, ...] = ("manager", "painter", "reader")
"""From the one who may do most to the one who only looks."""

Needed = Literal["anybody", "reader", "painter", "manager"]
"""What a page asks of its visitor; anybody needs no password."""


def may(role: Role | None, needed: Needed) -> bool:
    """Tell whether a role opens a page.

    Parameters
    ----------
    role
        Role of the visitor; None before a password was given.
    needed
        What the page asks for.

    Returns
    -------
    Whether it does.
    """
    if needed == "anybody":
        return True
    return role is not None and ROLES.index(role) <= ROLES.index(needed)


@dataclass(frozen=True, slots=True)
class Settings:
    """How the pages are served.

    Attributes
    ----------
    secret
        Signs the cookies.
    names
        Host names the pages are reached by, besides this machine's own and plain addresses.
    secure
        Whether the pages are served with TLS; cookies are marked accordingly.
    authority
        Certificate of the shop's own authority, for tablets to install; empty without one.
    """

    secret: str
    names: frozenset[str] = field(default_factory=frozenset)
    secure: bool = False
    authority: bytes = b""


COOKIE = "laydown"
"""Name of the one cookie."""

LIFE_S = 30 * 86_400
"""How long a visit is remembered [s]; assumption, a month."""


@dataclass(frozen=True, slots=True)
class Visitor:
    """Who is calling.

    Attributes
    ----------
    mark
        Random text that tells visitors apart.
    name
        Name of the user; empty where no password is asked, or before it was given.
    role
        What the visitor may do; None before the password.
    locked
        Whether this shop asks for passwords.
    token
        Goes into every form and every call of a script, and comes back with it.
    fresh
        Whether the browser does not know the cookie yet.
    """

    mark: str
    name: str
    role: Role | None
    locked: bool
    token: str
    fresh: bool


def visitor_of(request: Request, book: Book, settings: Settings) -> Visitor:
    """Return who is calling; reads the book, so call it off the loop.

    Parameters
    ----------
    request
        The call.
    book
        The book with the users.
    settings
        How the pages are served.

    Returns
    -------
    The visitor; while no manager has a password, everybody is the manager.
    """
    mark = name = seal = ""
    try:
        kept = _cookies(settings).loads(request.cookies.get(COOKIE, ""), max_age=LIFE_S)
        mark, name, seal = (str(kept[key]) for key in ("mark", "name", "seal"))
    except (BadSignature, KeyError, TypeError, ValueError):
        mark = name = seal = ""
    fresh = not mark
    mark = mark or secrets.token_hex(16)
    token = _token(settings, mark)
    users = book.users()
    if not any(one.role == "manager" and one.password_hash for one in users):
        return Visitor(mark, "", "manager", locked=False, token=token, fresh=fresh)
    user = next((one for one in users if one.name == name and compare_digest(_seal(one), seal)), None)
    role = user.role if user is not None else None
    return Visitor(mark, name if user else "", role, locked=True, token=token, fresh=fresh)


def token_fits(visitor: Visitor, given: str) -> bool:
    """Tell whether a form belongs to its visitor.

    Parameters
    ----------
    visitor
        Who is calling.
    given
        Token that came with the form.

    Returns
    -------
    Whether it is the visitor's own.
    """
    return compare_digest(visitor.token.encode(), given.encode())


def remember(response: Response, settings: Settings, mark: str, user: User | None) -> None:
    """Give the browser the cookie of a visit.

    Parameters
    ----------
    response
        The answer that carries it.
    settings
        How the pages are served.
    mark
        The visitor.
    user
        Who signed in; None before. A new password puts everybody out who knew the old one.
    """
    name, seal = (user.name, _seal(user)) if user is not None else ("", "")
    value = str(_cookies(settings).dumps({"mark": mark, "name": name, "seal": seal}))
    response.set_cookie(
        COOKIE, value, max_age=LIFE_S, path="/", httponly=True, samesite="strict", secure=settings.secure
    )


def _seal(user: User) -> str:
    """Short text that changes with password and role."""
    return sha256(f"{user.role} {user.password_hash}".encode()).hexdigest()[:24]


def _cookies(settings: Settings) -> URLSafeTimedSerializer:
    return URLSafeTimedSerializer(settings.secret, salt="laydown.visit")


def _token(settings: Settings, mark: str) -> str:
    return str(URLSafeSerializer(settings.secret, salt="laydown.form").dumps(mark))
