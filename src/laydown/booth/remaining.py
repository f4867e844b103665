"""What is planned again from here, and what it is put together with."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from laydown.booth.day_steps import Leg
from laydown.booth.progress import Progress
from laydown.planning.counts.effect_coats import effect_composition
from laydown.planning.document.coats import LAYERS
from laydown.planning.setup.coat_parts import composition
from laydown.schema.choices import Choices
from laydown.schema.coat import Layer
from laydown.schema.plan import Plan
from laydown.schema.product import LayerName


@dataclass(frozen=True, slots=True)
class Rest:
    """One layer at the booth."""

    name: LayerName
    kept: int
    at_hand: bool
    whole: int
    coats: float
    added_count: float
    begun: bool
    open: bool


def rests_of(
    plan: Plan, choices: Choices, place: tuple[Sequence[Leg], Progress], extra: dict[LayerName, float]
) -> dict[LayerName, Rest]:
    """Return what is left of every layer."""
    layers = {layer.name: layer for layer in plan.layers}
    found = {}
    for name in LAYERS:
        if name in layers:
            coats, whole = _ordered(plan, layers[name], choices)
            found[name] = _rest(layers[name], place, (coats, whole), extra.get(name, 0.0))
    return found


def _ordered(plan: Plan, layer: Layer, choices: Choices) -> tuple[float, int]:
    """How many coats the plan's own count is, and how many it makes."""
    sprayed = sum(coat.counts for coat in layer.coats)
    if layer.name == "clear":
        return sprayed, len(layer.coats)
    if layer.name == "ground":
        coats = plan.hiding.ground_coats
        return coats, min(len(layer.coats), len(composition(coats, "ground")))
    coats = plan.colour.effect_coats if plan.colour.effect_coats is not None else sprayed
    return coats, min(len(layer.coats), len(effect_composition(coats, choices)))


def _rest(
    layer: Layer, place: tuple[Sequence[Leg], Progress], ordered: tuple[float, int], added: float
) -> Rest:
    """One layer."""
    legs, state = place
    coats, whole = ordered
    places = {leg.id: index for index, leg in enumerate(legs)}
    sprays = [places[f"{layer.name}.{coat.number}.spray"] for coat in layer.coats]
    here = legs[state.leg]
    spraying = here.kind == "spray" and state.phase != "waiting"
    kept = sum(one < state.leg or (one == state.leg and spraying) for one in sprays)
    at_hand = kept > 0 and here.coat is layer.coats[kept - 1] and here.kind in {"spray", "flash"}
    return Rest(
        name=layer.name,
        kept=kept,
        at_hand=at_hand and kept <= whole,
        whole=whole,
        coats=coats,
        added_count=added,
        begun=kept > 0 or any(name == layer.name for name, _ in state.mixed_at_s),
        open=kept < len(layer.coats) or here.layer == layer.name or added > 0.0,
    )


@dataclass(frozen=True, slots=True)
class Again:
    """What was planned again."""

    old: Plan
    runs: Mapping[LayerName, Plan]
    added: Mapping[LayerName, Plan]
    rests: Mapping[LayerName, Rest]
    legs: Sequence[Leg]
    state: Progress
    at: LayerName
