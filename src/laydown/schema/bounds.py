"""Bounds written beside a field: read at the door, ignored inside."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Within:
    """The closed range a field may lie in.

    Attributes
    ----------
    low, high
        Ends of the range, in the house unit of the field.
    hint
        How to mend a value outside it, in the user's words.
    """

    low: float
    high: float
    hint: str = ""


@dataclass(frozen=True, slots=True)
class Words:
    """How long a text may be.

    Attributes
    ----------
    longest
        Most characters allowed.
    """

    longest: int = 80


SHARE = Within(0.0, 1.0, "write 55 % as 0.55 or as '55 %'")
"""A share of one; definition."""
