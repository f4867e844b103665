"""What is said: a code and its figures, and the advice made of it; the sentence is made at the door."""

from dataclasses import dataclass
from typing import Literal, TypeAlias

FIGURES = 6
"""Figures of a number that are kept, as in a written document, so that a plan that is read back says the same."""


class Name(str):
    """Words of a person or a sheet: shown as they are, never translated, never converted."""

    __slots__ = ()


@dataclass(frozen=True, slots=True)
class Quantity:
    """A figure whose unit its name cannot tell.

    Attributes
    ----------
    value
        The figure in its house unit.
    unit
        Ending of a house name, such as "_um".
    """

    value: float
    unit: str


@dataclass(frozen=True, slots=True)
class Range:
    """Two limits with one unit, which is written once: 15 to 30 °C.

    Attributes
    ----------
    low, high
        The limits in the house unit that the name of the figure tells.
    unit
        Ending of a house name, such as "_um", where the name of the figure cannot tell it.
    """

    low: float
    high: float
    unit: str = ""


@dataclass(frozen=True, slots=True)
class Message:
    """A sentence by its code; hashable, so that equal ones are said once.

    Attributes
    ----------
    code
        Where the sentence stands in the catalogue.
    figures
        Name and value of each figure, in the order in which they were given. A plain text is a word of a fixed list,
        whose label stands in the catalogue.
    """

    code: str
    figures: tuple[tuple[str, "Said"], ...] = ()

    def __str__(self) -> str:
        """Refuse to become text without the words of a reader, so that no code is ever printed."""
        raise TypeError(f"the sentence '{self.code}' is said by Words")


Said = float | int | str | Name | Quantity | Range | Message | tuple["Said", ...]
"""What may stand in a sentence."""

Saying: TypeAlias = Message | str
"""A sentence, or words of a person or a sheet; an empty text says nothing."""


def message(code: str, **figures: Said) -> Message:
    """Return a sentence by its code; the unit of a number is told by the end of its name."""
    return Message(code, tuple((name, _kept(value)) for name, value in figures.items()))


def parts_of(said: Message) -> tuple[Said, ...]:
    """Return the sentences of which a sentence is made one after another; none if it is one by itself."""
    parts = dict(said.figures).get("parts", ())
    return parts if isinstance(parts, tuple) else ()


def _kept(value: Said) -> Said:
    """Round a number as a document does."""
    if isinstance(value, float):
        return float(f"{value:.{FIGURES}g}")
    if isinstance(value, Quantity):
        return Quantity(float(f"{value.value:.{FIGURES}g}"), value.unit)
    if isinstance(value, Range):
        return Range(float(f"{value.low:.{FIGURES}g}"), float(f"{value.high:.{FIGURES}g}"), value.unit)
    return tuple(_kept(one) for one in value) if isinstance(value, tuple) else value


Level = Literal["note", "caution", "stop"]
"""How much a finding weighs."""


@dataclass(frozen=True, slots=True)
class Finding:
    """One piece of advice.

    Attributes
    ----------
    level
        Note, caution or stop.
    code
        Name of the finding; its page is docs/findings/<code>.md.
    where
        Dotted place in the plan or on the side.
    text
        What was found, in one sentence.
    why
        The figures or the rule behind it.
    do
        What helps, best first; may be empty.
    """

    level: Level
    code: str
    where: str
    text: Saying
    why: Saying
    do: tuple[Saying, ...] = ()
