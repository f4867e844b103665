"""What a timed flash or a strip of cross strokes says about transfer and open threshold."""

import math
from dataclasses import replace
from typing import Final

import numpy as np

from laydown.physics.film.course import matt_time_s
from laydown.physics.film.steps import spread_times_s
from laydown.physics.film.wet_film import Surroundings, Wet, dry

TRANSFER_LN_SD_BEFORE: Final = 0.36
"""Standard deviation of ln(transfer factor) of booth and paint never observed [1]; assumption."""

TRANSFER_LN_SD_FROM_SHEET: Final = 0.25
"""The same once the data sheet's flash time is known [1]; assumption (judged, not measured)."""

TRANSFER_LN_SD_FROM_MATT: Final = 0.14
"""The same once the painter timed one matt film [1]; from forty synthetic booths with 12 % stopwatch noise whose
data the same model made, so a lower bound."""

OPEN_FRACTION_LN_SD_BEFORE: Final = 0.15
"""Standard deviation of ln(open fraction) never observed [1]; assumption."""

OPEN_LN_SD_BEFORE: Final = 0.50
"""Standard deviation of ln(open time) before any strip of cross strokes [1]; assumption (judged)."""

OPEN_LN_SD_FROM_STROKES: Final = 0.20
"""The same after one strip [1]; assumption (judged)."""

FLASH_LN_SD_BEFORE: Final = 0.34
"""Standard deviation of ln(flash time) without calibration, a factor of 1.4 [1]; assumption (judged)."""

PLAUSIBLE: Final = (0.4, 2.5)
"""An observed time outside these multiples of the prediction is asked about, not learned [1]; assumption."""

_FACTOR_LOW: Final = 0.05
_FACTOR_HIGH: Final = 20.0


def is_plausible(observed_s: float, predicted_s: float) -> bool:
    """Return whether an observed time is near enough to the prediction to learn from.

    Parameters
    ----------
    observed_s, predicted_s
        Both times [s].

    Sources
    -------
    `PLAUSIBLE`; assumption.
    """
    return PLAUSIBLE[0] * predicted_s <= observed_s <= PLAUSIBLE[1] * predicted_s


def transfer_factor_from_matt(
    least_s: float, most_s: float, mass_g_m2: float, wet: Wet, surroundings: Surroundings
) -> float:
    r"""Find the transfer factor with which the film is matt in the observed time [1].

    Parameters
    ----------
    least_s, most_s
        Matt between these [s]: a data sheet's flash from..to, or twice the same for one tap of the clock.
    mass_g_m2
        Wet paint that arrived [g/m2].
    wet, surroundings
        The mix, and the air in which it was timed; fields are single floats.

    Returns
    -------
    float
        Takes the place of `surroundings.transfer_factor`. A sheet tells about the paint, a tap about the booth:
        never learn both from one observation, only their product is seen.

    Raises
    ------
    ValueError
        If the times are not above 0 and in order, or no factor from 0.05 to 20 explains them.

    Notes
    -----
    Films with 32 factors dry side by side, then 32 more between the two that enclose the geometric mean of the
    times; straight between logarithms. Found again within 0.2 % from times the model made (a test).

    Sources
    -------
    Assumption: one factor on the whole of the transfer law stands for what a sheet or a timed flash tells.
    """
    if not 0.0 < least_s <= most_s:
        raise ValueError("least_s must be above 0 and not above most_s")
    wanted = 0.5 * (math.log(least_s) + math.log(most_s))
    low, high = math.log(_FACTOR_LOW), math.log(_FACTOR_HIGH)
    for _ in range(2):
        ln_factors = np.linspace(low, high, 32)
        tried = replace(surroundings, transfer_factor=np.exp(ln_factors))
        ln_times = np.log(matt_time_s(dry(mass_g_m2, wet, tried)))
        enclosed = np.flatnonzero((ln_times[:-1] >= wanted) & (wanted >= ln_times[1:]))
        if not enclosed.size:
            raise ValueError("least_s and most_s: no transfer factor from 0.05 to 20 explains these times")
        first = int(enclosed[0])
        low, high = float(ln_factors[first]), float(ln_factors[first + 1])
    slow, quick = float(ln_times[first]), float(ln_times[first + 1])
    share = (slow - wanted) / (slow - quick) if math.isfinite(slow) and slow > quick else 1.0
    return math.exp(low + share * (high - low))


def open_fraction_from_strokes(
    smooth_s: float, rough_s: float, mass_g_m2: float, wet: Wet, surroundings: Surroundings
) -> float:
    """Find the open fraction of a film across which strokes were laid at rising ages [1].

    Parameters
    ----------
    smooth_s, rough_s
        Age of the last stroke that melted in and of the first that stayed rough [s].
    mass_g_m2
        Wet paint of the film below [g/m2].
    wet, surroundings
        The mix, and the air of the strip; fields are single floats.

    Returns
    -------
    float
        The film's effective binder fraction half way between both ages; takes the place of
        `wet.open_fraction`, alone or weighed with it by `weighed`.

    Raises
    ------
    ValueError
        If the ages are not above 0 and in order.

    Notes
    -----
    No search: the fraction asked for is the one the film has at that age.

    Sources
    -------
    Assumption: the edge is open until half way between the last smooth and the first rough stroke.
    """
    if not 0.0 < smooth_s < rough_s:
        raise ValueError("smooth_s must be above 0 and below rough_s")
    age_s = 0.5 * (smooth_s + rough_s)
    course = dry(mass_g_m2, wet, surroundings, spread_times_s(age_s, growth=0.03, longest_s=5.0))
    return float(course.open_progress[-1, 0] * np.asarray(wet.open_fraction))


def weighed(before: float, before_ln_sd: float, seen: float, seen_ln_sd: float) -> tuple[float, float]:
    """Weigh what was thought before with what was seen, on logarithms.

    Parameters
    ----------
    before, seen
        Both values, above 0, in one unit.
    before_ln_sd, seen_ln_sd
        Standard deviation of the logarithm of each, above 0 [1].

    Returns
    -------
    tuple
        The value in the same unit and the standard deviation of its logarithm.

    Sources
    -------
    Product of two normal distributions.
    """
    trust_before, trust_seen = before_ln_sd**-2, seen_ln_sd**-2
    middle = (math.log(before) * trust_before + math.log(seen) * trust_seen) / (trust_before + trust_seen)
    return math.exp(middle), (trust_before + trust_seen) ** -0.5
