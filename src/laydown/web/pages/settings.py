"""Settings of the shop: units, and who may sign in."""

from starlette.exceptions import HTTPException
from starlette.responses import RedirectResponse, Response

from laydown.schema.problem import InputError, Problem
from laydown.web.door import Call, Door
from laydown.web.forms import attachment, fields_of, system_of
from laydown.web.passwords import set_user
from laydown.web.render import page
from laydown.web.roles import ROLES
from laydown.web.visit import remember


def _show(call: Call) -> Response:
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
        return _page(call, {}, (Problem("units", "is not known", "choose metric or US"),))
    call.state.book.put_setting("units", units)
    return RedirectResponse("/settings", 303)


def _user(call: Call) -> Response:
    """Keep a user; whoever sets the first password stays signed in."""
    answers = fields_of(call)
    role = next((one for one in ROLES if one == answers.get("role")), None)
    book = call.state.book
    if role is None:
        return _page(call, answers, (Problem("role", "is not known", f"choose one of {', '.join(ROLES)}"),))
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
        raise HTTPException(404, "This desk has no authority of its own.")
    return attachment(authority, "laydown-shop-ca.crt", "application/x-x509-ca-cert")


DOORS = (
    Door("/shop-ca.crt", _authority, "anybody"),
    Door("/settings", _show, "manager"),
    Door("/settings/units", _units, "manager", "POST"),
    Door("/settings/user", _user, "manager", "POST"),
)
"""Doors of this group."""
