"""A number a person may doubt: its value, its spread and where it comes from."""

from dataclasses import dataclass

from laydown.schema.message import Name, Saying, message


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
    hint: Saying = ""


@dataclass(frozen=True, slots=True)
class TextLength:
    """How long a text may be.

    Attributes
    ----------
    longest
        Most characters allowed.
    """

    longest: int = 80


SHARE = Within(0.0, 1.0, message("write-a-share", percent=55, share=Name("0.55")))
"""A share of one; definition."""


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
