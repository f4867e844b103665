"""How thorough a run of the tests is: ``./run test`` takes a sample of each slow thing, ``./run long`` all of it."""

import os

import pytest

LONG = os.environ.get("LAYDOWN_TESTS") == "long"

SAMPLE = 4
"""One of how many examples a short run takes."""


def examples(full: int) -> int:
    """How many examples are tried of a law that costs much."""
    return full if LONG else max(5, full // SAMPLE)


def sampled(*values: object) -> list[object]:
    """Cases of which a short run takes the first."""
    first, *others = values
    return [first, *(pytest.param(other, marks=pytest.mark.long) for other in others)]
