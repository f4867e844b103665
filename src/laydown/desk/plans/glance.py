"""A plan at a glance: the few figures it is judged by."""

from dataclasses import dataclass

from laydown.schema.coat import Join
from laydown.schema.message import Name, message
from laydown.schema.plan import Adjustment, Plan
from laydown.words.numbers import minutes, place_words
from laydown.words.show import Words


def weakest_join(plan: Plan) -> Join | None:
    """Return the join of a plan that is least likely to be wet."""
    joins = [join for layer in plan.layers for coat in layer.coats for join in coat.joins]
    return min(joins, key=lambda join: (join.wet_chance, join.margin_s.value), default=None)


def minutes_of(plan: Plan) -> float:
    """Return how long the whole plan takes."""
    return max((step.end_s for step in plan.timeline), default=0.0) / 60.0


@dataclass(frozen=True, slots=True)
class Tile:
    """One figure."""

    key: str
    head: str
    value: str
    range: str
    state: str
    item: str


def tiles(plan: Plan, words: Words) -> tuple[Tile, ...]:
    """Return the tiles of a plan."""
    poured = sum(mix.mix_g for mix in plan.mixes)
    mixes = tuple(
        message("tile-mix", short_layer=mix.layer, mix_g=float(round(mix.mix_g))) for mix in plan.mixes
    )
    each = words.say("tile-mixes", mixes=mixes)
    to_mix = words.amount(round(poured), "mix_g")
    return (
        *_join_tiles(weakest_join(plan), words),
        Tile("coats", words.say("tile.coats"), _coats(plan), words.say("tile-coats.range"), "", "colour"),
        Tile("pour", words.say("tile.pour"), to_mix, each, "", _mix_item(plan)),
        _ready_tile(plan, words),
    )


def _ready_tile(plan: Plan, words: Words) -> Tile:
    """When the car is ready."""
    head = words.say("tile.ready")
    last = max(plan.timeline, key=lambda step: step.end_s, default=None)
    if last is None:
        return Tile("ready", head, "-", words.say("tile-ready.nothing"), "", "verdict")
    value = words.say("tile-ready", clock=Name(minutes(last.end_s)))
    low, high = (Name(minutes(end_s)) for end_s in (last.low_end_s, last.high_end_s))
    return Tile("ready", head, value, words.say("tile-ready.range", low=low, high=high), "", "bake")


def _join_tiles(weakest: Join | None, words: Words) -> tuple[Tile, ...]:
    """Tightest join, and how likely it stays wet."""
    if weakest is None:
        none, range_ = words.say("tile-join.none"), words.say("tile-join.none-across")
        return (Tile("join", words.say("tile.join"), none, range_, "wet", "verdict"),)
    low, high = round(weakest.margin_s.low), round(weakest.margin_s.high)
    code = "tile-margin.range" if low >= 0 else "tile-margin.range-signed"
    spread = words.say(code, low_s=low, high_s=high, feature=Name(place_words(weakest.feature)))
    value = words.amount(round(weakest.margin_s.value), "margin_s", ".0f")
    chance = words.amount(weakest.wet_chance, "wet_chance", ".0f")
    cases = words.say("tile-wet.range", wet_chance=weakest.wet_chance)
    return (
        Tile("join", words.say("tile.margin"), value, spread, weakest.state, weakest.id),
        Tile("risk", words.say("tile.wet"), chance, cases, weakest.state, weakest.id),
    )


def _coats(plan: Plan) -> str:
    """Coats of each layer."""
    return " + ".join(f"{sum(coat.counts for coat in layer.coats):g}" for layer in plan.layers) or "-"


def _mix_item(plan: Plan) -> str:
    """Mix that is explained with the tile."""
    return f"mix.{plan.mixes[-1].layer}" if plan.mixes else "verdict"


def moved(before: Plan, after: Plan, words: Words) -> tuple[tuple[str, str, str], ...]:
    """List what a change moves."""
    old = {tile.head: tile.value for tile in tiles(before, words)}
    new = {tile.head: tile.value for tile in tiles(after, words)}
    old |= _adjusted(before, words)
    new |= _adjusted(after, words)
    heads = list(dict.fromkeys((*old, *new)))
    return tuple(
        (head, old.get(head, "-"), new.get(head, "-")) for head in heads if old.get(head) != new.get(head)
    )


def _adjusted(plan: Plan, words: Words) -> dict[str, str]:
    """Adjustment of the two layers that can be adjusted, in a line each."""
    chosen: dict[str, Adjustment] = {"ground": plan.adjustment.ground, "effect": plan.adjustment.effect}
    return {
        words.say("tile-adjustment", short_layer=name): words.say(
            "tile-adjustment.value", reducer=row.reducer, water=row.water, nozzle_mm=row.nozzle_mm
        )
        for name, row in chosen.items()
    }
