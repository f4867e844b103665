"""The live view without any colour: each state is told by its shape and its word, and every text stands out from its ground.

The browser itself shows the page as somebody sees it who sees no colour at all (achromatopsia). An eye that resolves one minute of
arc (visual acuity 1.0, ISO 8596) sees 1.75 mm at 6 m, the booth window; on a 10.1 inch tablet with 5.9 px per mm that is 10 px.
Contrast: WCAG 2.2, success criterion 1.4.6 (AAA): 7 to 1, large text included, for the window takes contrast away.
"""

import base64
import itertools
from typing import get_args

import numpy as np
import pytest

from cases.speech import english
from cases.thorough import sampled
from laydown.schema.session import Sign
from laydown.web.pages.guide_screen import ScreenTone
from laydown.web.request.render import environment

TABLET, PHONE = (1280, 800), (390, 844)
SEEN_PX = 10
"""What an eye just tells apart at 6 m; see above."""

HELD_PX = 4
"""The same for a phone of 6.3 px per mm held at 2 m, from where a painter at the window reads one."""

CLEARLY, ALIKE = 0.45, 0.15
"""Least share in which what is seen of two signs differs, and most in which one sign differs from itself; assumptions."""

SIGNS, TONES = get_args(Sign), get_args(ScreenTone)


def sign_markup(name):
    return str(environment().get_template("guide/signs.html").module.sign(name))


@pytest.fixture
def eye(browser):
    """An empty page of the same browser, to look into pictures."""
    context = browser.new_context()
    yield context.new_page()
    context.close()


def greys(eye, picture):
    """Values 0 to 1 of a picture, which must hold no colour."""
    width, height, values = eye.evaluate(
        """async picture => {
            const image = new Image();
            image.src = `data:image/png;base64,${picture}`;
            await image.decode();
            const canvas = new OffscreenCanvas(image.width, image.height);
            const pen = canvas.getContext('2d');
            pen.drawImage(image, 0, 0);
            const { data } = pen.getImageData(0, 0, image.width, image.height);
            return [image.width, image.height, Array.from(data)];
        }""",
        base64.b64encode(picture).decode(),
    )
    pixels = np.array(values, dtype=float).reshape(height, width, 4)[:, :, :3] / 255
    assert np.ptp(pixels, axis=2).max() <= 3 / 255, "there is colour left in the picture"
    return pixels.mean(axis=2)


def without_colour(page):
    """Let a page be seen without any colour, as its policy allows no style from a test."""
    page.context.new_cdp_session(page).send(
        "Emulation.setEmulatedVisionDeficiency", {"type": "achromatopsia"}
    )


def show(page, sign, tone):
    """Turn the live view into a state: its tone, its sign, its word."""
    page.evaluate(
        """([sign, word, tone]) => {
            const screen = document.querySelector('.screen');
            screen.style.transition = 'none';
            screen.dataset.tone = tone;
            screen.querySelector('.shape svg').outerHTML = sign;
            screen.querySelector('.shape .word').textContent = word;
        }""",
        [sign_markup(sign), english.say(f"sign-word.{sign.replace(' ', '-')}"), tone],
    )


def ink(eye, page, seen_px=SEEN_PX):
    """Share of ink in each spot of the sign that an eye tells apart."""
    values = greys(eye, page.locator(".shape svg").screenshot())
    ground = values[0, 0]
    away = np.abs(values - ground)
    mask = away > away.max() / 2
    assert mask.any(), "no sign is seen"
    rows, columns = (size // seen_px for size in mask.shape)
    spots = mask[: rows * seen_px, : columns * seen_px].reshape(rows, seen_px, columns, seen_px)
    return spots.mean(axis=(1, 3))


def apart(one, other):
    """Share in which two signs differ, of what either shows."""
    return float(np.abs(one - other).sum() / np.maximum(one, other).sum())


def texts_and_grounds(page):
    """Each text that is seen, with its colour and the colour of what it stands on."""
    return page.evaluate(
        """() => {
            const found = [];
            const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
            while (walker.nextNode()) {
                const text = walker.currentNode.textContent.trim();
                const own = walker.currentNode.parentElement;
                if (!text || !own.checkVisibility() || own.closest('.unseen, dialog, noscript, script')) continue;
                const ground = [...ancestors(own)].map(one => getComputedStyle(one).backgroundColor)
                    .find(colour => !/rgba\\(.*, 0\\)/.test(colour));
                found.push([text, getComputedStyle(own).color, ground ?? 'rgb(255, 255, 255)']);
            }
            return found;
            function* ancestors(one) { for (; one; one = one.parentElement) yield one; }
        }"""
    )


def contrast(first, second):
    """Contrast of two colours, WCAG 2.2: relative luminance as defined there."""
    light, dark = sorted((luminance(one) for one in (first, second)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def luminance(colour):
    parts = [float(one) / 255 for one in colour[colour.index("(") + 1 : -1].split(",")]
    assert len(parts) == 3, f"{colour}: the ground shows through"
    linear = [one / 12.92 if one <= 0.04045 else ((one + 0.055) / 1.055) ** 2.4 for one in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def stands_out(page, where):
    """Every text of the live view reaches 7 to 1."""
    weak = [
        f"{text[:40]!r} {colour} on {ground}: {contrast(colour, ground):.1f}"
        for text, colour, ground in texts_and_grounds(page)
        if contrast(colour, ground) < 7.0
    ]
    assert not weak, f"{where}: {weak}"


@pytest.mark.parametrize("size", sampled(TABLET, PHONE), ids=["tablet", "phone"])
def test_every_sign_is_told_from_every_other_by_its_shape(tablets, booth, shots, eye, size):
    page = tablets(*size).open(booth.session_at("effect.1.spray/1")).page
    without_colour(page)
    inks = {}
    for sign in SIGNS:
        show(page, sign, "plain")
        inks[sign] = ink(eye, page, SEEN_PX if size == TABLET else HELD_PX)
    close = [
        f"{one} and {other}: {apart(inks[one], inks[other]):.2f}"
        for one, other in itertools.combinations(SIGNS, 2)
        if apart(inks[one], inks[other]) < CLEARLY
    ]
    assert not close, close


@pytest.mark.long
def test_a_sign_stays_itself_on_every_tone_and_colour_alone_would_be_noticed(tablets, booth, eye):
    page = tablets(*TABLET).open(booth.session_at("effect.1.spray/1")).page
    without_colour(page)
    for sign in SIGNS:
        inks = []
        for tone in TONES:
            show(page, sign, tone)
            inks.append(ink(eye, page))
        assert max(apart(inks[0], one) for one in inks[1:]) <= ALIKE, sign


@pytest.mark.parametrize("size", sampled(TABLET, PHONE), ids=["tablet", "phone"])
def test_every_text_stands_out_in_every_state(tablets, booth, shots, size):
    page = tablets(*size).open(booth.session_at("effect.1.spray/1")).page
    without_colour(page)
    name = "tablet" if size == TABLET else "phone"
    for tone, sign in itertools.product(TONES, SIGNS):
        show(page, sign, tone)
        stands_out(page, f"{tone}, {sign}")
        if (tone, sign) in {("plain", sign), ("wet", "wet"), ("tight", "tight"), ("dry", "dry")}:
            page.screenshot(path=shots / f"grey-{name}-{tone}-{sign.replace(' ', '-')}.png")


def test_a_join_that_dries_is_followed_by_shape_and_word_alone(tablets, booth, shots, eye):
    tablet = tablets(*TABLET)
    tablet.page.clock.install()
    tablet.open(booth.session_at("effect.1.spray/1"))
    page, seen = tablet.page, {}
    without_colour(page)
    page.evaluate("document.querySelector('.screen').style.transition = 'none'")
    for _ in range(13):
        tone, word = page.evaluate(
            "() => [document.querySelector('.screen').dataset.tone, document.querySelector('.word').textContent]"
        )
        if tone not in seen:
            seen[tone] = (ink(eye, page), word)
            page.screenshot(path=shots / f"grey-join-{tone}.png")
            stands_out(page, tone)
        if tone == "dry":
            break
        tablet.turn_on(10)
    assert list(seen) == ["wet", "tight", "dry"]
    for (one, word), (other, another) in itertools.combinations(seen.values(), 2):
        assert apart(one, other) >= CLEARLY
        assert word != another


@pytest.mark.long
def test_the_whole_day_is_read_without_colour(tablets, booth, shots, eye):
    tablet = tablets(*TABLET).open(booth.new_session())
    page, seen = tablet.page, {}
    without_colour(page)
    for _ in range(90):
        sign, tone = page.evaluate(
            "() => { const s = document.querySelector('.screen'); return [s.dataset.sign, s.dataset.tone] }"
        )
        if (sign, tone) not in seen:
            page.screenshot(path=shots / f"grey-day-{len(seen):02d}-{sign}-{tone}.png")
            stands_out(page, f"{sign}, {tone}")
            seen[sign, tone] = ink(eye, page) if page.locator(".shape svg").count() else None
        if tablet.main().count() == 0:
            break
        tablet.go()
    told = [(sign, found) for (sign, _), found in seen.items() if found is not None]
    assert {"hand", "ready", "wet", "flash", "heat", "cool", "done"} <= {sign for sign, _ in told}
    for (sign, one), (another, other) in itertools.combinations(told, 2):
        assert (apart(one, other) >= CLEARLY) is (sign != another), f"{sign} and {another}"
