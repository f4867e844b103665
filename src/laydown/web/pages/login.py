"""The password."""

from time import monotonic
from urllib.parse import urlsplit

from starlette.responses import RedirectResponse, Response

from laydown.schema.problem import Problem
from laydown.web.door import Call, Door
from laydown.web.passwords import fits
from laydown.web.render import page
from laydown.web.visit import COOKIE, remember


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
        problem = Problem("password", "was wrong too often", f"wait {wait_s:.0f} s and try again")
        answer: Response = page(call, "login.html", 429, then=then, name=name, problems=(problem,))
        answer.headers["retry-after"] = f"{wait_s:.0f}"
        return answer
    user = call.state.book.user(name)
    if not fits(user, str(call.form.get("password", ""))):
        what = "does not go with this name"
        problem = Problem("password", what, "mind capital letters; a manager can set a new one")
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


DOORS = (
    Door("/login", _show, "anybody"),
    Door("/login", _enter, "anybody", "POST"),
    Door("/logout", _leave, "anybody", "POST"),
)
"""Doors of this group."""
