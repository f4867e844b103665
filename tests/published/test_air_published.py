"""Moist air against printed values; the source stands beside each check."""

import numpy as np
import pytest

from laydown.physics import air

# ASHRAE Handbook Fundamentals 2017, chapter 1, table 3 (saturation pressure over water).
ASHRAE_SATURATION = [(5.0, 872.6), (25.0, 3169.7), (50.0, 12351.3)]

# Dew points of PsychroLib 2.5.0, which follows the same chapter; above 0 degC only (see the trap below).
PSYCHROLIB_DEW = [(20.0, 0.50, 9.27), (25.0, 0.60, 16.70), (30.0, 0.80, 26.17)]

# A public climate table (whole degrees): dew point of air at 20 degC.
CLIMATE_TABLE_DEW = [(0.50, 9.0), (0.60, 12.0), (0.70, 14.0), (0.80, 16.0)]


@pytest.mark.parametrize(("temperature_c", "pressure_pa"), ASHRAE_SATURATION)
def test_saturation_pressure_meets_the_handbook_table(temperature_c, pressure_pa):
    assert air.psat_pa(temperature_c) == pytest.approx(pressure_pa, rel=3e-4)


@pytest.mark.parametrize(
    ("temperature_c", "pressure_pa", "tolerance"),
    [
        (20.0, 2338.8, 1e-4),  # PsychroLib 2.5.0, ASHRAE 2017 chapter 1 equation 6
        (20.0, 2339.3, 1e-3),  # IAPWS-95 by CoolProp 8.0.0
        (60.0, 19946.0, 1e-3),  # IAPWS-95 by CoolProp 8.0.0
        (20.0, 2337.0, 2e-3),  # an online moist-air table
    ],
)
def test_saturation_pressure_meets_other_printed_values(temperature_c, pressure_pa, tolerance):
    # Trap: the same online table prints 14 745 Pa at 55 degC where IAPWS-95 has 15 762; it is not a check there.
    assert air.psat_pa(temperature_c) == pytest.approx(pressure_pa, rel=tolerance)


def test_saturation_pressure_at_55_c_is_not_the_misprint_of_the_online_table():
    assert air.psat_pa(55.0) == pytest.approx(15762.0, rel=1e-3)  # IAPWS-95 by CoolProp 8.0.0


def test_saturated_humidity_ratio_meets_the_handbook_table():
    # ASHRAE 2017 chapter 1 table 2: 0.020173 at 25 degC; real air, so our ideal gas lies up to 0.5 % below.
    assert air.humidity_ratio(25.0, 1.0) == pytest.approx(0.020173, rel=5e-3)


def test_humidity_ratio_meets_psychrolib_and_lies_just_below_real_air():
    ratio = air.humidity_ratio(20.0, 0.50)
    assert ratio == pytest.approx(0.007262, rel=1e-3)  # PsychroLib 2.5.0, ideal gas
    assert 0.003 < 1.0 - ratio / 0.007294 < 0.006  # CoolProp HAPropsSI, real gas


def test_example_1_of_the_handbook_chapter_is_met():
    # ASHRAE 2017 chapter 1, example 1: 40 degC dry bulb, 20 degC wet bulb: W 0.0065, RH 0.14, dew point 7 degC.
    assert air.wet_bulb_c(40.0, 0.14) == pytest.approx(20.0, abs=0.3)
    assert air.humidity_ratio(40.0, 0.14) == pytest.approx(0.0065, abs=1e-4)
    assert air.dew_point_c(air.vapour_pa(40.0, 0.14)) == pytest.approx(7.0, abs=0.5)


@pytest.mark.parametrize(("temperature_c", "rh", "dew_c"), PSYCHROLIB_DEW)
def test_dew_point_meets_psychrolib(temperature_c, rh, dew_c):
    assert air.dew_point_c(air.vapour_pa(temperature_c, rh)) == pytest.approx(dew_c, abs=0.05)


def test_dew_point_below_zero_is_over_water_and_not_the_frost_point():
    # Trap: PsychroLib (-3.209) and CoolProp (-3.207) answer the frost point here. Over water, the Magnus form with
    # 17.62 and 243.12 gives -3.67 degC.
    dew_c = air.dew_point_c(air.vapour_pa(20.0, 0.20))
    assert dew_c == pytest.approx(-3.67, abs=0.05)
    assert abs(dew_c + 3.21) > 0.3


@pytest.mark.parametrize(("rh", "dew_c"), CLIMATE_TABLE_DEW)
def test_dew_point_meets_a_whole_degree_climate_table(rh, dew_c):
    assert air.dew_point_c(air.vapour_pa(20.0, rh)) == pytest.approx(dew_c, abs=0.6)


def test_dew_point_meets_a_chart_in_fahrenheit():
    # A public dew point chart: 70 degF and 65 % give 57 degF.
    dew_c = air.dew_point_c(air.vapour_pa((70.0 - 32.0) / 1.8, 0.65))
    assert dew_c * 1.8 + 32.0 == pytest.approx(57.0, abs=1.0)


@pytest.mark.parametrize(
    ("temperature_c", "rh", "bulb_c", "tolerance_k"),
    [
        (20.0, 0.20, 9.27, 0.01),  # PsychroLib 2.5.0; CoolProp 9.25
        (30.0, 0.80, 27.09, 0.02),  # PsychroLib 2.5.0 and CoolProp 8.0.0
        (20.0, 0.50, 13.783, 0.01),  # PsychroLib 2.5.0
        (35.0, 0.20, 18.870, 0.01),  # PsychroLib 2.5.0
    ],
)
def test_wet_bulb_meets_the_libraries(temperature_c, rh, bulb_c, tolerance_k):
    assert air.wet_bulb_c(temperature_c, rh) == pytest.approx(bulb_c, abs=tolerance_k)


def test_specific_volume_meets_psychrolib():
    # PsychroLib 2.5.0: 0.8402 m3 per kg of dry air at 20 degC, 50 %, 101 325 Pa.
    volume = (1.0 + air.humidity_ratio(20.0, 0.50)) / air.rho_air_kg_m3(20.0, 0.50)
    assert volume == pytest.approx(0.8402, rel=1e-3)


@pytest.mark.parametrize(
    ("temperature_c", "latent"), [(0.01, 2500.91), (20.0, 2453.5), (40.0, 2406.0), (60.0, 2357.65)]
)
def test_latent_heat_meets_iapws_95(temperature_c, latent):
    # CoolProp 8.0.0.
    assert air.latent_j_g(temperature_c) == pytest.approx(latent, rel=6e-4)


@pytest.mark.parametrize(("temperature_c", "rh", "grams"), [(20.0, 0.50, 8.7), (25.0, 0.60, 13.8)])
def test_absolute_humidity_meets_a_climate_table(temperature_c, rh, grams):
    assert air.vapour_g_m3(temperature_c, rh) == pytest.approx(grams, abs=0.1)


def test_a_surface_needs_three_kelvin_above_the_dew_point():
    # ISO 8502-4 practice, as stated by a galvanising corrosion manual and a coating-conditions guide.
    assert air.LEAST_DEW_MARGIN_K == 3.0
    # 20 degC and 70 % have their dew point at 14 degC (climate table), so metal at 16 is too cold, at 18 is not.
    assert air.dew_margin_k(16.0, 20.0, 0.70) < air.LEAST_DEW_MARGIN_K < air.dew_margin_k(18.0, 20.0, 0.70)


def test_diffusion_of_vapour_meets_a_common_handbook_value():
    # 0.26 cm2/s at 25 degC, as in heat transfer textbooks (from memory).
    assert air.diffusivity_m2_s(25.0) == pytest.approx(2.6e-5, rel=0.03)


def test_the_fast_formula_stays_with_the_full_one_where_booths_are():
    temperature_c = np.linspace(5.0, 45.0, 81)
    assert np.max(np.abs(air.psat_fast_pa(temperature_c) / air.psat_pa(temperature_c) - 1.0)) < 1.5e-3
    assert air.psat_fast_pa(60.0) == pytest.approx(19946.0, rel=6e-3)
