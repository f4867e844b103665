"""The clear coat's flash: the sheet's time, moved to other air."""

from typing import Final

import numpy as np

from laydown.physics.film.transfer import h_mass_m_s
from laydown.physics.values import Values, require_between

DOUBLING_K: Final = 12.5
"""The solvents' vapour pressure doubles with this warming [K]; from memory, for butyl acetate."""

FLASH_LN_SD: Final = 0.25
"""Standard deviation of the logarithm of a moved flash time [1]; assumption."""


def clear_flash_s(
    sheet_s: Values,
    sheet_c: Values,
    sheet_air_m_s: Values,
    film_c: Values,
    air_m_s: Values,
) -> Values:
    r"""Move a clear coat's flash time from the sheet's air to this air [s].

    Parameters
    ----------
    sheet_s
        Flash time on the data sheet [s].
    sheet_c, film_c
        Temperature of panel and film, on the sheet and here [degC], 5 to 45.
    sheet_air_m_s, air_m_s
        Air speed along the panel, meant by the sheet and here [m/s], 0.05 to 8.

    Raises
    ------
    ValueError
        If an argument is out of range.

    Notes
    -----
    .. math:: t = t_{sheet} \frac{p(T_{sheet}) h_m(v_{sheet})}{p(T) h_m(v)}, \quad p \propto 2^{T/12.5}

    Solvent leaves without regard to the air's humidity, so humidity has no place here. The sheet's own time at
    its own air is given back unchanged; it always comes first.

    Sources
    -------
    Evaporation in proportion to vapour pressure and mass transfer; `DOUBLING_K` is from memory.
    """
    require_between("sheet_c", sheet_c, 5.0, 45.0)
    require_between("film_c", film_c, 5.0, 45.0)
    require_between("sheet_s", sheet_s, 0.0, 1.0e5)
    pressure = np.exp2((film_c - sheet_c) / DOUBLING_K)
    # Only the line's slope with air speed counts; the temperature it is taken at cancels.
    moved: Values = sheet_s * h_mass_m_s(sheet_air_m_s, 20.0) / (pressure * h_mass_m_s(air_m_s, 20.0))
    return moved
