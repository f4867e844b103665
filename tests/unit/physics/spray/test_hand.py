"""The hand worked by hand."""

import math
from dataclasses import replace

import numpy as np
import pytest

from laydown.physics.spray.fan import uniformity_cv
from laydown.physics.spray.hand import SKILLED, TRAINEE, Hand, age_spread, film_cv, normal_share, wet_chance

STEADY = Hand(0.0, 0.0, 0.0, 0.0, 0.0, pause_chance=0.0)


def test_normal_share_at_places_everybody_knows():
    # Printed tables of the normal distribution: 0.5, 0.8413, 0.9772, 0.95 at 1.6449.
    assert normal_share(np.array([-np.inf, 0.0, 1.0, 2.0, 1.6449, np.inf])) == pytest.approx(
        [0.0, 0.5, 0.8413, 0.9772, 0.95, 1.0], abs=5e-5
    )


def test_share_of_what_is_no_number_is_no_number():
    assert np.isnan(normal_share(np.array([np.nan, 0.0]))).tolist() == [True, False]


@pytest.mark.parametrize("overlap", [0.3, 0.5, 0.65, 0.75])
def test_a_steady_hand_leaves_the_ripple_of_ideal_strokes(overlap):
    assert film_cv(STEADY, 0.25, overlap, 1.7) == pytest.approx(uniformity_cv(overlap, 1.7), rel=1e-3)


def test_spread_of_the_speed_averages_over_the_strokes_that_overlap():
    # k = 1 at half overlap: two strokes at each place, of 1 - y^2 and 1 - (1 - y)^2 with 0.1 each, plus 1/45 / (16/9).
    y = (np.arange(2000) + 0.5) / 2000.0
    one, other = 1.0 - y**2, 1.0 - (1.0 - y) ** 2
    speed = 0.1**2 * np.mean((one**2 + other**2) / (one + other) ** 2)
    expected = math.sqrt(speed + (1.0 / 45.0) / (16.0 / 9.0))
    assert film_cv(replace(STEADY, speed_share=0.1), 0.25, 0.5, 1.0) == pytest.approx(expected, rel=1e-3)


def test_a_trainee_sprays_less_evenly_than_a_skilled_painter():
    assert film_cv(TRAINEE, 0.25, 0.65, 1.7) > 1.5 * film_cv(SKILLED, 0.25, 0.65, 1.7)


def test_spreads_of_age_and_open_time_add_in_squares():
    hand = replace(STEADY, day_share=0.3, speed_share=0.8)
    # 0.3^2 + 0.8^2/4 + 1.2^2 = 0.09 + 0.16 + 1.44 = 1.3^2.
    assert age_spread(hand, 4.0, 1.2) == pytest.approx(1.3)
    assert age_spread(hand, 0.0, 0.0) == pytest.approx(math.hypot(0.3, 0.8))


def test_an_edge_as_old_as_its_open_time_is_wet_half_of_the_time():
    assert float(wet_chance(np.array(60.0), np.array(60.0), 0.2, STEADY)) == pytest.approx(0.5)


def test_without_pauses_the_chance_is_that_of_the_ratio_alone():
    # ln(2)/0.5 = 1.386 has 0.9172 below it (printed table of the normal distribution).
    assert float(wet_chance(np.array(30.0), np.array(60.0), 0.5, STEADY)) == pytest.approx(0.9172, abs=1e-4)


def test_an_edge_that_never_closes_is_always_met_wet():
    assert wet_chance(np.array([1.0, 1e4]), np.array(np.inf), 0.2, SKILLED) == pytest.approx([1.0, 1.0])


def test_a_pause_of_known_length_counts_by_its_chance():
    hand = replace(STEADY, pause_chance=0.25, pause_s=100.0, pause_spread=0.0)
    # Without the pause surely wet, with it surely dry.
    assert float(wet_chance(np.array(20.0), np.array(60.0), 0.05, hand)) == pytest.approx(0.75)


def test_ages_and_open_times_broadcast():
    chances = wet_chance(np.array([[20.0], [40.0], [80.0]]), np.array([60.0, 120.0]), 0.2, SKILLED)
    assert chances.shape == (3, 2)
    assert (np.diff(chances, axis=0) < 0.0).all()
