"""Twenty tablets at once: how long a page, a look at the state and a tap take, and what each costs the server.

Run ``python -m benchmarks.load``; with ``--users``, ``--seconds`` and ``--watchers`` for other loads. The server is a
process of its own, as it would be on the shop's computer; every user polls each 3 s, taps every 2 s and loads the page
with the way ahead each 20 s, all at random moments. A watcher is a second screen: it holds the stream of a session and
asks for the state when it hears of a tap; what is told of it is the time from the answer to the tap until then.

Server and load share the machine. So the load is plain sockets of the standard library in threads, which takes about a
tenth of what the server takes; it says at the end how much of the two it was. Before the load, one user alone goes
through a day and the processor time of the server is read around each call: it does not grow when other programs run.
"""

import argparse
import http.client
import json
import os
import random
import re
import signal
import subprocess
import sys
import tempfile
import time
from concurrent.futures import ThreadPoolExecutor
from html import unescape
from pathlib import Path
from statistics import mean, median, quantiles
from urllib.parse import urlencode

from laydown.desk.plans.plan import plan_job
from laydown.reader.encode import to_json
from laydown.reader.papers.shelf import shipped_folder

POLL_S, TAP_S, LOAD_S = 3.0, 2.0, 20.0
"""How often a user looks, taps and loads the page [s]; the first as in the page without a stream, the others assumptions."""

_EVERY = {"state": POLL_S, "tap": TAP_S, "page": LOAD_S}


class Browser:
    """One connection to the server that keeps its cookie."""

    def __init__(self, port):
        self.connection = http.client.HTTPConnection("127.0.0.1", port, timeout=30)
        self.headers = {}
        self.headers["x-laydown-token"] = re.search(r'data-token="([^"]+)"', self.ask("/login")[1])[1]

    def ask(self, path, body=None, **headers):
        sent, method = {**self.headers, **headers}, "GET" if body is None else "POST"
        try:
            self.connection.request(method, path, body, sent)
            answer = self.connection.getresponse()
        except (http.client.RemoteDisconnected, ConnectionError):
            self.connection.close()  # idle for too long: a browser asks again on a new connection, and so does this one
            self.connection.request(method, path, body, sent)
            answer = self.connection.getresponse()
        text = answer.read().decode()
        if answer.status >= 400:
            raise RuntimeError(f"{path}: {answer.status} {text[:200]}")
        if cookie := answer.headers.get("set-cookie"):
            self.headers["cookie"] = cookie.partition(";")[0]
        return answer.headers, text


class User:
    """One tablet with a session of its own, tapping its way through the day and beginning anew at the end."""

    def __init__(self, port, plan_id, number, meter=None):
        self.browser = Browser(port)
        self.dice = random.Random(number)
        self.plan_id, self.number, self.made = plan_id, number, 0
        self.took = {"page": [], "state": [], "same": [], "tap": [], "ahead": []}
        self.answered, self.meter = {}, meter
        self.open()

    def open(self):
        form = {"plan": self.plan_id, "fresh": "yes", "token": self.browser.headers["x-laydown-token"]}
        kind = {"content-type": "application/x-www-form-urlencoded"}
        self.path = self.browser.ask("/guide", urlencode(form), **kind)[0]["location"]
        self.state = json.loads(self.browser.ask(f"{self.path}/state")[1])

    def ask(self, what, path, body=None, **headers):
        before, start = self.meter() if self.meter else 0.0, time.perf_counter()
        text = self.browser.ask(self.path + path, body, **headers)[1]
        took = self.meter() - before if self.meter else time.perf_counter() - start
        self.took[what].append(took)
        return text

    def tap(self):
        """Tap the large button or the next open question; begin anew at the close."""
        html = self.state["phases"][0]["html"]
        main = re.findall(r'class="touch first" data-tap="([^"]+)"', html)
        asked = re.findall(r'class="ask open">.*?class="touch yes" data-tap="([^"]+)"', html, re.DOTALL)
        if not main + asked or "&#34;close&#34;" in html:
            return self.open()
        self.made += 1
        event = json.loads(unescape((main + asked)[0]))
        tap = {"id": f"{self.number}-{self.made}-{time.time_ns()}", "at_s": time.time(), "event": event}
        kind = {"content-type": "application/json"}
        self.state = json.loads(self.ask("tap", "/taps", json.dumps({"taps": [tap]}), **kind))["state"]
        self.answered[self.path, self.state["version"]] = time.perf_counter()
        return None

    def look(self):
        """Ask for the state as the page does: naming the one it has."""
        self.ask("same", "/state", **{"x-laydown-have": self.state["have"]})

    def load(self):
        self.ask("page", "")
        self.ask("state", "/state")
        self.ask("ahead", "/ahead")

    def run(self, until):
        due = {name: time.monotonic() + self.dice.uniform(0, every) for name, every in _EVERY.items()}
        while time.monotonic() < until:
            name = min(due, key=due.get)
            time.sleep(max(0.0, due[name] - time.monotonic()))
            due[name] += _EVERY[name]
            {"tap": self.tap, "page": self.load, "state": self.look}[name]()


class Watcher:
    """A second screen of a user, told by the server's stream."""

    def __init__(self, port, user):
        self.port, self.user, self.heard = port, user, {}

    def run(self, until):
        browser = Browser(self.port)
        while time.monotonic() < until:
            path, stream = self.user.path, http.client.HTTPConnection("127.0.0.1", self.port, timeout=30)
            stream.request("GET", f"{path}/stream", headers={"cookie": browser.headers["cookie"]})
            answer = stream.getresponse()
            while self.user.path == path and time.monotonic() < until:
                line = answer.readline()
                if line.startswith(b"data: "):
                    self.heard.setdefault((path, int(line[6:])), time.perf_counter())
                    browser.ask(f"{path}/state")
            stream.close()

    def late_s(self):
        """Seconds from the answer to each tap until it was heard; below zero where it was heard first."""
        return [self.heard[key] - at for key, at in self.user.answered.items() if key in self.heard]


def processor_s(process_id):
    """Processor time of all threads of a process [s]; nanoseconds as Linux counts them."""
    threads = Path(f"/proc/{process_id}/task").glob("*/schedstat")
    return sum(int(one.read_text().split()[0]) for one in threads) / 1e9


def whole_processor_s(process_id):
    """Processor time of a process with the threads that have ended [s]; ticks as Linux counts them."""
    fields = Path(f"/proc/{process_id}/stat").read_text().rpartition(")")[2].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def main():
    wishes = argparse.ArgumentParser(description=__doc__)
    wishes.add_argument("--users", type=int, default=20)
    wishes.add_argument("--seconds", type=float, default=30.0)
    wishes.add_argument("--watchers", type=int, default=0)
    given = wishes.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        plan = plan_job(shipped_folder() / "jobs" / "wing-and-door.toml", drawn=False).planned.plan
        file = Path(folder) / "plan.json"
        file.write_text(to_json(plan), encoding="utf-8")
        command = [sys.executable, "-m", "laydown", "guide", str(file), "--port", "0"]
        with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as server:
            port = int(re.match(r"ready http://[^:]+:(\d+)/", server.stdout.readline())[1])
            try:
                alone(port, plan.id, server.pid)
                together(port, plan.id, given, server.pid)
            finally:
                server.send_signal(signal.SIGTERM)


def alone(port, plan_id, server_id):
    """One user goes through a day; print the processor time of the server for each call."""
    user = User(port, plan_id, -1, meter=lambda: processor_s(server_id))
    path, user.took["tap"] = user.path, []
    while user.path == path:
        user.tap()
        user.look()
        if user.made % 5 == 0:
            user.load()
    print(f"{'call':<8}{'number':>8}{'processor ms, mean':>20}{'median':>8}{'worst':>8}")
    for what, took in user.took.items():
        row = (mean(took), median(took), max(took))
        print(f"{what:<8}{len(took):>8}{row[0] * 1e3:>20.1f}{row[1] * 1e3:>8.1f}{row[2] * 1e3:>8.1f}")


def together(port, plan_id, given, server_id):
    """Let the users work for some time; print how long they waited."""
    users = [User(port, plan_id, number) for number in range(given.users)]
    watchers = [Watcher(port, user) for user in users[: given.watchers]]
    spent = {"server": -whole_processor_s(server_id), "load": -whole_processor_s(os.getpid())}
    until = time.monotonic() + given.seconds
    with ThreadPoolExecutor(len(users) + len(watchers)) as threads:
        for done in [threads.submit(one.run, until) for one in (*users, *watchers)]:
            done.result()
    took = {what: [one for user in users for one in user.took[what]] for what in users[0].took}
    took["heard"] = [one for watcher in watchers for one in watcher.late_s()]
    print(f"{'call':<8}{'number':>8}{'median ms':>12}{'p95 ms':>10}{'worst ms':>10}")
    for what, seconds in took.items():
        if len(seconds) > 1:
            row = (median(seconds), quantiles(seconds, n=20)[-1], max(seconds))
            print(
                f"{what:<8}{len(seconds):>8}{row[0] * 1e3:>12.0f}{row[1] * 1e3:>10.0f}{row[2] * 1e3:>10.0f}"
            )
    for who, process_id in (("server", server_id), ("load", os.getpid())):
        spent[who] += whole_processor_s(process_id)
    print(", ".join(f"{who} {one / given.seconds:.0%} of one core" for who, one in spent.items()))


if __name__ == "__main__":
    main()
