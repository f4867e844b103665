"""The application: doors of all pages behind one guard; nothing is computed here."""

import logging
from collections.abc import Callable, Iterable
from dataclasses import dataclass
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
from laydown.schema.message import Message, Name, Saying, message
from laydown.schema.problem import InputError, Problem
from laydown.store.book import Book
from laydown.store.faults import BookError
from laydown.version import VERSION
from laydown.web.pages import (
    day,
    fix,
    guide,
    jobs,
    mix_sheet,
    new_job,
    panel,
    plan,
    readings,
    second_save,
    shelf,
    sides,
    sign_in,
)
from laydown.web.request.door import Call, Door, TurnedAway
from laydown.web.request.forms import words_in_book
from laydown.web.request.render import HERE, environment, page
from laydown.web.request.visitor import Settings, visitor_of
from laydown.web.request.watchers import Watchers
from laydown.web.security.passwords import Tries
from laydown.web.security.refused import LARGEST_BODY, Guard, TooLarge
from laydown.words.show import ENGLISH, Words

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
    fix.DOORS,
    day.DOORS,
    second_save.DOORS,
    jobs.DOORS,
    new_job.DOORS,
    panel.DOORS,
    plan.DOORS,
    mix_sheet.DOORS,
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
    """Return the application."""
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


@dataclass(frozen=True, slots=True)
class _Said:
    """What went wrong: head, what to do, and every problem of what was given."""

    status: int
    head: Message
    text: Saying
    problems: tuple[Problem, ...] = ()


def _answer(request: Request, said: _Said) -> Response:
    """Say what went wrong, as a page or, to a script, as JSON; reads the book, so call it off the loop."""
    state = request.app.state
    try:
        words = words_in_book(state.book)
        if "text/html" not in request.headers.get("accept", "text/html"):
            return _json(said, words)
        visitor = visitor_of(request, state.book, state.settings)
        head, text = words(said.head), words(said.text)
        call = Call(request, visitor, state, {}, {})
        return page(call, "fault.html", said.status, head=head, text=text, problems=said.problems)
    except BookError as fault:
        if "text/html" not in request.headers.get("accept", "text/html"):
            return _json(said, ENGLISH)
        # Without the book nobody is known, so no page can be made: plain words.
        lines = [ENGLISH.say("book-silent.plain", what=one.what, hint=one.hint) for one in fault.problems]
        return PlainTextResponse("\n".join(lines), 503)


def _json(said: _Said, words: Words) -> Response:
    """What went wrong, for a script."""
    problems = [
        {"where": one.where, "what": words(one.what), "hint": words(one.hint)} for one in said.problems
    ]
    return JSONResponse({"status": said.status, "text": words(said.text), "problems": problems}, said.status)


async def _http_fault(request: Request, error: Exception) -> Response:
    """Say what was refused."""
    status = error.status_code if isinstance(error, HTTPException) else 500
    text: Saying = error.detail if isinstance(error, HTTPException) else ""
    if isinstance(error, TurnedAway):
        text = error.said
    known = {404: message("no-such-page"), 405: message("address-takes-not")}
    said = _Said(status, message("not-possible"), known.get(status, text))
    answer = await run_in_threadpool(_answer, request, said)
    if isinstance(error, HTTPException) and error.headers:
        answer.headers.update(error.headers)
    return answer


async def _input_fault(request: Request, error: Exception) -> Response:
    """List what is wrong with what was given."""
    problems = error.problems if isinstance(error, InputError) else ()
    if isinstance(error, BookError):
        said = _Said(503, message("book-silent"), message("book-silent.do"), problems)
    else:
        file = error.file if isinstance(error, InputError) else ""
        text = Name(file) if file else message("cannot-read.do")
        said = _Said(422, message("cannot-read"), text, problems)
    return await run_in_threadpool(_answer, request, said)


def _too_large_said(headers: Headers) -> Response:
    """Say that a body is too large, as a page or, to a script, as plain words."""
    if "text/html" not in headers.get("accept", ""):
        return PlainTextResponse(ENGLISH.say("too-large"), 413)
    text = environment().get_template("too_large.html").render(largest=LARGEST_BODY)
    return HTMLResponse(text, 413)


async def _too_large(request: Request, _error: Exception) -> Response:
    """Refuse the rest of a body."""
    answer = _too_large_said(request.headers)
    answer.headers["connection"] = "close"
    return answer


async def _own_fault(request: Request, error: Exception) -> Response:
    """Admit a fault of the program; what is kept in the book is not touched."""
    _LOG.error("fault in laydown at %s", request.url.path, exc_info=error)
    said = _Said(500, message("own-fault"), message("own-fault.do"))
    return await run_in_threadpool(_answer, request, said)
