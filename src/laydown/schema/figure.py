"""A number a person may doubt: its value, its spread and where it comes from."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure with the middle 90 % of its spread and its source.

    Attributes
    ----------
    value
        Best single value, in the house unit that the name of the field states.
    low, high
        Ends of the middle 90 %; None where no spread is known.
    source
        Where the value comes from, in words; "not given" where nobody said.
    """

    value: float
    low: float | None = None
    high: float | None = None
    source: str = "not given"


@dataclass(frozen=True, slots=True)
class Spread:
    """A computed figure: middle value and the ends of its middle 90 %.

    Attributes
    ----------
    value, low, high
        In the house unit that the name of the field states; low <= value <= high.
    """

    value: float
    low: float
    high: float
