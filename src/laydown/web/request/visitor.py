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
from laydown.store.kept import User, UserRole

ROLES: tuple[UserRole, ...] = ("manager", "painter", "reader")
"""From the one who may do most to the one who only looks."""

Needed = Literal["anybody", "reader", "painter", "manager"]
"""What a page asks of its visitor; anybody needs no password."""


def may(role: UserRole | None, needed: Needed) -> bool:
    """Tell whether a role opens a page."""
    if needed == "anybody":
        return True
    return role is not None and ROLES.index(role) <= ROLES.index(needed)


@dataclass(frozen=True, slots=True)
class Settings:
    """How the pages are served."""

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
    """Who is calling."""

    mark: str
    name: str
    role: UserRole | None
    locked: bool
    token: str
    fresh: bool


def visitor_of(request: Request, book: Book, settings: Settings) -> Visitor:
    """Return who is calling; reads the book, so call it off the loop."""
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
    """Tell whether a form belongs to its visitor."""
    return compare_digest(visitor.token.encode(), given.encode())


def remember(response: Response, settings: Settings, mark: str, user: User | None) -> None:
    """Give the browser the cookie of a visit."""
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
