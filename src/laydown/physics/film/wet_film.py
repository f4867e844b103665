"""The wet film: what evaporates from it, how long it joins, when it is matt.

Many films are integrated side by side: every field of `Wet` and `Surroundings` is one float for all or an array
with one float per column.

Sources: the equations of film_rates, unless a function names its own.
"""

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace
from typing import Final

import numpy as np

from laydown.physics.air import STANDARD_PRESSURE_PA, VAPOUR_GAS_J_G_K, psat_fast_pa
from laydown.physics.film import rates as film_rates
from laydown.physics.film import steps as film_steps
from laydown.physics.film.transfer import RADIATION_W_M2_K, h_heat_w_m2_k, h_mass_m_s
from laydown.physics.values import Floats, Values, require_between

HEAVIEST_G_M2: Final = 200.0
"""Most wet paint one film may start with [g/m2]; assumption, twice a heavy coat."""


@dataclass(frozen=True, slots=True)
class Wet:
    """One ready-to-spray mix: shares by mass and the constants of its drying."""

    water_share: Values
    cosolvent_share: Values
    solids_share: Values
    cosolvent_pa: Values
    """Vapour pressure of the pure co-solvent at 20 degC [Pa]."""
    cosolvent_j_mol: Values
    """Evaporation enthalpy of the co-solvent [J/mol]."""
    open_fraction: Values
    """Effective binder fraction at which the film no longer takes in a neighbour or fog [1]."""
    matt_fraction: Values
    """Effective binder fraction at which the film looks matt [1]."""
    open_weight: Values = 3.0
    """How many times a millilitre of co-solvent counts as liquid for the open time [1]; set to trade ranges."""
    matt_weight: Values = 1.0
    """The same for the matt time [1]; set to trade ranges."""
    cosolvent_g_ml: Values = 0.90
    """Density of the co-solvent [g/mL]; handbook value of glycol ethers, from memory."""
    solids_g_ml: Values = 1.35
    """Density of binder and pigment together [g/mL]; assumption."""
    cosolvent_g_mol: Values = 118.0
    """Molar mass of the co-solvent [g/mol]; butoxyethanol."""


@dataclass(frozen=True, slots=True)
class Surroundings:
    """Air around and panel under the film."""

    temperature_c: Values
    """Air and walls [degC]; 5 to 45."""
    rh: Values
    """Relative humidity as a share; 0 to 0.97, above that nothing dries."""
    air_speed_m_s: Values
    """Air speed along the panel [m/s]; 0.05 to 8."""
    panel_start_c: Values
    """Panel when the film lands [degC]; 0 to 70."""
    panel_capacity_j_m2_k: Values
    """Heat the sheet holds [J/(m2 K)]."""
    back_w_m2_k: Values
    """Heat transfer at the sheet's back [W/(m2 K)]."""
    pressure_pa: Values = STANDARD_PRESSURE_PA
    """Air pressure [Pa]."""
    transfer_factor: Values = 1.0
    """Booth's and paint's own transfer over the handbook line [1]."""
    base_um: Values = 0.0
    """Dry, absorbing layer below the film [um]."""


@dataclass(frozen=True, slots=True)
class Course:
    """How films dried: arrays (time, column); each column may have times of its own."""

    times_s: Floats
    water_g_m2: Floats
    cosolvent_g_m2: Floats
    absorbed_g_m2: Floats
    panel_c: Floats
    solids_g_m2: Floats
    """Binder and pigment of each column [g/m2], (column,)."""
    open_progress: Floats
    """Effective fraction over the mix's `open_fraction`: from 1 on the film is closed [1]."""
    matt_progress: Floats
    """Effective fraction over the mix's `matt_fraction`: from 1 on the film is matt [1]."""


def stack(wets: Sequence[Wet], each: int = 1) -> Wet:
    """Return many mixes of single floats as one, each repeated in ``each`` neighbouring columns."""
    columns = {
        field.name: np.repeat([float(getattr(wet, field.name)) for wet in wets], each)
        for field in fields(Wet)
    }
    return Wet(**columns)


def arrive(wet: Wet, loss_share: Values) -> Wet:
    """Return the mix as it lands, after its drops lost water in flight.

    Parameters
    ----------
    wet
        The mix as it leaves the gun.
    loss_share
        Share of its water lost on the way, 0 to 0.95.

    Raises
    ------
    ValueError
        If `loss_share` is out of range.

    Notes
    -----
    Masses given to `dry` are masses that arrived, so the shares are taken over what is left.

    Sources
    -------
    Conservation of mass.
    """
    require_between("loss_share", loss_share, 0.0, 0.95)
    water = wet.water_share * (1.0 - loss_share)
    left = water + wet.cosolvent_share + wet.solids_share
    return replace(
        wet,
        water_share=water / left,
        cosolvent_share=wet.cosolvent_share / left,
        solids_share=wet.solids_share / left,
    )


def dry(mass_g_m2: Values, wet: Wet, surroundings: Surroundings, times_s: Floats | None = None) -> Course:
    r"""Return the course of films that dry side by side.

    Parameters
    ----------
    mass_g_m2
        Wet paint that arrived on the panel [g/m2], above 0 to 200.
    wet
        The mix as it arrived.
    surroundings
        Air and panel, the same from start to end.
    times_s
        Times to step to [s], rising from 0, (time,) or (time, column), as `film_steps.spread_times_s` gives
        them: needed for what happens long after the matt time. None: each column steps at its own
        pace until all are matt, which is both cheaper and more accurate for open and matt times.

    Raises
    ------
    ValueError
        If a mass or the air is outside its range.

    Notes
    -----
    Water, co-solvent, panel temperature and water taken up below:

    .. math:: W' = -J_w - U', \quad S' = -J_s, \quad U' = (U_e - U)/\tau

    .. math:: c T' = (h + h_r + h_b)(T_a - T) - L J_w - L_s J_s

    Open and matt times within 0.5 % of LSODA over the same equations written a second time (a test).

    Sources
    -------
    Rates: `laydown.physics.film.rates`. What was set to trade ranges: docs/models/film.md.
    """
    film, air, start = _prepared(mass_g_m2, wet, surroundings)
    if times_s is None:
        ends = np.full_like(start.time_s, film_steps.LONGEST_S)
        states = film_steps.walk(film, air, start, ends, stop_when_matt=True)
    else:
        states = film_steps.march(film, air, start, times_s[1:])
    return _course(film, wet, [start, *states])


def dry_in_two(
    mass_g_m2: Values,
    wet: Wet,
    first: Surroundings,
    second: Surroundings,
    switch_s: float,
    times_s: Floats | None = None,
) -> Course:
    """Return the course of films whose air changes once, as when blowers are switched on some time after the coat.

    Parameters
    ----------
    mass_g_m2
        Wet paint that arrived [g/m2], above 0 to 200.
    wet
        The mix as it arrived.
    first, second
        Air before and after; panel start and layer below are those of `first`.
    switch_s
        When the air changes [s], from 0.
    times_s
        Times to step to [s], rising from 0, (time,). None: each column at its own pace until all are matt.

    Raises
    ------
    ValueError
        If a mass, the air or the moment is outside its range.

    Notes
    -----
    The equations of `dry`, with the air's terms changed at the switch.    (1)
    """
    require_between("switch_s", switch_s, 0.0, film_steps.LONGEST_S)
    film, air, start = _prepared(mass_g_m2, wet, first)
    later = _air(replace(second, base_um=first.base_um), start.time_s)
    switch, end = np.full_like(start.time_s, switch_s), np.full_like(start.time_s, film_steps.LONGEST_S)
    if times_s is None:
        before = [start, *film_steps.walk(film, air, start, switch, stop_when_matt=False)]
        after = film_steps.walk(film, later, before[-1], end, stop_when_matt=True)
    else:
        early = np.append(times_s[(times_s > 0.0) & (times_s < switch_s)], switch_s)
        before = [start, *film_steps.march(film, air, start, early)]
        after = film_steps.march(film, later, before[-1], times_s[times_s > switch_s])
    return _course(film, wet, [*before, *after])


def _prepared(
    mass_g_m2: Values, wet: Wet, surroundings: Surroundings
) -> tuple[film_rates.Film, film_rates.AirColumns, film_steps.FilmState]:
    """Prepare constants and start of every column, all arrays of one length."""
    require_between("mass_g_m2", mass_g_m2, 1e-6, HEAVIEST_G_M2)
    numbers = [mass_g_m2, *_numbers(wet), *_numbers(surroundings)]
    like = np.zeros(np.broadcast_shapes((1,), *(np.shape(number) for number in numbers)))
    mass = mass_g_m2 + like
    solids_um = mass * wet.solids_share / wet.solids_g_ml
    kelvin = wet.cosolvent_j_mol / film_rates.GAS_J_MOL_K + like
    film = film_rates.Film(
        solids_g_m2=mass * wet.solids_share,
        solids_um=solids_um,
        cosolvent_ml_g=1.0 / wet.cosolvent_g_ml + like,
        cosolvent_mol_g=1.0 / wet.cosolvent_g_mol + like,
        cosolvent_ln_pa=np.log(wet.cosolvent_pa) + kelvin / 293.15,
        cosolvent_kelvin=kelvin,
        cosolvent_heat_j_g=wet.cosolvent_j_mol / wet.cosolvent_g_mol + like,
        matt_weight=wet.matt_weight + like,
        matt_liquid_um=solids_um * (1.0 / wet.matt_fraction - 1.0),
    )
    panel = surroundings.panel_start_c + like
    state = film_steps.FilmState(like, mass * wet.water_share, mass * wet.cosolvent_share, panel, like)
    return film, _air(surroundings, like), state


def _numbers(noun: Wet | Surroundings) -> list[Values]:
    """All fields of a noun in order."""
    return [getattr(noun, field.name) for field in fields(noun)]


def _air(surroundings: Surroundings, like: Floats) -> film_rates.AirColumns:
    """Prepare the air's constants for every column."""
    require_between("temperature_c", surroundings.temperature_c, 5.0, 45.0)
    require_between("rh (a share, 0.5 for 50 %)", surroundings.rh, 0.0, 0.97)
    require_between("panel_start_c", surroundings.panel_start_c, 0.0, 70.0)
    require_between("base_um", surroundings.base_um, 0.0, 500.0)
    mass_transfer = h_mass_m_s(
        surroundings.air_speed_m_s, surroundings.temperature_c, surroundings.transfer_factor
    )
    heat = h_heat_w_m2_k(mass_transfer, surroundings.temperature_c, surroundings.rh, surroundings.pressure_pa)
    return film_rates.AirColumns(
        temperature_c=surroundings.temperature_c + like,
        # The same saturation formula as in the film, so that the small error of either cancels in damp air.
        vapour_pa=surroundings.rh * psat_fast_pa(surroundings.temperature_c) + like,
        resistance_per_k=VAPOUR_GAS_J_G_K / mass_transfer + like,
        conductance_w_m2_k=heat + RADIATION_W_M2_K + surroundings.back_w_m2_k + like,
        capacity_j_m2_k=surroundings.panel_capacity_j_m2_k + like,
        uptake_g_m2=film_rates.UPTAKE_G_M2_UM * surroundings.base_um + like,
        absorbs=bool(np.any(np.asarray(surroundings.base_um) > 0.0)),
    )


def _course(film: film_rates.Film, wet: Wet, states: Sequence[film_steps.FilmState]) -> Course:
    """Gather the states in arrays, with both effective fractions over their thresholds."""
    times, water, cosolvent, panel, absorbed = (
        np.stack([getattr(state, field.name) for state in states]) for field in fields(film_steps.FilmState)
    )
    liquid_um = cosolvent * film.cosolvent_ml_g
    open_fraction = film.solids_um / (film.solids_um + water + wet.open_weight * liquid_um)
    matt_fraction = film.solids_um / (film.solids_um + water + wet.matt_weight * liquid_um)
    return Course(
        times_s=times,
        water_g_m2=water,
        cosolvent_g_m2=cosolvent,
        absorbed_g_m2=absorbed,
        panel_c=panel,
        solids_g_m2=film.solids_g_m2,
        open_progress=open_fraction / wet.open_fraction,
        matt_progress=matt_fraction / wet.matt_fraction,
    )
