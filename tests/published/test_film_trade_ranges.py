"""The film model against what painters say. Every range here is common practice, no source.

Some of them were looked at when the model's constants were chosen (see docs/models/film.md): the effect of slow
reducer and of hardener and the ratio of open to flash time agree by construction; the level of the flash in part.
The slopes with temperature, humidity, mass and air speed were never steered.
"""

from dataclasses import replace

import numpy as np
import pytest

from laydown.physics.film.course import matt_time_s, open_time_s, residual_share
from laydown.physics.film.in_flight import water_loss_share
from laydown.physics.film.steps import spread_times_s
from laydown.physics.film.wet_film import Surroundings, arrive, dry
from laydown.trade.mixing.paint_classes import back_w_m2_k, panel_capacity_j_m2_k, ready_mix

STANDARD = ready_mix("standard", 0.0, activated=False)


def place(temperature_c, rh, air_speed_m_s):
    return Surroundings(
        temperature_c, rh, air_speed_m_s, temperature_c, panel_capacity_j_m2_k("steel"), back_w_m2_k("steel")
    )


def times(mass_g_m2, mix, air):
    """Open time [s] and matt time [min] of paint sprayed from 20 cm."""
    landed = arrive(mix, water_loss_share(0.20, air.temperature_c, air.rh))
    course = dry(mass_g_m2, landed, air)
    return open_time_s(course)[0], matt_time_s(course)[0] / 60.0


@pytest.mark.parametrize("mass_g_m2", [20.0, 25.0, 30.0])
def test_a_light_coat_flashes_in_two_to_six_minutes_with_blowers(mass_g_m2):
    # Painters say 3 to 6 min; the model answers 3.2 to 6.0 here. Heavy coats take it longer than they say.
    assert 2.0 < times(mass_g_m2, STANDARD, place(22.0, 0.5, 2.0))[1] < 6.5


@pytest.mark.parametrize("mass_g_m2", [30.0, 38.0, 45.0])
def test_a_coat_flashes_in_ten_to_twenty_minutes_without_blowers(mass_g_m2):
    assert 9.0 < times(mass_g_m2, STANDARD, place(20.0, 0.5, 0.3))[1] < 20.0


def test_high_humidity_makes_the_flash_two_to_three_times_as_long():
    mild, damp = (
        times(30.0, STANDARD, place(20.0, 0.5, 0.3))[1],
        times(30.0, STANDARD, place(20.0, 0.8, 0.3))[1],
    )
    assert 2.0 < damp / mild < 3.2


def test_blowers_halve_the_flash_roughly():
    still, blown = (
        times(30.0, STANDARD, place(22.0, 0.5, 0.3))[1],
        times(30.0, STANDARD, place(22.0, 0.5, 2.0))[1],
    )
    assert 0.4 < blown / still < 0.65


def test_in_hot_dry_air_joins_of_a_minute_or_two_are_already_at_risk():
    # Painters fear joins of 14 to 90 s when it is hot and dry; the thin edge of the fan counts, about half the coat.
    edge_s = times(15.0, STANDARD, place(35.0, 0.2, 0.3))[0]
    full_s = times(30.0, STANDARD, place(35.0, 0.2, 0.3))[0]
    assert 14.0 < edge_s < 60.0
    assert edge_s < full_s < 110.0


def test_slow_reducer_with_water_visibly_helps_in_dry_air():
    slow = ready_mix("slow", 0.05, activated=False)
    air = place(30.0, 0.2, 0.3)
    assert 1.25 < times(30.0, slow, air)[0] / times(30.0, STANDARD, air)[0] < 1.6


def test_slow_reducer_lengthens_the_flash_less_than_the_open_time():
    slow, air = ready_mix("slow", 0.0, activated=False), place(20.0, 0.5, 0.3)
    open_ratio, matt_ratio = np.divide(times(30.0, slow, air), times(30.0, STANDARD, air))
    assert 1.2 < open_ratio < 1.45
    assert 1.03 < matt_ratio < 1.25


def test_hardener_shortens_the_open_time_by_about_a_fifth():
    activated, air = ready_mix("standard", 0.0, activated=True), place(20.0, 0.5, 0.3)
    assert 0.7 < times(30.0, activated, air)[0] / times(30.0, STANDARD, air)[0] < 0.9


def test_a_car_still_warm_from_the_oven_has_about_a_third_of_the_open_time():
    air = place(20.0, 0.5, 0.3)
    warm = replace(air, panel_start_c=35.0)
    assert 0.2 < times(30.0, STANDARD, warm)[0] / times(30.0, STANDARD, air)[0] < 0.5


def test_ten_minutes_of_blowers_leave_a_light_coat_nearly_dry_and_a_soaked_one_not():
    air = place(20.0, 0.5, 2.0)
    course = dry(np.array([30.0, 90.0]), STANDARD, air, spread_times_s(1200.0))
    light, soaked = residual_share(course, 600.0)
    assert light < 0.10  # painters' aim before clear
    assert soaked > 1.0


def test_distance_is_a_small_effect_on_the_coat_and_grows_in_hot_dry_air():
    mild = water_loss_share(np.array([0.15, 0.30]), 20.0, 0.5)
    hot = water_loss_share(np.array([0.15, 0.30]), 35.0, 0.2)
    assert 0.01 < mild[0] < mild[1] < 0.10
    assert 0.04 < hot[0] < hot[1] < 0.20
