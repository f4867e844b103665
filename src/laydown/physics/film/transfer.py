"""Mass and heat between a wet panel and the booth air.

Every function takes and returns one float or an array of floats.
"""

from typing import Final

from laydown.physics.air import (
    STANDARD_PRESSURE_PA,
    VAPOUR_GAS_J_G_K,
    ZERO_C_IN_KELVIN,
    latent_j_g,
    rho_air_kg_m3,
)
from laydown.physics.values import Values, require_between

RADIATION_W_M2_K: Final = 5.3
"""Radiation between paint (emissivity 0.92) and walls at air temperature, 4 eps sigma T^3 at 20 degC [W/(m2 K)];
Stefan-Boltzmann law, the emissivity is an assumption."""

AIR_HEAT_J_KG_K: Final = 1006.0
"""Specific heat of dry air [J/(kg K)]; handbook value."""

LEWIS_NUMBER: Final = 0.865
"""Thermal diffusivity of air over the diffusivity of vapour in it, at 20 degC [1]; from memory."""

STILL_FLUX: Final = 0.089
"""Handbook line for open water: evaporation of still air, as power per area and pressure [W/(m2 Pa)];
ASHRAE Handbook HVAC Applications. The same line in inch units, 95 + 0.425 v, stands in the abstract of
ASHRAE Transactions 104(1A), 1998."""

WIND_FLUX: Final = 0.0782
"""The line's slope with air speed [W s/(m3 Pa)]; source as `STILL_FLUX`."""

TRANSFER_LN_SD: Final = 0.30
"""Natural logarithm's standard deviation of a booth's true transfer over the handbook line [1]. The 1998 abstract
measured 74 % of the line over quiet pools and 126 % over busy ones; the width itself is an assumption."""


def h_mass_m_s(air_speed_m_s: Values, temperature_c: Values, transfer_factor: Values = 1.0) -> Values:
    r"""Mass transfer coefficient of water vapour at the panel [m/s].

    Parameters
    ----------
    air_speed_m_s
        Air speed along the panel [m/s], 0.05 to 8.
    temperature_c
        Air temperature [degC], 0 to 60.
    transfer_factor
        What this booth (and paint) does over the handbook line, 1 if never calibrated.

    Raises
    ------
    ValueError
        If `air_speed_m_s` or `transfer_factor` is out of range.

    Notes
    -----
    .. math:: h_m = k \frac{0.089 + 0.0782 v}{1000 L(t)} R_w T

    With blowers (2 to 4 m/s) a turbulent plate of 0.3 m gives the same within 10 %. In still downdraft the
    line lies 2.3 to 3.5 times above plate formulae without free convection: there the truth is uncertain by a
    factor of 2 until a flash was timed.

    Sources
    -------
    ASHRAE Handbook HVAC Applications, evaporation from open water.
    """
    require_between("air_speed_m_s", air_speed_m_s, 0.05, 8.0)
    require_between("transfer_factor", transfer_factor, 0.05, 20.0)
    flux = (STILL_FLUX + WIND_FLUX * air_speed_m_s) / (1000.0 * latent_j_g(temperature_c))
    return transfer_factor * flux * 1000.0 * VAPOUR_GAS_J_G_K * (temperature_c + ZERO_C_IN_KELVIN)


def h_heat_w_m2_k(
    mass_transfer_m_s: Values,
    temperature_c: Values,
    rh: Values,
    pressure_pa: Values = STANDARD_PRESSURE_PA,
) -> Values:
    r"""Heat transfer coefficient that belongs to a mass transfer coefficient [W/(m2 K)].

    Parameters
    ----------
    mass_transfer_m_s
        Mass transfer coefficient from `h_mass_m_s` [m/s].
    temperature_c
        Air temperature [degC], -5 to 70.
    rh
        Relative humidity as a share, 0 to 1.
    pressure_pa
        Air pressure [Pa].

    Notes
    -----
    .. math:: h = h_m \rho c_p Le^{2/3}

    Sources
    -------
    Chilton and Colburn 1934, analogy of heat and mass transfer.
    """
    density = rho_air_kg_m3(temperature_c, rh, pressure_pa)
    return mass_transfer_m_s * density * (AIR_HEAT_J_KG_K * float(LEWIS_NUMBER ** (2.0 / 3.0)))


def evaporation_g_m2_s(
    mass_transfer_m_s: Values, surface_pa: Values, vapour_pressure_pa: Values, surface_c: Values
) -> Values:
    """Evaporation from a wet surface [g/(m2 s)]; negative when vapour condenses on it.

    Parameters
    ----------
    mass_transfer_m_s
        Mass transfer coefficient [m/s].
    surface_pa
        Vapour pressure at the surface, activity times saturation [Pa].
    vapour_pressure_pa
        Vapour pressure in the air [Pa].
    surface_c
        Surface temperature [degC].

    Sources
    -------
    Ideal gas law.
    """
    return (
        mass_transfer_m_s
        * (surface_pa - vapour_pressure_pa)
        / (VAPOUR_GAS_J_G_K * (surface_c + ZERO_C_IN_KELVIN))
    )
