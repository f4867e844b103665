"""The server is killed while taps come in: no tap that was acknowledged is lost, and none counts twice.

A kill leaves the operating system alive, so this says nothing about a power cut; for that the database writes through
to the disk at each commit, which no test here can see.
"""

import os
import random
import re
import signal
import sqlite3
import subprocess
import sys
import threading
import time
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack

import httpx

from laydown.reader.encode import to_json

KILLS = int(os.environ.get("LAYDOWN_KILLS", "4"))
"""How often the server is killed; 300 for the full measurement."""

PAINTERS = 3


class Server:
    """The live view as a process of its own, killed without warning."""

    def __init__(self, folder, plan):
        self.plan = folder / "plan.json"
        self.plan.write_text(to_json(plan), encoding="utf-8")
        self.book = folder / "guide.book"
        self.port = 0
        self.address = ""

    def start(self):
        command = [sys.executable, "-m", "laydown", "guide", str(self.plan), "--port", str(self.port)]
        self.process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
        line = self.process.stdout.readline()
        found = re.fullmatch(r"ready (http://127\.0\.0\.1:(\d+))/guide/(\w+)\n", line)
        assert found, f"the server said {line!r}"
        self.address, self.port, self.session = found[1], int(found[2]), found[3]

    def kill(self):
        self.process.send_signal(signal.SIGKILL)
        self.process.wait()
        self.process.stdout.close()


class Painter:
    """A tablet: keeps taps until they are acknowledged, sends what waits again and again."""

    def __init__(self, server, name):
        self.server, self.name = server, name
        self.waiting, self.acknowledged, self.made = {}, set(), 0
        self.stop = threading.Event()

    def run(self):
        client = None
        while not self.stop.is_set() or self.waiting:
            if not self.stop.is_set() and len(self.waiting) < 20:
                self.made += 1
                tap = f"{self.name}-{self.made}"
                self.waiting[tap] = {"id": tap, "at_s": time.time(), "event": {"kind": "note", "text": tap}}
            try:
                client = client or self._visit()
                self._send(client)
                time.sleep(0.02)  # nobody taps faster
            except (httpx.HTTPError, OSError):
                client = None  # the server is away: the taps stay, and are sent again
                time.sleep(0.01)

    def _visit(self):
        client = httpx.Client(base_url=self.server.address, timeout=5)
        page = client.get(f"/guide/{self.server.session}").text
        client.headers["x-laydown-token"] = re.search(r'data-token="([^"]+)"', page)[1]
        return client

    def _send(self, client):
        taps = list(self.waiting.values())[:50]
        answer = client.post(f"/guide/{self.server.session}/taps", json={"taps": taps})
        answer.raise_for_status()
        for tap in answer.json()["stored"]:
            self.acknowledged.add(tap)
            self.waiting.pop(tap, None)


def _kept(book):
    with sqlite3.connect(book) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        return [row[0] for row in connection.execute("SELECT tap_id FROM events ORDER BY number")][1:]


def test_no_acknowledged_tap_is_lost_and_none_is_doubled_when_the_server_is_killed(tmp_path, booth):
    dice = random.Random(1)
    server = Server(tmp_path, booth.plan)
    server.start()
    painters = [Painter(server, name) for name in "abc"[:PAINTERS]]
    with ThreadPoolExecutor(PAINTERS) as threads:
        running = [threads.submit(painter.run) for painter in painters]
        try:
            for _ in range(KILLS):
                time.sleep(dice.uniform(0.02, 0.25))  # the moment of the kill is what is tried
                before = set().union(*(painter.acknowledged for painter in painters))
                server.kill()
                kept = _kept(server.book)
                assert before <= set(kept), f"lost: {sorted(before - set(kept))[:5]}"
                assert len(kept) == len(set(kept)), "a tap stands twice"
                server.start()
        finally:
            for painter in painters:
                painter.stop.set()
        for one in running:
            one.result(timeout=60)
    server.kill()
    kept = _kept(server.book)
    made = {f"{painter.name}-{number}" for painter in painters for number in range(1, painter.made + 1)}
    assert set(kept) == made, "every tap of every tablet is there in the end"
    assert len(kept) == len(made)
    for painter in painters:
        own = [tap for tap in kept if tap.startswith(painter.name)]
        assert own == sorted(own, key=lambda tap: int(tap[2:])), "in the order they were tapped"
    print(f"{KILLS} kills, {len(made)} taps")


def test_the_server_ends_at_once_though_screens_watch(tmp_path, booth):
    server = Server(tmp_path, booth.plan)
    server.start()
    with ExitStack() as open_streams:
        for _ in range(20):
            client = open_streams.enter_context(httpx.Client(timeout=10))
            path = f"{server.address}/guide/{server.session}/stream"
            stream = open_streams.enter_context(client.stream("GET", path))
            assert next(stream.iter_lines()).startswith("data: ")
        begun = time.monotonic()
        server.process.send_signal(signal.SIGTERM)
        assert server.process.wait(timeout=10) == 0
        took_s = time.monotonic() - begun
    server.process.stdout.close()
    print(f"ended after {took_s:.2f} s with 20 open streams")
    assert took_s < 2.5, "not only once the patience of the server was over"


def test_the_server_ends_cleanly_when_it_is_asked_to(tmp_path, booth):
    server = Server(tmp_path, booth.plan)
    server.start()
    assert httpx.get(f"{server.address}/healthz").json()["status"] == "ok"
    server.process.send_signal(signal.SIGTERM)
    assert server.process.wait(timeout=10) == 0
    server.process.stdout.close()
