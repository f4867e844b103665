"""Who is calling: a signed cookie with a random mark and a role, and the token of that visitor's forms."""

import secrets
from dataclasses import dataclass
from hmac import compare_digest

from itsdangerous import BadSignature, URLSafeSerializer, URLSafeTimedSerializer
from starlette.requests import Request
from starlette.responses import Response

from laydown.web.keys import Keys
from laydown.web.roles import ROLES, Role

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
    role: Role | None
    locked: bool
    token: str
    fresh: bool


def visitor_of(request: Request, keys: Keys) -> Visitor:
    """Return who is calling.

    Parameters
    ----------
    request
        The call.
    keys
        Secret and passwords.

    Returns
    -------
    The visitor; without any password set everybody is the manager.
    """
    mark, stored = "", ""
    try:
        kept = _cookies(keys).loads(request.cookies.get(COOKIE, ""), max_age=LIFE_S)
        mark, stored = str(kept["mark"]), str(kept["role"])
    except (BadSignature, KeyError, TypeError):
        stored = ""
    fresh = not mark
    mark = mark or secrets.token_hex(16)
    role: Role | None = "manager"
    if keys.locked:
        role = next((known for known in ROLES if known == stored and known in keys.hashes), None)
    return Visitor(mark, role, keys.locked, _token(keys, mark), fresh)


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


def remember(response: Response, keys: Keys, mark: str, role: Role | None, *, secure: bool) -> None:
    """Give the browser the cookie of a visit.

    Parameters
    ----------
    response
        The answer that carries it.
    keys
        Secret and passwords.
    mark, role
        Visitor and role; without passwords no role is stored, so that setting one puts everybody out.
    secure
        Whether it may only travel with TLS.
    """
    stored = role if keys.locked else None
    value = str(_cookies(keys).dumps({"mark": mark, "role": stored}))
    response.set_cookie(
        COOKIE, value, max_age=LIFE_S, path="/", httponly=True, samesite="strict", secure=secure
    )


def _cookies(keys: Keys) -> URLSafeTimedSerializer:
    return URLSafeTimedSerializer(keys.secret, salt="laydown.visit")


def _token(keys: Keys, mark: str) -> str:
    return str(URLSafeSerializer(keys.secret, salt="laydown.form").dumps(mark))
