"""The wet film: balances, limiting cases worked by hand, and its door."""

from dataclasses import replace

import numpy as np
import pytest

from laydown.physics.film.course import matt_time_s, open_time_s, panel_c_at, residual_share
from laydown.physics.film.rates import liquid_activity
from laydown.physics.film.steps import spread_times_s
from laydown.physics.film.wet_film import Surroundings, Wet, arrive, dry, dry_in_two, stack

STANDARD = Wet(0.70, 0.10, 0.20, 100.0, 52.0e3, 0.20, 0.55)
SLOW = Wet(0.665, 0.135, 0.20, 55.0, 54.0e3, 0.20, 0.55)
MILD = Surroundings(20.0, 0.5, 0.3, 20.0, 2952.0, 4.0)
BLOWN = replace(MILD, air_speed_m_s=2.0)

# Nearly pure water, on a panel so heavy that it stays at air temperature.
WATER = Wet(0.998, 0.001, 0.001, 100.0, 52.0e3, 0.20, 0.55)
HEAVY = replace(MILD, panel_capacity_j_m2_k=1e9)


def test_nearly_pure_water_on_a_heavy_panel_loses_what_the_handbook_line_says():
    # h_m = 6.201e-3 m/s; half of 2338.8 Pa; over 461.52 J/(kg K) * 293.15 K: 0.05360 g/(m2 s).
    course = dry(10.0, WATER, HEAVY, np.linspace(0.0, 100.0, 101))
    assert course.water_g_m2[0, 0] - course.water_g_m2[-1, 0] == pytest.approx(5.360, rel=4e-3)


def test_a_wet_panel_settles_where_heat_in_is_heat_of_evaporation():
    course = dry(150.0, WATER, MILD, spread_times_s(1500.0))
    panel_c = float(course.panel_c[-1, 0])
    # By hand: heat 6.79 + 5.3 + 4 W/(m2 K); vapour 2500.9 - 2.3665 T J/g; Magnus pressure; T in kelvin.
    pressure = 611.2 * 1.0023 * np.exp(17.62 * panel_c / (243.12 + panel_c)) - 0.5 * 2339.0
    vapour = 6.201e-3 * pressure / (0.46152 * (panel_c + 273.15))
    heat_in = (6.79 + 5.3 + 4.0) * (20.0 - panel_c)
    assert (2500.9 - 2.3665 * panel_c) * vapour == pytest.approx(heat_in, rel=0.03)
    assert 13.8 < panel_c < 20.0  # never below the wet bulb (PsychroLib 2.5.0: 13.783 degC)


def test_a_film_dries_down_to_the_water_the_air_allows():
    course = dry(30.0, STANDARD, BLOWN, spread_times_s(7200.0))
    solids, water = course.solids_g_m2[0], course.water_g_m2[-1, 0]
    assert course.cosolvent_g_m2[-1, 0] < 1e-3
    binder = solids / 1.35 / (solids / 1.35 + water)
    assert liquid_activity(np.array([binder]))[0] == pytest.approx(0.5, abs=2e-3)
    # Far longer steps end at the same place.
    coarse = dry(30.0, STANDARD, BLOWN, np.array([0.0, *np.linspace(30.0, 7200.0, 40)]))
    assert coarse.water_g_m2[-1, 0] == pytest.approx(water, rel=1e-3)


def test_the_activity_of_the_liquid_falls_from_one_to_nothing_without_turning_back():
    activity = liquid_activity(np.linspace(0.0, 1.0, 2001))
    assert activity[0] == pytest.approx(1.0)
    assert activity[-1] == pytest.approx(0.0)
    assert np.all(np.diff(activity) < 0.0)


def test_solids_and_fresh_liquids_are_the_shares_of_the_mass():
    course = dry(np.array([10.0, 40.0]), STANDARD, MILD)
    assert course.solids_g_m2 == pytest.approx([2.0, 8.0])
    assert course.water_g_m2[0] == pytest.approx([7.0, 28.0])
    assert course.cosolvent_g_m2[0] == pytest.approx([1.0, 4.0])


def test_water_the_layer_below_takes_up_is_missing_in_the_film_and_not_from_the_account():
    # In saturated air at the panel's temperature nothing evaporates: film and layer below keep the sum.
    damp = replace(MILD, rh=0.97, base_um=20.0, panel_capacity_j_m2_k=1e9)
    times = spread_times_s(60.0)
    course = dry(30.0, WATER, damp, times)
    evaporated = 0.03 * 2 * 0.0536 * 60.0  # 3 % of the drive, 0.1072 g/(m2 s) into dry air
    account = course.water_g_m2[-1, 0] + course.absorbed_g_m2[-1, 0] + evaporated
    assert account == pytest.approx(course.water_g_m2[0, 0], rel=2e-3)
    # 0.2 g/m2 per um of 20 um, W/(W + 2) of it with 26 g/m2 above, after four time constants.
    assert course.absorbed_g_m2[-1, 0] == pytest.approx(4.0 * 26.0 / 28.0 * (1.0 - np.exp(-4.0)), rel=0.01)


def test_an_absorbing_base_and_a_warm_panel_shorten_the_open_time():
    plain = open_time_s(dry(30.0, STANDARD, MILD))[0]
    assert open_time_s(dry(30.0, STANDARD, replace(MILD, base_um=20.0)))[0] < 0.8 * plain
    assert open_time_s(dry(30.0, STANDARD, replace(MILD, panel_start_c=35.0)))[0] < 0.5 * plain


def test_columns_do_not_know_each_other():
    mixes = stack([STANDARD, SLOW], each=2)
    together = dry(np.array([15.0, 45.0, 15.0, 45.0]), mixes, MILD)
    alone = [dry(mass, mix, MILD) for mix in (STANDARD, SLOW) for mass in (15.0, 45.0)]
    assert open_time_s(together) == pytest.approx([open_time_s(course)[0] for course in alone], rel=1e-9)
    assert matt_time_s(together) == pytest.approx([matt_time_s(course)[0] for course in alone], rel=1e-9)


def test_a_whole_search_of_mixes_and_masses_takes_few_steps():
    # Time is steps: each is two looks at the rates for all columns at once.
    masses = np.array([12.0, 18.0, 25.0, 32.0, 42.0, 55.0])
    course = dry(np.tile(masses, 36), stack([STANDARD, SLOW] * 18, each=6), MILD)
    assert course.times_s.shape[1] == 216
    assert course.times_s.shape[0] < 110


def test_a_given_grid_of_times_tells_the_same_as_own_steps():
    own = dry(np.array([15.0, 45.0]), SLOW, MILD)
    given = dry(np.array([15.0, 45.0]), SLOW, MILD, spread_times_s(2400.0))
    assert open_time_s(given) == pytest.approx(open_time_s(own), rel=5e-3)
    assert matt_time_s(given) == pytest.approx(matt_time_s(own), rel=5e-3)


def test_blowers_that_never_start_or_start_at_once_change_nothing_or_all():
    still, blown = dry(30.0, STANDARD, MILD), dry(30.0, STANDARD, BLOWN)
    assert matt_time_s(dry_in_two(30.0, STANDARD, MILD, BLOWN, 0.0)) == pytest.approx(
        matt_time_s(blown), rel=2e-3
    )
    never = dry_in_two(30.0, STANDARD, MILD, BLOWN, 3600.0)
    assert matt_time_s(never) == pytest.approx(matt_time_s(still), rel=2e-3)


def test_blowers_started_between_end_between():
    still, blown = matt_time_s(dry(30.0, STANDARD, MILD))[0], matt_time_s(dry(30.0, STANDARD, BLOWN))[0]
    course = dry_in_two(30.0, STANDARD, MILD, BLOWN, 90.0)
    assert blown < matt_time_s(course)[0] < still
    assert np.all(np.diff(course.times_s, axis=0) >= 0.0)
    on_grid = dry_in_two(30.0, STANDARD, MILD, BLOWN, 90.0, spread_times_s(1800.0))
    assert matt_time_s(on_grid)[0] == pytest.approx(matt_time_s(course)[0], rel=5e-3)


def test_loss_in_flight_takes_water_only():
    landed = arrive(STANDARD, 0.10)
    assert landed.water_share == pytest.approx(0.63 / 0.93)
    assert landed.cosolvent_share == pytest.approx(0.10 / 0.93)
    assert landed.solids_share == pytest.approx(0.20 / 0.93)
    assert open_time_s(dry(30.0, landed, MILD))[0] < open_time_s(dry(30.0, STANDARD, MILD))[0]


def test_a_film_that_never_turns_matt_has_an_endless_time_and_no_exception():
    damp = replace(MILD, rh=0.97, temperature_c=8.0, panel_start_c=8.0, air_speed_m_s=0.05)
    assert matt_time_s(dry(150.0, SLOW, damp))[0] == np.inf


def test_what_is_left_and_the_panel_are_read_between_steps_and_not_beyond():
    course = dry(30.0, STANDARD, MILD, spread_times_s(1800.0))
    assert panel_c_at(course, 0.0)[0] == 20.0
    assert residual_share(course, 0.0)[0] == pytest.approx(4.0)
    assert residual_share(course, 1800.0)[0] < 0.05
    with pytest.raises(ValueError, match="at_s"):
        panel_c_at(course, 1801.0)


@pytest.mark.parametrize(
    ("change", "name"),
    [
        ({"rh": 50.0}, "rh"),
        ({"rh": 0.98}, "rh"),
        ({"temperature_c": 60.0}, "temperature_c"),
        ({"air_speed_m_s": 0.0}, "air_speed_m_s"),
    ],
)
def test_air_outside_the_model_is_refused_by_name(change, name):
    with pytest.raises(ValueError, match=name):
        dry(30.0, STANDARD, replace(MILD, **change))


@pytest.mark.parametrize("mass_g_m2", [0.0, -1.0, 201.0, float("nan")])
def test_a_mass_that_is_no_coat_is_refused(mass_g_m2):
    with pytest.raises(ValueError, match="mass_g_m2"):
        dry(mass_g_m2, STANDARD, MILD)
