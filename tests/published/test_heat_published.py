"""Panel warming against textbook examples and handbook roots."""

import itertools
import math

import pytest

from laydown.physics.heat import (
    HeatUp,
    areal_heat_capacity_j_m2_k,
    cool_time_s,
    panel_c,
    radiation_w_m2_k,
    time_constant_s,
    time_to_s,
)
from laydown.trade.times.gate import GateAir, next_coat_gate

# Incropera, example 5.1 (open textbook companion): junction of 0.706 mm, 8500 kg/m3, 400 J/(kg K), h = 400 W/(m2 K).
# A sphere has a sixth of its diameter of volume per surface.
BEAD_J_M2_K = areal_heat_capacity_j_m2_k(8.5, 0.400, 0.706 / 6)


def test_time_constant_of_the_textbook_junction():
    # Example 5.1 designs for 1 s.
    assert time_constant_s(BEAD_J_M2_K, 400.0) == pytest.approx(1.000, rel=0.005)


def test_the_textbook_junction_reaches_199_degrees_in_the_printed_time():
    # The same example: 25 to 199 °C in gas at 200 °C takes 5.16 s (printed 5.2).
    course = HeatUp(25.0, 200.0, 200.0, time_constant_s(BEAD_J_M2_K, 400.0), 0.0)
    assert time_to_s(199.0, course) == pytest.approx(5.16, rel=0.005)


# Incropera, example 5.3 (printed values from memory): 3 mm aluminium, 2770 kg/m3, 875 J/(kg K), both sides free,
# emissivity 0.8. Radiation is stronger when hot, so the way is cut into pieces of equal span.
PANEL_J_M2_K = areal_heat_capacity_j_m2_k(2.77, 0.875, 3.0)


def free_panel_s(middle_c, surround_c, convection):
    return time_constant_s(PANEL_J_M2_K, 2.0 * (convection + radiation_w_m2_k(0.8, middle_c, surround_c)))


def warm_s(from_c, to_c, oven_c, pieces=20):
    ends = [from_c + (to_c - from_c) * step / pieces for step in range(pieces + 1)]
    return sum(
        time_to_s(b, HeatUp(a, oven_c, oven_c, free_panel_s((a + b) / 2, oven_c, 40.0), 0.0))
        for a, b in itertools.pairwise(ends)
    )


def cool_s(from_c, to_c, room_c, pieces=20):
    ends = [from_c + (to_c - from_c) * step / pieces for step in range(pieces + 1)]
    return sum(
        cool_time_s(a, b, room_c, free_panel_s((a + b) / 2, room_c, 10.0))
        for a, b in itertools.pairwise(ends)
    )


def test_the_textbook_panel_reaches_its_cure_temperature_in_the_printed_time():
    # Example 5.3: 25 to 150 °C in an oven at 175 °C takes 124 s.
    assert warm_s(25.0, 150.0, 175.0) == pytest.approx(124.0, rel=0.02)


def test_the_textbook_panel_is_at_oven_temperature_after_five_more_minutes():
    # The same example prints 175 °C.
    course = HeatUp(150.0, 175.0, 175.0, free_panel_s(162.5, 175.0, 40.0), 0.0)
    assert panel_c(300.0, course) == pytest.approx(175.0, abs=0.5)


def test_the_textbook_panel_is_safe_to_touch_at_the_printed_time():
    # The same example: 37 °C is reached 989 s after the start, in a room at 25 °C with h = 10.
    assert warm_s(25.0, 150.0, 175.0) + 300.0 + cool_s(174.8, 37.0, 25.0) == pytest.approx(989.0, rel=0.01)


@pytest.mark.parametrize(
    ("biot", "root", "tolerance"), [(0.1, 0.3111, 1e-3), (0.5, 0.6533, 5e-3), (1.0, 0.8603, 0.014)]
)
def test_the_slow_inside_of_plastic_follows_the_first_root_of_the_slab(biot, root, tolerance):
    # One-term table of the plane wall: zeta tan zeta = Bi. The slab's own time constant is d2 / (alpha zeta2), so
    # it is Bi / zeta2 of the lumped one.
    assert time_constant_s(1000.0, 10.0, biot) / 100.0 == pytest.approx(biot / root**2, rel=tolerance)


@pytest.mark.parametrize(("at_c", "w_m2_k"), [(20.0, 5.143), (60.0, 7.548)])
def test_radiation_between_equal_temperatures_is_the_linearised_law(at_c, w_m2_k):
    # By hand: 4 x 0.9 x 5.670374e-8 x T3 (constant: SI 2019).
    assert radiation_w_m2_k(0.9, at_c, at_c) == pytest.approx(w_m2_k, abs=1e-3)


def test_the_closed_form_meets_points_worked_by_hand():
    # By hand for 150 s and 300 s: T = 65 - 90 exp(-t/300) + 45 exp(-t/150), from 20 °C.
    course = HeatUp(20.0, 20.0, 65.0, 150.0, 300.0)
    for minutes, expected in ((5, 37.98), (10, 53.64), (15, 60.63), (20, 63.37), (30, 64.78)):
        by_hand = 65 - 90 * math.exp(-minutes / 5) + 45 * math.exp(-minutes / 2.5)
        assert by_hand == pytest.approx(expected, abs=0.005)
        assert panel_c(60.0 * minutes, course) == pytest.approx(by_hand, abs=1e-9)


def test_the_dew_point_margin_is_that_of_a_printed_chart():
    # A public dew point chart: at 57 °F dew point, coat from a surface of 62 °F on; ISO 8502-4 practice: 3 K.
    gate = next_coat_gate(20.0, GateAir(21.1, (57 - 32) / 1.8))
    assert gate.low_c * 1.8 + 32 == pytest.approx(62.0, abs=1.0)
    assert gate.low_c - (57 - 32) / 1.8 == pytest.approx(3.0)
