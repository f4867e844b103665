"""How likely a side is done again, from the shop's own records."""

import math
from dataclasses import dataclass

PRIOR_FAULTS = 1
"""Jobs done again that are believed before any record; assumption."""

PRIOR_GOOD = 9
"""Sound jobs that are believed before any record; assumption. Together: one in ten, weakly held."""

FEW_RECORDS = 10
"""Below it only the range of the chance is shown, no point; assumption."""

_BISECTIONS = 60
"""Halvings of 0 to 1; finer than a float needs here."""


@dataclass(frozen=True, slots=True)
class FaultChance:
    """How often a side is done again.

    Attributes
    ----------
    value
        Middle value, 0 to 1; ``None`` with fewer than ten records.
    low, high
        Ends of the middle 90 %, 0 to 1.
    text
        The counts in words.
    """

    value: float | None
    low: float
    high: float
    text: str


def fault_chance(fault_count: int, job_count: int) -> FaultChance:
    """Return how likely a side is done again, from the shop's own records.

    Parameters
    ----------
    fault_count, job_count
        Sides done again, and all sides; 0 <= faults <= jobs.

    Raises
    ------
    ValueError
        If the counts contradict each other.

    Notes
    -----
    Beta distribution with whole parameters a = faults + 1 and b = sound jobs + 9. Its distribution
    function is a sum of binomial terms::

        P(chance <= x) = sum over j from a to n of C(n, j) x^j (1 - x)^(n - j),  n = a + b - 1   (1)

    Sources
    -------
    Definition; the prior of one in ten is an assumption.
    """
    if not 0 <= fault_count <= job_count:
        raise ValueError("fault_count must be within 0 and job_count")
    faults = fault_count + PRIOR_FAULTS
    good = job_count - fault_count + PRIOR_GOOD
    text = f"{fault_count} of {job_count}"
    value = faults / (faults + good) if job_count >= FEW_RECORDS else None
    return FaultChance(value, _beta_point(0.05, faults, good), _beta_point(0.95, faults, good), text)


def _beta_point(share: float, faults: int, good: int) -> float:
    """Return the chance below which a share of the distribution lies."""
    count = faults + good - 1
    # Logarithms, because the binomial numbers of a thousand records no longer fit into a float.
    whole = math.lgamma(count + 1)
    weights = [(j, whole - math.lgamma(j + 1) - math.lgamma(count - j + 1)) for j in range(faults, count + 1)]
    low, high = 0.0, 1.0
    for _ in range(_BISECTIONS):
        middle = 0.5 * (low + high)
        hit, miss = math.log(middle), math.log1p(-middle)
        below = math.fsum(math.exp(weight + j * hit + (count - j) * miss) for j, weight in weights)
        low, high = (middle, high) if below < share else (low, middle)
    return 0.5 * (low + high)
