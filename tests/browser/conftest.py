"""A real browser and a real server for the tests in this folder; the server's clock is turned by the test."""

import os
import re
import time
from pathlib import Path

import pytest
from playwright.sync_api import expect, sync_playwright

from cases.browser import LAN_NAME, SWITCHES, browser_path, served
from cases.guide import Booth


@pytest.fixture(scope="session")
def browser():
    switches = [*SWITCHES, "--no-sandbox"] if os.geteuid() == 0 else SWITCHES
    with sync_playwright() as playwright:
        made = playwright.chromium.launch(executable_path=browser_path(), args=switches)
        yield made
        made.close()


@pytest.fixture(scope="session")
def shots(tmp_path_factory):
    """Folder of the pictures that a person should look at."""
    named = os.environ.get("LAYDOWN_SCREENSHOTS")
    folder = Path(named) if named else tmp_path_factory.mktemp("screenshots")
    folder.mkdir(parents=True, exist_ok=True)
    return folder


@pytest.fixture(scope="session")
def booth(tmp_path_factory):
    """A planned job, served; its clock is the test's."""
    made = Booth(tmp_path_factory.mktemp("booth"), names={LAN_NAME})
    with served(made.app) as address:
        made.address = address
        yield made
    made.book.close()


@pytest.fixture
def tablets(browser, booth):
    """Opens tablets and phones, and closes them."""
    opened = []

    def open_one(width=1280, height=800, **wishes):
        context = browser.new_context(viewport={"width": width, "height": height}, **wishes)
        context.set_default_timeout(10_000)
        opened.append(context)
        return Tablet(context, booth)

    yield open_one
    booth.clock.ahead_s = 0.0
    for context in opened:
        context.close()


class Tablet:
    """A screen with the live view on it, and what a painter does with it."""

    def __init__(self, context, booth):
        self.context, self.booth = context, booth
        self.page = context.new_page()
        self.faults = []
        self.asked = 0
        self.page.on("request", self._count)
        self.page.on("pageerror", lambda error: self.faults.append(str(error)))
        self.page.on(
            "console", lambda said: self.faults.append(said.text) if "Content Security" in said.text else None
        )

    def _count(self, request):
        """Count the looks at the state."""
        self.asked += request.url.endswith("/state")

    def watching(self):
        """Wait until the server's stream is heard."""
        self.page.wait_for_selector("body[data-watching=yes]")

    def open(self, session, address=None):
        self.session = session
        self.page.goto(f"{address or self.booth.address}/guide/{session}")
        self.ready()
        self.page.click("[data-once-seen]")
        return self

    def ready(self):
        self.page.wait_for_selector("body[data-ready=yes]")

    def node(self):
        """Step, section, what is being done, answers."""
        return self.page.get_attribute("body", "data-node").split("/", 1)[1]

    def wait_node(self, start):
        expect(self.page.locator("body")).to_have_attribute("data-node", re.compile(f"/{re.escape(start)}"))

    def main(self):
        """The large button, or the next open question of a gate."""
        ask = self.page.locator(".ask.open .yes")
        return ask.first if ask.count() else self.page.locator(".first[data-tap]")

    def go(self, button=None):
        """Tap, and wait until another screen stands."""
        self.page.wait_for_selector("body:not([data-armed=no])")
        before = self.page.get_attribute("body", "data-node")
        (button or self.main()).click()
        expect(self.page.locator("body")).not_to_have_attribute("data-node", before)

    def wait_sent(self, count):
        """Until the book holds so many taps and the page knows it."""
        deadline = time.monotonic() + 10
        while len(self.booth.rows(self.session)) != count:
            assert time.monotonic() < deadline, f"{len(self.booth.rows(self.session))} taps kept, not {count}"
            self.page.wait_for_timeout(20)
        expect(self.page.locator("body")).to_have_attribute("data-synced", "yes")
        assert not self.faults, self.faults

    def turn_on(self, seconds_s, *, away=False):
        """Let time pass, on this screen and at the server; they meet again unless the network is away."""
        if away:
            self.booth.clock.ahead_s += seconds_s
            self.page.clock.fast_forward(int(seconds_s * 1000))
            return
        self.context.set_offline(True)  # so that no answer is on its way while the two clocks differ
        self.turn_on(seconds_s, away=True)
        with self.page.expect_response("**/state"):
            self.context.set_offline(False)
        expect(self.page.locator("body")).to_have_attribute("data-network", "there", timeout=20_000)
