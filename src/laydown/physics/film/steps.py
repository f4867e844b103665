"""Time steps for wet films: exponential midpoint, each column with steps of its own length.

Sources: the equations of film_rates; the step is named at its function.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np

from laydown.physics.air import latent_j_g
from laydown.physics.film.rates import (
    LIQUID_HEAT_J_G_K,
    SOLIDS_HEAT_J_G_K,
    UPTAKE_S,
    AirColumns,
    Film,
    Flows,
    flows,
)
from laydown.physics.values import Floats

LONGEST_S: Final = 86400.0
"""A film not matt by then counts as never matt [s]; assumption."""

FIRST_STEP_S: Final = 4.0
"""Longest first step [s]; see the step check against LSODA."""

LOSS_PER_STEP: Final = 0.05
"""A step takes at most this share of the liquid [1]; see the step check against LSODA."""

WARMING_PER_STEP_K: Final = 0.6
"""A step warms or cools the panel by at most this [K], so evaporation changes as little as the liquid; see the step
check against LSODA."""

GROWTH_PER_STEP: Final = 0.5
"""A step is at most this share of the time gone by [1]; see the step check against LSODA."""

LEAST_GROWTH_PER_STEP: Final = 0.005
"""A step is at least this share of the time gone by, so that no film takes steps without end [1]."""

_SATURATION_SLOPE_PER_K: Final = 0.06
"""Relative rise of saturation pressure per kelvin, for the panel's own time constant only."""

_NOTHING_G_M2: Final = 1e-9
_NOTHING_K_S: Final = 1e-9


@dataclass(frozen=True, slots=True)
class FilmState:
    """Every column's film at one moment (each column has its own clock)."""

    time_s: Floats
    water_g_m2: Floats
    cosolvent_g_m2: Floats
    panel_c: Floats
    absorbed_g_m2: Floats
    """Water held by the absorbing layer below."""


def _relaxed(rate: Floats, step_s: Floats) -> Floats:
    """Find the time over which a flow counts when it fades with a rate during a step [s]."""
    faded: Floats = -np.expm1(-rate * step_s) / rate
    return faded


@dataclass(frozen=True, slots=True)
class _Slopes:
    """What changes at one moment: flows, warming of the panel [K/s] and the rate at which that fades [1/s]."""

    flows: Flows
    warming: Floats
    stiffness: Floats


def _slopes(film: Film, air: AirColumns, state: FilmState) -> _Slopes:
    """Find what changes at one moment."""
    rates = flows_at(film, air, state)
    latent = latent_j_g(state.panel_c)
    capacity = air.capacity_j_m2_k + LIQUID_HEAT_J_G_K * (state.water_g_m2 + state.cosolvent_g_m2)
    capacity = capacity + SOLIDS_HEAT_J_G_K * film.solids_g_m2
    cooling = (
        latent * rates.water_g_m2_s + film.cosolvent_heat_j_g * rates.cosolvent_rate * state.cosolvent_g_m2
    )
    warming = air.conductance_w_m2_k * (air.temperature_c - state.panel_c) - cooling
    stiffness = air.conductance_w_m2_k + _SATURATION_SLOPE_PER_K * latent * rates.gross_g_m2_s
    return _Slopes(rates, warming / capacity, stiffness / capacity)


def _wanted(air: AirColumns, water_g_m2: Floats) -> Floats:
    """Find what the layer below would hold in the end beside so much water in the film [g/m2]."""
    some: Floats = air.uptake_g_m2 * water_g_m2 / (water_g_m2 + 0.5 * air.uptake_g_m2 + _NOTHING_G_M2)
    return some


def _held(air: AirColumns, state: FilmState, water_g_m2: Floats, step_s: Floats, both_g_m2: Floats) -> Floats:
    """Find what the layer below holds after a step, drawn by the film's water in between [g/m2]."""
    if not air.absorbs:
        return state.absorbed_g_m2
    wanted = _wanted(air, water_g_m2)
    held = wanted + (state.absorbed_g_m2 - wanted) * np.exp(-step_s / UPTAKE_S)
    some: Floats = np.minimum(held, 0.999 * both_g_m2)
    return some


def stepped(film: Film, air: AirColumns, state: FilmState, step_s: Floats) -> FilmState:
    """Return the films one step later.

    Parameters
    ----------
    film, air
        The columns' constants.
    state
        The films now.
    step_s
        Length of the step of each column [s]; 0 leaves a column as it is.

    Notes
    -----
    Second order: rates are taken at the step's middle. Water and panel temperature relax around their own
    time constants, so a long step ends at the balance of evaporation and condensation and never swings
    about it. Of its water a film loses at most nine tenths in one step.

    Sources
    -------
    Exponential midpoint rule; Hochbruck and Ostermann, Acta Numerica 19 (2010) 209-286.
    """
    return _moved(film, air, state, _middle(air, state, _slopes(film, air, state), step_s), step_s)


def flows_at(film: Film, air: AirColumns, state: FilmState) -> Flows:
    """`flows` of a state."""
    return flows(film, air, state.water_g_m2, state.cosolvent_g_m2, state.panel_c)


def _middle(air: AirColumns, state: FilmState, slopes: _Slopes, step_s: Floats) -> FilmState:
    """Give the films in the middle of a step, first order."""
    half, rates = 0.5 * step_s, slopes.flows
    panel = state.panel_c + slopes.warming * _relaxed(slopes.stiffness, half)
    cosolvent = state.cosolvent_g_m2 * np.exp(-rates.cosolvent_rate * half)
    both = state.water_g_m2 + state.absorbed_g_m2
    both = np.maximum(both - rates.water_g_m2_s * _relaxed(rates.water_rate, half), 0.1 * both)
    held = _held(air, state, state.water_g_m2, half, both)
    return FilmState(state.time_s + half, both - held, cosolvent, panel, held)


def _moved(film: Film, air: AirColumns, state: FilmState, middle: FilmState, step_s: Floats) -> FilmState:
    """Give the films after the whole step, with the rates of its middle."""
    slopes = _slopes(film, air, middle)
    rates = slopes.flows
    force = slopes.warming + slopes.stiffness * (middle.panel_c - state.panel_c)
    panel = state.panel_c + force * _relaxed(slopes.stiffness, step_s)
    cosolvent = state.cosolvent_g_m2 * np.exp(-rates.cosolvent_rate * step_s)
    # Film and layer below are one account of water, so that what one loses the other gains to the last digit.
    both = state.water_g_m2 + state.absorbed_g_m2
    lost = rates.water_g_m2_s + rates.water_rate * (both - middle.water_g_m2 - middle.absorbed_g_m2)
    both = np.maximum(both - lost * _relaxed(rates.water_rate, step_s), 0.1 * both)
    held = _held(air, state, middle.water_g_m2, step_s, both)
    return FilmState(state.time_s + step_s, both - held, cosolvent, panel, held)


def _own_step_s(film: Film, air: AirColumns, state: FilmState, slopes: _Slopes, since_s: Floats) -> Floats:
    """Choose each column's step: a share of its liquid or a little warmth, but not many times the time gone by."""
    volume = state.water_g_m2 + state.cosolvent_g_m2 * film.cosolvent_ml_g
    rates = slopes.flows
    leaving = np.abs(rates.water_g_m2_s) + rates.cosolvent_rate * state.cosolvent_g_m2 * film.cosolvent_ml_g
    if air.absorbs:
        leaving = leaving + np.abs(_wanted(air, state.water_g_m2) - state.absorbed_g_m2) / UPTAKE_S
    gone_s = state.time_s - since_s
    by_loss = LOSS_PER_STEP * volume / (leaving + _NOTHING_G_M2)
    by_warmth = WARMING_PER_STEP_K / (np.abs(slopes.warming) + _NOTHING_K_S)
    step = np.maximum(np.minimum(by_loss, by_warmth), LEAST_GROWTH_PER_STEP * gone_s)
    short: Floats = np.minimum(step, FIRST_STEP_S + GROWTH_PER_STEP * gone_s)
    return short


def is_matt(film: Film, state: FilmState) -> bool:
    """Tell whether every column has lost enough liquid to be matt."""
    liquid = state.water_g_m2 + film.matt_weight * state.cosolvent_g_m2 * film.cosolvent_ml_g
    return bool(np.all(liquid <= film.matt_liquid_um))


def walk(
    film: Film, air: AirColumns, state: FilmState, until_s: Floats, *, stop_when_matt: bool
) -> list[FilmState]:
    """Walk in steps of own length until every column reaches its time, or all are matt.

    Parameters
    ----------
    film, air
        The columns' constants.
    state
        The films at the start; not repeated in the answer.
    until_s
        Where each column's clock ends [s].
    stop_when_matt
        Whether to stop as soon as all columns are matt.

    Returns
    -------
    State after each step, in order.
    """
    since_s = state.time_s
    states: list[FilmState] = []
    while np.any(state.time_s < until_s) and not (stop_when_matt and is_matt(film, state)):
        slopes = _slopes(film, air, state)
        step_s = np.minimum(_own_step_s(film, air, state, slopes, since_s), until_s - state.time_s)
        state = _moved(film, air, state, _middle(air, state, slopes, step_s), step_s)
        states.append(state)
    return states


def spread_times_s(
    end_s: float, first_s: float = 0.25, growth: float = 0.08, longest_s: float = 20.0
) -> Floats:
    """Spread times from 0 to an end, close together at first [s], (time,).

    Parameters
    ----------
    end_s
        Last time [s], above 0.
    first_s, longest_s
        First step and longest step [s].
    growth
        A step's length as a share of the time gone by.

    Notes
    -----
    With the defaults, water left at any time is within 0.5 % of the solids of the exact answer (a test).
    """
    times = [0.0]
    while times[-1] < end_s:
        times.append(min(end_s, times[-1] + min(longest_s, first_s + growth * times[-1])))
    return np.array(times)


def march(film: Film, air: AirColumns, state: FilmState, times_s: Floats) -> list[FilmState]:
    """March one step to each of the given times.

    Parameters
    ----------
    film, air
        The columns' constants.
    state
        The films at the start; not repeated in the answer.
    times_s
        Rising times after the start [s], (time,) or (time, column).

    Returns
    -------
    State at each time.
    """
    states: list[FilmState] = []
    for row in times_s:
        state = stepped(film, air, state, row - state.time_s)
        states.append(state)
    return states
