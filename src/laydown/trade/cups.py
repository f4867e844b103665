"""Flow cups: seconds to kinematic viscosity and back, and whether two readings may be compared.

Sources: the standards of the cups, named at their constants.
"""

import math
from dataclasses import dataclass
from typing import Literal

CupLaw = Literal["hyperbola", "line"]
"""hyperbola: nu = a t - b / t; line: nu = a (t - b)."""

SAME_TEMPERATURE_K = 2.0
"""Readings farther apart than this are not compared [K]; common practice, no source."""


@dataclass(frozen=True, slots=True)
class Cup:
    """A flow cup.

    Attributes
    ----------
    law
        Form of its equation.
    slope, offset
        The constants a and b of that equation, seconds to mm²/s.
    low_s, high_s
        Window of efflux times in which it may be used [s].
    source
        Where equation and window come from.
    """

    law: CupLaw
    slope: float
    offset: float
    low_s: float
    high_s: float
    source: str


CUPS: dict[str, Cup] = {
    "ISO 2431 3 mm": Cup("hyperbola", 0.443, 200.0, 30.0, 100.0, "ISO 2431, from memory"),
    "ISO 2431 4 mm": Cup("hyperbola", 1.37, 200.0, 30.0, 100.0, "ISO 2431, from memory"),
    "ISO 2431 5 mm": Cup("hyperbola", 3.28, 220.0, 30.0, 100.0, "ISO 2431, from memory"),
    "ISO 2431 6 mm": Cup("hyperbola", 6.90, 570.0, 30.0, 100.0, "ISO 2431, from memory"),
    "DIN 53211 4 mm": Cup(
        "hyperbola",
        4.57,
        452.0,
        25.0,
        150.0,
        "DIN 53211 (withdrawn 1996), from memory; window from a cup maker",
    ),
    "ASTM D1200 no. 1": Cup("line", 0.49, 35.0, 55.0, 100.0, "ASTM D1200, as a calibration table credits it"),
    "ASTM D1200 no. 2": Cup("line", 1.44, 18.0, 40.0, 100.0, "ASTM D1200, as a calibration table credits it"),
    "ASTM D1200 no. 3": Cup("line", 2.31, 6.58, 20.0, 100.0, "ASTM D1200: window seen, equation from memory"),
    "ASTM D1200 no. 4": Cup("line", 3.85, 4.49, 20.0, 100.0, "ASTM D1200: window seen, equation from memory"),
    "ASTM D4212 no. 2": Cup("line", 3.5, 14.0, 20.0, 80.0, "ASTM D4212, as a calibration table credits it"),
    "GB/T 1723 4 mm": Cup(
        "line",
        1.0 / 0.223,
        6.0,
        23.0,
        150.0,
        "GB/T 1723 as quoted on an instrument page; branch from 23 s on",
    ),
}
"""Flow cups by standard and orifice. Equations hold at the standard's temperature, 23 or 25 °C."""


@dataclass(frozen=True, slots=True)
class CupReading:
    """A cup reading.

    Attributes
    ----------
    viscosity_mm2_s
        Kinematic viscosity [mm²/s]; a label only, never an input of spraying.
    inside
        Whether the time lies in the cup's window.
    """

    viscosity_mm2_s: float
    inside: bool


@dataclass(frozen=True, slots=True)
class CupTarget:
    """What a sheet asks for.

    Attributes
    ----------
    cup
        Name of the cup, a key of CUPS.
    low_s, high_s
        Efflux time [s].
    at_c
        Temperature of the paint [°C].
    """

    cup: str
    low_s: float
    high_s: float
    at_c: float


@dataclass(frozen=True, slots=True)
class CupComparison:
    """A reading beside the sheet's target.

    Attributes
    ----------
    state
        Where it lies, or that it cannot be compared.
    text
        Why, in plain words.
    """

    state: Literal["inside", "too thick", "too thin", "not comparable"]
    text: str


def read_cup(cup: str, time_s: float) -> CupReading:
    """Return the kinematic viscosity for an efflux time.

    Parameters
    ----------
    cup
        Name of the cup, a key of CUPS.
    time_s
        Efflux time, greater than 0 [s].

    Raises
    ------
    KeyError
        If the cup is unknown.
    ValueError
        If the time is not above 0.

    Notes
    -----
    ``nu = a t - b / t`` or ``nu = a (t - b)``                                              (1)
    Within 3 % of printed pairs inside the window. Waterborne base thins under shear: seconds compare like
    with like only, and nothing else in laydown uses them.
    """
    if not time_s > 0.0:
        raise ValueError("time_s must be above 0")
    law = CUPS[cup]
    if law.law == "hyperbola":
        viscosity = law.slope * time_s - law.offset / time_s
    else:
        viscosity = law.slope * (time_s - law.offset)
    return CupReading(viscosity, law.low_s <= time_s <= law.high_s)


def cup_time_s(cup: str, viscosity_mm2_s: float) -> float:
    """Return the efflux time for a kinematic viscosity [s].

    Parameters
    ----------
    cup
        Name of the cup, a key of CUPS.
    viscosity_mm2_s
        Kinematic viscosity, 0 or more [mm²/s].

    Notes
    -----
    ``t = (nu + sqrt(nu² + 4 a b)) / (2 a)`` or ``t = nu / a + b``                          (1)
    """
    law = CUPS[cup]
    if law.law == "line":
        return viscosity_mm2_s / law.slope + law.offset
    root = math.sqrt(viscosity_mm2_s**2 + 4.0 * law.slope * law.offset)
    return (viscosity_mm2_s + root) / (2.0 * law.slope)


def compare_with_target(target: CupTarget, cup: str, time_s: float, paint_c: float | None) -> CupComparison:
    """Compare a reading with what the sheet asks for; never convert between cups or temperatures.

    Parameters
    ----------
    target
        What the sheet asks for.
    cup, time_s
        The cup that was used and its efflux time [s].
    paint_c
        Temperature of the paint [°C]; ``None``: not measured.

    Returns
    -------
    The comparison in words; "not comparable" where cup or temperature differ.

    Notes
    -----
    Seconds of two cups are in no constant ratio, and paint 5 K cooler runs clearly longer; both are told,
    not corrected.
    """
    obstacle = _obstacle(target, cup, time_s, paint_c)
    if obstacle:
        return CupComparison("not comparable", obstacle)
    span = f"{target.low_s:g} to {target.high_s:g} s"
    if time_s > target.high_s:
        return CupComparison("too thick", f"{time_s:g} s, wanted {span}")
    if time_s < target.low_s:
        return CupComparison("too thin", f"{time_s:g} s, wanted {span}")
    return CupComparison("inside", f"{time_s:g} s lies in {span}")


def _obstacle(target: CupTarget, cup: str, time_s: float, paint_c: float | None) -> str:
    """Why a reading cannot be compared with the target; empty if it can."""
    if cup != target.cup:
        return f"the sheet speaks of {target.cup}, this is {cup}"
    if paint_c is None:
        return f"measure the paint: the sheet holds at {target.at_c:g} °C"
    if abs(paint_c - target.at_c) > SAME_TEMPERATURE_K:
        return f"paint at {paint_c:g} °C, sheet at {target.at_c:g} °C: bring the paint to the sheet's temperature"
    return "" if read_cup(cup, time_s).inside else f"{time_s:g} s is outside the cup's range"
