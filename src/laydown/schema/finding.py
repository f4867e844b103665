"""A finding: advice inside a plan, with its reason and what to do about it."""

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True)
class Finding:
    """One piece of advice; never an error.

    Attributes
    ----------
    level
        note = worth knowing, care = may be seen on the car, stop = do not spray like this.
    code
        Stable name of the kind of finding, lower case with hyphens.
    where
        Dotted place in the plan or the job, such as "panel.front_door.effect".
    text
        What was found, in the painter's words.
    why
        The reason, with the figures.
    do
        Ways out, the first one preferred; empty when nothing need be done.
    """

    level: Literal["note", "care", "stop"]
    code: str
    where: str
    text: str
    why: str
    do: tuple[str, ...] = ()
