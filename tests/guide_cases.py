"""A book with the shipped wing and door, planned once, and the pages over it; shared by the tests of the live view."""

import sqlite3
import time
from functools import cache

from laydown.booth.standing import standing_of
from laydown.desk.book_files import bring_in
from laydown.desk.book_plans import Ready, open_kept_plan
from laydown.desk.session import open_session, read_live, text_of
from laydown.desk.session_ahead import event_of, present
from laydown.reader.shelf import shipped_folder
from laydown.store.kept import KeptEvent
from laydown.store.opening import open_book
from laydown.web.app import make_app
from laydown.web.settings import Settings

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
