"""Settings of the shop: units, and who may sign in."""

from time import monotonic
from urllib.parse import urlsplit

from starlette.exceptions import HTTPException
from starlette.responses import RedirectResponse, Response

from laydown.schema.message import message
from laydown.schema.problem import InputError, Problem
from laydown.web.request.door import Call, Door
from laydown.web.request.forms import attachment, fields_of, system_of
from laydown.web.request.render import page
from laydown.web.request.visitor import COOKIE, ROLES, remember
from laydown.web.security.passwords import fits, set_user


def _show(call: Call) -> Response:
    """Ask for the password."""
    return page(call, "login.html", then=_own_path(call.query.get("then", "/")), name="")


def _enter(call: Call) -> Response:
    """Open the role of a password."""
    then = _own_path(str(call.form.get("then", "/")))
    name = str(call.form.get("name", "")).strip()[:40]
    tries = call.state.tries
    caller = call.request.client.host if call.request.client else ""
    wait_s = tries.take_s(caller, monotonic())
    if wait_s > 0:
        problem = Problem(
            "password", message("wrong-too-often"), message("wrong-too-often.mend", wait_s=wait_s)
        )
        answer: Response = page(call, "login.html", 429, then=then, name=name, problems=(problem,))
        answer.headers["retry-after"] = f"{wait_s:.0f}"
        return answer
    user = call.state.book.user(name)
    if not fits(user, str(call.form.get("password", ""))):
        problem = Problem("password", message("wrong-password"), message("wrong-password.mend"))
        return page(call, "login.html", 403, then=then, name=name, problems=(problem,))
    tries.forgive(caller)
    answer = RedirectResponse(then, 303)
    remember(answer, call.state.settings, call.visitor.mark, user)
    return answer


def _leave(_call: Call) -> Response:
    """Forget the visitor."""
    answer = RedirectResponse("/login", 303)
    answer.delete_cookie(COOKIE, path="/")
    return answer


def _own_path(asked: str) -> str:
    """Lead back only to a page of our own."""
    parts = urlsplit(asked)
    own = asked.startswith("/") and not asked.startswith(("//", "/\\")) and not parts.netloc
    return asked if own and asked.isprintable() else "/"


def _show_settings(call: Call) -> Response:
    """Show the settings."""
    return _page(call, {}, ())


def _page(call: Call, answers: dict[str, str], problems: tuple[Problem, ...]) -> Response:
    """Show the settings with what was wrong."""
    users = sorted(call.state.book.users(), key=lambda user: user.name.casefold())
    status = 422 if problems else 200
    return page(
        call,
        "settings.html",
        status,
        users=users,
        roles=ROLES,
        system=system_of(call),
        answers=answers,
        problems=problems,
        authority=bool(call.state.settings.authority),
        ruler=call.query.get("ruler", ""),
    )


def _units(call: Call) -> Response:
    """Keep the units of the shop."""
    units = fields_of(call).get("units", "")
    if units not in {"metric", "us"}:
        return _page(call, {}, (Problem("units", message("not-known"), message("choose-units")),))
    call.state.book.put_setting("units", units)
    return RedirectResponse("/settings", 303)


def _user(call: Call) -> Response:
    """Keep a user; whoever sets the first password stays signed in."""
    answers = fields_of(call)
    role = next((one for one in ROLES if one == answers.get("role")), None)
    book = call.state.book
    if role is None:
        problem = Problem("role", message("not-known"), message("choose-role", user=ROLES))
        return _page(call, answers, (problem,))
    name = answers.get("name", "").strip()
    try:
        set_user(book, name, role, answers.get("password", ""))
    except InputError as error:
        return _page(call, answers, error.problems)
    answer = RedirectResponse("/settings", 303)
    if not call.visitor.locked or call.visitor.name == name:
        remember(answer, call.state.settings, call.visitor.mark, book.user(name))
    return answer


def _authority(call: Call) -> Response:
    """Give the certificate of the shop's authority, for a tablet to install."""
    authority = call.state.settings.authority
    if not authority:
        raise HTTPException(404)
    return attachment(authority, "laydown-shop-ca.crt", "application/x-x509-ca-cert")


DOORS = (
    Door("/login", _show, "anybody"),
    Door("/login", _enter, "anybody", "POST"),
    Door("/logout", _leave, "anybody", "POST"),
    Door("/shop-ca.crt", _authority, "anybody"),
    Door("/settings", _show_settings, "manager"),
    Door("/settings/units", _units, "manager", "POST"),
    Door("/settings/user", _user, "manager", "POST"),
)
"""Doors of this group."""
