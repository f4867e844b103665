"""A real browser and a real server, and what must hold for every page that is looked at."""

import os
import shutil
import socket
import threading
from contextlib import contextmanager
from pathlib import Path

import uvicorn
from axe_playwright_python.sync_playwright import Axe

from laydown.web.server import Server

LAN_NAME = "booth.lan"

SWITCHES = [
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-dev-shm-usage",
    f"--host-resolver-rules=MAP {LAN_NAME} 127.0.0.1",
]


def browser_path():
    """Chromium of the system; a missing browser fails the test, it is never skipped."""
    found = os.environ.get("LAYDOWN_BROWSER") or shutil.which("chromium") or shutil.which("chromium-browser")
    assert found, "no chromium found: install the package chromium, or name one with LAYDOWN_BROWSER"
    return found


SIZES = {"tablet": (1280, 800), "phone": (360, 740), "desk": (1600, 1000)}
JOB = Path(__file__).parents[2] / "src" / "laydown" / "data" / "jobs"


@contextmanager
def served(app):
    """Serve an application on a free port of this machine."""
    listening = socket.create_server(("127.0.0.1", 0))
    config = uvicorn.Config(app, log_level="warning", lifespan="off")
    server = Server(config, app.state.watchers, lambda: None)
    thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True)
    thread.start()
    try:
        yield f"http://127.0.0.1:{listening.getsockname()[1]}"
    finally:
        server.should_exit = True
        thread.join(10)
        listening.close()


def no_violations(page, where):
    found = Axe().run(
        page,
        options={
            "runOnly": {
                "type": "tag",
                "values": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
            }
        },
    )
    told = [
        f"{one['id']}: {one['help']}: {[node['html'][:140] for node in one['nodes'][:3]]}"
        for one in found.response["violations"]
    ]
    assert not told, f"{where}: {told}"


def targets_are_large(page, where):
    """Buttons, fields and links that do not stand in running text are 44 px high and wide, or more."""
    small = page.evaluate(
        """() => [...document.querySelectorAll("button, .button, nav a, select, summary, .big, .card, .segments label, input:not([type=hidden]):not([type=radio]):not([type=checkbox])")]
          .filter((one) => one.checkVisibility() && !one.closest(".unseen") && !one.classList.contains("unseen"))
          .map((one) => [one.outerHTML.slice(0, 90), one.getBoundingClientRect()])
          .filter(([, box]) => box.height < 43.5 || box.width < 43.5)
          .map(([html, box]) => `${Math.round(box.width)}x${Math.round(box.height)} ${html}`)"""
    )
    assert not small, f"{where}: {small}"


def nothing_sticks_out(page, where):
    """No page scrolls sideways; only rooms that are made for it do."""
    over = page.evaluate("() => document.documentElement.scrollWidth - document.documentElement.clientWidth")
    assert over <= 0, f"{where}: {over} px wider than the screen"


def no_text_leaves_its_box(page, where):
    """What stands on tiles, buttons, cards and in fields of choice fits."""
    over = page.evaluate(
        """() => [...document.querySelectorAll(".tile-value, .tile-range, button, .button, .card, .segments span, .ribbon, .total")]
          .filter((one) => one.checkVisibility() && !one.classList.contains("unseen") && one.scrollWidth > one.clientWidth + 1)
          .map((one) => one.textContent.trim().slice(0, 60))"""
    )
    assert not over, f"{where}: {over}"


def look(page, shots, name):
    """Everything that holds for every page and state."""
    page.screenshot(path=shots / f"{name}.png", full_page=True)
    no_violations(page, name)
    targets_are_large(page, name)
    nothing_sticks_out(page, name)
    no_text_leaves_its_box(page, name)
