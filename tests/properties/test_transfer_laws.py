"""Transfer, activity, clear coat, calibration and cells: laws that hold for every input."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cases.thorough import examples
from laydown.physics.air import latent_j_g, psat_pa, vapour_pa
from laydown.physics.cure import activation_from_two_points_j_mol, rate_factor
from laydown.physics.film.calibration import open_fraction_from_strokes, transfer_factor_from_matt
from laydown.physics.film.clear import clear_flash_s
from laydown.physics.film.course import matt_time_s, open_time_s, panel_c_at
from laydown.physics.film.rates import liquid_activity
from laydown.physics.film.transfer import evaporation_g_m2_s, h_heat_w_m2_k, h_mass_m_s
from laydown.physics.film.wet_film import Surroundings, dry
from laydown.physics.heat import effective_c
from laydown.trade.mixing.paint_classes import ready_mix

MIX = ready_mix("standard", 0.0, activated=False)
PLACE = Surroundings(20.0, 0.5, 0.3, 20.0, 2952.0, 4.0)

temperature = st.floats(5.0, 45.0)
humidity = st.floats(0.05, 0.95)
speed = st.floats(0.05, 7.0)


@given(speed, temperature)
def test_power_drawn_from_open_water_is_the_handbook_line(air_speed_m_s, temperature_c):
    # ASHRAE Handbook HVAC Applications, evaporation from open water: w = (p_w - p_a) (0.089 + 0.0782 v) / Y,
    # w in kg/(m2 s) with pressures in kPa and Y in kJ/kg, so w Y [W/m2] = (p_w - p_a) (0.089 + 0.0782 v) in Pa.
    surface_pa, air_pa = psat_pa(temperature_c), vapour_pa(temperature_c, 0.4)
    lost = evaporation_g_m2_s(h_mass_m_s(air_speed_m_s, temperature_c), surface_pa, air_pa, temperature_c)
    power_w_m2 = lost * latent_j_g(temperature_c)
    assert power_w_m2 == pytest.approx((surface_pa - air_pa) * (0.089 + 0.0782 * air_speed_m_s), rel=1e-9)


@given(temperature, humidity)
def test_nothing_evaporates_from_a_surface_in_balance_with_its_air(temperature_c, rh):
    in_balance_pa = vapour_pa(temperature_c, rh)
    assert evaporation_g_m2_s(0.01, in_balance_pa, in_balance_pa, temperature_c) == 0.0
    assert evaporation_g_m2_s(0.01, 0.5 * in_balance_pa, in_balance_pa, temperature_c) < 0.0


@given(speed, temperature, humidity)
def test_the_wet_bulb_slope_of_heat_over_mass_is_that_of_air_and_water(air_speed_m_s, temperature_c, rh):
    # Psychrometer: h / (h_m rho cp) = Le^(2/3), a constant of air and water vapour near 0.9 (handbook).
    mass = h_mass_m_s(air_speed_m_s, temperature_c)
    heat = h_heat_w_m2_k(mass, temperature_c, rh)
    assert 900.0 < heat / mass < 1400.0


@given(st.floats(0.0, 0.98))
def test_activity_of_the_liquid_falls_with_binder_from_one_to_nothing(binder):
    here, further = liquid_activity(np.array([binder, binder + 0.01]))
    assert 0.0 <= further < here <= 1.0 + 1e-12
    assert liquid_activity(np.array([0.0]))[0] == 1.0


@given(temperature, temperature, st.floats(1.0, 20.0), st.floats(0.0, 20.0))
def test_what_acts_on_a_panel_lies_between_air_and_walls(air_c, wall_c, convection, radiation):
    acts_c = effective_c(convection, radiation, air_c, wall_c)
    assert min(air_c, wall_c) - 1e-9 <= acts_c <= max(air_c, wall_c) + 1e-9
    assert effective_c(convection, 0.0, air_c, wall_c) == pytest.approx(air_c)


@given(st.floats(20_000.0, 120_000.0), st.floats(40.0, 70.0), st.floats(5.0, 30.0))
def test_the_energy_behind_two_times_gives_those_times_back(energy_j_mol, cooler_c, hotter_by_k):
    hotter_c = cooler_c + hotter_by_k
    cooler_s = 1800.0 * rate_factor(hotter_c, cooler_c, energy_j_mol)
    found = activation_from_two_points_j_mol(cooler_s, cooler_c, 1800.0, hotter_c)
    assert found == pytest.approx(energy_j_mol, rel=1e-6)


@given(st.floats(5.0, 40.0), speed)
def test_a_clear_coat_flashes_as_the_sheet_says_in_the_sheets_air(film_c, air_m_s):
    assert clear_flash_s(600.0, film_c, air_m_s, film_c, air_m_s) == pytest.approx(600.0)
    assert clear_flash_s(600.0, film_c, air_m_s, film_c + 1.0, air_m_s) < 600.0


@settings(max_examples=examples(8))
@given(st.floats(0.5, 2.0))
def test_a_transfer_factor_is_found_again_from_the_flash_it_made(factor):
    matt_s = float(matt_time_s(dry(40.0, MIX, replace(PLACE, transfer_factor=factor)))[0])
    assert transfer_factor_from_matt(matt_s, matt_s, 40.0, MIX, PLACE) == pytest.approx(factor, rel=0.005)


@settings(max_examples=examples(8))
@given(st.floats(0.17, 0.30))
def test_an_open_fraction_is_found_again_from_the_strokes_it_made(fraction):
    open_s = float(open_time_s(dry(20.0, replace(MIX, open_fraction=fraction), PLACE))[0])
    found = open_fraction_from_strokes(0.99 * open_s, 1.01 * open_s, 20.0, MIX, PLACE)
    assert found == pytest.approx(fraction, rel=0.01)


@settings(max_examples=examples(8))
@given(st.floats(10.0, 60.0))
def test_a_drying_panel_is_never_warmer_than_its_air_and_comes_back_to_it(mass_g_m2):
    course = dry(mass_g_m2, MIX, PLACE, np.linspace(0.0, 14_400.0, 60))
    assert panel_c_at(course, 30.0)[0] < 20.0
    assert panel_c_at(course, 14_400.0)[0] == pytest.approx(20.0, abs=0.5)
