"""What stands on the card, row by row, as text."""

from laydown.report.kit.coat_scene import coat_parts
from laydown.report.kit.text_width import readable
from laydown.schema.coat import Coat, Layer
from laydown.schema.plan import Adjustment, Plan
from laydown.schema.supplies import Mix
from laydown.units import System, show
from laydown.words.gun import clock_layer, clock_words, gun_text

BLANK = ""
"""A cell to be filled by hand."""

IF_THEN = (
    ("Dirt", "leave it, let it dry, then ask"),
    ("Rough join", "still wet: wet the band at once; set: stop at the gap and let it flash"),
    ("Ran low", "go on to the next gap and stop there; never in the open panel"),
    ("Not matt in time", "wait; later than the range: plan again"),
)
"""What to do when it goes wrong. Source: common practice, no source."""


def adjustment_rows(plan: Plan, layers: tuple[Layer, ...], system: System) -> list[list[str]]:
    """One row for each layer: product, reducer, water, hardener, nozzle, pour, panel; last how the gun is held.

    Parameters
    ----------
    plan
        The plan.
    layers
        Layers on the card.
    system
        How figures are shown.

    Returns
    -------
    Rows of cells.
    """
    chosen = {
        "ground": plan.adjustment.ground,
        "effect": plan.adjustment.effect,
        "clear": plan.adjustment.clear,
    }
    mixes = {mix.layer: mix for mix in plan.mixes}
    return [_adjustment(layer, chosen[layer.name], mixes.get(layer.name), system) for layer in layers]


def _adjustment(layer: Layer, chosen: Adjustment, mix: Mix | None, system: System) -> list[str]:
    """Cells of one layer."""
    pour = f"{show(round(mix.mix_g), 'mix_g', system)}" if mix else "-"
    return [
        layer.name,
        layer.product,
        f"{chosen.reducer} reducer",
        f"{show(chosen.water, 'water', system)} water" if chosen.water else "no water",
        "hardener" if chosen.hardener else "no hardener",
        f"nozzle {show(chosen.nozzle_mm, 'nozzle_mm', system)}",
        f"mix {pour}",
        f"panel {show(layer.panel_c.value, 'panel_c', system)}",
        gun_text(layer.coats, system),
    ]


def coat_rows(plan: Plan, layers: tuple[Layer, ...]) -> list[dict[str, object]]:
    """Coats and gates in the order of work.

    Parameters
    ----------
    plan
        The plan.
    layers
        Layers on the card.

    Returns
    -------
    Rows: ``kind`` "coat" with cells, or "gate" with its questions.
    """
    rows: list[dict[str, object]] = []
    names = {layer.name for layer in layers}
    for layer in layers:
        for coat in layer.coats:
            step = f"{layer.name}.{coat.number}.spray"
            rows += [
                {"kind": "gate", "name": gate.id, "ask": list(gate.ask)}
                for gate in plan.gates
                if gate.before == step
            ]
            rows.append({"kind": "coat", "cells": _coat(layer, coat), "matt": _asks(layer, coat)})
    rows += [
        {"kind": "gate", "name": gate.id, "ask": list(gate.ask)}
        for gate in plan.gates
        if gate.before.split(".")[0] not in {"ground", "effect", "clear"} and "clear" in names
    ]
    return rows


def _asks(layer: Layer, coat: Coat) -> str:
    """What is ticked before the next coat; clear is never asked."""
    return "" if layer.name == "clear" else "gloss gone" if coat.wet_next else "matt"


def _fill(coat: Coat) -> str:
    """What the cup weighs at the start."""
    if coat.fill_g is not None:
        return f"{coat.fill_g:.0f}"
    return f"{coat.sections[0].cup_g_after + coat.sections[0].sprayed_g:.0f}" if coat.sections else "-"


def _coat(layer: Layer, coat: Coat) -> list[str]:
    """Coat, passes, time, fill, paint, flash."""
    flash = coat.flash_s
    return [
        f"{layer.name} {'control' if coat.part == 'control' else coat.number}",
        coat_parts(coat).replace(" pass", ""),
        f"{coat.elapsed_s / 60:.1f}",
        _fill(coat),
        f"{coat.sprayed_g:.0f}",
        f"{flash.value / 60:.0f} ({flash.low / 60:.0f} to {flash.high / 60:.0f})",
    ]


def clock_rows(plan: Plan, layers: tuple[Layer, ...], system: System) -> list[str]:
    """Clocks with the limit and room for the hour.

    Parameters
    ----------
    plan
        The plan.
    layers
        Layers on the card.
    system
        How figures are shown.

    Returns
    -------
    Sentences that end before the blank.
    """
    names = {layer.name for layer in layers}
    rows = [
        clock_words(clock, system)
        for clock in plan.clocks
        if not clock_layer(clock) or clock_layer(clock) in names
    ]
    if plan.bake.verdict != "not needed" and "clear" in names:
        metal = show(plan.bake.metal_c, "metal_c", system)
        rows.append(f"metal {metal} for {show(plan.bake.hold_s, 'hold_s', system)}, from")
    return rows


def limits_text(plan: Plan, system: System) -> str:
    """Say in which air the plan is good.

    Parameters
    ----------
    plan
        The plan.
    system
        How figures are shown.

    Returns
    -------
    One sentence with four limits.
    """
    limits = plan.limits_of_use
    low, high = (
        show(value, "temperature_c", system)
        for value in (limits.temperature_low_c, limits.temperature_high_c)
    )
    dry, damp = (show(value, "rh", system) for value in (limits.rh_low, limits.rh_high))
    return f"air under {low} or over {high}, humidity under {dry} or over {damp}"


def lost_letters(texts: list[str]) -> list[str]:
    """Letters of the texts that the typeface lacks.

    Parameters
    ----------
    texts
        Texts of the card.

    Returns
    -------
    Code points such as "U+6F22", each once; the letters themselves print as "?".
    """
    found = {old for text in texts for old, new in zip(text, readable(text), strict=True) if old != new}
    return [f"U+{ord(letter):04X}" for letter in sorted(found)]
