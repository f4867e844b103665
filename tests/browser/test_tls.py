"""The pages with TLS by the shop's own authority, in a browser that trusts it: all that plain http on a network takes away.

What a browser gives only to a secure context: W3C Secure Contexts, Service Workers, Screen Wake Lock; the pin is Chromium's own
switch: base64 of the SHA-256 of a public key (RFC 7469, section 2.4).
"""

import base64
import hashlib
import os
import re
import subprocess
import sys

import pytest
from cryptography import x509
from cryptography.hazmat.primitives.serialization import Encoding, PublicFormat
from playwright.sync_api import Error, expect

from cases.browser import LAN_NAME, SWITCHES, browser_path
from cases.guide import AT, job_bytes
from cases.thorough import sampled
from laydown.desk.exchange import bring_in
from laydown.store.opening import open_book


@pytest.fixture(scope="module")
def desk(tmp_path_factory):
    """laydown serve --tls as a process, over a book with one planned job."""
    folder = tmp_path_factory.mktemp("tls")
    book = open_book(folder / "shop.book")
    plan = bring_in(book, job_bytes(), "job.toml", AT)[1]
    book.close()
    options = ["--port", "0", "--database", str(folder / "shop.book"), "--name", LAN_NAME, "--tls"]
    command = [sys.executable, "-m", "laydown", "serve", *options]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True) as running:
        port = re.search(r":(\d+)/", running.stdout.readline())[1]
        authority = folder / "shop.book.tls" / "ca" / "laydown-shop-ca.crt"
        yield port, plan, authority
        running.terminate()


def pin_of(file):
    key = x509.load_pem_x509_certificate(file.read_bytes()).public_key()
    content = key.public_bytes(Encoding.DER, PublicFormat.SubjectPublicKeyInfo)
    return base64.b64encode(hashlib.sha256(content).digest()).decode()


@pytest.fixture(scope="module")
def trusting(browser, desk):
    """A browser that trusts the shop's authority."""
    switches = [*SWITCHES, *(["--no-sandbox"] if os.geteuid() == 0 else [])]
    pinned = f"--ignore-certificate-errors-spki-list={pin_of(desk[2])}"
    made = browser.browser_type.launch(executable_path=browser_path(), args=[*switches, pinned])
    yield made
    made.close()


@pytest.fixture
def tablet(trusting):
    context = trusting.new_context(viewport={"width": 1280, "height": 800})
    context.set_default_timeout(15_000)
    yield context.new_page()
    context.close()


@pytest.fixture(params=sampled(LAN_NAME, "127.0.0.1"))
def address(request, desk):
    return f"https://{request.param}:{desk[0]}"


def begin(page, address, plan):
    """Go from the plan to the live view, as a painter does."""
    page.goto(f"{address}/plans/{plan}")
    page.get_by_role("button", name="Start at the booth").or_(page.get_by_text("Start all the same")).click()
    page.wait_for_selector("body[data-ready=yes]")
    page.click("[data-once-seen]")


def test_a_browser_that_trusts_the_authority_gives_everything(tablet, address, desk, shots):
    begin(tablet, address, desk[1])
    expect(tablet.locator("body")).to_have_attribute("data-offline", "ready")
    assert tablet.evaluate("window.isSecureContext")
    assert tablet.evaluate(
        "navigator.serviceWorker.controller !== null || navigator.serviceWorker.ready.then(() => true)"
    )
    scopes = tablet.evaluate(
        "navigator.serviceWorker.getRegistrations().then(all => all.map(one => one.scope))"
    )
    assert scopes == [f"{address}/guide/"]
    kind = tablet.evaluate(
        "navigator.wakeLock.request('screen').then(lock => `${lock.type} ${lock.released}`)"
    )
    assert kind == "screen false"
    for notice in ("plain-http", "not-awake", "not-kept"):
        expect(tablet.locator(f"[data-notice={notice}]")).to_be_hidden()
    tablet.screenshot(path=shots / f"tls-{'address' if '127' in address else 'name'}.png")


def test_without_the_network_the_page_can_be_loaded_again(tablet, address, desk):
    begin(tablet, address, desk[1])
    expect(tablet.locator("body")).to_have_attribute("data-offline", "ready")
    tablet.context.set_offline(True)
    tablet.reload()
    tablet.wait_for_selector("body[data-ready=yes]")
    expect(tablet.locator(".topbar")).to_contain_text("no network")
    expect(tablet.locator("[data-stage] .first")).to_be_visible()


def test_the_cookie_travels_only_with_tls_and_nothing_binds_the_name_to_it_for_good(tablet, address, desk):
    answer = tablet.goto(f"{address}/jobs")
    cookie = next(one for one in tablet.context.cookies() if one["name"] == "laydown")
    assert (cookie["secure"], cookie["httpOnly"], cookie["sameSite"]) == (True, True, "Strict")
    assert "strict-transport-security" not in answer.headers, "see docs/decisions/web.md"
    for path in ("/static/desk.css", "/nothing-there", "/shop-ca.crt"):
        asked = f"fetch('{path}').then(answer => answer.headers.get('strict-transport-security'))"
        assert tablet.evaluate(asked) is None


def test_the_settings_offer_the_authority(tablet, address, desk, shots):
    tablet.goto(f"{address}/settings")
    with tablet.expect_download() as saved:
        tablet.get_by_role("link", name="Save the shop's authority").click()
    assert saved.value.suggested_filename == "laydown-shop-ca.crt"
    assert saved.value.path().read_bytes() == desk[2].read_bytes()
    tablet.screenshot(path=shots / "tls-settings.png", full_page=True)
    tablet.set_viewport_size({"width": 390, "height": 844})
    tablet.screenshot(path=shots / "tls-settings-phone.png", full_page=True)


def test_a_browser_that_does_not_trust_it_stops_and_going_on_all_the_same_is_not_enough(browser, desk):
    address = f"https://127.0.0.1:{desk[0]}"
    strange = browser.new_context()
    page = strange.new_page()
    with pytest.raises(Error, match="ERR_CERT_AUTHORITY_INVALID"):
        page.goto(f"{address}/jobs")
    strange.close()
    careless = browser.new_context(ignore_https_errors=True)
    careless.set_default_timeout(15_000)
    page = careless.new_page()
    begin(page, address, desk[1])
    expect(page.locator("[data-notice=plain-http]")).to_be_visible()
    assert page.evaluate("navigator.serviceWorker.getRegistrations().then(all => all.length)") == 0
    careless.close()
