"""The product of two factors of a coat, block by block of rows."""

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

_ROWS = 12
"""Rows of a block: few strokes reach them, and the product stays too small to be handed to other threads."""


def banded_product(up: Floats, along: Floats) -> Floats:
    """Return ``up @ along`` where each column of ``up`` fills only few neighbouring rows.

    Parameters
    ----------
    up
        Shape (rows, n); zeros may lie anywhere, bands only make it quick.
    along
        Shape (n, columns).

    Returns
    -------
    Shape (rows, columns).

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
    order = np.argsort((up != 0.0).argmax(axis=0), kind="stable")
    up, along = up[:, order], along[order]
    product = np.zeros((len(up), along.shape[1]))
    for first in range(0, len(up), _ROWS):
        rows = slice(first, first + _ROWS)
        used = np.flatnonzero(up[rows].any(axis=0))
        if used.size:
            part = slice(used[0], used[-1] + 1)
            product[rows] = up[rows, part] @ along[part]
    return product
