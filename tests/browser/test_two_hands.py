"""Putting away, deleting, and two who save the same, in a real browser: what everybody sees, on tablet and phone."""

import re

import pytest
from playwright.sync_api import expect

from cases.browser import look, served
from cases.guide import AT, job_bytes
from cases.thorough import sampled
from laydown.desk.exchange import bring_in
from laydown.desk.plans.kept import Ready, open_kept_plan
from laydown.desk.sessions.session import open_session, take_taps
from laydown.store.opening import open_book
from laydown.web.app import make_app
from laydown.web.request.visitor import Settings

SIZES = {"tablet": (1280, 800), "phone": (390, 844)}
AT_S = 1_795_600_000.0


class Shop:
    """A shop's pages with one planned job."""

    def __init__(self, folder):
        self.book = open_book(folder / "shop.book")
        self.plan_id = bring_in(self.book, job_bytes(), "job.toml", AT)[1]
        self.plan = open_kept_plan(self.book, Ready(), self.plan_id)[0]
        self.job_id = self.book.plan(self.plan_id).job_id
        self.name = self.plan.inputs.job

    def spray(self):
        session = open_session(self.book, self.plan, AT_S, fresh=True)
        kinds = ("begin", "close")
        taps = [{"id": kind, "at_s": AT_S + 60 * n, "event": {"kind": kind}} for n, kind in enumerate(kinds)]
        take_taps(self.book, session, taps, AT_S + 90)


@pytest.fixture
def shop(tmp_path):
    made = Shop(tmp_path)
    with served(make_app(made.book, Settings("s" * 64))) as address:
        made.address = address
        yield made
    made.book.close()


@pytest.fixture
def screens(browser, shop):
    """Opens the screens of two people."""
    opened, faults = [], []

    def open_one(size="tablet"):
        width, height = SIZES[size]
        context = browser.new_context(viewport={"width": width, "height": height}, base_url=shop.address)
        context.set_default_timeout(15_000)
        opened.append(context)
        page = context.new_page()
        page.on("pageerror", lambda error: faults.append(str(error)))
        page.on("console", lambda said: faults.append(said.text) if "Content Security" in said.text else None)
        return page

    yield open_one
    for context in opened:
        context.close()
    assert not faults, faults


@pytest.mark.parametrize("size", sampled("tablet", "phone"))
def test_a_job_goes_away_comes_back_and_goes_for_good_only_with_its_name(screens, shop, shots, size):
    page = screens(size)
    shop.spray()
    page.goto(f"/plans/{shop.plan_id}")
    page.get_by_role("button", name="Put the job away").click()
    expect(page.get_by_text(f"{shop.name} is put away.")).to_be_visible()
    look(page, shots, f"{size}-jobs-put-away")
    page.get_by_role("button", name="Undo: fetch it back").click()
    page.wait_for_url(re.compile("/plans/"))
    page.get_by_role("button", name="Put the job away").click()
    page.get_by_role("link", name="Put away: 1").click()
    look(page, shots, f"{size}-away")
    page.get_by_role("link", name=shop.name, exact=True).click()
    expect(page.get_by_text("This job was put away")).to_be_visible()
    look(page, shots, f"{size}-plan-away")
    page.goto("/jobs/away")
    page.get_by_role("link", name="Delete for good").click()
    look(page, shots, f"{size}-delete")
    page.get_by_label("Name of the job").fill("something else")
    page.get_by_role("button", name="Delete it for good").click()
    expect(page.locator(".field.wrong")).to_contain_text("is not the name of this job")
    look(page, shots, f"{size}-delete-problem")
    page.get_by_label("Name of the job").fill(shop.name)
    page.get_by_role("button", name="Delete it for good").click()
    expect(page.get_by_role("status")).to_contain_text(f"{shop.name} is deleted")
    look(page, shots, f"{size}-away-empty")
    assert shop.book.jobs() == ()


@pytest.mark.parametrize("size", sampled("tablet", "phone"))
def test_two_who_change_one_plan_see_both_and_lose_nothing(screens, shop, shots, size):
    mine, theirs = screens(size), screens()
    for page in (mine, theirs):
        page.goto(f"/plans/{shop.plan_id}")
    with theirs.expect_response(re.compile("/picture")):
        theirs.get_by_role("button", name="Humidity down").click()
    theirs.get_by_role("button", name="Keep", exact=True).click()
    expect(theirs.get_by_text("Kept as plan")).to_be_visible()
    with mine.expect_response(re.compile("/picture")):
        mine.get_by_role("button", name="Booth air up").click()
    mine.get_by_role("button", name="Keep", exact=True).click()
    expect(mine.get_by_role("heading", name=f"{shop.name}: somebody else saved it too")).to_be_visible()
    look(mine, shots, f"{size}-clash-apart")
    mine.get_by_role("button", name="Take both").click()
    expect(mine.get_by_text("Kept as plan")).to_be_visible()
    inputs = open_kept_plan(shop.book, Ready(), re.search(r"/plans/(\w+)", mine.url)[1])[0].inputs
    first = shop.plan.inputs
    assert inputs.air["temperature_c"].value == first.air["temperature_c"].value + 1
    assert inputs.air["rh"].value < first.air["rh"].value
    theirs.goto(f"/plans/{shop.plan_id}")
    mine.goto(f"/plans/{shop.plan_id}")
    for page, times in ((theirs, 1), (mine, 2)):
        for _ in range(times):
            with page.expect_response(re.compile("/picture")):
                page.get_by_role("button", name="Humidity up").click()
        page.get_by_role("button", name="Keep", exact=True).click()
    expect(mine.get_by_text("both changed it")).to_be_visible()
    expect(mine.get_by_role("button", name="Take both")).to_have_count(0)
    look(mine, shots, f"{size}-clash-same")
    mine.get_by_role("button", name="Take theirs").click()
    mine.wait_for_url(re.compile("/plans/"))


@pytest.mark.parametrize("size", sampled("tablet", "phone"))
def test_products_and_sides_are_kept_from_being_overwritten_and_deleted(screens, shop, shots, size):
    page = screens(size)
    page.goto("/shelf/new?copy=effect-a")
    page.get_by_label("Key on the shelf").fill("pearl-b")
    page.get_by_label("Source").fill("sheet B, edition 2")
    page.get_by_role("button", name="Keep it on the shelf").click()
    page.wait_for_url(re.compile("/shelf/pearl-b"))
    look(page, shots, f"{size}-product-own")
    page.goto("/shelf/new?copy=ground-a")
    page.get_by_label("Key on the shelf").fill("pearl-b")
    page.get_by_role("button", name="Keep it on the shelf").click()
    expect(page.get_by_role("heading", name="pearl-b is there already")).to_be_visible()
    look(page, shots, f"{size}-clash-new")
    page.get_by_label("Another name for yours").fill("pearl-b")
    page.get_by_role("button", name="Keep it under this name").click()
    expect(page.locator(".field.wrong")).to_contain_text("is taken too")
    look(page, shots, f"{size}-clash-new-problem")
    page.goto("/sides/measure?shape=medium%20hatch")
    page.get_by_label("Name", exact=True).fill("own hatch, left")
    page.get_by_role("button", name="Keep this side").click()
    page.wait_for_url(re.compile("/sides/own"))
    look(page, shots, f"{size}-side-own")
    page.get_by_role("link", name="Delete").click()
    look(page, shots, f"{size}-side-delete")
    page.get_by_role("button", name="Delete it for good").click()
    expect(page.get_by_role("status")).to_contain_text("is deleted")
    page.goto("/shelf/pearl-b")
    text = job_bytes().replace(b'"effect-a"', b'"pearl-b"').replace(b"wing", b"Wing", 1)
    bring_in(shop.book, text, "job.toml", AT)
    page.get_by_role("link", name="Delete").click()
    look(page, shots, f"{size}-product-delete")
    page.get_by_role("button", name="Delete it for good").click()
    expect(page.get_by_role("heading", name="pearl-b is not deleted")).to_be_visible()
    look(page, shots, f"{size}-product-used")
    page.goto("/shelf")
    page.get_by_role("link", name="pearl-b").is_visible()
