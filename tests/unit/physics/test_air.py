"""The door of the moist-air laws: ranges, shapes."""

import numpy as np
import pytest

from laydown.physics import air


def test_humidity_in_percent_is_refused_and_not_divided():
    with pytest.raises(ValueError, match="share"):
        air.vapour_pa(20.0, 50.0)


@pytest.mark.parametrize("temperature_c", [-6.0, 71.0, float("nan")])
def test_air_outside_its_range_is_refused_by_name(temperature_c):
    with pytest.raises(ValueError, match="temperature_c"):
        air.vapour_pa(temperature_c, 0.5)


def test_one_bad_number_in_an_array_is_enough_to_refuse_it():
    with pytest.raises(ValueError, match="rh"):
        air.humidity_ratio(np.array([20.0, 20.0]), np.array([0.5, 1.2]))


def test_a_number_answers_a_number_and_an_array_an_array():
    assert isinstance(air.wet_bulb_c(20.0, 0.5), float)
    assert np.shape(air.wet_bulb_c(np.array([20.0, 30.0]), 0.5)) == (2,)
    assert air.wet_bulb_c(np.array([20.0, 30.0]), 0.5)[1] == air.wet_bulb_c(30.0, 0.5)


def test_saturated_air_has_dew_point_and_wet_bulb_at_its_own_temperature():
    assert air.wet_bulb_c(22.0, 1.0) == pytest.approx(22.0, abs=1e-6)
    assert air.dew_point_c(air.vapour_pa(22.0, 1.0)) == pytest.approx(22.0, abs=1e-6)


def test_vapour_makes_air_lighter():
    assert air.rho_air_kg_m3(30.0, 1.0) < air.rho_air_kg_m3(30.0, 0.0)
