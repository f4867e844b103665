"""Laws of spraying, of the wet edge, of hiding and of colour over the whole range."""

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from cases.thorough import examples
from laydown.physics.colour.difference import de2000
from laydown.physics.colour.hiding import absorption_for, endless_reflectance, layer_reflectance
from laydown.physics.spray.edge_age import final_touch, first_wet_s, join_age_s, last_wet_s, lay
from laydown.physics.spray.fan import (
    fan_at_m,
    nozzle_flow_g_s,
    overlap_for_film,
    profile_share,
    raster_mean_g_m2,
    transfer_at,
)
from laydown.physics.spray.hand import SKILLED, TRAINEE, film_cv, wet_chance
from laydown.physics.spray.overspray import dry_fog_g_m2, fog_of_coat
from laydown.physics.spray.strokes import SkinGrid, Strokes, banded_film_g_m2, film_factors, passing_s

"""On a busy machine an example may wait."""

flow_g_s = st.floats(0.5, 8.0)
transfer = st.floats(0.2, 0.85)
fan_m = st.floats(0.10, 0.45)
overlap = st.floats(0.0, 0.9)
speed_m_s = st.floats(0.15, 1.2)
factor = st.floats(1.01, 4.0)
exponent = st.floats(0.5, 4.0)
seeds = st.integers(0, 2**32 - 1)
delay_s = st.floats(0.0, 200.0)
hands = st.sampled_from([SKILLED, TRAINEE])
seconds = st.floats(1.0, 1000.0)
colour = st.tuples(st.floats(0.0, 130.0), st.floats(-120.0, 120.0), st.floats(-120.0, 120.0)).map(np.array)

SKIN = SkinGrid(0.0, 0.0, 0.04, 25, 50)
"""2 by 1 m: holds every fan of ``some_strokes``."""


def one_stroke(flow, speed, lands, fan):
    """A stroke of 1 m, 0.5 m up."""
    values = (0.0, 0.5, 1.5, 1.0, 0.5, fan, 0.02, flow, lands, speed, 1.0)
    none = np.zeros(1, np.int64)
    return Strokes(*(np.array([value]) for value in values), none, none)


def film_of(stroke):
    """Film on a skin that holds the fan."""
    up, along = film_factors(stroke, SkinGrid(0.0, 0.0, 0.02, 50, 100))
    return up @ along


@given(flow_g_s, transfer, fan_m, overlap, speed_m_s, factor)
def test_mean_film_is_linear_in_flow_and_inverse_in_speed(flow, lands, fan, laps, speed, times):
    film = raster_mean_g_m2(flow, lands, fan, laps, speed)
    assert raster_mean_g_m2(times * flow, lands, fan, laps, speed) == pytest.approx(times * film)
    assert raster_mean_g_m2(flow, lands, fan, laps, times * speed) == pytest.approx(film / times)


def some_strokes(seed, delay_s=0.0, count=12):
    """Strokes anywhere on the skin, in the order of time."""
    dice = np.random.default_rng(seed)
    left = dice.uniform(0.3, 1.1, count)
    none = np.zeros(count, np.int64)
    return Strokes(
        begin_s=np.sort(dice.uniform(0.0, 60.0, count)) + delay_s,
        left_m=left,
        right_m=left + dice.uniform(0.1, 0.6, count),
        ahead=dice.choice([-1.0, 1.0], count),
        centre_m=dice.uniform(0.2, 0.8, count),
        fan_m=dice.uniform(0.15, 0.35, count),
        half_m=np.full(count, 0.02),
        flow_g_s=dice.uniform(1.0, 4.0, count),
        transfer=dice.uniform(0.3, 0.8, count),
        speed_m_s=dice.uniform(0.3, 0.8, count),
        stretch=dice.uniform(1.0, 1.2, count),
        section=none,
        light=none,
    )


@given(seeds, delay_s)
def test_a_gun_passes_every_place_while_it_sprays_and_a_delay_delays_all(seed, delay):
    made, late = some_strokes(seed), some_strokes(seed, delay)
    places = np.linspace(-0.5, 2.5, 40)
    times = passing_s(made, places)
    assert (times >= made.begin_s[:, None] - 1e-9).all()
    assert (times <= (made.begin_s + made.duration_s())[:, None] + 1e-9).all()
    np.testing.assert_allclose(passing_s(late, places), times + delay, atol=1e-8)


@given(seeds, delay_s)
def test_the_first_touch_is_never_after_the_last_and_both_move_with_the_clock(seed, delay):
    made, late = some_strokes(seed), some_strokes(seed, delay)
    laid, delayed = lay(made, SKIN), lay(late, SKIN)
    first, last = first_wet_s(laid), last_wet_s(laid)
    touched = np.isfinite(first)
    assert (touched == np.isfinite(last)).all()
    assert (first[touched] <= last[touched]).all()
    np.testing.assert_allclose(first_wet_s(delayed), first + delay, atol=1e-8)
    times, number = final_touch(delayed)
    np.testing.assert_allclose(times, last + delay, atol=1e-8)
    assert ((number >= 0) == touched).all()


@given(seeds, seeds, delay_s)
def test_the_later_the_next_section_the_older_the_join(seed, other, delay):
    before, after = lay(some_strokes(seed), SKIN), lay(some_strokes(other, 100.0), SKIN)
    later = lay(some_strokes(other, 100.0 + delay), SKIN)
    np.testing.assert_allclose(join_age_s(before, later), join_age_s(before, after) + delay, atol=1e-8)


@given(seeds, st.floats(0.1, 100.0), st.floats(0.1, 100.0))
def test_a_coat_that_stays_open_longer_is_never_dusted_more(seed, one, other):
    made = some_strokes(seed)
    fog = fog_of_coat(made, SKIN)
    short, long = (dry_fog_g_m2(fog, open_s) for open_s in sorted((one, other)))
    assert (long <= short + 1e-12).all()
    assert not (short * fog.bare_g_m2).any()
    missed = float((made.sprayed_g() * (1.0 - made.transfer)).sum())
    assert 0.0 < fog.landed_g < missed


@given(flow_g_s, transfer, fan_m, speed_m_s, factor)
def test_film_of_a_stroke_is_linear_in_flow_and_inverse_in_speed(flow, lands, fan, speed, times):
    film = film_of(one_stroke(flow, speed, lands, fan))
    np.testing.assert_allclose(film_of(one_stroke(times * flow, speed, lands, fan)), times * film, rtol=1e-9)
    np.testing.assert_allclose(film_of(one_stroke(flow, times * speed, lands, fan)), film / times, rtol=1e-9)


@given(flow_g_s, transfer, fan_m, speed_m_s)
def test_a_stroke_leaves_what_lands_however_wide_its_fan(flow, lands, fan, speed):
    assert film_of(one_stroke(flow, speed, lands, fan)).sum() * 0.02**2 == pytest.approx(
        flow * lands / speed, rel=1e-9
    )


@given(seeds, st.integers(1, 70), st.integers(0, 40), st.floats(0.0, 1.0))
def test_product_block_by_block_is_the_plain_product(seed, rows, count, filled):
    dice = np.random.default_rng(seed)
    up = dice.normal(size=(rows, count)) * (dice.random((rows, count)) < filled)
    along = dice.normal(size=(count, 9))
    plain = np.einsum("sn,nx->sx", up, along)
    assert np.abs(banded_film_g_m2(up, along) - plain).max() <= 1e-12 * max(1.0, np.abs(plain).max())


@given(flow_g_s, transfer, fan_m, overlap, overlap, speed_m_s)
def test_more_overlap_is_more_film(flow, lands, fan, one, other, speed):
    assume(abs(one - other) > 1e-6)
    less, more = sorted((one, other))
    assert raster_mean_g_m2(flow, lands, fan, less, speed) < raster_mean_g_m2(flow, lands, fan, more, speed)


@given(flow_g_s, transfer, fan_m, overlap, speed_m_s)
def test_overlap_and_film_are_inverses(flow, lands, fan, laps, speed):
    film = raster_mean_g_m2(flow, lands, fan, laps, speed)
    assert overlap_for_film(film, flow, lands, fan, speed) == pytest.approx(laps, abs=1e-9)


@given(transfer, st.floats(0.10, 0.30), st.floats(0.10, 0.30))
def test_farther_away_less_lands_on_a_wider_fan(lands, one, other):
    assume(abs(one - other) > 1e-6)
    near, far = sorted((one, other))
    assert transfer_at(lands, far, 0.2) <= transfer_at(lands, near, 0.2)
    assert fan_at_m(0.25, far, 0.2) > fan_at_m(0.25, near, 0.2)


@given(flow_g_s, st.floats(0.8, 2.2), st.floats(0.8, 2.2))
def test_there_and_back_between_two_nozzles_is_the_same_flow(flow, one, other):
    there = nozzle_flow_g_s(flow, one, other)
    assert nozzle_flow_g_s(there, other, one) == pytest.approx(flow)
    assert (there > flow) == (one > other) or abs(there - flow) < 1e-9


@given(exponent, st.floats(-1.5, 1.5), st.floats(-1.5, 1.5))
def test_share_of_the_profile_grows_across_the_fan_and_is_even_about_its_centre(power, one, other):
    low, high = sorted((one, other))
    shares = profile_share(np.array([low, high, -low]), power)
    assert 0.0 <= shares[0] <= shares[1] <= 1.0
    assert shares[0] + shares[2] == pytest.approx(1.0, abs=1e-9)


@given(hands, seconds, seconds, seconds, st.floats(0.05, 0.6))
def test_an_older_edge_is_less_likely_wet_and_a_longer_open_time_more(hand, one, other, open_s, spread):
    young, old = sorted((one, other))
    chances = wet_chance(np.array([young, old]), np.array(open_s), spread, hand)
    assert 0.0 <= chances[1] <= chances[0] <= 1.0 + 1e-12
    longer = wet_chance(np.array(open_s), np.array([young, old]), spread, hand)
    assert longer[0] <= longer[1] + 1e-12


@given(fan_m, st.floats(0.3, 0.9), exponent)
def test_a_trainee_never_sprays_more_evenly(fan, laps, power):
    assert film_cv(TRAINEE, fan, laps, power) > film_cv(SKILLED, fan, laps, power)


@given(
    st.floats(0.0, 1.0),
    st.floats(0.02, 0.95),
    st.floats(0.005, 0.5),
    st.floats(0.0, 60.0),
    st.floats(0.0, 60.0),
)
def test_more_film_never_hides_less(below, endless, scattering, one, other):
    thin, thick = sorted((one, other))
    power = np.float64(scattering)
    absorption = absorption_for(np.float64(endless), power)
    seen = layer_reflectance(np.float64(below), absorption, power, np.array([thin, thick]))
    full = endless_reflectance(absorption, power)
    assert abs(seen[1] - full) <= abs(seen[0] - full) + 1e-9
    # Never beyond full hiding, never outside what lies between undercoat and full hiding.
    low, high = sorted((below, float(full)))
    assert ((seen >= low - 1e-9) & (seen <= high + 1e-9)).all()


@given(
    st.floats(0.02, 0.95),
    st.floats(0.005, 0.5),
    st.floats(0.0, 60.0),
    st.floats(0.0, 1.0),
    st.floats(0.0, 1.0),
)
def test_a_lighter_undercoat_never_looks_darker(endless, scattering, film, one, other):
    power = np.float64(scattering)
    seen = layer_reflectance(
        np.array(sorted((one, other))), absorption_for(np.float64(endless), power), power, np.float64(film)
    )
    assert seen[0] <= seen[1] + 1e-12


@given(colour, colour)
@settings(max_examples=examples(300))
def test_difference_of_colours_is_the_same_both_ways(one, other):
    there, back = float(de2000(one, other)), float(de2000(other, one))
    assert there >= 0.0
    assert there == pytest.approx(back, rel=1e-9, abs=1e-9)


@given(colour)
def test_a_colour_does_not_differ_from_itself(one):
    assert float(de2000(one, one)) == 0.0


@given(st.floats(0.0, 100.0), st.floats(0.1, 20.0))
def test_greys_differ_by_more_the_farther_apart_they_are(lightness, step):
    grey, near, far = (np.array([lightness + times * step, 0.0, 0.0]) for times in (0.0, 1.0, 2.0))
    assert float(de2000(grey, near)) < float(de2000(grey, far))
