from dataclasses import replace

import pytest

from cases import sample_panel
from laydown.report.paper.card import card_pdf
from laydown.report.text.letdown import strip_text
from laydown.report.text.plan import plan_text


def test_an_instrument_tells_count_zones_chances_and_angles():
    text = strip_text(sample_panel.instrument_verdict())
    assert "Effect coats: 2.5 (2.4 to 2.9). Sure enough to spray." in text
    assert "roof: 3.5" in text
    assert "84 %  <- ordered" in text
    assert "110° flop" in text
    assert all(len(line) <= 80 for line in text.splitlines())


def test_a_zone_without_a_count_says_why_and_what_next():
    text = " ".join(strip_text(sample_panel.instrument_verdict()).split())
    assert "bumper: no count fits the car; spray a new strip" in text


def test_by_eye_nothing_is_said_of_angles():
    text = strip_text(sample_panel.eye_verdict())
    assert "angle" not in text
    assert "provisional" in text


def test_a_fixed_count_is_held_against_the_panel():
    verdict = sample_panel.instrument_verdict()
    assert "fixes 3 coats: take choices.effect_coats out" in strip_text(verdict, 3.0)
    assert "fixes 2.5 coats too" in strip_text(verdict, 2.5)


def test_where_films_differ_the_chances_are_those_of_the_panel():
    verdict = replace(sample_panel.instrument_verdict(), film_factor=1.5, effect_coats=1.5, panel_coats=2.25)
    text = strip_text(verdict)
    assert "half coat of the panel" in text
    assert "<- ordered" not in text
    assert "1.50 of a coat of the panel" in text


def test_a_narrow_terminal_is_refused():
    with pytest.raises(ValueError, match="72"):
        strip_text(sample_panel.eye_verdict(), None, 40)


def test_the_plan_says_verdict_interval_zones_and_next_step(hatch):
    text = " ".join(plan_text(sample_panel.with_panel(hatch)).split())
    assert "effect coats 2.5 (2.4 to 2.9): sure enough to spray" in text
    assert "next: spray two coats and a light one" in text
    assert "zone roof: 3.5" in text


def test_the_card_stays_one_page_with_zones_of_their_own_count(hatch):
    assert card_pdf(sample_panel.with_panel(hatch)).startswith(b"%PDF")
