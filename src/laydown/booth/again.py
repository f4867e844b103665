"""What is planned again from here, and what it is put together with."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from laydown.booth.legs import Leg
from laydown.booth.rest import Rest
from laydown.booth.state import State
from laydown.schema.plan import Plan
from laydown.schema.product import Kind


@dataclass(frozen=True, slots=True)
class Again:
    """What was planned again.

    Attributes
    ----------
    old
        The plan so far.
    runs
        The plan that was made anew for each layer that is still open.
    added
        The plan of the coats that are added to a layer; they dry alone, on what is below.
    rests
        What is left of each layer.
    legs, state
        Where the work stands.
    at
        The layer at hand.
    """

    old: Plan
    runs: Mapping[Kind, Plan]
    added: Mapping[Kind, Plan]
    rests: Mapping[Kind, Rest]
    legs: Sequence[Leg]
    state: State
    at: Kind
