"""Rates, equivalent times and held times."""

import math

import pytest

from laydown.physics.cure import (
    activation_from_two_points_j_mol,
    equivalent_s,
    held_s,
    rate_factor,
)
from laydown.physics.heat import HeatUp

STEADY = HeatUp(60.0, 60.0, 60.0, 150.0, 0.0)


def test_twice_as_fast_per_ten_kelvin_holds_only_where_it_was_fitted():
    # By hand: exp(51200 / 8.314462618 x (1 / 293.15 - 1 / 303.15)) = 2.00; from 60 to 70 °C it is 1.71.
    assert rate_factor(30.0, 20.0) == pytest.approx(2.00, abs=0.005)
    assert rate_factor(70.0, 60.0) == pytest.approx(1.71, abs=0.005)


@pytest.mark.parametrize(
    ("at_c", "factor"),
    # By hand, exp(-6157.9 (1 / T - 1 / 333.15)).
    [(20.0, 0.080), (30.0, 0.160), (40.0, 0.307), (50.0, 0.564), (55.0, 0.754), (60.0, 1.0), (80.0, 2.849)],
)
def test_rates_beside_sixty_degrees(at_c, factor):
    assert rate_factor(at_c, 60.0) == pytest.approx(factor, abs=0.0006)


@pytest.mark.parametrize(
    ("first", "second", "kj_mol"),
    # By hand, R ln(t1 / t2) / (1 / T1 - 1 / T2), for pairs that sheets print.
    [((57_600, 20), (1800, 60), 70.4), ((43_200, 20), (1800, 60), 64.5), ((1800, 60), (1200, 70), 38.5)],
)
def test_two_times_of_a_sheet_imply_an_activation_energy(first, second, kj_mol):
    assert activation_from_two_points_j_mol(*first, *second) / 1000 == pytest.approx(kj_mol, abs=0.1)


def test_two_points_at_one_temperature_imply_nothing():
    with pytest.raises(ValueError, match="differ"):
        activation_from_two_points_j_mol(1.0, 20.0, 2.0, 20.0)
    with pytest.raises(ValueError, match="above 0"):
        activation_from_two_points_j_mol(0.0, 20.0, 2.0, 30.0)


def test_at_the_reference_a_second_is_worth_a_second():
    assert equivalent_s(STEADY, 1800.0) == pytest.approx(1800.0)


def test_neither_cool_nor_forbidden_time_is_credited():
    cool = HeatUp(35.0, 35.0, 39.0, 150.0, 0.0)
    assert equivalent_s(cool, 36_000.0) == 0.0
    assert equivalent_s(STEADY, 1800.0, max_c=59.0) == 0.0


def test_held_time_starts_when_the_panel_is_there():
    # 20 to 65 °C at once, 150 s: 58 °C after 150 ln(45 / 7) s.
    course = HeatUp(20.0, 65.0, 65.0, 150.0, 0.0)
    assert held_s(58.0, course, 1800.0) == pytest.approx(1800 - 150 * math.log(45 / 7))
    assert held_s(58.0, course, 100.0) == 0.0
    assert held_s(66.0, course, 1800.0) == 0.0
