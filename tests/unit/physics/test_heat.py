"""Edges of the panel model."""

import math

import pytest

from laydown.physics.heat import (
    SUBSTRATES,
    HeatUp,
    areal_heat_capacity_j_m2_k,
    biot_count,
    cool_time_s,
    effective_c,
    panel_c,
    time_constant_s,
    time_to_s,
)


def test_areal_capacity_is_density_times_heat_times_thickness():
    # 7.85 g/mL x 800 µm x 0.46 J/(g K) = 2888.8 J/(m2 K).
    assert areal_heat_capacity_j_m2_k(7.85, 0.46, 0.8) == pytest.approx(2888.8)


@pytest.mark.parametrize("thickness_mm", [0.0, -1.0, 20.1, math.nan])
def test_a_sheet_of_no_or_absurd_thickness_is_refused(thickness_mm):
    with pytest.raises(ValueError, match="thickness_mm"):
        areal_heat_capacity_j_m2_k(7.85, 0.46, thickness_mm)


def test_no_heat_transfer_is_refused():
    with pytest.raises(ValueError, match="transfer_w_m2_k"):
        time_constant_s(1000.0, 0.0)


@pytest.mark.parametrize(
    ("material", "thickness_mm", "tau_s"),
    # By hand: C / 19.6 (1 + Bi / 3), Bi = 19.6 d / k.
    [("steel", 0.8, 147.4), ("steel", 1.5, 276.4), ("aluminium", 1.0, 124.0), ("plastic", 3.0, 293.0)],
)
def test_time_constants_worked_by_hand(material, thickness_mm, tau_s):
    one = SUBSTRATES[material]
    capacity = areal_heat_capacity_j_m2_k(one.density_g_ml, one.heat_capacity_j_g_k, thickness_mm)
    biot = biot_count(19.6, thickness_mm, one.conductivity_w_m_k)
    assert time_constant_s(capacity, 19.6, biot) == pytest.approx(tau_s, rel=2e-3)


def test_metal_has_no_inside_to_speak_of():
    assert biot_count(19.6, 3.0, SUBSTRATES["steel"].conductivity_w_m_k) < 0.002


def test_equal_walls_and_air_act_as_the_air():
    assert effective_c(8.0, 6.0, 65.0, 65.0) == pytest.approx(65.0)


def test_a_warm_car_in_a_cold_booth_dips_and_still_arrives_once():
    course = HeatUp(40.0, 10.0, 60.0, 100.0, 600.0)
    assert panel_c(100.0, course) < 40.0
    arrived = time_to_s(50.0, course)
    assert panel_c(arrived, course) == pytest.approx(50.0, abs=1e-6)


def test_a_hair_below_the_goal_is_reached_late_or_never_but_never_wrongly():
    course = HeatUp(20.0, 20.0, 65.0, 150.0, 300.0)
    found = time_to_s(math.nextafter(65.0, 0.0), course)
    assert found > 5000.0


def test_a_panel_cools_only_down_to_its_air():
    assert cool_time_s(60.0, 20.0, 20.0, 150.0) == math.inf
    assert cool_time_s(20.0, 30.0, 25.0, 150.0) == 0.0
    # 150 ln(40 / 10)
    assert cool_time_s(60.0, 30.0, 20.0, 150.0) == pytest.approx(207.94, abs=0.01)
