"""Screens that watch: what the stream says and how soon, how many there may be, who is refused, how it ends.

The form of the stream: WHATWG HTML, "Server-sent events": lines ``data: ...`` closed by an empty line, text/event-stream.
"""

import http.client
import json
import re
import socket
import threading
import time
from contextlib import closing

import pytest
import uvicorn

from cases.guide import AT, Booth
from laydown.schema.problem import Problem
from laydown.store.faults import BookError
from laydown.store.kept import KeptEvent
from laydown.store.opening import open_book
from laydown.web.request import watchers
from laydown.web.server import Server

SOON_S = 0.5
"""Wanted: a second screen shows a tap within about half a second; the stream itself needs less."""


class Served:
    """The pages on a real server in a thread, for a stream cannot be asked without one."""

    def __init__(self, folder):
        self.booth = Booth(folder)
        listening = socket.create_server(("127.0.0.1", 0))
        self.port = listening.getsockname()[1]
        config = uvicorn.Config(self.booth.app, log_level="critical", lifespan="off")
        self.server = Server(config, self.booth.app.state.watchers, lambda: None)
        self.thread = threading.Thread(target=self.server.run, kwargs={"sockets": [listening]})
        self.thread.start()

    def call(self, method, path, body=None, **headers):
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=10)
        sent = {name.replace("_", "-"): value for name, value in headers.items()}
        connection.request(method, path, body, sent)
        return connection, connection.getresponse()

    def tap(self, session, *, number=1):
        """One tap as a tablet sends it."""
        connection, page = self.call("GET", f"/guide/{session}")
        with closing(connection):
            cookie = page.headers["set-cookie"].partition(";")[0]
            token = re.search(r'data-token="([^"]+)"', page.read().decode())[1]
        taps = {"taps": [{"id": f"tap-{number}", "at_s": 1.8e9, "event": {"kind": "note", "text": "a"}}]}
        connection, answer = self.call(
            "POST", f"/guide/{session}/taps", json.dumps(taps), cookie=cookie, x_laydown_token=token
        )
        with closing(connection):
            assert answer.status == 200
            return json.loads(answer.read())["state"]["version"]

    def stop(self):
        self.server.should_exit = True
        self.thread.join(10)
        self.booth.book.close()


class Listener:
    """A screen that watches."""

    def __init__(self, served, session):
        self.connection, self.answer = served.call("GET", f"/guide/{session}/stream")
        assert self.answer.status == 200
        assert self.answer.headers["content-type"].startswith("text/event-stream")

    def hear(self):
        """The next message; None once the stream has ended."""
        lines = []
        while (line := self.answer.readline().decode()) not in {"\n", ""}:
            lines.append(line)
        return int("".join(lines).removeprefix("data: ")) if lines else None

    def hear_other_than(self, number):
        while (heard := self.hear()) == number:
            pass
        return heard

    def leave(self):
        self.answer.close()
        self.connection.close()


@pytest.fixture
def served(tmp_path):
    made = Served(tmp_path)
    yield made
    made.stop()
    assert not made.thread.is_alive()


def test_a_tap_is_heard_by_every_screen_within_half_a_second(served):
    session = served.booth.new_session()
    listeners = [Listener(served, session) for _ in range(3)]
    assert {one.hear() for one in listeners} == {1}
    heard = {}

    def listen(one):
        heard[one] = (one.hear_other_than(1), time.monotonic())

    threads = [threading.Thread(target=listen, args=(one,)) for one in listeners]
    for thread in threads:
        thread.start()
    version = served.tap(session)
    acknowledged = time.monotonic()
    for thread in threads:
        thread.join(10)
    assert [number for number, _ in heard.values()] == [version] * 3
    assert max(at for _, at in heard.values()) - acknowledged < SOON_S


def test_a_tap_of_another_session_is_not_heard(served, monkeypatch):
    monkeypatch.setattr(watchers, "STILL_S", 0.3)
    session, other = served.booth.new_session(), served.booth.new_session()
    listener = Listener(served, session)
    served.tap(other)
    assert [listener.hear() for _ in range(4)] == [1] * 4


def test_a_tap_kept_by_another_process_is_heard_from_the_book(served):
    session = served.booth.new_session()
    listener = Listener(served, session)
    assert listener.hear() == 1
    elsewhere = open_book(served.booth.file)
    elsewhere.add_events(session, [KeptEvent("elsewhere", AT, AT, '{"id":"e","at_s":1.8e9,"kind":"note"}')])
    kept = time.monotonic()
    elsewhere.close()
    assert listener.hear_other_than(1) == 2
    assert time.monotonic() - kept < watchers.LOOK_S + SOON_S


def test_the_book_is_asked_once_a_second_for_all_screens_together(served):
    asked = []
    real = served.booth.app.state.watchers._last_numbers
    served.booth.app.state.watchers._last_numbers = lambda names: (asked.append(names), real(names))[1]
    sessions = [served.booth.new_session() for _ in range(2)]
    listeners = [Listener(served, session) for session in sessions for _ in range(5)]
    asked.clear()
    time.sleep(3.2)
    assert 2 <= len(asked) <= 4
    assert asked[-1] == sorted(sessions)
    for one in listeners:
        one.leave()
    deadline = time.monotonic() + 5
    while served.booth.app.state.watchers._open:
        assert time.monotonic() < deadline, "who has gone is still watched for"
        time.sleep(0.05)
    time.sleep(1.2)
    asked.clear()
    time.sleep(1.5)
    assert asked == [], "nobody watches, so the book is left alone"


def test_something_is_said_though_nothing_happens(served, monkeypatch):
    monkeypatch.setattr(watchers, "STILL_S", 0.2)
    listener = Listener(served, served.booth.new_session())
    begun = time.monotonic()
    assert [listener.hear() for _ in range(4)] == [1] * 4
    assert 0.5 < time.monotonic() - begun < 2.0


def test_a_stream_ends_after_its_time_so_that_its_visitor_is_looked_at_anew(served, monkeypatch):
    monkeypatch.setattr(watchers, "STILL_S", 0.1)
    monkeypatch.setattr(watchers, "LONGEST_S", 0.3)
    listener = Listener(served, served.booth.new_session())
    heard = []
    while (number := listener.hear()) is not None:
        heard.append(number)
    assert 2 <= len(heard) <= 5


def test_more_screens_than_there_is_room_for_are_told_and_let_in_when_one_leaves(served):
    served.booth.app.state.watchers.most = 2
    session = served.booth.new_session()
    listeners = [Listener(served, session) for _ in range(2)]
    connection, refused = served.call("GET", f"/guide/{session}/stream")
    with closing(connection):
        assert refused.status == 503
        assert "asks every few seconds" in refused.read().decode()
    listeners[0].leave()
    deadline = time.monotonic() + 5
    while True:
        connection, answer = served.call("GET", f"/guide/{session}/stream")
        if answer.status == 200:
            break
        connection.close()
        assert time.monotonic() < deadline
        time.sleep(0.05)


def test_forty_screens_need_no_threads_of_their_own(served):
    session = served.booth.new_session()
    first = Listener(served, session)
    first.hear()
    before = threading.active_count()
    listeners = [Listener(served, session) for _ in range(40)]
    assert [one.hear() for one in listeners] == [1] * 40
    assert threading.active_count() - before < 5


def test_a_stream_for_a_page_of_another_site_or_of_no_session_is_refused(served):
    session = served.booth.new_session()
    for path, headers, status in (
        (session, {"sec_fetch_site": "cross-site"}, 403),
        (session, {"origin": "https://elsewhere.example"}, 403),
        ("nobody", {}, 404),
    ):
        connection, answer = served.call(
            "GET", f"/guide/{path}/stream", accept="text/event-stream", **headers
        )
        with closing(connection):
            assert answer.status == status


def test_a_book_that_does_not_answer_ends_the_streams(served):
    listener = Listener(served, served.booth.new_session())
    assert listener.hear() == 1

    def fails(_names):
        raise BookError("shop.book", (Problem("book", "is gone", "plug it in"),))

    served.booth.app.state.watchers._last_numbers = fails
    begun = time.monotonic()
    while listener.hear() is not None:
        pass
    assert time.monotonic() - begun < watchers.LOOK_S + SOON_S


def test_the_server_stops_at_once_though_screens_watch(served):
    listeners = [Listener(served, served.booth.new_session()) for _ in range(5)]
    for one in listeners:
        one.hear()
    begun = time.monotonic()
    served.stop()
    assert time.monotonic() - begun < 2.0
    assert [one.hear() for one in listeners] == [None] * 5, "each stream is closed in order, not cut"
