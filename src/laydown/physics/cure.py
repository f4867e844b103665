"""How much faster a reaction runs when it is warmer, and what a course of temperatures is worth.

Sources: integrals and sums along a course of temperature; definition, unless a function names its own.
"""

import math

from laydown.physics.air import ZERO_C_IN_KELVIN
from laydown.physics.heat import HeatUp, panel_c, time_to_s

GAS_CONSTANT_J_MOL_K = 8.314462618
"""Molar gas constant [J/(mol K)]; definition (SI 2019)."""

CURE_ACTIVATION_J_MOL = 51_200.0
"""Activation energy of two-pack clears and of pot life [J/mol], ±15 000.

Common practice made exact: "halves per +10 K" between 20 and 30 °C. Sheets that print two bakes imply
38 500 to 70 400, so this is a fit and nothing may pass a check because of it.
"""

CREDIT_FLOOR_C = 40.0
"""Below it no equivalent time is credited [°C]: a film near its glass temperature stops. From memory."""

_SIMPSON_STEPS = 200
"""Even number of steps; the integrand is smooth, so the error is far below the figure's spread."""


def rate_factor(at_c: float, reference_c: float, activation_j_mol: float = CURE_ACTIVATION_J_MOL) -> float:
    """Return the speed of a reaction relative to its speed at a reference temperature.

    Parameters
    ----------
    at_c, reference_c
        Temperature and reference [°C], above -273.15.
    activation_j_mol
        Activation energy, 0 or more [J/mol].

    Returns
    -------
    1 at the reference, above 1 where it is warmer.

    Notes
    -----
    ::

        k(T) / k(T0) = exp(-E / R (1 / T - 1 / T0))                   (1)

    "Twice as fast per 10 K" holds only near where E was fitted: 51.2 kJ/mol gives 2.00 from 20 to 30 °C
    and 1.71 from 60 to 70 °C.

    Sources
    -------
    Arrhenius' law; definition.
    """
    inverse = 1.0 / (at_c + ZERO_C_IN_KELVIN) - 1.0 / (reference_c + ZERO_C_IN_KELVIN)
    return math.exp(-activation_j_mol / GAS_CONSTANT_J_MOL_K * inverse)


def activation_from_two_points_j_mol(
    first_s: float, first_c: float, second_s: float, second_c: float
) -> float:
    """Return the activation energy that two times at two temperatures imply [J/mol].

    Parameters
    ----------
    first_s, second_s
        Two times for the same cure or life, greater than 0 [s].
    first_c, second_c
        Their temperatures, not equal [°C].

    Raises
    ------
    ValueError
        If a time is not above 0 or the temperatures are equal.

    Notes
    -----
    ``E = R ln(t1 / t2) / (1 / T1 - 1 / T2)``                                               (1)
    """
    if not (first_s > 0.0 and second_s > 0.0):
        raise ValueError("first_s and second_s must be above 0")
    inverse = 1.0 / (first_c + ZERO_C_IN_KELVIN) - 1.0 / (second_c + ZERO_C_IN_KELVIN)
    if inverse == 0.0:
        raise ValueError("first_c and second_c must differ")
    return GAS_CONSTANT_J_MOL_K * math.log(first_s / second_s) / inverse


def equivalent_s(
    course: HeatUp,
    on_s: float,
    *,
    reference_c: float = 60.0,
    max_c: float = math.inf,
    floor_c: float = CREDIT_FLOOR_C,
    activation_j_mol: float = CURE_ACTIVATION_J_MOL,
) -> float:
    """Return the time at a reference temperature that a heat-up is worth [s]; information, never a pass.

    Parameters
    ----------
    course
        The panel's warming.
    on_s
        How long the booth heats, 0 or more [s].
    reference_c
        Temperature of the equivalent time [°C].
    max_c, floor_c
        No time above the one or below the other is credited [°C].
    activation_j_mol
        Activation energy [J/mol].

    Notes
    -----
    ``t = integral of rate_factor(T(t), reference) dt`` while floor <= T <= max, by Simpson's rule.  (1)
    The panel only warms, so that part is one interval. Within 0.1 % of adaptive quadrature.
    """
    start = time_to_s(floor_c, course)
    end = min(on_s, time_to_s(max_c, course))
    if not end > start:
        return 0.0
    step = (end - start) / _SIMPSON_STEPS
    total = 0.0
    for index in range(_SIMPSON_STEPS + 1):
        weight = 1.0 if index in {0, _SIMPSON_STEPS} else 4.0 if index % 2 else 2.0
        temperature = panel_c(start + index * step, course)
        total += weight * rate_factor(temperature, reference_c, activation_j_mol)
    return total * step / 3.0


def held_s(threshold_c: float, course: HeatUp, on_s: float) -> float:
    """Return how long a panel stays at or above a temperature while the booth heats [s].

    Parameters
    ----------
    threshold_c
        Temperature to hold [°C].
    course
        The panel's warming.
    on_s
        How long the booth heats, 0 or more [s].

    Returns
    -------
    0 if the temperature is not reached in time. Time above it during cool-down is not counted.
    """
    return max(0.0, on_s - time_to_s(threshold_c, course))
