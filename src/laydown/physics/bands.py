"""The film of many strokes from its two factors, block by block of rows."""

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

_ROWS = 12
"""Rows of a block: few strokes reach them, and the product stays too small to be handed to other threads."""


def banded_film_g_m2(up_per_m: Floats, along_g_m: Floats) -> Floats:
    """Return the film of n strokes, the product of their factors, where each covers few neighbouring rows.

    Parameters
    ----------
    up_per_m
        Profile of each stroke up the sheet [1/m], shape (rows, n); zeros may lie anywhere, bands only make it quick.
    along_g_m
        Paint of each stroke along the vehicle [g/m], shape (n, columns).

    Returns
    -------
    ``up_per_m @ along_g_m`` [g/m²], shape (rows, columns).

    Notes
    -----
    A fan covers an eighth of a side's rows. In blocks of rows the sum needs only the strokes that reach the block, and
    no block is large enough for the threads of a linear algebra library, which on a busy machine cost far more
    than the sum and may round otherwise from machine to machine. Equal to the plain product to 1e-12 of its greatest
    value (checked in ``tests/properties/test_spray_laws.py``).

    Sources
    -------
    Definition.
    """
    order = np.argsort((up_per_m != 0.0).argmax(axis=0), kind="stable")
    up, along = up_per_m[:, order], along_g_m[order]
    film = np.zeros((len(up), along.shape[1]))
    for first in range(0, len(up), _ROWS):
        rows = slice(first, first + _ROWS)
        used = np.flatnonzero(up[rows].any(axis=0))
        if used.size:
            part = slice(used[0], used[-1] + 1)
            film[rows] = up[rows, part] @ along[part]
    return film
