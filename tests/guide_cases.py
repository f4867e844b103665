"""A book with the shipped wing and door, planned once, and the pages over it; shared by the tests of the live view."""

import sqlite3
import time
from functools import cache

from laydown.desk.book_files import bring_in
from laydown.desk.book_plans import Ready, open_kept_plan
from laydown.desk.session import open_session
from laydown.reader.shelf import shipped_folder
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

    def rows(self, session):
        """Taps of a session as the database has them, without the one that opened it."""
        with sqlite3.connect(self.file) as connection:
            found = connection.execute(
                "SELECT tap_id, text FROM events WHERE session_id = ? ORDER BY number", (session,)
            ).fetchall()
        return found[1:]
