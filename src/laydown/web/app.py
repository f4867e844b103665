"""The application: doors of all pages behind one guard; nothing is computed here."""

import logging
from collections.abc import Callable, Iterable
from time import time

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.datastructures import Headers
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import HTMLResponse, JSONResponse, PlainTextResponse, RedirectResponse, Response
from starlette.routing import BaseRoute, Mount
from starlette.staticfiles import StaticFiles
from starlette.types import Scope

from laydown.desk.plans.kept import Ready
from laydown.report.kit.typeface import font_folder
from laydown.schema.problem import InputError
from laydown.store.book import Book
from laydown.store.faults import BookError
from laydown.version import VERSION
from laydown.web.pages import (
    day,
    fault,
    guide,
    jobs,
    new_job,
    panel,
    plan,
    pour,
    readings,
    second_save,
    shelf,
    sides,
    sign_in,
)
from laydown.web.request.door import Call, Door
from laydown.web.request.render import HERE, environment, page
from laydown.web.request.visitor import Settings, visitor_of
from laydown.web.request.watchers import Watchers
from laydown.web.security.passwords import Tries
from laydown.web.security.refused import LARGEST_BODY, Guard, TooLarge

_LOG = logging.getLogger(__name__)


def _home(_call: Call) -> Response:
    """Lead to the list of jobs."""
    return RedirectResponse("/jobs", 303)


def _health(call: Call) -> Response:
    """Tell that the program answers, for whoever watches over it."""
    return JSONResponse({"status": "ok", "version": VERSION, "book": call.state.book.kind})


PAGES: tuple[tuple[Door, ...], ...] = (
    (Door("/", _home, "reader"), Door("/healthz", _health, "anybody")),
    sign_in.DOORS,
    guide.DOORS,
    fault.DOORS,
    day.DOORS,
    jobs.DOORS,
    new_job.DOORS,
    panel.DOORS,
    plan.DOORS,
    pour.DOORS,
    second_save.DOORS,
    readings.DOORS,
    shelf.DOORS,
    sides.DOORS,
)
"""Doors of each group of pages; a new group is added here."""


MOST_COURSES = 400
"""Screens of live views kept ready; assumption, four for each of a hundred tablets."""


class _Static(StaticFiles):
    """Files that change only with the version, which stands in their address."""

    async def get_response(self, path: str, scope: Scope) -> Response:
        answer = await super().get_response(path, scope)
        # Scripts import each other without a version, so they are asked for again; unchanged ones cost nothing.
        answer.headers["cache-control"] = "no-cache" if path.endswith(".js") else "public, max-age=3600"
        return answer


def make_app(book: Book, settings: Settings, clock: Callable[[], float] = time) -> Starlette:
    """Return the application.

    Parameters
    ----------
    book
        What keeps jobs and plans.
    settings
        How the pages are served.
    clock
        Seconds since 1970, for the live view.

    Returns
    -------
    The application; every page stands behind a door.
    """
    app = Starlette(
        routes=_routes(door for doors in PAGES for door in doors),
        middleware=[Middleware(Guard, names=settings.names, too_large=_too_large_said)],
        exception_handlers={
            HTTPException: _http_fault,
            InputError: _input_fault,
            TooLarge: _too_large,
            Exception: _own_fault,
        },
    )
    app.state.book = book
    app.state.ready = Ready()
    app.state.courses = Ready(MOST_COURSES)
    app.state.watchers = Watchers(book.last_numbers)
    app.state.clock = clock
    app.state.settings = settings
    app.state.tries = Tries()
    return app


def _routes(doors: Iterable[Door]) -> list[BaseRoute]:
    """Return the routes of all doors, and the static files."""
    routes: list[BaseRoute] = [door.route() for door in doors]
    routes.append(Mount("/static", _Static(directory=HERE / "static"), name="static"))
    routes.append(Mount("/font", _Static(directory=font_folder()), name="font"))
    return routes


async def _said(
    request: Request, status: int, head: str, text: str, error: InputError | None = None
) -> Response:
    """Say what went wrong, as a page or, to a script, as JSON."""
    problems = error.problems if error else ()
    if "text/html" not in request.headers.get("accept", "text/html"):
        said = [{"where": one.where, "what": one.what, "hint": one.hint} for one in problems]
        return JSONResponse({"status": status, "text": text, "problems": said}, status)
    state = request.app.state
    try:
        visitor = await run_in_threadpool(visitor_of, request, state.book, state.settings)
    except BookError as fault:
        # Without the book nobody is known, so no page can be made: plain words.
        lines = [f"The book {one.what}: {one.hint}." for one in fault.problems]
        return PlainTextResponse("\n".join(lines), 503)
    call = Call(request, visitor, state, {}, {})
    return page(call, "fault.html", status, head=head, text=text, problems=problems)


async def _http_fault(request: Request, error: Exception) -> Response:
    """Say what was refused."""
    known = {404: "There is no such page.", 405: "This address does not take that."}
    status = error.status_code if isinstance(error, HTTPException) else 500
    detail = error.detail if isinstance(error, HTTPException) else ""
    answer = await _said(request, status, "Not possible", known.get(status, detail))
    if isinstance(error, HTTPException) and error.headers:
        answer.headers.update(error.headers)
    return answer


async def _input_fault(request: Request, error: Exception) -> Response:
    """List what is wrong with what was given."""
    given = error if isinstance(error, InputError) else None
    if isinstance(given, BookError):
        return await _said(
            request, 503, "The book does not answer", "Keep to the card; what was kept stays kept.", given
        )
    text = given.file if given and given.file else "Mend what is listed and send it again."
    return await _said(request, 422, "This cannot be read", text, given)


def _too_large_said(headers: Headers) -> Response:
    """Say that a body is too large, as a page or, to a script, as plain words."""
    if "text/html" not in headers.get("accept", ""):
        return PlainTextResponse("Too large.", 413)
    text = environment().get_template("too_large.html").render(largest=LARGEST_BODY, version=VERSION)
    return HTMLResponse(text, 413)


async def _too_large(request: Request, _error: Exception) -> Response:
    """Refuse the rest of a body."""
    answer = _too_large_said(request.headers)
    answer.headers["connection"] = "close"
    return answer


async def _own_fault(request: Request, error: Exception) -> Response:
    """Admit a fault of the program; what is kept in the book is not touched."""
    _LOG.error("fault in laydown at %s", request.url.path, exc_info=error)
    text = "Nothing that was saved is lost. Load the page again; if it stays, keep to the card."
    return await _said(request, 500, "Fault in laydown", text)
