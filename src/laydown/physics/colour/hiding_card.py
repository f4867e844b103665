"""What a black and white card says about how a coat hides."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from laydown.physics.colour.eye_ranking import normal_share
from laydown.physics.colour.hiding import absorption_for, layer_reflectance
from laydown.physics.values import Floats, Values

CARD_WHITE: Final = 0.80
"""Reflectance of the white of a card; ASTM D2805 asks for 0.78 or more."""

CARD_BLACK: Final = 0.0
"""Reflectance of the black of a card; ASTM D2805 asks for 0.01 or less."""

HIDDEN_CONTRAST: Final = 0.98
"""Contrast ratio that counts as hiding; ASTM D2805, ISO 6504. On white it is about dL* 0.7, still to be seen."""

SCATTERING_PER_UM: Final = 0.25
"""Scattering of a white before any card [1/µm of dry film], median; assumption."""

SCATTERING_LN_SD: Final = 0.3
"""Standard deviation of its logarithm; assumption."""

CARD_LN_SD: Final = 0.1
"""Standard deviation of the logarithm of what an eye takes for hidden on a card; assumption."""

FILM_LN_SD: Final = 0.1
"""Standard deviation of the logarithm of the film on a card; assumption."""

_SAME: Final = 0.001
_LEAST_A: Final = 0.98  # a below 1 is a coat that gives light; so much is noise of reading
_POINTS: Final = 200


@dataclass(frozen=True, slots=True)
class LearntScattering:
    """Scattering of a coat after a card was looked at [1/µm]."""

    least_per_um: float
    """With less the card would not have vanished."""
    most_per_um: float
    """With more it would have vanished a coat before; infinite for the first coat."""
    mean_per_um: float
    """Mean, card and what was thought before weighed."""
    low_per_um: float
    """One in twenty lies below."""
    high_per_um: float
    """One in twenty lies above."""


def contrast_ratio(
    absorption_per_um: Values,
    scattering_per_um: Values,
    film_um: Values,
    black: float = CARD_BLACK,
    white: float = CARD_WHITE,
) -> Floats:
    """Return how dark a film is over black, over white being 1.

    Parameters
    ----------
    absorption_per_um, scattering_per_um
        Kubelka-Munk K and S per µm.
    film_um
        Dry film [µm]; all broadcast.
    black, white
        Reflectance of the card, 0 to 1.

    Returns
    -------
    Ratios, 0 to 1.

    Sources
    -------
    ASTM D2805 and ISO 6504-3, from memory.
    """
    k, s, x = (np.asarray(value, float) for value in (absorption_per_um, scattering_per_um, film_um))
    dark = layer_reflectance(np.asarray(black, float), k, s, x)
    return np.asarray(dark / layer_reflectance(np.asarray(white, float), k, s, x), float)


def film_for_contrast(
    absorption_per_um: Values,
    scattering_per_um: Values,
    contrast: float = HIDDEN_CONTRAST,
    black: float = CARD_BLACK,
    white: float = CARD_WHITE,
) -> Floats:
    """Return the dry film that reaches a contrast ratio [µm].

    Parameters
    ----------
    absorption_per_um, scattering_per_um
        Kubelka-Munk K and S per µm; both broadcast.
    contrast
        Contrast ratio, above that of the bare card and below 1.
    black, white
        Reflectance of the card, 0 to 1.

    Returns
    -------
    Dry film [µm], the inverse of `contrast_ratio`.

    Raises
    ------
    ValueError
        If the contrast is outside its range.

    Notes
    -----
    With ``c = b coth z`` the ratio is a fraction of two squares in c, so c is the larger root of ::

        (g - C w) c^2 + (p + g (a - w) - C q - C w (a - g)) c + p (a - w) - C q (a - g) = 0,
        p = 1 - g a,  q = 1 - w a                                               (1)

    Sources
    -------
    (1) Kubelka-Munk, rearranged.
    """
    if not black / white < contrast < 1.0:
        raise ValueError("contrast must be above that of the bare card and below 1")
    s = np.asarray(scattering_per_um, float)
    a = 1.0 + np.asarray(absorption_per_um, float) / s
    p, q = 1.0 - black * a, 1.0 - white * a
    square = black - contrast * white
    line = p + black * (a - white) - contrast * q - contrast * white * (a - black)
    rest = p * (a - white) - contrast * q * (a - black)
    c = (line + np.sqrt(np.maximum(line * line - 4.0 * square * rest, 0.0))) / (-2.0 * square)
    b = np.sqrt(np.maximum(a * a - 1.0, 1e-18))
    return np.asarray(np.arctanh(b / c) / (b * s), float)


def learn_scattering(
    gone_after: int, film_um: float, endless: float, median_per_um: float = SCATTERING_PER_UM
) -> LearntScattering:
    """Return the scattering of a coat after the coats at which a card vanished were counted.

    Parameters
    ----------
    gone_after
        First whole coat after which black and white look alike, 1 or more.
    film_um
        Dry film of one coat [µm], above 0.
    endless
        Reflectance of the coat when endlessly thick, above 0 and below 1.
    median_per_um
        Scattering thought of before [1/µm].

    Returns
    -------
    Both bounds, and mean and range with what was thought before.

    Raises
    ------
    ValueError
        If `gone_after` is below 1 or `film_um` not above 0.

    Notes
    -----
    ::

        S in [SX / (m x), SX / ((m - 1) x)],  SX for the contrast 0.98          (1)

    softened by `CARD_LN_SD` and `FILM_LN_SD`, on 200 values.

    Sources
    -------
    (1) `film_for_contrast`; Bayes with a lognormal prior.
    """
    if gone_after < 1 or not film_um > 0.0:
        raise ValueError("gone_after must be 1 or more and film_um above 0")
    power = float(film_for_contrast(absorption_for(np.asarray(endless), np.ones(1)), 1.0)[0])
    z = np.linspace(-4.0, 4.0, _POINTS)
    values = median_per_um * np.exp(SCATTERING_LN_SD * z)
    soft = float(np.hypot(CARD_LN_SD, FILM_LN_SD))
    gone = normal_share(np.log(values * gone_after * film_um / power) / soft)
    if gone_after > 1:
        gone = gone - normal_share(np.log(values * (gone_after - 1) * film_um / power) / soft)
    chance = np.maximum(gone, 1e-12) * np.exp(-0.5 * z * z)
    chance /= chance.sum()
    low, high = np.interp([0.05, 0.95], np.cumsum(chance), values)
    before = power / ((gone_after - 1) * film_um) if gone_after > 1 else float("inf")
    return LearntScattering(
        power / (gone_after * film_um), before, float(values @ chance), float(low), float(high)
    )
