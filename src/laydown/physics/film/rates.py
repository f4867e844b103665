"""How fast a wet film gives off water and co-solvent: activities, resistance, panel heat.

The module works on prepared numbers (`Film`, `AirColumns`), so that the inner loop does nothing twice.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np

from laydown.physics.air import ZERO_C_IN_KELVIN, psat_fast_pa
from laydown.physics.values import Floats

WATER_MOLAR_G: Final = 18.015
"""Molar mass of water [g/mol]; handbook value."""

MARGULES: Final = 1.6
"""One-constant Margules coefficient of water with glycol ether [1]; assumption."""

CHI: Final = 0.5
"""Flory-Huggins interaction of liquid and binder at low binder content [1]; assumption."""

CHI_RISE: Final = 1.4
"""Rise of the interaction with the fourth power of the binder's volume fraction [1]: keeps the activity
monotone and the leftover water at half humidity near 3 % of the solids; set here to that."""

DIFFUSIVITY_M2_S: Final = 3.0e-10
"""Diffusion of liquid in the fresh film [m2/s]; assumption."""

DIFFUSIVITY_FALL: Final = 9.0
"""Exponential fall of that diffusion with the binder's volume fraction [1]; set here to the last stage."""

COSOLVENT_TRANSFER: Final = 0.40
"""Mass transfer of co-solvent vapour over that of water vapour [1]; assumption from their diffusivities."""

GAS_J_MOL_K: Final = 8.314462618
"""Molar gas constant [J/(mol K)]; CODATA."""

UPTAKE_G_M2_UM: Final = 0.20
"""Water a dry, absorbing layer below takes up at most [g/m2 for each um of it]; assumption, the weakest here."""

UPTAKE_S: Final = 15.0
"""Time constant of that uptake [s]; assumption."""

LIQUID_HEAT_J_G_K: Final = 4.0
"""Specific heat of the film's liquid [J/(g K)]; water with some co-solvent, from memory."""

SOLIDS_HEAT_J_G_K: Final = 1.5
"""Specific heat of binder and pigment [J/(g K)]; from memory."""


@dataclass(frozen=True, slots=True)
class Film:
    """What stays constant of each column's film while it dries; one number per column."""

    solids_g_m2: Floats
    solids_um: Floats
    cosolvent_ml_g: Floats
    cosolvent_mol_g: Floats
    cosolvent_ln_pa: Floats
    """Logarithm of the co-solvent's vapour pressure at an absolute temperature without end."""
    cosolvent_kelvin: Floats
    """Evaporation enthalpy over the gas constant [K]."""
    cosolvent_heat_j_g: Floats
    matt_weight: Floats
    matt_liquid_um: Floats
    """Matt when water plus weighted co-solvent has fallen to this [um]."""


@dataclass(frozen=True, slots=True)
class AirColumns:
    """What stays constant around each column; one number per column."""

    temperature_c: Floats
    vapour_pa: Floats
    resistance_per_k: Floats
    """Air-side resistance over the surface's absolute temperature [Pa m2 s/(g K)]."""
    conductance_w_m2_k: Floats
    capacity_j_m2_k: Floats
    uptake_g_m2: Floats
    absorbs: bool
    """Whether the layer below any column takes up water."""


@dataclass(frozen=True, slots=True)
class Flows:
    """What leaves the film at one moment."""

    water_g_m2_s: Floats
    """Net evaporation of water [g/(m2 s)]; negative when vapour condenses."""
    gross_g_m2_s: Floats
    """What would evaporate into dry air [g/(m2 s)]."""
    water_rate: Floats
    """How fast evaporation falls with the water left [1/s]: the stiffness of the film's tail."""
    cosolvent_rate: Floats
    """Share of the film's co-solvent leaving in a second [1/s]."""


def liquid_activity(binder_fraction: Floats) -> Floats:
    r"""Activity of the liquid as a whole against the binder's volume fraction [1].

    Parameters
    ----------
    binder_fraction
        Volume fraction of binder and pigment in the film, 0 to 1.

    Notes
    -----
    .. math:: F = (1-\phi) \exp(\phi + (\chi + 1.4 \phi^4) \phi^2)

    Falls from 1 to 0 without turning back.

    Sources
    -------
    Flory-Huggins form; the quartic term is an assumption.
    """
    square = binder_fraction * binder_fraction
    activity: Floats = (1.0 - binder_fraction) * np.exp(
        binder_fraction + (CHI + CHI_RISE * square * square) * square
    )
    return activity


def flows(film: Film, air: AirColumns, water_g_m2: Floats, cosolvent_g_m2: Floats, panel_c: Floats) -> Flows:
    r"""Return the evaporation of both liquids at one moment.

    Parameters
    ----------
    film, air
        The columns' constants.
    water_g_m2, cosolvent_g_m2
        Liquids in the film [g/m2].
    panel_c
        Temperature of panel and film [degC].

    Notes
    -----
    .. math:: J_w = \frac{a_w p_{sat} - p_a}{R_g + R_f}, \quad a_w = (1-x) e^{A x^2} F

    .. math:: R_g = R_w T / h_m, \quad R_f = \frac{V p_{sat}}{3 D_0 \cdot 10^{12}} e^{b \phi}

    The rate at which evaporation falls with water is its gross part over the water, times

    .. math:: \frac{d \ln a_w}{d \ln W} = x_s (1 - 2 A x_s x_w)
              + \phi \frac{W}{V} \left(\frac{1}{1-\phi} - 1 - 2 \chi \phi - 8.4 \phi^5\right)

    Sources
    -------
    Margules 1895 for the two liquids, Flory-Huggins for the binder; resistances in series.
    """
    volume = water_g_m2 + cosolvent_g_m2 * film.cosolvent_ml_g + film.solids_um
    binder = film.solids_um / volume
    moles = water_g_m2 * (1.0 / WATER_MOLAR_G) + cosolvent_g_m2 * film.cosolvent_mol_g + 1e-12
    x_water = water_g_m2 * (1.0 / WATER_MOLAR_G) / moles
    x_cosolvent = 1.0 - x_water
    kelvin = panel_c + ZERO_C_IN_KELVIN
    saturated = psat_fast_pa(panel_c)
    film_side = volume * saturated * np.exp(DIFFUSIVITY_FALL * binder) * (1e-12 / (3.0 * DIFFUSIVITY_M2_S))
    conductance = 1.0 / (air.resistance_per_k * kelvin + film_side)
    shared = liquid_activity(binder) * conductance / moles
    water_pull = np.exp(MARGULES * x_cosolvent * x_cosolvent) * saturated * (1.0 / WATER_MOLAR_G)
    cosolvent_pull = np.exp(
        MARGULES * x_water * x_water + film.cosolvent_ln_pa - film.cosolvent_kelvin / kelvin
    )
    gross = water_pull * shared * water_g_m2
    square = binder * binder
    crowding = volume / (volume - film.solids_um + 1e-12) - 1.0 - 2.0 * CHI * binder
    crowding = crowding - 6.0 * CHI_RISE * square * square * binder
    elasticity = x_cosolvent * (1.0 - 2.0 * MARGULES * x_cosolvent * x_water)
    elasticity = elasticity + binder * crowding * water_g_m2 / volume
    return Flows(
        water_g_m2_s=gross - air.vapour_pa * conductance,
        gross_g_m2_s=gross,
        water_rate=water_pull * shared * elasticity,
        # Per gram the co-solvent's molar mass cancels: its flux grows with it, its moles per gram fall with it.
        cosolvent_rate=cosolvent_pull * shared * (COSOLVENT_TRANSFER / WATER_MOLAR_G),
    )
