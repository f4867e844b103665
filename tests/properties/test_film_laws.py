"""Laws of the wet film over the whole range: 10 to 40 degC, 10 to 90 % humidity, 0.1 to 4 m/s, 10 to 90 g/m2."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cases.thorough import examples
from laydown.physics.film.course import matt_time_s, open_time_s
from laydown.physics.film.in_flight import drop_loss_share, water_loss_share
from laydown.physics.film.wet_film import Surroundings, arrive, dry, dry_in_two, stack
from laydown.trade.mixing.paint_classes import ready_mix

TEMPERATURES_C = np.linspace(10.0, 40.0, 7)
HUMIDITIES = np.linspace(0.1, 0.9, 9)
SPEEDS_M_S = np.array([0.1, 0.2, 0.5, 1.2, 4.0])
MASSES_G_M2 = np.array([10.0, 18.0, 32.0, 56.0, 90.0])

MIXES = {
    "activated": ready_mix("standard", 0.0, activated=True),
    "fast": ready_mix("fast", 0.0, activated=False),
    "standard": ready_mix("standard", 0.0, activated=False),
    "slow": ready_mix("slow", 0.0, activated=False),
    "slow with water": ready_mix("slow", 0.05, activated=False),
}

temperature = st.floats(10.0, 40.0)
humidity = st.floats(0.1, 0.9)
speed = st.floats(0.1, 4.0)
mass = st.floats(10.0, 90.0)
mix = st.sampled_from(sorted(MIXES))


def place(temperature_c, rh, air_speed_m_s):
    return Surroundings(temperature_c, rh, air_speed_m_s, temperature_c, 2952.0, 4.0)


def whole_range(wet, mass_factor=1.0):
    """Open and matt times over (temperature, humidity, speed, mass)."""
    axes = np.meshgrid(TEMPERATURES_C, HUMIDITIES, SPEEDS_M_S, MASSES_G_M2, indexing="ij")
    temperature_c, rh, air_speed_m_s, mass_g_m2 = (axis.ravel() for axis in axes)
    course = dry(mass_factor * mass_g_m2, wet, place(temperature_c, rh, air_speed_m_s))
    shape = axes[0].shape
    return open_time_s(course).reshape(shape), matt_time_s(course).reshape(shape)


@pytest.mark.parametrize("name", MIXES)
def test_over_the_whole_range_films_close_then_turn_matt_and_every_law_holds(name):
    opens, matts = whole_range(MIXES[name])
    assert np.all(np.isfinite(opens))
    assert np.all(np.isfinite(matts))
    assert np.all(opens < matts)
    for times in (opens, matts):
        assert np.all(np.diff(times, axis=0) < 0.0), "warmer is faster"
        assert np.all(np.diff(times, axis=1) > 0.0), "damper is slower"
        assert np.all(np.diff(times, axis=2) < 0.0), "more air is faster"
        assert np.all(np.diff(times, axis=3) > 0.0), "more paint is slower"


def test_over_the_whole_range_the_mixes_keep_their_order():
    times = {name: whole_range(wet) for name, wet in MIXES.items()}
    for earlier, later in (("activated", "standard"), ("fast", "standard"), ("standard", "slow")):
        assert np.all(times[earlier][0] < times[later][0]), f"{earlier} closes before {later}"
        assert np.all(times[earlier][1] < times[later][1]), f"{earlier} is matt before {later}"


def test_over_the_whole_range_extra_water_keeps_a_film_open_longer_and_matt_later():
    plain, watered = whole_range(MIXES["slow"]), whole_range(MIXES["slow with water"])
    assert np.all(plain[0] < watered[0])
    # Matt for the same dry film: at equal wet mass there is less of everything else to dry.
    assert np.all(plain[1] < whole_range(MIXES["slow with water"], 1.05)[1])


@settings(max_examples=examples(40))
@given(
    name=mix,
    temperature_c=temperature,
    rh=humidity,
    air_speed_m_s=speed,
    mass_g_m2=mass,
    step=st.floats(1e-3, 0.3),
)
def test_even_a_small_change_moves_both_times_the_right_way(
    name, temperature_c, rh, air_speed_m_s, mass_g_m2, step
):
    # Columns: as it is, damper, warmer, more air, more paint.
    temperatures = temperature_c + step * np.array([0.0, 0.0, 5.0, 0.0, 0.0])
    humidities = rh + step * np.array([0.0, 0.2, 0.0, 0.0, 0.0])
    speeds = air_speed_m_s * (1.0 + step * np.array([0.0, 0.0, 0.0, 1.0, 0.0]))
    masses = mass_g_m2 * (1.0 + step * np.array([0.0, 0.0, 0.0, 0.0, 1.0]))
    humidities, temperatures = np.minimum(humidities, 0.96), np.minimum(temperatures, 45.0)
    course = dry(masses, MIXES[name], place(temperatures, humidities, speeds))
    for times in (open_time_s(course), matt_time_s(course)):
        assert times[1] > times[0], "damper"
        assert times[2] < times[0], "warmer"
        assert times[3] < times[0], "more air"
        assert times[4] > times[0], "more paint"


@settings(max_examples=examples(30))
@given(
    name=mix,
    temperature_c=temperature,
    rh=humidity,
    air_speed_m_s=speed,
    mass_g_m2=mass,
    warmer_k=st.floats(0.5, 20.0),
)
def test_a_warm_panel_shortens_both_times(name, temperature_c, rh, air_speed_m_s, mass_g_m2, warmer_k):
    panel_c = temperature_c + np.array([0.0, warmer_k])
    course = dry(
        mass_g_m2, MIXES[name], replace(place(temperature_c, rh, air_speed_m_s), panel_start_c=panel_c)
    )
    assert open_time_s(course)[1] < open_time_s(course)[0]
    assert matt_time_s(course)[1] <= matt_time_s(course)[0] * 1.001


@settings(max_examples=examples(30))
@given(
    name=mix,
    temperature_c=temperature,
    rh=humidity,
    air_speed_m_s=speed,
    mass_g_m2=mass,
    base_um=st.floats(1.0, 40.0),
)
def test_an_absorbing_base_shortens_the_open_time_and_keeps_the_account_of_water(
    name, temperature_c, rh, air_speed_m_s, mass_g_m2, base_um
):
    base = np.array([0.0, base_um])
    course = dry(mass_g_m2, MIXES[name], replace(place(temperature_c, rh, air_speed_m_s), base_um=base))
    assert open_time_s(course)[1] < open_time_s(course)[0]
    assert np.all(course.water_g_m2 > 0.0)
    assert np.all(course.absorbed_g_m2 >= 0.0)
    assert np.all(course.water_g_m2 + course.absorbed_g_m2 <= course.water_g_m2[0] * (1.0 + 1e-12))


@settings(max_examples=examples(25))
@given(
    name=mix,
    temperature_c=temperature,
    rh=humidity,
    mass_g_m2=mass,
    share=st.floats(0.05, 0.9),
    rh_later=humidity,
)
def test_blowers_started_later_end_later(name, temperature_c, rh, mass_g_m2, share, rh_later):
    still, blown = place(temperature_c, max(rh, rh_later), 0.3), place(temperature_c, min(rh, rh_later), 2.0)
    whole_s = matt_time_s(dry(mass_g_m2, MIXES[name], still))[0]
    early = matt_time_s(dry_in_two(mass_g_m2, MIXES[name], still, blown, 0.5 * share * whole_s))[0]
    late = matt_time_s(dry_in_two(mass_g_m2, MIXES[name], still, blown, share * whole_s))[0]
    assert early < late < whole_s * 1.001


@settings(max_examples=examples(25))
@given(
    name=mix,
    temperature_c=temperature,
    rh=humidity,
    air_speed_m_s=speed,
    mass_g_m2=mass,
    loss=st.floats(0.01, 0.5),
)
def test_water_lost_in_flight_shortens_both_times(name, temperature_c, rh, air_speed_m_s, mass_g_m2, loss):
    landed = stack([MIXES[name], arrive(MIXES[name], loss)])
    # The same paint left the gun, so less of it lands.
    masses = mass_g_m2 * np.array([1.0, 1.0 - loss * float(np.asarray(MIXES[name].water_share))])
    course = dry(masses, landed, place(temperature_c, rh, air_speed_m_s))
    assert open_time_s(course)[1] < open_time_s(course)[0]
    assert matt_time_s(course)[1] < matt_time_s(course)[0]


@settings(max_examples=examples(25))
@given(temperature_c=temperature, rh=humidity)
def test_loss_in_flight_grows_with_distance_and_falls_with_size(temperature_c, rh):
    distances = np.linspace(0.08, 0.40, 17)
    assert np.all(np.diff(water_loss_share(distances, temperature_c, rh)) > 0.0)
    lost = drop_loss_share(np.array([8.0, 12.0, 20.0, 40.0, 80.0]), distances, temperature_c, rh)
    assert np.all((lost >= 0.0) & (lost < 1.0))
    assert np.all(np.diff(lost, axis=1) < 0.0)
