"""Panel warming against `ht` and `scipy`."""

import itertools
import math

import pytest
from ht import q_rad
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq

from laydown.physics.cure import equivalent_s, rate_factor
from laydown.physics.heat import (
    HeatUp,
    areal_heat_capacity_j_m2_k,
    biot_count,
    cool_time_s,
    panel_c,
    radiation_w_m2_k,
    time_constant_s,
    time_to_s,
)
from laydown.trade.times.warming import HeatedPart, Heating, warming


@pytest.mark.parametrize(("emissivity", "surface_k", "wall_k"), [(1.0, 400.0, 0.0), (0.85, 400.0, 305.0)])
def test_radiation_is_that_of_the_heat_transfer_library(emissivity, surface_k, wall_k):
    # The library keeps the constant of CODATA 2014, which is 1.3e-6 below the exact one of the SI of 2019.
    ours = radiation_w_m2_k(emissivity, surface_k - 273.15, wall_k - 273.15) * (surface_k - wall_k)
    assert ours == pytest.approx(q_rad(emissivity=emissivity, T=surface_k, T2=wall_k), rel=2e-6)


@pytest.mark.parametrize("biot", [0.02, 0.1, 0.2])
def test_the_factor_for_plastics_is_within_a_thousandth_of_the_exact_slab(biot):
    root = brentq(lambda zeta: zeta * math.tan(zeta) - biot, 1e-9, math.pi / 2 - 1e-9)
    assert time_constant_s(1.0, 1.0, biot) == pytest.approx(biot / root**2, rel=1e-3)


def slab_equation_s(target_c):
    """Time at which a 3 mm plastic sheet, warmed on one side, is that warm at its back: by finite differences."""
    cells, thick_m, k, capacity = 30, 0.003, 0.22, 0.95e6 * 1.85
    step = thick_m / cells

    def slope(_t, temps):
        flows = [10.0 * (65.0 - temps[0])]
        flows += [k / step * (a - b) for a, b in itertools.pairwise(temps)]
        flows.append(0.0)
        return [(flows[i] - flows[i + 1]) / (capacity * step) for i in range(cells)]

    def arrived(_t, temps):
        return temps[-1] - target_c

    arrived.terminal = True
    found = solve_ivp(slope, (0, 5000), [20.0] * cells, method="BDF", events=arrived, rtol=1e-7, atol=1e-7)
    return found.t_events[0][0]


def test_a_plastic_sheet_warms_like_a_sheet_cut_into_slices():
    biot = biot_count(10.0, 3.0, 0.22)
    tau = time_constant_s(areal_heat_capacity_j_m2_k(0.95, 1.85, 3.0), 10.0, biot)
    ours = time_to_s(58.0, HeatUp(20.0, 65.0, 65.0, tau, 0.0))
    assert ours == pytest.approx(slab_equation_s(58.0), rel=0.02)


@pytest.mark.parametrize(("start", "around", "target"), [(20.0, 65.0, 58.0), (60.0, 20.0, 30.0)])
def test_one_mean_coefficient_is_within_two_percent_of_full_radiation(start, around, target):
    capacity = areal_heat_capacity_j_m2_k(7.85, 0.46, 0.8)

    def slope(_t, temps):
        flow = 8.0 * (around - temps[0]) - q_rad(emissivity=0.9, T=temps[0] + 273.15, T2=around + 273.15)
        return [flow / capacity]

    def arrived(_t, temps):
        return temps[0] - target

    arrived.terminal = True
    full = solve_ivp(slope, (0, 3000), [start], events=arrived, rtol=1e-9, atol=1e-9).t_events[0][0]
    middle = (start + target) / 2
    tau = time_constant_s(capacity, 8.0 + radiation_w_m2_k(0.9, middle, around))
    ours = (
        cool_time_s(start, target, around, tau)
        if start > target
        else time_to_s(target, HeatUp(start, around, around, tau, 0.0))
    )
    assert ours == pytest.approx(full, rel=0.02)


def test_lagging_walls_hold_a_panel_where_the_full_balance_holds_it():
    # Air at 65, walls at 45 °C: the panel settles where convection and radiation cancel.
    def balance(temp):
        return 8.0 * (65.0 - temp) - q_rad(emissivity=0.9, T=temp + 273.15, T2=318.15)

    settled = brentq(balance, 20.0, 65.0)
    course = warming(HeatedPart("skin", "steel", 0.8), Heating(20.0, 65.0, 45.0))
    assert course.goal_c == pytest.approx(settled, abs=0.7)
    assert course.goal_c == pytest.approx(55.6, abs=1.0)  # by hand with the coefficient at 60 °C


@pytest.mark.parametrize("activation", [40_000.0, 51_200.0, 70_000.0])
@pytest.mark.parametrize(("floor_c", "max_c"), [(-100.0, math.inf), (40.0, math.inf), (40.0, 60.0)])
def test_equivalent_time_is_the_integral_of_the_rate(activation, floor_c, max_c):
    course = HeatUp(20.0, 20.0, 65.0, 180.0, 300.0)
    ours = equivalent_s(course, 2400.0, floor_c=floor_c, max_c=max_c, activation_j_mol=activation)
    start, end = time_to_s(floor_c, course), min(2400.0, time_to_s(max_c, course))
    exact = quad(lambda t: rate_factor(panel_c(t, course), 60.0, activation), start, end, epsabs=1e-6)[0]
    assert ours == pytest.approx(exact, rel=1e-3)
