"""How many ground coats hide, blind coats, islands, undercoats and a hiding card."""

import pytest

from cases.planning import MILD, request_of
from cases.speech import english
from laydown.planning.counts.ground_count import covering_of, hiding_of
from laydown.planning.setup.paint import paint_of
from laydown.schema.choices import Choices, PanelWork
from laydown.schema.figure import Figure

GROUND = paint_of(request_of(MILD).products.ground)
FILM = (8.0, 0.12)
"""8 µm a coat, spread 12 %: the thin twentieth is 8 * (1 - 1.645 * 0.12) = 6.4 µm."""


def hiding(lightness, choices=None, film=FILM):
    panel = PanelWork("door", "repaired", Figure(lightness))
    return hiding_of((("door", panel),), GROUND, film, choices or Choices())


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
    panels = (
        ("wing", PanelWork("wing", "new", Figure(92.0))),
        ("door", PanelWork("door", "new", Figure(50.0))),
    )
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


def test_a_card_that_vanished_early_hides_in_fewer_coats_than_one_that_vanished_late():
    counts = [
        hiding_of((("door", PanelWork("door", "new", Figure(60.0))),), GROUND, FILM, Choices(), gone)[
            0
        ].ground_coats
        for gone in (2, 4, 7)
    ]
    assert counts == sorted(counts)
    assert counts[0] < counts[-1]


def test_a_card_keeps_the_colour_of_the_thick_coat_and_narrows_the_range():
    before, after = covering_of(GROUND, 8.0, None), covering_of(GROUND, 8.0, 4)
    assert list(after.absorption_per_um / after.scattering_per_um) == pytest.approx(
        list(before.absorption_per_um / before.scattering_per_um)
    )
    assert after.strong / after.weak < before.strong / before.weak
    assert "card" in english(after.source)


def test_the_darkest_island_decides_and_is_said_where_it_still_shows():
    panels = (
        ("wing", PanelWork("wing", "new", Figure(85.0))),
        ("door", PanelWork("door", "new", Figure(30.0))),
    )
    verdict, findings = hiding_of(panels, GROUND, FILM, Choices(ground_coats=1.5))
    assert verdict.worst_panel == "door"
    assert list(verdict.islands_de) == sorted(verdict.islands_de, reverse=True)
    assert (
        verdict.islands_de[0] > 40.0
    )  # dark grey filler in a light undercoat stands out before the first coat
    assert "islands" in {one.code for one in findings}


def test_like_undercoats_have_no_islands():
    assert hiding(90.0)[0].islands_de == ()


def test_white_on_white_is_blind_and_a_darker_undercoat_is_offered_with_its_price():
    # white on white is sprayed blind, a darker undercoat shows the coats and costs more of them; common practice, no source
    verdict, findings = hiding(90.0)
    assert verdict.blind_from_coat == 2
    best = next(one for one in verdict.undercoats if one.best)
    white = next(one for one in verdict.undercoats if one.lightness == 92.0)
    assert best.lightness < 90.0
    assert best.first_step_de > white.first_step_de
    assert best.coats > white.coats
    assert "undercoat-choice" in {one.code for one in findings}


def test_what_is_missing_to_full_hiding_falls_from_coat_to_coat():
    verdict, _ = hiding(60.0)
    assert list(verdict.rest_de) == sorted(verdict.rest_de, reverse=True)
    assert len(verdict.rest_de) == len(verdict.steps_de)
