"""Moist air: vapour pressure, dew point, wet bulb, density, latent heat, diffusion.

Every function takes and returns one float or an array of floats.
"""

from typing import Final

import numpy as np

from laydown.physics.values import Values, require_between

STANDARD_PRESSURE_PA: Final = 101325.0
"""Standard atmosphere [Pa]; definition."""

ZERO_C_IN_KELVIN: Final = 273.15
"""0 degC on the absolute scale [K]; definition."""

VAPOUR_GAS_J_G_K: Final = 0.46152
"""Gas constant of water vapour [J/(g K)]: 8.31446 / 18.0153; CODATA, from memory."""

DRY_AIR_GAS_J_G_K: Final = 0.287042
"""Gas constant of dry air [J/(g K)]; ASHRAE Handbook Fundamentals 2017, chapter 1."""

MOLAR_MASS_RATIO: Final = 0.621945
"""Molar mass of water over that of dry air [1]; ASHRAE Handbook Fundamentals 2017, chapter 1."""

LEAST_DEW_MARGIN_K: Final = 3.0
"""A surface is coated only this far above the dew point [K]; ISO 8502-4 practice."""

_COLDEST_C: Final = -40.0


def psat_pa(temperature_c: Values) -> Values:
    r"""Saturation vapour pressure over liquid water [Pa].

    Parameters
    ----------
    temperature_c
        Water temperature [degC], -40 to 100; below 0 the water is supercooled (extrapolated).

    Raises
    ------
    ValueError
        If `temperature_c` is out of range.

    Notes
    -----
    .. math:: \ln p = c_1/T + c_2 + c_3 T + c_4 T^2 + c_5 T^3 + c_6 \ln T

    Within 0.03 % of the printed table at 5, 25 and 50 degC, within 0.05 % of IAPWS-95 from 5 to 60 degC.

    Sources
    -------
    Hyland and Wexler 1983, as equation 6 of ASHRAE Handbook Fundamentals 2017, chapter 1.
    """
    require_between("temperature_c", temperature_c, _COLDEST_C, 100.0)
    return _psat_pa(temperature_c)


def _psat_pa(temperature_c: Values) -> Values:
    """Hyland and Wexler without the look at the range, for the inner loops of this module."""
    kelvin = temperature_c + ZERO_C_IN_KELVIN
    cubic = 1.3914993 + kelvin * (-4.8640239e-2 + kelvin * (4.1764768e-5 - 1.4452093e-8 * kelvin))
    pressure: Values = np.exp(-5800.2206 / kelvin + cubic + 6.5459673 * np.log(kelvin))
    return pressure


def psat_fast_pa(temperature_c: Values) -> Values:
    r"""Saturation vapour pressure over water for inner loops: one exponential, no look at the range [Pa].

    Parameters
    ----------
    temperature_c
        Water temperature [degC], 5 to 45.

    Notes
    -----
    .. math:: p = 1.0023 \cdot 611.2 \exp(17.62 t / (243.12 + t))

    Within 0.15 % of `psat_pa` from 5 to 45 degC, 0.6 % at 60 degC.

    Sources
    -------
    Magnus form with the coefficients of the WMO guide to instruments (from memory); the factor 1.0023 was
    set here to meet `psat_pa` over the range of spray booths.
    """
    pressure: Values = 612.60576 * np.exp(17.62 * temperature_c / (243.12 + temperature_c))
    return pressure


def vapour_pa(temperature_c: Values, rh: Values) -> Values:
    """Pressure of the water vapour in air [Pa].

    Parameters
    ----------
    temperature_c
        Air temperature [degC], -5 to 70.
    rh
        Relative humidity over water as a share, 0 to 1.

    Raises
    ------
    ValueError
        If an argument is out of range; 50 for 50 % is refused, not divided.
    """
    require_between("temperature_c", temperature_c, -5.0, 70.0)
    require_between("rh (a share, 0.5 for 50 %)", rh, 0.0, 1.0)
    return rh * _psat_pa(temperature_c)


def vapour_g_m3(temperature_c: Values, rh: Values) -> Values:
    """Absolute humidity: grams of water in a cubic metre of air [g/m3].

    Parameters
    ----------
    temperature_c, rh
        Air temperature [degC], -5 to 70, and relative humidity as a share, 0 to 1.

    Sources
    -------
    Ideal gas law.
    """
    return vapour_pa(temperature_c, rh) / (VAPOUR_GAS_J_G_K * (temperature_c + ZERO_C_IN_KELVIN))


def humidity_ratio(temperature_c: Values, rh: Values, pressure_pa: Values = STANDARD_PRESSURE_PA) -> Values:
    """Mass of vapour carried by a mass of dry air [g/g].

    Parameters
    ----------
    temperature_c, rh
        Air temperature [degC], -5 to 70, and relative humidity as a share, 0 to 1.
    pressure_pa
        Air pressure [Pa].

    Notes
    -----
    Ideal gases; 0.4 to 0.5 % below real air, which the handbook's enhancement factor would make up.

    Sources
    -------
    ASHRAE Handbook Fundamentals 2017, chapter 1.
    """
    vapour = vapour_pa(temperature_c, rh)
    return MOLAR_MASS_RATIO * vapour / (pressure_pa - vapour)


def dew_point_c(vapour_pressure_pa: Values) -> Values:
    """Dew point over liquid water [degC].

    Parameters
    ----------
    vapour_pressure_pa
        Pressure of the vapour [Pa], 25 to 100 000.

    Raises
    ------
    ValueError
        If the pressure is out of range.

    Notes
    -----
    Inverts `psat_pa` by Newton's method from the Magnus form, to 1e-6 K.
    Below 0 degC this is the dew point over supercooled water, not the (higher) frost point that some
    libraries answer there: relative humidity is defined over water too.

    Sources
    -------
    WMO-No. 8, annex 4.B for the Magnus form that starts the search (from memory).
    """
    require_between("vapour_pressure_pa", vapour_pressure_pa, 25.0, 1.0e5)
    wanted = np.log(vapour_pressure_pa)
    over = wanted - np.log(612.60576)
    dew: Values = 243.12 * over / (17.62 - over)
    for _ in range(4):
        slope = (np.log(_psat_pa(dew + 0.01)) - np.log(_psat_pa(dew - 0.01))) / 0.02
        dew = dew - (np.log(_psat_pa(dew)) - wanted) / slope
    return dew


def dew_margin_k(surface_c: Values, temperature_c: Values, rh: Values) -> Values:
    """How far a surface lies above the dew point of the air around it [K]; compare `LEAST_DEW_MARGIN_K`.

    Parameters
    ----------
    surface_c, temperature_c, rh
        Surface [degC]; air [degC], -5 to 70, and its relative humidity as a share, above 0 to 1.
    """
    return surface_c - dew_point_c(vapour_pa(temperature_c, rh))


def wet_bulb_c(temperature_c: Values, rh: Values, pressure_pa: Values = STANDARD_PRESSURE_PA) -> Values:
    r"""Thermodynamic wet-bulb temperature over water [degC].

    Parameters
    ----------
    temperature_c, rh
        Air temperature [degC], -5 to 70, and relative humidity as a share, 0 to 1.
    pressure_pa
        Air pressure [Pa].

    Notes
    -----
    Bisection (45 halvings) on the balance

    .. math:: W = \frac{(2501 - 2.326 t_w) W_s(t_w) - 1.006 (t - t_w)}{2501 + 1.86 t - 4.186 t_w}

    Meant for wet bulbs above 0 degC; within 0.03 K of real moist air there.

    Sources
    -------
    ASHRAE Handbook Fundamentals 2017, chapter 1, equation 33.
    """
    ratio = humidity_ratio(temperature_c, rh, pressure_pa)
    low = np.full(np.shape(ratio + 0.0 * temperature_c), _COLDEST_C)
    high = temperature_c + np.zeros_like(low)
    for _ in range(45):
        bulb = 0.5 * (low + high)
        vapour = _psat_pa(bulb)
        saturated = MOLAR_MASS_RATIO * vapour / (pressure_pa - vapour)
        carried = (2501.0 - 2.326 * bulb) * saturated - 1.006 * (temperature_c - bulb)
        too_wet = carried / (2501.0 + 1.86 * temperature_c - 4.186 * bulb) > ratio
        high = np.where(too_wet, bulb, high)
        low = np.where(too_wet, low, bulb)
    bulb = 0.5 * (low + high)
    return bulb if np.ndim(bulb) else float(bulb)


def rho_air_kg_m3(temperature_c: Values, rh: Values, pressure_pa: Values = STANDARD_PRESSURE_PA) -> Values:
    """Density of moist air [kg/m3].

    Parameters
    ----------
    temperature_c, rh
        Air temperature [degC], -5 to 70, and relative humidity as a share, 0 to 1.
    pressure_pa
        Air pressure [Pa].

    Notes
    -----
    Two ideal gases side by side; within 0.1 % of real air in booths.

    Sources
    -------
    ASHRAE Handbook Fundamentals 2017, chapter 1.
    """
    vapour = vapour_pa(temperature_c, rh)
    kelvin = 1000.0 * (temperature_c + ZERO_C_IN_KELVIN)
    return (pressure_pa - vapour) / (DRY_AIR_GAS_J_G_K * kelvin) + vapour / (VAPOUR_GAS_J_G_K * kelvin)


def latent_j_g(temperature_c: Values) -> Values:
    """Latent heat of evaporation of water [J/g].

    Parameters
    ----------
    temperature_c
        Water temperature [degC], 0 to 60.

    Notes
    -----
    .. math:: L = 2500.9 - 2.3665 t

    A straight line within 0.06 % of IAPWS-95 from 0 to 60 degC.

    Sources
    -------
    Line through the values of CoolProp 8.0.0 (IAPWS-95).
    """
    return 2500.9 - 2.3665 * temperature_c


def diffusivity_m2_s(temperature_c: Values, pressure_pa: Values = STANDARD_PRESSURE_PA) -> Values:
    r"""Diffusion coefficient of water vapour in air [m2/s].

    Parameters
    ----------
    temperature_c
        Air temperature [degC], 0 to 60.
    pressure_pa
        Air pressure [Pa].

    Notes
    -----
    .. math:: D = 2.178 \cdot 10^{-5} (T/273.15)^{1.81} (101325/p)

    Sources
    -------
    Coefficient and exponent of Massman, Atmospheric Environment 32 (1998) 1111-1127 (from memory).
    """
    warmth: Values = ((temperature_c + ZERO_C_IN_KELVIN) / ZERO_C_IN_KELVIN) ** 1.81
    return 2.178e-5 * warmth * STANDARD_PRESSURE_PA / pressure_pa
