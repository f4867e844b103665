"""What a coat comes to, on a rectangle: mass to rounding, film by the raster's own formula."""

import numpy as np
import pytest

from cases.planning import Case, process_for
from cases.rectangle import CLOSED, HAND, LIGHT, field, work
from laydown.physics.spray.fan import PROFILE_EXPONENT
from laydown.physics.spray.hand import film_cv
from laydown.planning.sections.outcome import outcome_of
from laydown.planning.sections.strokes import programme


def outcome(coat, open_s=120.0):
    return outcome_of(coat, programme(coat), open_s, HAND)


WIDE = field(3.0, 1.2)
"""Twice as high: 21 rows of exactly 6 cm, and an inside without edges."""


@pytest.mark.parametrize("painters", [1, 2])
@pytest.mark.parametrize("passes", [(CLOSED,), (CLOSED, LIGHT)])
def test_paint_goes_to_the_panel_over_the_edge_or_into_the_air_to_rounding(passes, painters):
    balance = outcome(work(WIDE, passes=passes, painters=painters)).balance
    assert balance.on_panel_g + balance.edges_g + balance.overspray_g == pytest.approx(
        balance.sprayed_g, rel=1e-9
    )


def test_overspray_is_what_does_not_land():
    # 40 % of the closed pass
    balance = outcome(work(WIDE)).balance
    assert balance.overspray_g == pytest.approx(0.4 * balance.sprayed_g)


def test_the_film_inside_a_rectangle_is_the_mean_of_the_raster():
    # flow * transfer / (fan * (1 - overlap) * speed) = 3.0 * 0.6 / (0.24 * 0.25 * 0.5) = 60 g/m2
    coat = outcome(work(WIDE, places=()))
    sheet = WIDE.skin
    x, s = sheet.x_edges_m()[:-1], sheet.s_edges_m()[:-1]
    inside = coat.filmed.film_g_m2[np.ix_((s > 0.7) & (s < 1.5), (x > 0.3) & (x < 2.7))]
    assert inside.mean() == pytest.approx(60.0, rel=0.01)
    assert coat.filmed.mean_g_m2 == pytest.approx(60.0, rel=0.06), "the edges are a little thinner or thicker"


def test_both_passes_add_up():
    # light pass: 3.0 * 0.55 / (0.288 * 0.35 * 0.65) = 25.2 g/m2
    sheet = WIDE.skin
    x, s = sheet.x_edges_m()[:-1], sheet.s_edges_m()[:-1]
    inner = np.ix_((s > 0.8) & (s < 1.4), (x > 0.4) & (x < 2.6))
    both, one = (
        outcome(work(WIDE, places=(), passes=passes)).filmed.film_g_m2
        for passes in ((CLOSED, LIGHT), (CLOSED,))
    )
    assert (both - one)[inner].mean() == pytest.approx(25.2, rel=0.05)


def test_the_spread_of_the_film_is_never_below_that_of_the_hand():
    by_hand = film_cv(HAND, CLOSED.fan_m, CLOSED.overlap, PROFILE_EXPONENT)
    assert outcome(work(WIDE)).filmed.film_cv >= by_hand


def test_a_film_far_above_the_closed_one_has_no_thin_spots_and_one_far_below_is_thin_all_over():
    heavy = outcome(work(WIDE)).filmed.thin_fraction
    fast = Setting_like(CLOSED, speed_m_s=1.5)
    assert heavy < 0.02
    assert outcome(work(WIDE, passes=(fast,))).filmed.thin_fraction > 0.95


def Setting_like(setting, **changes):
    values = {name: getattr(setting, name) for name in type(setting).__slots__}
    return type(setting)(**(values | changes))


def test_a_light_coat_alone_is_not_asked_to_be_closed():
    assert outcome(work(WIDE, passes=(LIGHT,))).filmed.thin_fraction == 0.0


def test_the_edge_is_as_old_as_the_rest_of_its_section_and_the_way_back_to_its_row():
    # Two equal sections, stroke over stroke: a row of section 2 comes one section (and a step) after that of
    # section 1, less or more at most two strokes by the serpentine.
    coat = work(WIDE)
    made = programme(coat)
    (join,) = outcome_of(coat, made, 120.0, HAND).joined.joins
    stroke_s = 2.0 * 1.6 / CLOSED.speed_m_s
    assert join.age_s == pytest.approx(made.begin_s[1], abs=stroke_s)


def test_a_refill_ages_the_edge_by_its_whole_length():
    plain, filled = (outcome(work(WIDE, refills=refills)).joined.joins[0].age_s for refills in ((), (0,)))
    assert filled == pytest.approx(plain + 90.0)


def test_sections_that_do_not_touch_have_no_age():
    apart = work(field(holes=((1.2, 1.8, 0.0, 2.0),)))
    (join,) = outcome(apart).joined.joins
    assert np.isnan(join.age_s)


def test_ages_are_marked_where_the_sections_meet_and_nowhere_else():
    coat = outcome(work(WIDE))
    columns = np.flatnonzero(np.isfinite(coat.joined.age_s).any(axis=0))
    x = WIDE.skin.x0_m + columns * WIDE.skin.cell_m
    assert columns.size
    assert (np.abs(x - 1.5) < 0.25).all()


@pytest.mark.parametrize("shape", ["medium hatch", "large saloon", "large van"])
def test_the_film_of_the_passes_is_within_4_percent_of_the_simulated_mean(shape):
    for layer in process_for(Case(shape=shape)).layers.values():
        for coat in layer.coats:
            film = coat.planned.work.film_g_m2()
            assert film == pytest.approx(coat.planned.filmed.mean_g_m2, rel=0.04)
