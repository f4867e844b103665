"""A book with the shipped wing and door, planned once, and the pages over it; shared by the tests of the live view."""

import asyncio
import re
import sqlite3
import time
from concurrent.futures import ThreadPoolExecutor
from functools import cache

import httpx

from laydown.booth.progress import standing_of
from laydown.desk.exchange import bring_in
from laydown.desk.plans.kept import Ready, open_kept_plan
from laydown.desk.sessions.ahead import event_of, present
from laydown.desk.sessions.session import open_session, read_live, text_of
from laydown.reader.papers.shelf import shipped_folder
from laydown.store.kept import KeptEvent
from laydown.store.opening import open_book
from laydown.web.app import make_app
from laydown.web.request.visitor import Settings

AT = "2026-11-25T09:00:00Z"
SECRET = "a secret for tests only, nobody keeps anything with it"


class TurnedClock:
    """Runs with the real clock, and can be turned on."""

    def __init__(self):
        self.ahead_s = 0.0

    def __call__(self):
        return time.time() + self.ahead_s


@cache
def job_bytes(name="wing-and-door"):
    return (shipped_folder() / "jobs" / f"{name}.toml").read_bytes()


class Booth:
    """A book with one planned job, the pages over it, and a way to look into the book past the program."""

    def __init__(self, folder, names=()):
        self.file = folder / "shop.book"
        self.clock = TurnedClock()
        self.book = open_book(self.file)
        self.plan_id = bring_in(self.book, job_bytes(), "job.toml", AT)[1]
        self.plan = open_kept_plan(self.book, Ready(), self.plan_id)[0]
        self.app = make_app(self.book, Settings(SECRET, frozenset(names)), self.clock)

    def new_session(self):
        return open_session(self.book, self.plan, self.clock(), fresh=True)

    def session_at(self, step):
        """A new session in which everything was tapped as planned until a step is reached."""
        session = self.new_session()
        for number in range(90):
            live = read_live(self.book, Ready(), session)
            now_s = self.clock()
            node = present(standing_of(live.plan, live.session, now_s), now_s)
            if node.key.split("/", 1)[1].startswith(step):
                return session
            buttons = [ask.yes for ask in node.asks if not ask.answer]
            buttons += [button for button in node.phases[0].screen.buttons if button.main]
            event = event_of(buttons[0], f"before-{number}", self.clock())
            self.book.add_events(session, [KeptEvent(event.id, AT, AT, text_of(event))])
        raise AssertionError(f"{step} was not reached")

    def rows(self, session):
        """Taps of a session as the database has them, without those made before the test began."""
        with sqlite3.connect(self.file) as connection:
            found = connection.execute(
                "SELECT tap_id, text FROM events WHERE session_id = ? ORDER BY number", (session,)
            ).fetchall()
        return [row for row in found[1:] if not row[0].startswith("before-")]


class Visitor:
    """Somebody with a browser that runs no scripts."""

    def __init__(self, booth, session):
        self.client = httpx.Client(transport=InThisProcess(booth.app), base_url="http://127.0.0.1")
        self.session = session
        self.page = self.get("")
        self.token = re.search(r'data-token="([^"]+)"', self.page.text)[1]
        self.number = 0

    def get(self, path, **query):
        return self.client.get(f"/guide/{self.session}{path}", params=query)

    def taps(self, *events, ids=None, token=None):
        names = ids or [self._id() for _ in events]
        taps = [
            {"id": name, "at_s": 1.8e9 + self.number, "event": event}
            for name, event in zip(names, events, strict=True)
        ]
        return self.post("/taps", json={"taps": taps}, token=token)

    def post(self, path, token=None, **content):
        headers = {"x-laydown-token": self.token if token is None else token, "accept": "application/json"}
        return self.client.post(f"/guide/{self.session}{path}", headers=headers, **content)

    def _id(self):
        self.number += 1
        return f"tap-{self.session}-{self.number}"


class InThisProcess(httpx.BaseTransport):
    """Calls an application from code that does not wait, each call in a loop of its own thread."""

    def __init__(self, app):
        self.transport = httpx.ASGITransport(app=app)

    def handle_request(self, request):
        with ThreadPoolExecutor(1) as threads:
            return threads.submit(asyncio.run, self._ask(request)).result()

    async def _ask(self, request):
        sent = httpx.Request(request.method, request.url, headers=request.headers, content=request.read())
        answer = await self.transport.handle_async_request(sent)
        return httpx.Response(answer.status_code, headers=answer.headers, content=await answer.aread())
