"""Counts of coats: what they consist of, and how many hide."""

from dataclasses import replace

import pytest

from laydown.planning.counts import colour_of, composition, hiding_of, undercoat_of
from laydown.planning.paint import paint_of
from laydown.schema.choices import Choices, Sample
from laydown.schema.figure import Figure
from laydown.schema.panel import PanelWork
from planning_cases import MILD, request_of

PRODUCTS = request_of(MILD).products
GROUND, EFFECT = paint_of(PRODUCTS.ground), paint_of(PRODUCTS.effect)
FILM = (8.0, 0.12)
"""8 µm a coat, spread 12 %: the thin twentieth is 8 * (1 - 1.645 * 0.12) = 6.4 µm."""

# closed and light are a coat and a half; common practice, no source
TABLE = {
    ("ground", 1.0): ["closed"],
    ("ground", 1.5): ["full"],
    ("ground", 2.0): ["closed", "closed"],
    ("ground", 2.5): ["full", "closed"],
    ("ground", 3.0): ["full", "full"],
    ("ground", 3.5): ["full", "closed", "closed"],
    ("ground", 4.0): ["full", "full", "closed"],
    ("effect", 0.5): ["light"],
    ("effect", 1.0): ["closed"],
    ("effect", 1.5): ["full"],
    ("effect", 2.0): ["full", "light"],
    ("effect", 2.5): ["full", "closed"],
    ("effect", 3.0): ["full", "full"],
    ("effect", 3.5): ["full", "full", "light"],
    ("clear", 2.0): ["closed", "closed"],
}


@pytest.mark.parametrize(("layer", "coats"), TABLE)
def test_a_count_is_made_of_these_coats(layer, coats):
    assert [one.part for one in composition(coats, layer)] == TABLE[layer, coats]


@pytest.mark.parametrize("layer", ["ground", "effect"])
@pytest.mark.parametrize("halves", range(1, 17))
def test_parts_count_for_what_was_asked_and_start_closed(layer, halves):
    parts = composition(halves / 2.0, layer)
    assert sum(one.counts for one in parts) == halves / 2.0
    if halves > 1:
        assert parts[0].part in {"full", "closed"}
    assert all(one.counts == {"full": 1.5, "closed": 1.0, "light": 0.5}[one.part] for one in parts)


def hiding(lightness, choices=None, film=FILM):
    panel = PanelWork("door", "repaired", Figure(lightness))
    return hiding_of([("door", panel)], GROUND, film, choices or Choices())


def test_a_darker_undercoat_never_needs_fewer_coats():
    counts = [hiding(lightness)[0].ground_coats for lightness in (92.0, 85.0, 75.0, 60.0, 45.0, 25.0)]
    assert counts == sorted(counts)
    assert counts[0] < counts[-1]


def test_a_thicker_film_never_needs_more_coats_and_the_sheets_least_stays():
    counts = [hiding(60.0, film=(um, 0.12))[0].ground_coats for um in (4.0, 8.0, 16.0, 60.0)]
    assert counts == sorted(counts, reverse=True)
    assert counts[-1] == GROUND.coats_min == 1.5


def test_two_coats_become_two_and_a_half_because_a_lone_half_is_not_closed():
    found = {hiding(lightness)[0].ground_coats for lightness in range(30, 96, 3)}
    assert 2.0 not in found
    assert 2.5 in found


def test_the_hardest_panel_decides_for_all():
    panels = [
        ("wing", PanelWork("wing", "new", Figure(92.0))),
        ("door", PanelWork("door", "new", Figure(50.0))),
    ]
    verdict, _ = hiding_of(panels, GROUND, FILM, Choices())
    assert verdict.worst_panel == "door"
    assert verdict.ground_coats == hiding(50.0)[0].ground_coats


def test_the_range_holds_the_count():
    for lightness in (92.0, 70.0, 45.0):
        verdict, _ = hiding(lightness)
        assert verdict.low <= verdict.ground_coats <= verdict.high


def test_each_coat_changes_less_than_the_one_before_and_blind_begins_below_one_unit():
    verdict, findings = hiding(45.0)
    assert list(verdict.steps_de) == sorted(verdict.steps_de, reverse=True)
    blind = next(number for number, step in enumerate(verdict.steps_de, start=1) if step < 1.0)
    assert verdict.blind_from_coat == blind
    assert "blind" in {one.code for one in findings}


def test_more_coats_than_the_sheet_allows_are_said():
    assert "ground-beyond-sheet" in {one.code for one in hiding(25.0)[1]}
    assert "ground-beyond-sheet" not in {one.code for one in hiding(90.0)[1]}


def test_a_count_below_the_computed_one_is_kept_and_said():
    verdict, findings = hiding(45.0, Choices(ground_coats=1.5))
    assert verdict.ground_coats == 1.5
    assert "ground-not-hiding" in {one.code for one in findings}


@pytest.mark.parametrize(("word", "lightness"), [("white", 92.0), ("dark grey", 45.0), ("black", 25.0)])
def test_an_undercoat_in_words_has_a_range(word, lightness):
    value, low, high, source = undercoat_of(PanelWork("door", "new", None, word))
    assert value == lightness
    assert low < value < high
    assert word in source


def test_an_undercoat_nobody_named_is_a_wide_guess():
    value, low, high, source = undercoat_of(PanelWork("door", "new"))
    assert low + 20.0 < value < high - 10.0
    assert "not given" in source


def test_no_let_down_panel_leaves_the_effect_count_provisional():
    verdict, findings = colour_of(Sample(), Choices(), EFFECT)
    assert (verdict.verdict, verdict.effect_coats, verdict.provisional) == ("no_panel", 2.0, True)
    assert (verdict.low, verdict.high) == (2.0, 4.0)
    assert "let-down panel" in verdict.next_step
    assert "coats-provisional" in {one.code for one in findings}


def test_a_ground_that_is_off_is_not_put_right_by_more_effect():
    verdict, findings = colour_of(Sample(ground_check="off"), Choices(), EFFECT)
    assert verdict.verdict == "ground_wrong"
    assert ("stop", "ground-wrong") in {(one.level, one.code) for one in findings}


def test_fields_without_a_ground_check_ask_for_field_0_first():
    verdict, _ = colour_of(Sample(ground_check="not done", face=("few", "match")), Choices(), EFFECT)
    assert verdict.verdict == "ground_unchecked"
    assert "field 0" in verdict.next_step


def test_a_fixed_effect_count_is_not_provisional_and_judged_by_the_sheet():
    verdict, findings = colour_of(Sample(), Choices(effect_coats=2.5), EFFECT)
    assert (verdict.effect_coats, verdict.low, verdict.high, verdict.provisional) == (2.5, 2.5, 2.5, False)
    assert not findings
    outside = colour_of(Sample(), Choices(effect_coats=4.5), EFFECT)[1]
    assert [one.code for one in outside] == ["effect-beyond-sheet"]


def test_a_sheet_with_its_own_range_of_coats_is_followed():
    few = paint_of(replace(PRODUCTS.effect, coats_min=1.0, coats_max=2.0))
    assert colour_of(Sample(), Choices(), few)[0].effect_coats == 1.0
    assert colour_of(Sample(), Choices(effect_coats=2.5), few)[1][0].code == "effect-beyond-sheet"
