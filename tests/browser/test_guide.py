"""The live view in a real browser: the whole day, without network, two tablets, keys, signs without colour."""

import itertools
import json

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

from cases.guide import job_bytes
from cases.thorough import sampled

TABLET, PHONE = (1280, 800), (390, 844)

TOUCH_PX = 118
"""20 mm on a 10.1 inch tablet of 1280 px: 5.9 px per mm; common practice for gloves."""

NUMERAL_PX = 177
"""30 mm on the same tablet: height of a numeral read at 6 m, distance / 200; common practice."""


def axe_faults(page):
    """Violations of the rules of WCAG 2.2 A and AA that axe knows."""
    found = Axe().run(
        page, options={"runOnly": ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa", "best-practice"]}
    )
    return [f"{one['id']}: {one['nodes'][0]['html'][:160]}" for one in found.response["violations"]]


def too_small(page, least):
    """Buttons of the stage below a size in px."""
    return page.evaluate(
        """least => [...document.querySelectorAll('[data-stage] .touch')].filter(one => {
            const box = one.getBoundingClientRect();
            return box.width > 0 && (box.width < least || box.height < least);
        }).map(one => one.textContent.trim())""",
        least,
    )


@pytest.mark.parametrize("size", sampled(TABLET, PHONE), ids=["tablet", "phone"])
def test_the_whole_day_from_start_to_close(tablets, booth, shots, size):
    tablet = tablets(*size).open(booth.new_session())
    page, seen, taps = tablet.page, set(), 0
    while True:
        kind = page.evaluate(
            "() => { const s = document.querySelector('.screen'); return s.dataset.sign + '-' + s.dataset.tone }"
        )
        if kind not in seen or "release" in tablet.node():
            seen.add(kind)
            page.screenshot(path=shots / f"{'tablet' if size == TABLET else 'phone'}-{taps:02d}-{kind}.png")
            assert axe_faults(page) == []
            assert too_small(page, TOUCH_PX) == []
            assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), "scrolls sideways"
            bottom = page.evaluate("document.querySelector('.screen > .acts').getBoundingClientRect().bottom")
            assert bottom <= size[1] or (size == PHONE and "release" in tablet.node()), (
                f"{tablet.node()}: the buttons end at {bottom} px"
            )
        if tablet.main().count() == 0:
            break
        tablet.go()
        taps += 1
    assert "Closed: good" in page.inner_text("[data-stage]")
    assert {
        "hand-plain",
        "ready-plain",
        "wet-wet",
        "flash-wait",
        "gate-plain",
        "heat-wait",
        "cool-wait",
        "done-plain",
    } <= seen
    tablet.wait_sent(taps)
    ids = [tap_id for tap_id, _ in booth.rows(tablet.session)]
    assert len(set(ids)) == taps
    assert all(len(tap_id) == 32 and int(tap_id, 16) >= 0 for tap_id in ids)


def test_the_one_number_is_thirty_millimetres_high_and_fits_at_its_longest(tablets, booth):
    page = tablets(*TABLET).open(booth.session_at("ground.1.spray/1")).page
    height = page.evaluate(
        """() => {
            const style = getComputedStyle(document.querySelector('.numeral'));
            const pen = document.createElement('canvas').getContext('2d');
            pen.font = `${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
            const box = pen.measureText('0');
            return box.actualBoundingBoxAscent + box.actualBoundingBoxDescent;
        }"""
    )
    assert height >= NUMERAL_PX
    page.evaluate("document.querySelector('.numeral').textContent = '\u221223:59'")
    assert page.evaluate("document.querySelector('.stage').scrollWidth <= innerWidth")


def test_tones_signs_and_words_follow_the_time_without_a_tap(tablets, booth, shots):
    tablet = tablets(*TABLET)
    tablet.page.clock.install()
    tablet.open(booth.session_at("effect.1.spray/1"))
    page, seen = tablet.page, []
    for _ in range(13):
        tone, sign, word = page.evaluate(
            "() => [document.querySelector('.screen').dataset.tone, document.querySelector('.shape path').getAttribute('d'), document.querySelector('.word').textContent]"
        )
        if not seen or seen[-1][0] != tone:
            seen.append((tone, sign, word))
            page.screenshot(path=shots / f"join-{tone}.png")
            assert axe_faults(page) == []
        tablet.turn_on(10)
    assert [tone for tone, _, _ in seen] == ["wet", "tight", "dry"]
    assert len({sign for _, sign, _ in seen}) == 3, "the shape alone must tell them apart"
    assert [word for _, _, word in seen] == ["stays wet", "tight", "dry: no join"]
    assert page.inner_text(".numeral").startswith("\u2212"), "too late counts up with a minus"
    assert "begin anew beyond the gap" in page.inner_text("[data-assertive]")


def test_flash_is_looked_at_and_asked_after_and_may_be_put_off(tablets, booth, shots):
    tablet = tablets(*TABLET)
    tablet.page.clock.install()
    tablet.open(booth.session_at("ground.1.flash"))
    flash_s = booth.plan.layers[0].coats[0].flash_s.value
    assert "until matt" in tablet.page.inner_text("[data-say]")
    tablet.turn_on(0.75 * flash_s)
    expect(tablet.page.locator("[data-say]")).to_contain_text("Look")
    tablet.turn_on(0.3 * flash_s)
    expect(tablet.page.locator("[data-say]")).to_contain_text("Matt everywhere")
    tablet.page.screenshot(path=shots / "flash-asked.png")
    tablet.go(tablet.page.locator("[data-key=n]"))
    left = tablet.page.inner_text(".numeral")
    assert not left.startswith("\u2212"), "after not yet there is time again"


def test_two_minutes_without_network_in_the_middle_of_a_coat_lose_nothing(tablets, booth, shots):
    tablet = tablets(*TABLET)
    tablet.page.clock.install()
    tablet.open(booth.session_at("ground.1.spray/1"))
    expect(tablet.page.locator("body")).to_have_attribute("data-offline", "ready")
    tablet.context.set_offline(True)
    expect_steps = ["ground.1.spray/2", "ground.1.flash", "ground.2.spray/0", "ground.2.spray/1"]
    for step, pause_s in zip(expect_steps, (40, 40, 30, 10), strict=True):
        tablet.turn_on(pause_s, away=True)
        tablet.go()
        assert tablet.node().startswith(step), "the work goes on without the server"
    assert len(booth.rows(tablet.session)) == 0, "nothing reached the server meanwhile"
    assert "works without network" in tablet.page.inner_text(".topbar")
    assert "4 taps wait" in tablet.page.inner_text(".topbar")
    tablet.page.screenshot(path=shots / "without-network.png")
    assert axe_faults(tablet.page) == []
    here = tablet.page.inner_text(".numeral")
    tablet.context.set_offline(False)
    tablet.wait_sent(4)
    assert tablet.node().startswith("ground.2.spray/1")
    assert abs(_seconds(tablet.page.inner_text(".numeral")) - _seconds(here)) <= 4, (
        "the server counts as the tablet did"
    )
    events = [json.loads(text) for _, text in booth.rows(tablet.session)]
    assert [one["kind"] for one in events] == ["next", "next", "matt", "begin"]
    between = [round(b["at_s"] - a["at_s"]) for a, b in itertools.pairwise(events)]
    assert all(abs(seen - asked) <= 3 for seen, asked in zip(between, (40, 30, 10), strict=True)), between


def _seconds(text):
    minutes, _, seconds = text.rpartition(":")
    return 60 * int(minutes or 0) + int(seconds)


def test_a_page_loaded_again_without_network_stands_where_it_was(tablets, booth):
    tablet = tablets(*TABLET).open(booth.session_at("ground.1.spray/1"))
    expect(tablet.page.locator("body")).to_have_attribute("data-offline", "ready")
    tablet.context.set_offline(True)
    tablet.go()
    tablet.page.reload()
    tablet.ready()
    tablet.wait_node("ground.1.spray/2")
    assert "1 tap waits" in tablet.page.inner_text(".topbar")
    tablet.go()
    tablet.page.close()
    tablet.context.set_offline(False)
    again = tablet.context.new_page()
    again.goto(f"{booth.address}/guide/{tablet.session}")
    again.wait_for_selector("body[data-ready=yes]")
    tablet.page = again
    tablet.wait_sent(2)
    tablet.wait_node("ground.1.flash")


def test_undo_works_on_taps_that_were_not_sent_yet_and_on_those_that_were(tablets, booth):
    tablet = tablets(*TABLET).open(booth.session_at("ground.1.spray/1"))
    expect(tablet.page.locator("body")).to_have_attribute("data-offline", "ready")
    tablet.context.set_offline(True)
    tablet.go()
    undo = tablet.page.locator("[data-key=u]")
    tablet.go(undo)
    assert tablet.node().startswith("ground.1.spray/1"), "the unsent tap is taken back"
    tablet.go(undo)
    assert tablet.node().startswith("ground.1.spray/0"), "and then the one that was sent"
    tablet.context.set_offline(False)
    tablet.wait_sent(3)
    assert tablet.node().startswith("ground.1.spray/0")


def test_undo_goes_on_without_network_as_far_as_screens_are_held_and_then_says_so(tablets, booth, shots):
    tablet = tablets(*TABLET).open(booth.session_at("ground.1.spray/0"))
    page = tablet.page
    expect(page.locator("body")).to_have_attribute("data-offline", "ready")
    places = [tablet.node()]
    for _ in range(11):
        tablet.go()
        places.append(tablet.node())
    tablet.wait_sent(11)
    tablet.context.set_offline(True)
    for _ in range(2):
        tablet.go()
        places.append(tablet.node())
    undo = page.locator("[data-key=u]")
    # Two taps that were never sent, eleven that were, and the one before the page was opened.
    for place in reversed(places[:-1]):
        tablet.go(undo)
        assert tablet.node() == place
    tablet.go(undo)
    assert tablet.node().startswith("prepare")
    expect(undo).to_have_count(0)  # nothing was tapped before
    for place in places[:5]:
        tablet.go()
        assert tablet.node() == place, "and on again from there"
    away = _seconds(page.inner_text(".numeral"))
    tablet.context.set_offline(False)
    tablet.wait_sent(11 + 2 + 14 + 5)
    assert tablet.node() == places[4]
    assert 0 <= away - _seconds(page.inner_text(".numeral")) <= 4, "the server counts as the tablet did"


@pytest.mark.long
def test_a_step_back_that_cannot_be_shown_without_network_is_refused_in_words(tablets, booth, shots):
    for size in (TABLET, PHONE):
        tablet = tablets(*size).open(booth.session_at("ground.release"))
        page = tablet.page
        expect(page.locator("body")).to_have_attribute("data-offline", "ready")
        tablet.context.set_offline(True)
        undo = page.locator("[data-key=u]")
        for _ in range(12):
            tablet.go(undo)
        expect(page.locator("[data-notice=no-back]")).to_be_visible()
        expect(undo).to_have_attribute("aria-disabled", "true")
        assert "needs the network" in undo.inner_text()
        assert axe_faults(page) == []
        page.screenshot(path=shots / f"no-step-back-{size[0]}.png")
        here = tablet.node()
        page.wait_for_selector("body:not([data-armed=no])")
        undo.click(force=True)
        expect(page.locator("body")).to_have_attribute("data-waiting", "12")
        tablet.context.set_offline(False)
        tablet.wait_sent(12)
        expect(page.locator("[data-notice=no-back]")).to_be_hidden()
        assert tablet.node() == here
        tablet.go(undo)
        tablet.wait_sent(13)
        assert tablet.node().startswith("prepare")


def test_two_tablets_show_the_same_and_the_same_tap_on_both_counts_once(tablets, booth):
    session = booth.session_at("ground.1.spray/0")
    first, second = tablets(*TABLET).open(session), tablets(*PHONE).open(session)
    first.go()
    first.wait_node("ground.1.spray/1")
    second.wait_node("ground.1.spray/1")
    for one in (first, second):
        expect(one.page.locator("body")).to_have_attribute("data-offline", "ready")
        one.context.set_offline(True)
        one.go()
        assert one.node().startswith("ground.1.spray/2")
    for one in (first, second):
        one.context.set_offline(False)
        one.wait_sent(2 if one is first else 3)
    for one in (first, second):
        one.wait_node("ground.1.spray/2")


def test_a_knuckle_that_bounces_taps_once(tablets, booth):
    tablet = tablets(*TABLET).open(booth.session_at("ground.1.spray/0"))
    tablet.page.wait_for_selector("body[data-armed=yes]")
    tablet.main().dblclick()
    tablet.wait_node("ground.1.spray/1")
    tablet.wait_sent(1)
    assert tablet.node().startswith("ground.1.spray/1")


def test_a_tap_that_came_late_is_moved_back_without_network_too(tablets, booth):
    session = booth.session_at("effect.1.spray/0")
    booth.clock.ahead_s += 60  # nothing is moved to before the tap that came before it
    tablet = tablets(*TABLET).open(session)
    page = tablet.page
    tablet.go()
    tablet.wait_sent(1)
    expect(page.locator("body")).to_have_attribute("data-offline", "ready")
    tablet.context.set_offline(True)
    before = _seconds(page.inner_text(".numeral"))
    page.wait_for_selector("body[data-armed=yes]")
    page.locator("[data-key=e]").click()
    expect(page.locator("body")).to_have_attribute("data-waiting", "1")
    away = _seconds(page.inner_text(".numeral"))
    assert 5 <= before - away <= 8
    tablet.context.set_offline(False)
    tablet.wait_sent(2)
    assert 0 <= away - _seconds(page.inner_text(".numeral")) <= 4


def test_clocks_that_began_before_the_network_went_stay_right_without_it(tablets, booth):
    # The 24 h to the clear began with a tap that the server has; the screens prepared before it must know its time.
    tablet = tablets(*TABLET).open(booth.session_at("effect.2.spray/3"))
    page = tablet.page
    expect(page.locator("body")).to_have_attribute("data-offline", "ready")
    tablet.go()
    tablet.wait_sent(1)
    tablet.context.set_offline(True)
    tablet.go()
    assert tablet.node().startswith("effect.dehydrate")
    assert page.inner_text(".clocks") in {
        "effect coat to the next layer 24:00 h",
        "effect coat to the next layer 23:59 h",
    }


def test_the_cup_is_weighed_without_a_keyboard(tablets, booth):
    tablet = tablets(*TABLET).open(booth.session_at("effect.1.flash"))
    page = tablet.page
    planned = round(booth.plan.layers[1].coats[0].sections[-1].cup_g_after)
    page.locator(".weigh summary").click()
    page.locator(".weigh [data-less='-10']").click()
    page.locator(".weigh [data-less='1']").click()
    assert axe_faults(page) == []
    page.wait_for_selector("body:not([data-armed=no])")
    page.click("text=Keep the weight")
    tablet.wait_sent(1)
    event = json.loads(booth.rows(tablet.session)[0][1])
    assert (event["kind"], event["weight_g"]) == ("weighed", planned + 9)


def test_hold_keeps_the_clock_running_and_goes_on(tablets, booth, shots):
    tablet = tablets(*TABLET).open(booth.session_at("effect.1.spray/1"))
    before = _seconds(tablet.page.inner_text(".numeral"))
    tablet.go(tablet.page.locator("[data-key=h]"))
    assert tablet.node().startswith("effect.1.spray/1/held")
    assert _seconds(tablet.page.inner_text(".numeral")) <= before
    assert axe_faults(tablet.page) == []
    tablet.page.screenshot(path=shots / "held.png")
    tablet.go()
    assert tablet.node().startswith("effect.1.spray/2")


def test_a_gate_opens_with_three_answers_or_by_name(tablets, booth, shots):
    tablet = tablets(*TABLET).open(booth.session_at("ground.release"))
    page = tablet.page
    locked = page.locator("[data-stage] .first")
    assert locked.get_attribute("aria-disabled") == "true"
    assert "answer 1, 2, 3 first" in locked.inner_text()
    tablet.go(page.locator(".ask .yes").nth(2))
    assert page.locator(".ask .yes").nth(2).get_attribute("aria-pressed") == "true"
    tablet.go(page.locator(".ask .no").nth(0))
    assert "answer 1, 2 first" in page.locator("[data-stage] .first").inner_text()
    page.locator(".anyway summary").click()
    page.screenshot(path=shots / "gate-by-name.png")
    assert axe_faults(page) == []
    page.locator(".anyway .touch").click()
    assert tablet.node().startswith("ground.release"), "no name, no release"
    page.fill("[data-name]", "Kim")
    tablet.go(page.locator(".anyway .touch"))
    assert tablet.node().startswith("effect.1.spray/0")


def test_keys_alone_are_enough(tablets, booth):
    tablet = tablets(*TABLET).open(booth.new_session())
    page = tablet.page
    for _ in range(3):
        before = page.get_attribute("body", "data-node")
        page.wait_for_selector("body:not([data-armed=no])")
        page.keyboard.press("Enter")
        expect(page.locator("body")).not_to_have_attribute("data-node", before)
    tablet.wait_node("ground.1.spray/2")
    page.wait_for_selector("body[data-armed=yes]")
    page.keyboard.press("u")
    tablet.wait_node("ground.1.spray/1")
    for _ in range(20):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.classList.contains('first')"):
            break
    assert page.evaluate("getComputedStyle(document.activeElement).outlineWidth") == "6px"
    page.wait_for_selector("body[data-armed=yes]")
    page.keyboard.press("Enter")
    tablet.wait_node("ground.1.spray/2")
    assert page.evaluate("document.activeElement.classList.contains('first')"), (
        "the focus stays on the main button"
    )
    tablet.open(booth.session_at("ground.release"))
    for key in "123":
        page.wait_for_selector("body[data-armed=yes]")
        page.keyboard.press(key)
        expect(page.locator(".ask .yes").nth(int(key) - 1)).to_have_attribute("aria-pressed", "true")
    page.wait_for_selector("body[data-armed=yes]")
    page.keyboard.press("Enter")
    tablet.wait_node("effect.1.spray/0")


@pytest.mark.parametrize(("motion", "moves"), [("reduce", False), ("no-preference", True)])
def test_nothing_moves_for_who_asked_for_less_motion(tablets, booth, motion, moves):
    page = tablets(*TABLET, reduced_motion=motion).open(booth.new_session()).page
    durations = page.evaluate(
        "[...document.querySelectorAll('*')].map(one => parseFloat(getComputedStyle(one).transitionDuration))"
    )
    assert (max(durations) > 0) is moves


def test_the_tones_reach_seven_to_one(tablets, booth):
    # WCAG 2.2, 1.4.6 (AAA), relative luminance as defined there; a booth window takes contrast away.
    page = tablets(*TABLET).open(booth.new_session()).page
    for tone in ("plain", "wait", "wet", "tight", "dry"):
        paper, ink = page.evaluate(
            """tone => {
                const screen = document.querySelector('.screen');
                screen.style.transition = 'none';
                screen.dataset.tone = tone;
                const style = getComputedStyle(screen);
                return [style.backgroundColor, style.color];
            }""",
            tone,
        )
        assert _contrast(paper, ink) >= 7.0, f"{tone}: {_contrast(paper, ink):.1f}"


def _contrast(first, second):
    light, dark = sorted((_luminance(one) for one in (first, second)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def _luminance(colour):
    parts = [int(one) / 255 for one in colour[colour.index("(") + 1 : -1].split(",")[:3]]
    linear = [one / 12.92 if one <= 0.04045 else ((one + 0.055) / 1.055) ** 2.4 for one in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def test_plain_http_on_the_local_network_says_what_is_missing_and_still_keeps_taps(tablets, booth, shots):
    tablet = tablets(*TABLET)
    tablet.open(booth.new_session(), booth.address.replace("127.0.0.1", "booth.lan"))
    page = tablet.page
    assert page.evaluate("isSecureContext") is False
    expect(page.locator("[data-notice=plain-http]")).to_be_visible()
    expect(page.locator("[data-notice=not-awake]")).to_be_visible()
    assert axe_faults(page) == []
    page.screenshot(path=shots / "plain-http.png")
    tablet.context.set_offline(True)
    tablet.go()
    tablet.context.set_offline(False)
    tablet.wait_sent(1)


def test_something_went_wrong_works_without_network_but_without_figures(tablets, booth, shots):
    tablet = tablets(*TABLET).open(booth.session_at("effect.1.flash"))
    page = tablet.page
    expect(page.locator("body")).to_have_attribute("data-offline", "ready")
    expect(page.locator("body")).to_have_attribute("data-synced", "yes")
    kept = len(booth.rows(tablet.session))
    page.locator(".menu summary").click()
    page.click("text=Something went wrong")
    expect(page.locator("[data-value=effect_wet]")).to_have_attribute("aria-pressed", "true")
    assert axe_faults(page) == []
    tablet.context.set_offline(True)
    for value in ("effect_wet", "clouds", "front door", "30 cm"):
        page.click(f"[data-page]:not([hidden]) [data-value='{value}']")
        assert axe_faults(page) == []
    expect(page.locator("[data-no-figures]")).to_be_visible()
    page.screenshot(path=shots / "fault-without-network.png")
    page.locator("[data-ways] [data-way]").first.click()
    expect(page.locator("[data-page=then]")).to_be_visible()
    assert len(booth.rows(tablet.session)) == kept
    tablet.context.set_offline(False)
    page.click("text=To the live view")
    tablet.ready()
    tablet.wait_sent(kept + 1)
    event = json.loads(booth.rows(tablet.session)[-1][1])
    assert event["kind"] == "defect"
    assert event["text"].startswith("clouds; effect_wet; front door; 30 cm; ")


def test_an_answer_to_a_fault_takes_five_taps_and_says_minutes(tablets, booth, shots):
    tablet = tablets(*TABLET).open(booth.new_session())
    page = tablet.page
    page.goto(f"{booth.address}/guide/{tablet.session}/fix")
    for value in ("effect_wet", "clouds", "front door", "30 cm"):
        page.click(f"[data-page]:not([hidden]) [data-value='{value}']")
    expect(page.locator(".way .price").first).to_contain_text("min")
    assert axe_faults(page) == []
    page.screenshot(path=shots / "fault-ways.png")
    page.keyboard.press("Escape")
    expect(page.locator("[data-page=size]")).to_be_visible()


def test_another_air_from_the_live_view_and_back_by_undo(tablets, booth, shots):
    tablet = tablets(*TABLET).open(booth.new_session())
    page = tablet.page
    old = page.get_attribute("body", "data-node").split("/")[0]
    page.goto(f"{booth.address}/guide/{tablet.session}/day")
    assert axe_faults(page) == []
    page.click("text=The air is different")
    for times, label in (
        (1, "Booth air now: 5 °C more"),
        (2, "Booth air now: 1 °C more"),
        (2, "Humidity now: 5 % more"),
    ):
        for _ in range(times):
            page.click(f"[aria-label='{label}']")
    assert page.input_value("[name=temperature_c]") == "27 °C"
    assert page.input_value("[name=rh]") == "32 %"
    assert axe_faults(page) == []
    page.click("text=See what changes")
    page.screenshot(path=shots / "day-changes.png", full_page=True)
    assert axe_faults(page) == []
    page.click("text=Go by the new plan")
    tablet.ready()
    assert page.get_attribute("body", "data-node").split("/")[0] != old
    tablet.go(page.locator("[data-key=u]"))
    assert page.get_attribute("body", "data-node").split("/")[0] == old


def test_the_warning_about_screens_in_the_enclosure_is_said_once_for_each_session(tablets, booth):
    tablet = tablets(*TABLET)
    tablet.page.goto(f"{booth.address}/guide/{booth.new_session()}")
    expect(tablet.page.locator("[data-once]")).to_contain_text(
        "No tablet, phone or radio in the spraying enclosure"
    )
    assert axe_faults(tablet.page) == []
    tablet.page.click("[data-once-seen]")
    tablet.page.reload()
    tablet.ready()
    expect(tablet.page.locator("[data-once]")).to_be_hidden()


def test_the_log_names_what_was_done(tablets, booth):
    tablet = tablets(*TABLET).open(booth.session_at("ground.1.spray/1"))
    tablet.go()
    tablet.wait_sent(1)
    tablet.page.goto(f"{booth.address}/guide/{tablet.session}/log")
    assert axe_faults(tablet.page) == []
    assert tablet.page.locator("tbody tr").count() == 4


def test_the_shipped_job_is_the_one_that_is_shown(booth):
    assert b"0417 wing and door" in job_bytes()
    assert booth.plan.inputs.job.startswith("0417")
