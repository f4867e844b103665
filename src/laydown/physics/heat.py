"""What lies under the paint: density, heat capacity and conductivity of panel materials."""

import math
from dataclasses import dataclass

from laydown.physics.air import ZERO_C_IN_KELVIN

STEFAN_BOLTZMANN_W_M2_K4 = 5.670374419e-8
"""Stefan-Boltzmann constant [W/(m² K⁴)]; definition (SI 2019)."""

UM_PER_MM = 1000.0
"""µm in one mm; definition."""

_BISECTIONS = 100
"""Halvings of the bracket; the last is far below the resolution of a float."""

_EQUAL = 1e-6
"""Relative difference below which two time constants count as equal; see panel_c."""


@dataclass(frozen=True, slots=True)
class HeatUp:
    """A panel warming in a booth that itself warms.

    Attributes
    ----------
    start_c
        Panel at the start [°C].
    air_start_c
        What the panel sees of the booth at the start, walls counted in; at most goal_c [°C].
    goal_c
        What it sees in the end, walls counted in [°C].
    panel_s
        Time constant of the panel, greater than 0 [s].
    booth_s
        Time constant of the booth; 0 for air that is warm at once [s].
    """

    start_c: float
    air_start_c: float
    goal_c: float
    panel_s: float
    booth_s: float


def areal_heat_capacity_j_m2_k(density_g_ml: float, heat_capacity_j_g_k: float, thickness_mm: float) -> float:
    """Return the heat capacity of a sheet per area [J/(m² K)].

    Parameters
    ----------
    density_g_ml
        Density [g/mL].
    heat_capacity_j_g_k
        Specific heat capacity [J/(g K)].
    thickness_mm
        Thickness, above 0 to 20 [mm].

    Raises
    ------
    ValueError
        If the thickness is outside that range.

    Notes
    -----
    ``C = rho c d``; µm times g/mL is g/m².                                                 (1)
    """
    if not 0.0 < thickness_mm <= 20.0:
        raise ValueError("thickness_mm must be above 0 and at most 20")
    return density_g_ml * thickness_mm * UM_PER_MM * heat_capacity_j_g_k


def radiation_w_m2_k(emissivity_fraction: float, surface_c: float, wall_c: float) -> float:
    """Return the heat transfer coefficient of radiation between a panel and what surrounds it [W/(m² K)].

    Parameters
    ----------
    emissivity_fraction
        Emissivity of the panel, 0 to 1; paint about 0.90 (from memory).
    surface_c, wall_c
        Panel and booth walls [°C].

    Notes
    -----
    ``h = eps sigma (Tw² + Tp²)(Tw + Tp)``, so that h (Tw - Tp) is the exact exchange with a large
    enclosure.                                                                              (1)

    Sources
    -------
    Stefan-Boltzmann law; definition.
    """
    surface = surface_c + ZERO_C_IN_KELVIN
    wall = wall_c + ZERO_C_IN_KELVIN
    return (
        emissivity_fraction * STEFAN_BOLTZMANN_W_M2_K4 * (wall * wall + surface * surface) * (wall + surface)
    )


def effective_c(convection_w_m2_k: float, radiation_w_m2_k: float, air_c: float, wall_c: float) -> float:
    """Return the one temperature that acts on a panel like its air and its walls together [°C].

    Parameters
    ----------
    convection_w_m2_k, radiation_w_m2_k
        Heat transfer coefficients to air and to walls, not both 0 [W/(m² K)].
    air_c, wall_c
        Booth air and booth walls [°C].

    Notes
    -----
    ``T = (hc Ta + hr Tw) / (hc + hr)``                                                     (1)
    Walls lag the air: with air at 65 and walls at 45 °C a panel ends near 55.6 °C.
    """
    return (convection_w_m2_k * air_c + radiation_w_m2_k * wall_c) / (convection_w_m2_k + radiation_w_m2_k)


def biot_count(transfer_w_m2_k: float, thickness_mm: float, conductivity_w_m_k: float) -> float:
    """Return the Biot number of a sheet warmed from one side: resistance inside over outside.

    Parameters
    ----------
    transfer_w_m2_k
        Heat transfer coefficient [W/(m² K)].
    thickness_mm
        Thickness [mm].
    conductivity_w_m_k
        Thermal conductivity, greater than 0 [W/(m K)].

    Notes
    -----
    ``Bi = h d / k``                                                                        (1)
    """
    return transfer_w_m2_k * thickness_mm / 1000.0 / conductivity_w_m_k


def time_constant_s(capacity_j_m2_k: float, transfer_w_m2_k: float, biot: float = 0.0) -> float:
    """Return the time constant of a panel [s].

    Parameters
    ----------
    capacity_j_m2_k
        Heat capacity per area [J/(m² K)].
    transfer_w_m2_k
        Heat transfer coefficient of all sides together, greater than 0 [W/(m² K)].
    biot
        Biot number, 0 to 1.

    Raises
    ------
    ValueError
        If the heat transfer coefficient is not above 0.

    Notes
    -----
    ::

        tau = C / h (1 + Bi / 3)                                      (1)

    The factor stands for the slow inside of plastics. It is within 0.1 % of the first root of the slab to
    Bi = 0.2, 0.5 % at 0.5 and 1.4 % at 1.0 (all tolerances of a test).
    """
    if not transfer_w_m2_k > 0.0:
        raise ValueError("transfer_w_m2_k must be above 0")
    return capacity_j_m2_k / transfer_w_m2_k * (1.0 + biot / 3.0)


def panel_c(time_s: float, course: HeatUp) -> float:
    """Return the temperature of a panel some time after the heat came on [°C].

    Parameters
    ----------
    time_s
        Time since the start, 0 or more [s].
    course
        Start, end and time constants.

    Notes
    -----
    With Ts the goal, Ta0 and T0 the starts of booth and panel, tb and tau their time constants::

        b = (Ta0 - Ts) tb / (tb - tau)                                (1)
        T = Ts + b exp(-t / tb) + (T0 - Ts - b) exp(-t / tau)         (2)

    Equal time constants are a removable singularity; they are set apart by one millionth, an error below
    1e-4 K. Within 1e-4 K of a Runge-Kutta solution of the two equations.

    Sources
    -------
    Solution of two linear first-order equations in a row; definition.
    """
    booth = course.booth_s
    if abs(course.panel_s - booth) < _EQUAL * course.panel_s:
        booth = course.panel_s * (1.0 + _EQUAL)
    gap = course.air_start_c - course.goal_c
    lag = gap * booth / (booth - course.panel_s)
    warm_air = math.exp(-time_s / booth) if booth > 0.0 else 0.0
    own = (course.start_c - course.goal_c - lag) * math.exp(-time_s / course.panel_s)
    return course.goal_c + lag * warm_air + own


def time_to_s(target_c: float, course: HeatUp) -> float:
    """Return when a warming panel reaches a temperature [s].

    Parameters
    ----------
    target_c
        Temperature to reach [°C].
    course
        Start, end and time constants.

    Returns
    -------
    0 if the panel is already there, infinity if it never gets there.

    Notes
    -----
    A panel that starts below the target crosses it once, so halving a bracket finds it.

    Sources
    -------
    The inverse of `panel_c`, by bisection; published in any text on numerical methods.
    """
    if target_c <= course.start_c:
        return 0.0
    if target_c >= course.goal_c:
        return math.inf
    low, high = 0.0, course.panel_s + course.booth_s
    while panel_c(high, course) < target_c:
        low, high = high, 2.0 * high
    for _ in range(_BISECTIONS):
        middle = 0.5 * (low + high)
        if panel_c(middle, course) < target_c:
            low = middle
        else:
            high = middle
    return high


def cool_time_s(from_c: float, to_c: float, air_c: float, panel_s: float) -> float:
    """Return how long a panel takes to cool [s].

    Parameters
    ----------
    from_c, to_c
        Panel now and wanted [°C].
    air_c
        What the panel sees, walls counted in [°C].
    panel_s
        Time constant of the panel, greater than 0 [s].

    Returns
    -------
    0 if it is already there, infinity if the air is not colder than what is wanted.

    Notes
    -----
    ``t = tau ln((T0 - Ta) / (T - Ta))``                                                    (1)
    """
    if from_c <= to_c:
        return 0.0
    if to_c <= air_c:
        return math.inf
    return panel_s * math.log((from_c - air_c) / (to_c - air_c))


@dataclass(frozen=True, slots=True)
class Substrate:
    """What a panel is made of.

    Attributes
    ----------
    density_g_ml
        Density [g/mL].
    heat_capacity_j_g_k
        Specific heat capacity [J/(g K)].
    conductivity_w_m_k
        Thermal conductivity [W/(m K)].
    """

    density_g_ml: float
    heat_capacity_j_g_k: float
    conductivity_w_m_k: float


SUBSTRATES: dict[str, Substrate] = {
    "steel": Substrate(7.85, 0.460, 52.0),
    "aluminium": Substrate(2.70, 0.900, 160.0),
    "plastic": Substrate(0.95, 1.850, 0.22),
    "polyurethane": Substrate(1.15, 1.500, 0.25),
    "glass fibre": Substrate(1.80, 1.050, 0.35),
}
"""Sheet steel, aluminium sheet, polypropylene blend, polyurethane bumper, glass-fibre laminate.

Handbook values from memory; alloys and blends differ by some per cent.
"""
