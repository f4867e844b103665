"""A plan at a glance: the few figures it is judged by."""

from dataclasses import dataclass

from laydown.schema.coat import Join
from laydown.schema.plan import Plan
from laydown.units import System, show
from laydown.words.numbers import minutes, place_words, spread_text


def weakest_join(plan: Plan) -> Join | None:
    """Return the join of a plan that is least likely to be wet.

    Parameters
    ----------
    plan
        The plan.

    Returns
    -------
    The join; None for a plan without joins.
    """
    joins = [join for layer in plan.layers for coat in layer.coats for join in coat.joins]
    return min(joins, key=lambda join: (join.wet_chance, join.spare_s.value), default=None)


def minutes_of(plan: Plan) -> float:
    """Return how long the whole plan takes.

    Parameters
    ----------
    plan
        The plan.

    Returns
    -------
    Minutes from its start to the end of its last step.
    """
    return max((step.end_s for step in plan.timeline), default=0.0) / 60.0


@dataclass(frozen=True, slots=True)
class Tile:
    """One figure.

    Attributes
    ----------
    key
        Name of the tile.
    head
        What it is.
    value
        The figure in large type.
    range
        Its spread, or what it stands for.
    state
        "wet", "hurry" or "late" where a sign goes with it; else empty.
    item
        What to ask *because* for.
    """

    key: str
    head: str
    value: str
    range: str
    state: str
    item: str


def tiles(plan: Plan, system: System) -> tuple[Tile, ...]:
    """Return the tiles of a plan.

    Parameters
    ----------
    plan
        The plan.
    system
        How figures are shown.

    Returns
    -------
    Tightest join, its chance, coats, paint to mix, time until ready.
    """
    weakest = weakest_join(plan)
    ready = max(plan.timeline, key=lambda step: step.end_s, default=None)
    poured = sum(mix.mix_g for mix in plan.mixes)
    each = ", ".join(f"{mix.layer} {show(round(mix.mix_g), 'mix_g', system)}" for mix in plan.mixes)
    done = (
        Tile(
            "ready",
            "ready after",
            f"{minutes(ready.end_s)} h",
            f"{minutes(ready.low_end_s)} to {minutes(ready.high_end_s)} h",
            "",
            "bake",
        )
        if ready is not None
        else Tile("ready", "ready after", "-", "nothing is sprayed", "", "verdict")
    )
    return (
        *_join_tiles(weakest),
        Tile("coats", "coats", _coats(plan), "ground + effect + clear", "", "colour"),
        Tile("pour", "to mix", show(round(poured), "mix_g", system), each, "", _mix_item(plan)),
        done,
    )


def _join_tiles(weakest: Join | None) -> tuple[Tile, ...]:
    """Tightest join, and how likely it stays wet."""
    if weakest is None:
        return (Tile("join", "tightest join", "none", "one section, no join", "wet", "verdict"),)
    spare = spread_text(weakest.spare_s)
    value, _, spread = spare.partition(" (")
    at = place_words(weakest.feature)
    chance = round(100 * weakest.wet_chance)
    return (
        Tile("join", "tightest join: spare", value, f"({spread} {at}", weakest.state, weakest.id),
        Tile(
            "risk", "that join stays wet", f"{chance} %", f"{chance} of 100 cases", weakest.state, weakest.id
        ),
    )


def _coats(plan: Plan) -> str:
    """Coats of each layer."""
    return " + ".join(f"{sum(coat.counts for coat in layer.coats):g}" for layer in plan.layers) or "-"


def _mix_item(plan: Plan) -> str:
    """Mix that is explained with the tile."""
    return f"mix.{plan.mixes[-1].layer}" if plan.mixes else "verdict"


def moved(before: Plan, after: Plan, system: System) -> tuple[tuple[str, str, str], ...]:
    """List what a change moves.

    Parameters
    ----------
    before, after
        The plan as it is and with the change.
    system
        How figures are shown.

    Returns
    -------
    Head, old and new figure of every tile and adjustment that differs.
    """
    old = {tile.head: tile.value for tile in tiles(before, system)}
    new = {tile.head: tile.value for tile in tiles(after, system)}
    old |= _adjusted(before)
    new |= _adjusted(after)
    heads = list(dict.fromkeys((*old, *new)))
    return tuple(
        (head, old.get(head, "-"), new.get(head, "-")) for head in heads if old.get(head) != new.get(head)
    )


def _adjusted(plan: Plan) -> dict[str, str]:
    """Adjustment of the two layers that can be adjusted, in a line each."""
    chosen = {"ground": plan.adjustment.ground, "effect": plan.adjustment.effect}
    return {
        f"{name} adjustment": f"{row.reducer} reducer, {100 * row.water:g} % water, nozzle {row.nozzle_mm:g} mm"
        for name, row in chosen.items()
    }
