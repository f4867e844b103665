"""What of a plan is done, what is at hand and what is left to plan again."""

from collections.abc import Sequence
from dataclasses import dataclass

from laydown.booth.legs import Leg
from laydown.booth.state import State
from laydown.planning.coat_nouns import LAYERS
from laydown.planning.counts import composition
from laydown.schema.coat import Layer
from laydown.schema.plan import Plan
from laydown.schema.product import Kind


@dataclass(frozen=True, slots=True)
class Rest:
    """One layer at the booth.

    Attributes
    ----------
    name
        The layer.
    kept
        How many of its coats are on, or being sprayed.
    at_hand
        Whether the last of them is being sprayed or flashes, and is judged anew.
    whole
        How many of its coats the planner's own count makes; coats beyond were added on the day.
    coats
        That count, in halves.
    extra
        What is added now, in halves.
    begun
        Whether its mix stands ready or is in use: its adjustment is fixed.
    open
        Whether anything of it is still to be planned, be it only its drying.
    """

    name: Kind
    kept: int
    at_hand: bool
    whole: int
    coats: float
    extra: float
    begun: bool
    open: bool


def rests_of(plan: Plan, legs: Sequence[Leg], state: State, extra: dict[Kind, float]) -> dict[Kind, Rest]:
    """Return what is left of every layer.

    Parameters
    ----------
    plan
        The plan so far.
    legs, state
        Where the work stands.
    extra
        Coats to be added to a layer, in halves.

    Returns
    -------
    Each layer of the plan.
    """
    layers = {layer.name: layer for layer in plan.layers}
    return {name: _rest(layers[name], legs, state, extra.get(name, 0.0)) for name in LAYERS if name in layers}


def _rest(layer: Layer, legs: Sequence[Leg], state: State, extra: float) -> Rest:
    """One layer."""
    places = {leg.id: index for index, leg in enumerate(legs)}
    sprays = [places[f"{layer.name}.{coat.number}.spray"] for coat in layer.coats]
    here = legs[state.leg]
    spraying = here.kind == "spray" and state.phase != "waiting"
    kept = sum(place < state.leg or (place == state.leg and spraying) for place in sprays)
    at_hand = kept > 0 and here.coat is layer.coats[kept - 1] and here.kind in {"spray", "flash"}
    begun = kept > 0 or any(name == layer.name for name, _ in state.mixed)
    whole = _whole(layer)
    return Rest(
        name=layer.name,
        kept=kept,
        at_hand=at_hand and kept <= whole,
        whole=whole,
        coats=sum(coat.counts for coat in layer.coats[:whole]),
        extra=extra,
        begun=begun,
        open=kept < len(layer.coats) or here.layer == layer.name or extra > 0.0,
    )


def _whole(layer: Layer) -> int:
    """The longest row of coats, from the first on, that is a count of the planner's own."""
    for length in range(len(layer.coats), 1, -1):
        coats = layer.coats[:length]
        parts = composition(sum(coat.counts for coat in coats), layer.name)
        if tuple(one.part for one in parts) == tuple(coat.part for coat in coats):
            return length
    return 1
