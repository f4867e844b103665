"""A limit is shown only where the shop has switched it on and confirmed it."""

from dataclasses import replace

import pytest

from laydown.reader.papers.tables import read_voc_limits
from laydown.trade.regions import beside_limit, breathing_words, commonly_required, limit_note

SHIPPED = read_voc_limits()
CONFIRMED = tuple(replace(row, confirmed_on="2026-01-15") for row in SHIPPED)


def test_no_shipped_row_is_shown_before_it_is_confirmed():
    assert len(SHIPPED) > 30
    assert all(limit_note(row.region, row.category, SHIPPED, "2026-06-01") is None for row in SHIPPED)


def test_region_none_shows_nothing_at_all():
    assert all(limit_note("none", row.category, CONFIRMED, "2026-06-01") is None for row in CONFIRMED)
    assert commonly_required("none") == ()


def test_a_confirmed_row_is_shown_with_source_and_date_and_defers_to_the_label():
    note = limit_note("eu", "topcoat", CONFIRMED, "2026-06-01")
    assert note is not None
    assert note.limit_g_l == 420
    assert note.verified
    assert note.text.startswith("Limit on file for topcoat: 420 g/L (Directive 2004/42/EC")
    assert note.text.endswith("checked 2026-01-15). Your product label and your authority decide.")


@pytest.mark.parametrize(("today", "verified"), [("2028-01-15", True), ("2028-02-15", False)])
def test_a_row_confirmed_more_than_two_years_ago_is_unverified(today, verified):
    note = limit_note("eu", "topcoat", CONFIRMED, today)
    assert note.verified is verified
    assert ("unverified" in note.text) is not verified


@pytest.mark.parametrize(("today", "g_l"), [("2029-12-31", 420), ("2030-01-01", 250)])
def test_the_row_of_the_day_is_shown(today, g_l):
    assert limit_note("us-ca", "colour coat (South Coast)", CONFIRMED, today).limit_g_l == g_l


def test_the_words_are_never_those_of_a_court():
    note = limit_note("eu", "topcoat", CONFIRMED, "2026-06-01")
    assert beside_limit(420.0, note) == "below the limit on file"
    assert beside_limit(420.1, note) == "above the limit on file"


def test_rules_for_booth_and_gun_stay_in_their_region():
    assert {rule.region for rule in commonly_required("us")} == {"us"}
    assert {rule.region for rule in commonly_required("us-ca")} == {"us", "us-ca"}
    assert commonly_required("eu") == ()


def test_breathing_protection_is_named_as_the_region_names_it():
    assert "EN 14594" in breathing_words("eu")
    assert "supplied-air" in breathing_words("us-ca")
    assert "EN" not in breathing_words("none")
