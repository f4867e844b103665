"""Readings of an instrument in a real browser: brought in, typed, asked about, kept, taken away; right files and wrong ones."""

import re

import pytest
from playwright.sync_api import expect

from cases.browser import JOB, SIZES, look, served
from cases.measured import cgats, name_of, own_table, ten_faults
from cases.thorough import sampled
from laydown.store.opening import open_book
from laydown.web.app import make_app
from laydown.web.request.visitor import Settings

PICTURE = b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR" + bytes(range(256)) * 8


@pytest.fixture
def desk(tmp_path):
    """A book with one job in it, served."""
    book = open_book(tmp_path / "shop.book")
    with served(make_app(book, Settings("s" * 64))) as address:
        yield address
    book.close()


@pytest.fixture
def panel(browser, desk):
    """Opens the let-down panel of a job on a screen of a size."""
    opened, faults = [], []

    def open_one(size, **wishes):
        width, height = SIZES[size]
        context = browser.new_context(viewport={"width": width, "height": height}, base_url=desk, **wishes)
        context.set_default_timeout(15_000)
        opened.append(context)
        page = context.new_page()
        page.on("pageerror", lambda error: faults.append(str(error)))
        page.on("console", lambda said: faults.append(said.text) if "Content Security" in said.text else None)
        page.goto("/jobs")
        page.get_by_text("Bring in a file").click()
        page.set_input_files("#file", JOB / "wing-and-door.toml")
        page.get_by_role("button", name="Bring it in").click()
        page.wait_for_url(re.compile("/plans/"))
        page.get_by_role("link", name="Let-down panel").click()
        return page

    yield open_one
    for context in opened:
        context.close()
    assert not faults, faults


def send(page, name, content, kind="text/csv"):
    content = content if isinstance(content, bytes) else content.encode()
    page.set_input_files("[name=file]", {"name": name, "mimeType": kind, "buffer": content})
    page.get_by_role("button", name="Read the file").click()


@pytest.mark.parametrize("size", sampled("tablet", "phone"))
def test_a_file_is_brought_in_looked_at_kept_taken_away_and_put_back(panel, shots, size):
    page = panel(size)
    look(page, shots, f"{size}-readings-none-yet")
    page.locator("[name='flop.2'][value=match]").check(force=True)
    send(page, "panel p1.csv", own_table())
    page.wait_for_url(re.compile("/readings$"))
    expect(page.get_by_text("not kept yet")).to_be_visible()
    look(page, shots, f"{size}-readings-waiting")
    page.get_by_role("link", name="Back to the let-down panel").click()
    expect(page.locator("[name='flop.2'][value=match]")).to_be_checked()
    expect(page.get_by_text("waits to be looked at")).to_be_visible()
    look(page, shots, f"{size}-readings-panel-waiting")
    page.get_by_role("link", name="Look at it").click()
    page.get_by_role("button", name="Keep and plan anew").click()
    page.wait_for_url(re.compile("/panel"))
    expect(page.get_by_text("The readings are kept")).to_be_visible()
    expect(page.locator("[name='flop.2'][value=match]")).to_be_checked()
    look(page, shots, f"{size}-readings-panel-kept")
    page.get_by_role("link", name="See the readings").click()
    expect(page.get_by_text("kept with the job")).to_be_visible()
    look(page, shots, f"{size}-readings-kept")
    page.get_by_role("button", name="Take them away").click()
    expect(page.get_by_text("The readings are taken away")).to_be_visible()
    look(page, shots, f"{size}-readings-away")
    page.get_by_role("button", name="Undo: back to plan").click()
    expect(page.get_by_role("link", name="See the readings")).to_be_visible()


@pytest.mark.parametrize("size", sampled("phone", "tablet"))
def test_a_file_with_names_of_its_own_is_asked_about(panel, shots, size):
    page = panel(size)
    names = {
        "0": "patch A",
        "1": "patch B",
        "2": "patch C",
        "3": "patch D",
        "4": "field 4",
        "5": "white tile",
    }
    text = cgats(
        names=lambda role, coats, zone: names[coats] if role == "field" else name_of(role, coats, zone),
        conditions=False,
    )
    send(page, "export.txt", text)
    page.wait_for_url(re.compile("/readings$"))
    expect(page.get_by_role("button", name="Keep and plan anew")).to_have_count(0)
    look(page, shots, f"{size}-readings-asked")
    for coats in range(4):
        sample = page.get_by_role("group", name=re.compile(f"patch {'abcd'[coats]}"))
        sample.get_by_role("radio", name="field").check(force=True)
        sample.get_by_label("Effect coats").fill(str(coats) if coats else "none")
    page.get_by_role("group", name=re.compile("white tile")).get_by_role("radio", name="leave out").check(
        force=True
    )
    page.get_by_label("Illuminant").select_option("D65")
    page.get_by_label("Observer").select_option("10")
    page.get_by_role("button", name="Look again").last.click()
    expect(page.locator(".field.wrong").get_by_label("Effect coats")).to_have_value("none")
    look(page, shots, f"{size}-readings-asked-problem")
    page.get_by_role("group", name=re.compile("patch a")).get_by_label("Effect coats").fill("0")
    page.get_by_role("button", name="Look again").last.click()
    expect(page.get_by_role("button", name="Keep and plan anew")).to_be_visible()
    look(page, shots, f"{size}-readings-answered")
    page.get_by_role("button", name="Keep and plan anew").click()
    expect(page.get_by_text("The readings are kept")).to_be_visible()
    expect(page.get_by_text("5 fields, bare ground, car (left side)")).to_be_visible()


@pytest.mark.parametrize("size", sampled("tablet", "phone"))
def test_the_numbers_of_an_instrument_are_typed(panel, shots, size):
    page = panel(size)
    page.get_by_role("button", name="Type the numbers").click()
    look(page, shots, f"{size}-readings-type")
    page.get_by_label("Readings").fill(ten_faults())
    page.get_by_role("button", name="Read the numbers").click()
    expect(page.locator(".field.wrong").get_by_label("Readings")).to_have_value(ten_faults())
    look(page, shots, f"{size}-readings-type-problem")
    page.get_by_label("Readings").fill(own_table(cars={"left side": 2.4, "bumper": 3.1}, repeats=1))
    page.get_by_role("button", name="Read the numbers").click()
    page.get_by_role("radio", name="bumper").check(force=True)
    look(page, shots, f"{size}-readings-zones")
    page.get_by_role("button", name="Keep and plan anew").click()
    expect(page.get_by_text("The readings are kept")).to_be_visible()


@pytest.mark.parametrize("size", sampled("phone", "tablet"))
def test_wrong_files_are_told_at_the_field_and_nothing_is_lost(panel, shots, size):
    page = panel(size)
    page.get_by_label("A coat of the panel").fill("31")
    files = {
        "picture": ("panel.png", PICTURE, "is not a text file"),
        "empty": ("panel.csv", b"", "is empty"),
        "faults": ("panel.csv", ten_faults().encode(), "line 11: has 8 cells"),
        "encoding": ("panel.csv", own_table().encode("utf-16-le"), "is not a text file"),
        "large": ("panel.csv", b"# " + b"x" * 6_000_000, "is larger than 5 MB"),
    }
    for name, (file, content, said) in files.items():
        send(page, file, content)
        expect(page.locator(".field.wrong .problem")).to_contain_text(said)
        expect(page.get_by_label("A coat of the panel")).to_have_value("31")
        look(page, shots, f"{size}-readings-wrong-{name}")


ALL = {"name": "all.csv", "mimeType": "text/csv", "buffer": b"x" * 10_000_000}


def test_ten_megabytes_are_told_at_the_field_before_they_are_sent(panel, shots):
    page = panel("phone")
    page.get_by_label("A coat of the panel").fill("31")
    page.set_input_files("[name=file]", ALL)
    page.get_by_role("button", name="Read the file").click()
    expect(page.locator(".field.wrong .problem")).to_contain_text("is larger than 5 MB")
    expect(page.get_by_label("File of the measuring program")).to_be_focused()
    expect(page.get_by_label("A coat of the panel")).to_have_value("31")
    look(page, shots, "phone-readings-ten-megabytes")
    send(page, "panel.csv", own_table())
    page.wait_for_url(re.compile("/readings$"))


def test_ten_megabytes_without_a_script_are_refused_in_words_and_what_was_typed_is_still_there(panel, shots):
    page = panel("phone", java_script_enabled=False)
    page.get_by_label("A coat of the panel").fill("31")
    page.set_input_files("[name=file]", ALL)
    page.get_by_role("button", name="Read the file").click()
    expect(page.get_by_role("heading", name="Too large")).to_be_visible()
    page.screenshot(path=shots / "phone-readings-too-large.png", full_page=True)
    page.go_back()
    expect(page.get_by_label("A coat of the panel")).to_have_value("31")
