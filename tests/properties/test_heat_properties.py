"""What must hold for every panel that warms or cools."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from cases.thorough import examples
from laydown.physics.cure import held_s, rate_factor
from laydown.physics.heat import HeatUp, cool_time_s, panel_c, time_constant_s, time_to_s

taus = st.floats(30.0, 1500.0)


@st.composite
def courses(draw):
    start = draw(st.floats(-10.0, 40.0))
    goal = start + draw(st.floats(5.0, 80.0))
    return HeatUp(start, draw(st.floats(-10.0, goal)), goal, draw(taus), draw(st.floats(0.0, 1500.0)))


@settings(max_examples=examples(40))
@given(courses(), st.floats(1.0, 4000.0))
def test_the_closed_form_is_the_solution_of_its_two_equations(course, time_s):
    booth_s = max(course.booth_s, 5.0)
    same = HeatUp(course.start_c, course.air_start_c, course.goal_c, course.panel_s, booth_s)

    def slope(_t, temps):
        air, panel = temps
        return [(course.goal_c - air) / booth_s, (air - panel) / course.panel_s]

    found = solve_ivp(slope, (0, time_s), [course.air_start_c, course.start_c], rtol=1e-9, atol=1e-9)
    assert panel_c(time_s, same) == pytest.approx(found.y[1][-1], abs=1e-4)


@settings(max_examples=examples(20))
@given(taus, st.floats(-2e-6, 2e-6), st.floats(1.0, 4000.0))
def test_equal_time_constants_are_no_trouble(tau, apart, time_s):
    # Limit of the two equations: T = Ts - (Ts - T0) (1 + t / tau) exp(-t / tau).
    course = HeatUp(20.0, 20.0, 65.0, tau, tau * (1.0 + apart))
    exact = 65.0 - 45.0 * (1.0 + time_s / tau) * math.exp(-time_s / tau)
    assert panel_c(time_s, course) == pytest.approx(exact, abs=1e-4)


@given(courses(), st.floats(0.01, 0.98))
def test_the_time_to_a_temperature_gives_back_that_temperature(course, share):
    target = course.start_c + share * (course.goal_c - course.start_c)
    assert panel_c(time_to_s(target, course), course) == pytest.approx(target, abs=1e-6)


@given(courses(), st.floats(0.0, 50.0))
def test_a_temperature_at_or_above_the_goal_is_never_reached(course, above):
    assert time_to_s(course.goal_c + above, course) == math.inf


@given(courses(), st.floats(0.0, 50.0))
def test_a_panel_that_is_already_there_takes_no_time(course, below):
    assert time_to_s(course.start_c - below, course) == 0.0


@given(st.floats(31.0, 90.0), st.floats(0.05, 0.95), taus)
def test_cooling_is_the_mirror_of_warming(from_c, share, tau):
    to_c = 20.0 + share * (from_c - 20.0)
    warm = HeatUp(-from_c, -20.0, -20.0, tau, 0.0)
    assert cool_time_s(from_c, to_c, 20.0, tau) == pytest.approx(time_to_s(-to_c, warm), rel=1e-9, abs=1e-6)


@given(st.floats(10.0, 1e5), st.floats(1.0, 50.0), st.floats(0.0, 1.0), st.floats(0.01, 1.0))
def test_a_thicker_inside_is_never_faster(capacity, transfer, biot, more):
    assert time_constant_s(capacity, transfer, biot + more) > time_constant_s(capacity, transfer, biot)


@given(st.floats(-10.0, 80.0), st.floats(0.1, 50.0), st.floats(1e3, 1e5))
def test_warmer_is_faster_and_the_factor_undoes_itself(at_c, more_k, activation):
    up = rate_factor(at_c + more_k, at_c, activation)
    assert up > 1.0
    assert up * rate_factor(at_c, at_c + more_k, activation) == pytest.approx(1.0)


@settings(max_examples=examples(30))
@given(courses(), st.floats(0.3, 0.9))
def test_the_time_held_is_the_time_the_course_spends_above(course, share):
    threshold = course.start_c + share * (course.goal_c - course.start_c)
    end = time_to_s(threshold, course) + 600.0
    above = sum(panel_c(end * step / 400, course) >= threshold for step in range(400)) * end / 400
    assert held_s(threshold, course, end) == pytest.approx(above, abs=end / 200)
