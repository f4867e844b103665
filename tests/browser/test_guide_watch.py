"""Two screens on one session in a real browser: how soon the second follows, and what it does without the stream."""

import re
import time

import pytest
from playwright.sync_api import expect

from laydown.web.request import watchers

TABLET, PHONE = (1280, 800), (390, 844)


def seen_after_s(first, second):
    """Tap on one screen; return how long until the other shows another screen [s]."""
    first.page.wait_for_selector("body:not([data-armed=no])")
    before = second.page.get_attribute("body", "data-node")
    first.main().click()
    begun = time.monotonic()
    second.page.wait_for_selector(f"body:not([data-node='{before}'])")
    took_s = time.monotonic() - begun
    first.page.wait_for_selector("body[data-synced=yes]")
    assert second.node() == first.node()
    return took_s


def test_a_second_screen_shows_a_tap_in_less_than_a_second(tablets, booth):
    session = booth.session_at("ground.1.spray/0")
    first, second = tablets(*TABLET).open(session), tablets(*PHONE).open(session)
    for one in (first, second):
        one.watching()
    took_s = [seen_after_s(first, second) for _ in range(4)] + [seen_after_s(second, first) for _ in range(2)]
    print("seen after", ", ".join(f"{one:.2f} s" for one in took_s))
    assert sorted(took_s)[len(took_s) // 2] < 1.0
    assert not first.faults + second.faults


def test_a_screen_that_hears_the_stream_leaves_the_server_alone(tablets, booth):
    tablet = tablets(*TABLET).open(booth.new_session())
    tablet.watching()
    tablet.page.wait_for_timeout(3500)  # until the last look that was due before the stream was heard
    tablet.asked = 0
    tablet.page.wait_for_timeout(6500)
    assert tablet.asked == 0
    tablet.go()
    tablet.wait_sent(1)
    tablet.page.wait_for_timeout(500)
    assert tablet.asked == 0, "what the answer to its own tap brought is not asked for again"


@pytest.mark.parametrize("how", ["refused", "no such thing in this browser"])
@pytest.mark.long
def test_without_a_stream_the_second_screen_asks_every_three_seconds(tablets, booth, how):
    session = booth.session_at("ground.1.spray/0")
    first, second = tablets(*TABLET).open(session), tablets(*PHONE)
    if how == "refused":
        second.context.route("**/stream", lambda route: route.fulfill(status=503, body="full"))
    else:
        second.page.add_init_script("delete window.EventSource")
    second.open(session)
    assert seen_after_s(first, second) < 5.0
    expect(second.page.locator("body")).to_have_attribute("data-network", "there")
    expect(second.page.locator("body")).to_have_attribute("data-watching", "no")
    second.asked = 0
    second.page.wait_for_timeout(7000)
    assert 2 <= second.asked <= 4
    assert not second.faults


def test_a_stream_that_breaks_is_opened_again_and_nothing_is_missed(tablets, booth):
    session = booth.session_at("ground.1.spray/0")
    first, second = tablets(*TABLET).open(session), tablets(*PHONE).open(session)
    for one in (first, second):
        one.watching()
    booth.app.state.watchers._end_all()
    expect(second.page.locator("body")).to_have_attribute("data-watching", "no")
    assert seen_after_s(first, second) < 5.0
    second.watching()
    assert seen_after_s(first, second) < 2.0


def test_a_stream_that_falls_silent_is_given_up_and_tried_again(tablets, booth, monkeypatch):
    monkeypatch.setattr(watchers, "STILL_S", 1000.0)  # as behind a dead wireless: open, and nothing comes
    tablet = tablets(*TABLET)
    tablet.page.clock.install()
    tablet.open(booth.new_session())
    tablet.watching()
    tablet.asked = 0
    tablet.page.clock.fast_forward(13_000)
    expect(tablet.page.locator("body")).to_have_attribute("data-watching", "no")
    assert tablet.asked >= 1, "it asks at once"
    tablet.page.clock.fast_forward(4_000)
    tablet.watching()


@pytest.mark.long
def test_taps_sent_from_two_windows_of_one_tablet_count_once(tablets, booth):
    # Both windows share the queue of taps; the stream tells one of them of a tap that still stands in the queue.
    session = booth.session_at("ground.1.spray/0")
    first = tablets(*TABLET).open(session)
    other = first.context.new_page()
    other.goto(f"{booth.address}/guide/{session}")
    other.wait_for_selector("body[data-watching=yes]")
    for _ in range(5):
        first.go()
    first.wait_sent(5)
    expect(other.locator("body")).to_have_attribute("data-node", re.compile(re.escape(first.node())))
