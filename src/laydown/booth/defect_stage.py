"""Something went wrong: at which stage the work stands, and the figures the ways out are reckoned from."""

from collections.abc import Sequence

from laydown.booth.day_steps import Leg, legs_of
from laydown.booth.progress import Progress, replay
from laydown.schema.coat import Layer
from laydown.schema.figure import Spread
from laydown.schema.plan import Plan
from laydown.schema.product import LayerName
from laydown.schema.rescue import LayerFigures, RescueContext, Stage
from laydown.schema.session import Session

_NOTHING = LayerFigures(0.0, 0.0, 0.0, Spread(0.0, 0.0, 0.0))
_AFTER_HEAT = {"cool", "unmask", "close"}


def stage_of(plan: Plan, session: Session, now_s: float) -> Stage:
    """Return the stage the work stands at."""
    legs = legs_of(plan)
    state = replay(legs, session, now_s)
    here = legs[state.leg]
    sprayed = [leg for leg in legs[: state.leg] if leg.kind == "spray"]
    spraying = here.kind == "spray" and state.phase != "waiting"
    layer: LayerName = here.layer if spraying and here.layer else _last_layer(sprayed)
    if layer == "clear":
        after = here.kind in _AFTER_HEAT or (here.kind == "release" and here.layer is None)
        return "baked" if after else "clear_wet"
    wet = spraying or here.kind == "flash"
    if layer == "effect":
        return "effect_wet" if wet else "effect_dry"
    return "ground_wet" if wet else "ground_dry"


def _last_layer(sprayed: Sequence[Leg]) -> LayerName:
    """The layer that was sprayed last; the ground coat before anything is."""
    return next((leg.layer for leg in reversed(sprayed) if leg.layer is not None), "ground")


def context_of(
    plan: Plan, session: Session, now_s: float, panels: Sequence[str] = (), spot_count: int = 1
) -> RescueContext:
    """Return the figures of this job for the ways out."""
    legs = legs_of(plan)
    state = replay(legs, session, now_s)
    layers = {layer.name: layer for layer in plan.layers}
    lengths = {step.id: step.end_s - step.start_s for step in plan.timeline}
    limits = [
        one.limit_s for one in plan.clocks if one.kind == "recoat_max" and one.starts.startswith("effect")
    ]
    return RescueContext(
        ground=_figures(layers.get("ground")),
        effect=_figures(layers.get("effect")),
        clear=_figures(layers.get("clear")),
        region_share=_share(plan, panels),
        dehydrate_s=lengths.get("effect.dehydrate", 0.0),
        bake_s=lengths.get("bake", 0.0) + lengths.get("bake.cool", 0.0),
        ground_hardened="ground" in layers and plan.adjustment.ground.hardener,
        effect_age_s=_age_s(legs, state, layers.get("effect"), now_s),
        recoat_max_s=next((one for one in limits if one is not None), None),
        spot_count=spot_count,
    )


def _figures(layer: Layer | None) -> LayerFigures:
    """One whole coat of a layer on the mean, over the whole side."""
    if layer is None:
        return _NOTHING
    coats = sum(coat.counts for coat in layer.coats)
    return LayerFigures(
        coats,
        sum(coat.elapsed_s for coat in layer.coats) / coats,
        sum(coat.sprayed_g for coat in layer.coats) / coats,
        layer.coats[-1].flash_s,
    )


def _share(plan: Plan, panels: Sequence[str]) -> float:
    """Share of the painted side that some panels are; all of it where none is known."""
    part = sum(one.area_m2 for one in plan.side.panels if one.name in panels or one.id in panels)
    return min(1.0, part / plan.side.area_m2) if part > 0.0 and plan.side.area_m2 > 0.0 else 1.0


def _age_s(legs: Sequence[Leg], state: Progress, effect: Layer | None, now_s: float) -> float:
    """Time since the last effect coat; 0 while it is not on."""
    if effect is None:
        return 0.0
    ended = state.ended_s(legs, f"effect.{effect.coats[-1].number}.spray")
    return max(0.0, now_s - ended) if ended is not None else 0.0
