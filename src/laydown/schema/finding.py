"""Advice inside a plan: what to fear, why, and what to do."""

from dataclasses import dataclass
from typing import Literal

Level = Literal["note", "care", "stop"]
"""How much a finding weighs."""


@dataclass(frozen=True, slots=True)
class Finding:
    """One piece of advice.

    Attributes
    ----------
    level
        Note, care or stop.
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
    text: str
    why: str
    do: tuple[str, ...] = ()
