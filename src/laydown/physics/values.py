"""The shapes every law accepts: one number or an array of numbers."""

from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

Floats: TypeAlias = NDArray[np.float64]
"""An array of floats."""

Ints: TypeAlias = NDArray[np.int64]
"""An array of whole numbers."""

Bools: TypeAlias = NDArray[np.bool_]
"""An array of yes and no."""

Values: TypeAlias = float | Floats
"""One float or an array of floats; a law answers in the shape it was asked in."""


def require_between(name: str, values: Values, low: float, high: float) -> None:
    """Refuse numbers outside a law's range, or not numbers at all.

    Parameters
    ----------
    name
        The argument as the caller knows it, with its unit suffix.
    values
        The numbers to look at, in that unit.
    low, high
        The valid range, both ends included, in the same unit.

    Raises
    ------
    ValueError
        If any number is below `low`, above `high` or not a number.
    """
    numbers = np.asarray(values, dtype=float)
    if not bool(np.all((numbers >= low) & (numbers <= high))):
        raise ValueError(f"{name} must be within {low:g} to {high:g}")
