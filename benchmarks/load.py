"""Twenty tablets at once: how long a page, a look at the state and a tap take.

Run ``python -m benchmarks.load``; with ``--users`` and ``--seconds`` for other loads. The server is a process of its
own, as it would be on the shop's computer; every user polls each 3 s, taps every 2 s and loads the page now and then.
"""

import argparse
import json
import random
import re
import signal
import subprocess
import sys
import tempfile
import threading
import time
from concurrent.futures import ThreadPoolExecutor
from html import unescape
from pathlib import Path
from statistics import median, quantiles

import httpx

from laydown.desk.plan import plan_job
from laydown.reader.encode import to_json
from laydown.reader.shelf import shipped_folder

POLL_S, TAP_S, LOAD_S = 3.0, 2.0, 20.0
"""How often a user looks, taps and loads the page [s]; the first as in the page, the others assumptions."""


class User:
    """One tablet with a session of its own, tapping its way through the day and beginning anew at the end."""

    def __init__(self, address, plan_id, number):
        self.client = httpx.Client(base_url=address, timeout=30)
        self.dice = random.Random(number)
        self.plan_id, self.number, self.made = plan_id, number, 0
        self.took = {"page": [], "state": [], "tap": [], "ahead": []}
        self.token = re.search(r'data-token="([^"]+)"', self.client.get("/login").text)[1]
        self.open()

    def open(self):
        form = {"plan": self.plan_id, "fresh": "yes", "token": self.token}
        self.path = self.client.post("/guide", data=form).headers["location"]

    def ask(self, what, path, body=None):
        start = time.perf_counter()
        headers = {"x-laydown-token": self.token}
        answer = self.client.get(path) if body is None else self.client.post(path, json=body, headers=headers)
        answer.raise_for_status()
        self.took[what].append(time.perf_counter() - start)
        return answer

    def tap(self, state):
        html = state["phases"][0]["html"]
        taps = re.findall(r'data-tap="([^"]+)"', html)
        main = re.findall(r'class="touch first" data-tap="([^"]+)"', html)
        if not taps or "&#34;close&#34;" in html:
            self.open()
            return self.ask("state", f"{self.path}/state").json()
        chosen = (main or re.findall(r'class="touch yes" data-tap="([^"]+)"', html) or taps)[0]
        self.made += 1
        event = json.loads(unescape(chosen))
        tap = {"id": f"{self.number}-{self.made}-{time.time_ns()}", "at_s": time.time(), "event": event}
        return self.ask("tap", f"{self.path}/taps", {"taps": [tap]}).json()["state"]

    def look(self, state):
        """Ask for the state as the page does: naming the one it has."""
        self.client.headers["x-laydown-have"] = state.get("have", "")
        answer = self.ask("state", f"{self.path}/state").json()
        return state if answer.get("same") else answer

    def run(self, until, stop):
        state = self.ask("state", f"{self.path}/state").json()
        due = {name: time.monotonic() + self.dice.uniform(0, every) for name, every in _EVERY.items()}
        while time.monotonic() < until and not stop.is_set():
            name = min(due, key=due.get)
            time.sleep(max(0.0, due[name] - time.monotonic()))
            due[name] += _EVERY[name]
            if name == "tap":
                state = self.tap(state)
            elif name == "page":
                self.ask("page", self.path)
                self.ask("ahead", f"{self.path}/ahead")
            else:
                state = self.look(state)


_EVERY = {"state": POLL_S, "tap": TAP_S, "page": LOAD_S}


def main():
    wishes = argparse.ArgumentParser(description=__doc__)
    wishes.add_argument("--users", type=int, default=20)
    wishes.add_argument("--seconds", type=float, default=30.0)
    given = wishes.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        plan = plan_job(shipped_folder() / "jobs" / "wing-and-door.toml", drawn=False).planned.plan
        file = Path(folder) / "plan.json"
        file.write_text(to_json(plan), encoding="utf-8")
        command = [sys.executable, "-m", "laydown", "guide", str(file), "--port", "0"]
        with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as server:
            address = re.match(r"ready (http://[^/]+)", server.stdout.readline())[1]
            try:
                report(load(address, plan.id, given.users, given.seconds))
            finally:
                server.send_signal(signal.SIGTERM)


def load(address, plan_id, users, seconds):
    """Let the users work for some time; return the seconds each kind of call took."""
    made = [User(address, plan_id, number) for number in range(users)]
    until, stop = time.monotonic() + seconds, threading.Event()
    with ThreadPoolExecutor(users) as threads:
        for done in [threads.submit(user.run, until, stop) for user in made]:
            done.result()
    return {what: [one for user in made for one in user.took[what]] for what in made[0].took}


def report(took):
    """Print calls, median and the 95th of a hundred, in milliseconds."""
    print(f"{'call':<8}{'number':>8}{'median ms':>12}{'p95 ms':>10}{'worst ms':>10}")
    for what, seconds in took.items():
        if len(seconds) > 1:
            p95 = quantiles(seconds, n=20)[-1]
            row = (median(seconds), p95, max(seconds))
            print(
                f"{what:<8}{len(seconds):>8}{row[0] * 1e3:>12.0f}{row[1] * 1e3:>10.0f}{row[2] * 1e3:>10.0f}"
            )


if __name__ == "__main__":
    main()
