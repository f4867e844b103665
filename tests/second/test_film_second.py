"""The film's equations written a second time, one column at a time, and solved by LSODA of scipy."""

from dataclasses import replace
from math import exp

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from laydown.physics.film.course import matt_time_s, open_time_s, residual_share
from laydown.physics.film.steps import spread_times_s
from laydown.physics.film.wet_film import Surroundings, Wet, dry

MIXES = {
    "fast": Wet(0.72, 0.08, 0.20, 300.0, 48.0e3, 0.20, 0.55),
    "standard": Wet(0.70, 0.10, 0.20, 100.0, 52.0e3, 0.20, 0.55),
    "slow": Wet(0.665, 0.135, 0.20, 55.0, 54.0e3, 0.20, 0.55),
}
MILD = Surroundings(20.0, 0.5, 0.3, 20.0, 2952.0, 4.0)
PLACES = {
    "mild": MILD,
    "hot, dry, blown": replace(MILD, temperature_c=35.0, panel_start_c=35.0, rh=0.2, air_speed_m_s=2.0),
    "cool, damp": replace(MILD, temperature_c=15.0, panel_start_c=15.0, rh=0.8),
    "cold, very damp, still": replace(
        MILD, temperature_c=10.0, panel_start_c=10.0, rh=0.9, air_speed_m_s=0.1
    ),
    "scorching": replace(MILD, temperature_c=40.0, panel_start_c=40.0, rh=0.1, air_speed_m_s=4.0),
    "car from the oven": replace(MILD, panel_start_c=45.0),
    "absorbing base": replace(MILD, base_um=20.0),
    "warm absorbing base, damp": replace(MILD, rh=0.85, panel_start_c=50.0, base_um=30.0),
}


def solved(mass_g_m2, wet, place, end_s):
    """Water, co-solvent, panel and uptake as the docs state them, in plain numbers."""
    solids = mass_g_m2 * wet.solids_share
    kelvin_air = place.temperature_c + 273.15
    transfer = (
        (0.089 + 0.0782 * place.air_speed_m_s)
        / (2500.9 - 2.3665 * place.temperature_c)
        / 1000.0
        * 461.52
        * kelvin_air
    )
    vapour_pa = place.rh * magnus(place.temperature_c)
    density = (101325.0 - vapour_pa) / (287.042 * kelvin_air) + vapour_pa / (461.52 * kelvin_air)
    heat = transfer * density * 1006.0 * 0.865 ** (2.0 / 3.0) + 5.3 + place.back_w_m2_k
    most = 0.20 * place.base_um

    def change(_time, now):
        water, cosolvent, panel, held = now
        volume = water + cosolvent / 0.90 + solids / 1.35
        phi = solids / 1.35 / volume
        x_c = cosolvent / 118.0 / (water / 18.015 + cosolvent / 118.0)
        binder = (1.0 - phi) * exp(phi + (0.5 + 1.4 * phi**4) * phi**2)
        a_w = (1.0 - x_c) * exp(1.6 * x_c**2) * binder
        a_c = x_c * exp(1.6 * (1.0 - x_c) ** 2) * binder
        kelvin = panel + 273.15
        resistance = 0.46152 * kelvin / transfer + volume * 1e-12 * magnus(panel) / (
            3.0 * 3e-10 * exp(-9.0 * phi)
        )
        cosolvent_pa = wet.cosolvent_pa * exp(
            -wet.cosolvent_j_mol / 8.314462618 * (1.0 / kelvin - 1.0 / 293.15)
        )
        j_w = (a_w * magnus(panel) - vapour_pa) / resistance
        j_c = a_c * cosolvent_pa / resistance * (118.0 / 18.015) * 0.40
        drawn = (most * water / (water + most / 2.0) - held) / 15.0 if most else 0.0
        capacity = place.panel_capacity_j_m2_k + 4.0 * (water + cosolvent) + 1.5 * solids
        cooling = (2500.9 - 2.3665 * panel) * j_w + wet.cosolvent_j_mol / 118.0 * j_c
        return [-j_w - drawn, -j_c, (heat * (place.temperature_c - panel) - cooling) / capacity, drawn]

    def closes(_time, now):
        return solids / 1.35 - wet.open_fraction * (solids / 1.35 + now[0] + 3.0 * now[1] / 0.90)

    def is_matt(_time, now):
        return solids / 1.35 - wet.matt_fraction * (solids / 1.35 + now[0] + now[1] / 0.90)

    start = [mass_g_m2 * wet.water_share, mass_g_m2 * wet.cosolvent_share, place.panel_start_c, 0.0]
    return solve_ivp(
        change,
        (0.0, end_s),
        start,
        "LSODA",
        rtol=1e-8,
        atol=1e-8,
        events=[closes, is_matt],
        dense_output=True,
    )


def magnus(temperature_c):
    return 1.0023 * 611.2 * exp(17.62 * temperature_c / (243.12 + temperature_c))


@pytest.mark.parametrize("mass_g_m2", [12.0, 45.0, 90.0])
@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("mix", MIXES)
def test_open_and_matt_times_are_within_half_a_percent(mix, place, mass_g_m2):
    exact = solved(mass_g_m2, MIXES[mix], PLACES[place], 86400.0)
    course = dry(mass_g_m2, MIXES[mix], PLACES[place])
    assert open_time_s(course)[0] == pytest.approx(exact.t_events[0][0], rel=5e-3)
    assert matt_time_s(course)[0] == pytest.approx(exact.t_events[1][0], rel=5e-3)


@pytest.mark.parametrize("place", ["mild", "hot, dry, blown", "car from the oven"])
def test_what_is_left_after_the_flash_is_within_half_a_percent_of_the_solids(place):
    exact = solved(60.0, MIXES["slow"], PLACES[place], 3600.0)
    course = dry(60.0, MIXES["slow"], PLACES[place], spread_times_s(3600.0))
    for time_s in np.array([300.0, 600.0, 1200.0, 1800.0, 3600.0]):
        left = exact.sol(time_s)[:2].sum() / 12.0
        assert residual_share(course, time_s)[0] == pytest.approx(left, abs=5e-3)
