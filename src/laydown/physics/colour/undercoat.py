"""Which undercoat to lay below a covering coat: fewer coats, or coats that can be seen while they are sprayed."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from laydown.physics.colour.difference import de2000
from laydown.physics.colour.hiding import lab_of_bands, layer_reflectance, neutral_reflectance, steps_de
from laydown.physics.values import Floats

HIDDEN_DE: Final = 0.5
"""Difference to full hiding that is not seen any more, CIEDE2000; assumption."""

BLIND_DE: Final = 1.0
"""A coat that changes less, CIEDE2000, is sprayed without seeing it; assumption."""

SEEN_DE: Final = 2.0
"""A first coat that changes more, CIEDE2000, is easily seen; assumption."""

MOST_COATS: Final = 8
"""Most coats that are tried; beyond it another undercoat is the answer. Assumption."""


@dataclass(frozen=True, slots=True)
class UndercoatOption:
    """A neutral undercoat under a covering coat."""

    lightness: float
    """CIE L* of the undercoat."""
    coats: float
    """Half coats until it is hidden; infinite where `MOST_COATS` do not hide it."""
    first_step: float
    """What the first coat changes, CIEDE2000."""
    blind_from: int | None
    """First whole coat that cannot be seen any more; none where every coat can."""


def weigh_undercoats(
    lightnesses: Sequence[float],
    absorption: Floats,
    scattering: Floats,
    film_um: float,
    hidden: float = HIDDEN_DE,
) -> tuple[UndercoatOption, ...]:
    """Return what each undercoat costs in coats and in seeing.

    Parameters
    ----------
    lightnesses
        CIE L* of neutral undercoats, 0 to 100.
    absorption, scattering
        Kubelka-Munk K and S per µm in three bands, (3,).
    film_um
        Dry film of one coat [µm]; that of the thin places, not the mean.
    hidden
        Difference to full hiding at which it is hidden, CIEDE2000.

    Returns
    -------
    One option for each lightness, in the order given.

    Sources
    -------
    `steps_de`; the limits are assumptions.
    """
    return tuple(_option(one, absorption, scattering, film_um, hidden) for one in lightnesses)


def choose_undercoat(options: Sequence[UndercoatOption]) -> UndercoatOption:
    """Return the undercoat with the fewest coats among those on which the first coat is easily seen.

    Parameters
    ----------
    options
        One or more.

    Returns
    -------
    The option; of equals the one whose first coat is seen best. Where no first coat is easily seen, the fewest coats.

    Sources
    -------
    Common practice, no source: a white undercoat under white saves coats and blinds.
    """
    seen = [one for one in options if one.first_step >= SEEN_DE]
    return min(seen or options, key=lambda one: (one.coats, -one.first_step))


def island_steps(
    island: float, around: float, absorption: Floats, scattering: Floats, films_um: Floats
) -> Floats:
    """Return how far an island of filler still shows through growing films.

    Parameters
    ----------
    island, around
        CIE L* of the island and of the undercoat around it, 0 to 100.
    absorption, scattering
        Kubelka-Munk K and S per µm in three bands, (3,).
    films_um
        Dry films [µm], (n,).

    Returns
    -------
    CIEDE2000 between both places, (n,). The darkest island decides the count, not the mean.

    Sources
    -------
    `layer_reflectance` and `de2000`.
    """
    here, there = (
        lab_of_bands(
            layer_reflectance(np.full(3, neutral_reflectance(one)), absorption, scattering, films_um[:, None])
        )
        for one in (island, around)
    )
    return de2000(here, there)


def _option(
    lightness: float, absorption: Floats, scattering: Floats, film_um: float, hidden: float
) -> UndercoatOption:
    """What one undercoat costs."""
    halves = np.arange(1, 2 * MOST_COATS + 1) / 2.0
    _, rest = steps_de(lightness, absorption, scattering, halves * film_um)
    steps, _ = steps_de(lightness, absorption, scattering, np.arange(1.0, MOST_COATS + 1.0) * film_um)
    done, unseen = np.flatnonzero(rest <= hidden), np.flatnonzero(steps < BLIND_DE)
    return UndercoatOption(
        lightness=lightness,
        coats=float(halves[done[0]]) if done.size else math.inf,
        first_step=float(steps[0]),
        blind_from=int(unseen[0]) + 1 if unseen.size else None,
    )
