"""A door: one path, one method, what it asks of its visitor, and the page behind it.

Pages are plain functions from a call to an answer; reading the form, the role and the token is done here, once,
so that no page can forget it.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any, Literal
from urllib.parse import quote

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import FormData
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from laydown.schema.message import Message, message
from laydown.web.request.visitor import Needed, Visitor, may, remember, token_fits, visitor_of

TOKEN_FIELD = "token"  # noqa: S105 - name of a form field
"""Name of the form field with the visitor's token."""

TOKEN_HEADER = "x-laydown-token"  # noqa: S105 - name of a header
"""Header with the visitor's token, for calls by a script."""

MOST_FIELDS = 400
"""Fields of one form; assumption, a job with 40 panels has 200."""


class TurnedAway(HTTPException):
    """A call that is refused; what is said of it is put into words where the answer is made."""

    def __init__(self, status: int, said: Message) -> None:
        super().__init__(status, said.code)
        self.said = said


@dataclass(frozen=True, slots=True)
class Call:
    """What a page is given."""

    request: Request
    visitor: Visitor
    state: Any
    path: Mapping[str, Any]
    query: Mapping[str, str]
    form: FormData = field(default_factory=FormData)
    body: bytes = b""


@dataclass(frozen=True, slots=True)
class Door:
    """One path with one method."""

    path: str
    page: Callable[[Call], Response]
    needs: Needed
    method: Literal["GET", "POST"] = "GET"

    def route(self) -> Route:
        """Return the route of the door."""

        async def enter(request: Request) -> Response:
            return await _enter(self, request)

        return Route(self.path, enter, methods=[self.method], name=f"{self.method} {self.path}")


async def _enter(door: Door, request: Request) -> Response:
    """Check visitor and token, call the page, and see the visitor out with a cookie."""
    if door.method == "GET":
        return await run_in_threadpool(_look, door, request)
    visitor = await run_in_threadpool(visitor_of, request, request.app.state.book, request.app.state.settings)
    if not may(visitor.role, door.needs):
        return _refused(request, visitor)
    form, body = await _read(request, visitor)
    return await run_in_threadpool(_answer, door, _call(request, visitor, form, body))


def _look(door: Door, request: Request) -> Response:
    """All of a call that changes nothing, in one thread: there is no body to wait for."""
    visitor = visitor_of(request, request.app.state.book, request.app.state.settings)
    if not may(visitor.role, door.needs):
        return _refused(request, visitor)
    return _answer(door, _call(request, visitor, FormData(), b""))


def _answer(door: Door, call: Call) -> Response:
    """Call the page; a new visitor is given a cookie."""
    answer = door.page(call)
    # A page where somebody signed in has set the cookie itself.
    if call.visitor.fresh and "set-cookie" not in answer.headers:
        remember(answer, call.state.settings, call.visitor.mark, None)
    return answer


def _call(request: Request, visitor: Visitor, form: FormData, body: bytes) -> Call:
    """What a page is given."""
    query = dict(request.query_params)
    return Call(request, visitor, request.app.state, request.path_params, query, form, body)


def _refused(request: Request, visitor: Visitor) -> Response:
    """Send a stranger to the password, and tell others what they may not do."""
    if visitor.role is not None:
        raise TurnedAway(403, message("not-open", user=visitor.role))
    if request.method != "GET" or "text/html" not in request.headers.get("accept", "text/html"):
        raise TurnedAway(401, message("password-first"))
    path = request.url.path + (f"?{request.url.query}" if request.url.query else "")
    return RedirectResponse(f"/login?then={quote(path, safe='')}", 303)


async def _read(request: Request, visitor: Visitor) -> tuple[FormData, bytes]:
    """Read form or body of a change, which needs the visitor's own token."""
    form, body = FormData(), b""
    kind = request.headers.get("content-type", "").partition(";")[0].strip().lower()
    if kind in {"multipart/form-data", "application/x-www-form-urlencoded"}:
        form = await request.form(max_fields=MOST_FIELDS, max_files=4)
    else:
        body = await request.body()
    given = request.headers.get(TOKEN_HEADER) or str(form.get(TOKEN_FIELD, ""))
    if not token_fits(visitor, given):
        raise TurnedAway(403, message("form-too-old"))
    return form, body
