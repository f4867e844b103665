"""The table of films against direct integration of the same deposits, and by hand."""

from dataclasses import replace

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from laydown.physics.film import rates as film_rates
from laydown.physics.film.course import matt_time_s, open_time_s
from laydown.physics.film.wet_film import Surroundings, Wet, _prepared, dry
from laydown.physics.film_table import (
    Cells,
    bare,
    carried,
    deposit,
    film_table,
    matt_left_s,
    open_fraction,
    open_left_s,
)

STANDARD = Wet(0.70, 0.10, 0.20, 100.0, 52.0e3, 0.20, 0.55)
SLOW = Wet(0.665, 0.135, 0.20, 55.0, 54.0e3, 0.20, 0.55)
MILD = Surroundings(20.0, 0.5, 0.3, 20.0, 2952.0, 4.0)
PLACES = {
    "mild": MILD,
    "hot and dry": replace(MILD, temperature_c=35.0, panel_start_c=35.0, rh=0.2),
    "damp": replace(MILD, rh=0.8),
    "blown": replace(MILD, temperature_c=22.0, panel_start_c=22.0, rh=0.4, air_speed_m_s=2.0),
    "warm car": replace(MILD, panel_start_c=35.0),
}


def integrated(deposits, wet, place):
    """Open and matt time of a cell with deposits (time, mass), by LSODA with the library's own rates."""
    total, state, now = 0.0, np.array([0.0, 0.0, place.panel_start_c]), 0.0
    found = []
    for number, (time_s, mass) in enumerate(deposits):
        if number:
            state = _run(total, state, (now, time_s), wet, place).y[:, -1]
        total, now = total + mass, time_s
        state = state + np.array([mass * wet.water_share, mass * wet.cosolvent_share, 0.0])
    found = _run(total, state, (now, 86400.0), wet, place).t_events
    return found[0][0], found[1][0]


def _run(mass, state, span, wet, place):
    film, air, _ = _prepared(mass, wet, place)
    volume = film.solids_um[0]

    def change(_time, now):
        flows = film_rates.flows(film, air, now[:1], now[1:2], now[2:])
        capacity = air.capacity_j_m2_k + 4.0 * (now[0] + now[1]) + 1.5 * film.solids_g_m2
        cosolvent = flows.cosolvent_rate * now[1]
        cooling = (2500.9 - 2.3665 * now[2]) * flows.water_g_m2_s + film.cosolvent_heat_j_g * cosolvent
        warming = air.conductance_w_m2_k * (air.temperature_c - now[2]) - cooling
        return [-flows.water_g_m2_s[0], -cosolvent[0], (warming / capacity)[0]]

    def closes(_time, now):
        return volume - wet.open_fraction * (volume + now[0] + 3.0 * now[1] / 0.90)

    def is_matt(_time, now):
        return volume - wet.matt_fraction * (volume + now[0] + now[1] / 0.90)

    return solve_ivp(change, span, state, "LSODA", rtol=1e-6, atol=1e-6, events=[closes, is_matt])


@pytest.mark.parametrize("wet", [STANDARD, SLOW], ids=["standard", "slow"])
@pytest.mark.parametrize("place", PLACES)
def test_cells_with_several_deposits_dry_as_when_integrated_directly(place, wet):
    # Thirteen cells with 2 to 4 deposits of 3 to 18 g/m2 while the film below is open.
    dice = np.random.default_rng(20)
    table = film_table(wet, PLACES[place])
    reach_s = 0.7 * open_time_s(dry(20.0, wet, PLACES[place]))[0]
    errors = []
    for _ in range(13):
        count = int(dice.integers(2, 5))
        times = np.cumsum([0.0, *dice.uniform(0.05, 0.5, count - 1)]) * reach_s
        masses = dice.uniform(3.0, 18.0, count)
        opens, matts = integrated(list(zip(times, masses, strict=True)), wet, PLACES[place])
        cells = bare(1)
        for time_s, mass in zip(times, masses, strict=True):
            cells = deposit(table, cells, np.array([mass]), time_s)
        errors.append(
            [open_left_s(table, cells, 0.0)[0] / opens - 1.0, matt_left_s(table, cells, 0.0)[0] / matts - 1.0]
        )
    errors = np.array(errors)
    assert np.all(np.abs(errors.mean(axis=0)) < [0.01, 0.015])
    assert np.all(np.abs(errors).max(axis=0) < [0.03, 0.05])


def test_one_deposit_is_one_film():
    table = film_table(STANDARD, MILD)
    mass = np.array([4.0, 15.0, 30.0, 63.0])
    cells = deposit(table, bare(4), mass, 100.0)
    assert cells.birth_s == pytest.approx(100.0)
    assert open_left_s(table, cells, 100.0) == pytest.approx(open_time_s(dry(mass, STANDARD, MILD)), rel=5e-3)
    assert matt_left_s(table, cells, 100.0) == pytest.approx(matt_time_s(dry(mass, STANDARD, MILD)), rel=5e-3)


def test_open_fraction_reaches_one_when_nothing_is_left_of_the_open_time():
    table = film_table(STANDARD, MILD)
    cells = deposit(table, bare(3), np.array([8.0, 20.0, 45.0]), 0.0)
    closing_s = open_left_s(table, cells, 0.0)
    assert open_fraction(table, cells, closing_s) == pytest.approx(1.0, abs=0.01)
    assert np.all(open_fraction(table, cells, 0.5 * closing_s) < 1.0)


def test_nothing_laid_changes_nothing_and_bare_cells_stay_bare():
    table = film_table(STANDARD, MILD)
    cells = deposit(table, Cells(np.array([0.0, 3.0]), np.array([0.0, 12.0])), np.zeros(2), 40.0)
    assert cells.solids_g_m2.tolist() == [0.0, 3.0]
    assert cells.birth_s.tolist() == [0.0, 12.0]
    assert open_fraction(table, cells, 60.0)[0] == 0.0
    assert open_left_s(table, cells, 60.0)[0] == 0.0


def test_fresh_paint_reopens_a_cell_and_two_strokes_at_once_are_one():
    table = film_table(STANDARD, MILD)
    old = deposit(table, bare(1), np.array([12.0]), 0.0)
    renewed = deposit(table, old, np.array([12.0]), 60.0)
    assert open_fraction(table, renewed, 60.0)[0] < open_fraction(table, old, 60.0)[0]
    # In the first minute a film loses the same water however thick it is: as if all had been laid at the start.
    assert renewed.birth_s[0] == pytest.approx(0.0, abs=2.0)
    twice = deposit(table, old, np.array([12.0]), 0.0)
    assert twice.birth_s[0] == pytest.approx(0.0, abs=0.05)
    assert twice.solids_g_m2[0] == pytest.approx(4.8)


def test_blowers_take_over_the_film_as_it_is():
    still, blown = film_table(STANDARD, MILD), film_table(STANDARD, PLACES["blown"])
    cells = deposit(still, bare(1), np.array([30.0]), 0.0)
    later = carried(still, blown, cells, 90.0)
    assert open_fraction(blown, later, 90.0)[0] == pytest.approx(
        open_fraction(still, cells, 90.0)[0], rel=0.01
    )
    assert open_left_s(blown, later, 90.0)[0] < open_left_s(still, cells, 90.0)[0]


def test_air_so_damp_that_nothing_turns_matt_has_no_table():
    damp = replace(MILD, rh=0.97, temperature_c=8.0, panel_start_c=8.0, air_speed_m_s=0.05)
    with pytest.raises(ValueError, match="damp"):
        film_table(SLOW, damp)
