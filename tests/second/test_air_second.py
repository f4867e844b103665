"""Moist air against CoolProp 8 (IAPWS-95 for water, real-gas moist air)."""

import numpy as np
import pytest
from CoolProp.CoolProp import HAPropsSI, PropsSI

from laydown.physics import air

CLIMATES = [(10.0, 0.6), (15.0, 0.8), (20.0, 0.5), (25.0, 0.8), (30.0, 0.5), (35.0, 0.2), (40.0, 0.3)]


@pytest.mark.parametrize("temperature_c", [1.0, 5.0, 10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 60.0, 80.0])
def test_saturation_pressure_is_within_five_hundredths_of_a_percent_of_iapws_95(temperature_c):
    assert air.psat_pa(temperature_c) == pytest.approx(
        PropsSI("P", "T", temperature_c + 273.15, "Q", 0, "Water"), rel=5e-4
    )


@pytest.mark.parametrize("temperature_c", [0.01, 10.0, 20.0, 30.0, 40.0, 50.0, 60.0])
def test_latent_heat_is_within_six_hundredths_of_a_percent(temperature_c):
    kelvin = temperature_c + 273.15
    latent = (
        PropsSI("H", "T", kelvin, "Q", 1, "Water") - PropsSI("H", "T", kelvin, "Q", 0, "Water")
    ) / 1000.0
    assert air.latent_j_g(temperature_c) == pytest.approx(latent, rel=6e-4)


@pytest.mark.parametrize(("temperature_c", "rh"), CLIMATES)
def test_dew_point_wet_bulb_and_density_are_those_of_real_moist_air(temperature_c, rh):
    given = ("T", temperature_c + 273.15, "R", rh, "P", 101325.0)
    assert air.dew_point_c(air.vapour_pa(temperature_c, rh)) == pytest.approx(
        HAPropsSI("D", *given) - 273.15, abs=0.05
    )
    assert air.wet_bulb_c(temperature_c, rh) == pytest.approx(HAPropsSI("B", *given) - 273.15, abs=0.03)
    density = (1.0 + HAPropsSI("W", *given)) / HAPropsSI("V", *given)
    assert air.rho_air_kg_m3(temperature_c, rh) == pytest.approx(density, rel=1e-3)


@pytest.mark.parametrize(("temperature_c", "rh"), CLIMATES)
def test_humidity_ratio_lies_half_a_percent_below_real_air_at_most(temperature_c, rh):
    real = HAPropsSI("W", "T", temperature_c + 273.15, "R", rh, "P", 101325.0)
    assert 0.0 < 1.0 - air.humidity_ratio(temperature_c, rh) / real < 0.006


def test_dew_point_undoes_saturation_pressure():
    temperature_c = np.linspace(-20.0, 60.0, 33)
    assert np.allclose(air.dew_point_c(air.psat_pa(temperature_c)), temperature_c, atol=1e-6)
