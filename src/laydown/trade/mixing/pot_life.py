"""How long a hardened mix may be used, at the temperature of the cup.

Sources: the product sheet, unless a function names its own.
"""

from dataclasses import dataclass
from typing import Literal

from laydown.physics.cure import CURE_ACTIVATION_J_MOL, rate_factor

PotState = Literal["ok", "finish this coat", "last coat", "dead"]
"""What may still be done with a mix; ended by the clock, never by its viscosity."""

RANGE_LOW_C = 10.0
"""Below it the law is not trusted [°C]; assumption."""

RANGE_HIGH_C = 40.0
"""Above it the law is not trusted [°C]; assumption."""

FINISH_SHARE = 0.5
"""Share of the pot life after which only the coat in hand is finished; common practice, no source."""

LAST_SHARE = 0.8
"""Share of the pot life after which no new coat is begun; common practice, no source."""


@dataclass(frozen=True, slots=True)
class PotLife:
    """Pot life at the cup's temperature.

    Attributes
    ----------
    life_s
        How long the mix may be used [s].
    trusted
        Whether the temperature lies within 10 to 40 °C.
    """

    life_s: float
    trusted: bool


def pot_life(
    sheet_s: float, sheet_c: float, cup_c: float, activation_j_mol: float = CURE_ACTIVATION_J_MOL
) -> PotLife:
    """Return the pot life at the temperature of the cup.

    Parameters
    ----------
    sheet_s, sheet_c
        Pot life on the sheet, greater than 0 [s], and its temperature [°C].
    cup_c
        Temperature of the mix itself: a cup on a warm grille is not at booth air [°C].
    activation_j_mol
        Activation energy [J/mol]; from two points of the sheet where it prints two.

    Raises
    ------
    ValueError
        If the sheet's life is not above 0.

    Notes
    -----
    ``life = life_sheet / rate_factor(cup, sheet)``: halves from 20 to 30 °C.               (1)

    Sources
    -------
    Common practice ("halves per 10 K") made exact by Arrhenius' law.
    """
    if not sheet_s > 0.0:
        raise ValueError("sheet_s must be above 0")
    life = sheet_s / rate_factor(cup_c, sheet_c, activation_j_mol)
    return PotLife(life, RANGE_LOW_C <= cup_c <= RANGE_HIGH_C)


def pot_state(elapsed_s: float, life_s: float) -> PotState:
    """Return what may still be done with a mix, by the share of its life that is over.

    Parameters
    ----------
    elapsed_s
        Time since hardener first touched the mix, stirring included [s].
    life_s
        Pot life at the cup's temperature, greater than 0 [s].

    Notes
    -----
    ok below 0.5; finish this coat below 0.8; last coat below 1; dead from 1 on. A waterborne mix may stay
    thin after it is dead: gloss and cure fall first, and no thinner brings it back.
    """
    share = elapsed_s / life_s
    if share < FINISH_SHARE:
        return "ok"
    if share < LAST_SHARE:
        return "finish this coat"
    return "last coat" if share < 1.0 else "dead"
