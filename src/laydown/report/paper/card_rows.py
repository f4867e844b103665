"""What stands on the card, row by row, as text."""

from laydown.report.kit.text_width import readable
from laydown.schema.clock import Gate
from laydown.schema.coat import Coat, Layer
from laydown.schema.plan import Adjustment, Plan
from laydown.schema.supplies import Mix
from laydown.words.gun import clock_layer, clock_words, gun_text
from laydown.words.numbers import gate_name, water_text
from laydown.words.show import Words

BLANK = ""
"""A cell to be filled by hand."""

IF_THEN = ("dirt", "rough", "low", "matt")
"""What may go wrong, and what to do then. Source: common practice, no source."""


def if_then_rows(words: Words) -> list[list[str]]:
    """What to do when it goes wrong."""
    return [[words.say(f"card-if.{name}"), words.say(f"card-then.{name}")] for name in IF_THEN]


def adjustment_rows(plan: Plan, layers: tuple[Layer, ...], words: Words) -> list[list[str]]:
    """One row for each layer: product, reducer, water, hardener, nozzle, pour, panel; last how the gun is held."""
    chosen = {
        "ground": plan.adjustment.ground,
        "effect": plan.adjustment.effect,
        "clear": plan.adjustment.clear,
    }
    mixes = {mix.layer: mix for mix in plan.mixes}
    return [_adjustment(layer, chosen[layer.name], mixes.get(layer.name), words) for layer in layers]


def _adjustment(layer: Layer, chosen: Adjustment, mix: Mix | None, words: Words) -> list[str]:
    """Cells of one layer."""
    pour = words.say("card-mix", mix_g=round(mix.mix_g)) if mix else words.say("card-no-mix")
    return [
        words.word("short_layer", layer.name),
        layer.product,
        words.say("card-reducer", reducer=chosen.reducer),
        water_text(chosen.water, words),
        words.say("card-hardener" if chosen.hardener else "card-no-hardener"),
        words.say("card-nozzle", nozzle_mm=chosen.nozzle_mm),
        pour,
        words.say("coat-panel", panel_c=layer.panel_c.value),
        gun_text(layer.coats, words),
    ]


def coat_rows(plan: Plan, layers: tuple[Layer, ...], words: Words) -> list[dict[str, object]]:
    """Coats and gates in the order of work."""
    rows: list[dict[str, object]] = []
    names = {layer.name for layer in layers}
    for layer in layers:
        for coat in layer.coats:
            step = f"{layer.name}.{coat.number}.spray"
            rows += [_gate(gate, words) for gate in plan.gates if gate.before == step]
            rows.append(
                {"kind": "coat", "cells": _coat(layer, coat, words), "matt": _asks(layer, coat, words)}
            )
    rows += [
        _gate(gate, words)
        for gate in plan.gates
        if gate.before.split(".")[0] not in {"ground", "effect", "clear"} and "clear" in names
    ]
    return rows


def _gate(gate: Gate, words: Words) -> dict[str, object]:
    """One check."""
    return {"kind": "gate", "name": gate_name(gate, words), "ask": [words(one) for one in gate.ask]}


def _asks(layer: Layer, coat: Coat, words: Words) -> str:
    """What is ticked before the next coat; clear is never asked."""
    if layer.name == "clear":
        return ""
    return words.say("card-gloss-gone" if coat.wet_next else "day-matt")


def _fill(coat: Coat) -> str:
    """What the cup weighs at the start."""
    if coat.fill_g is not None:
        return f"{coat.fill_g:.0f}"
    return f"{coat.sections[0].cup_g_after + coat.sections[0].sprayed_g:.0f}" if coat.sections else "-"


def _coat(layer: Layer, coat: Coat, words: Words) -> list[str]:
    """Coat, passes, time, fill, paint, flash."""
    flash = coat.flash_s
    return [
        card_coat(layer, coat, words),
        words.say(f"card-part.{coat.part}"),
        f"{coat.elapsed_s / 60:.1f}",
        _fill(coat),
        f"{coat.sprayed_g:.0f}",
        words.say("card-minutes", flash_s=flash.value, low_s=flash.low, high_s=flash.high),
    ]


def card_coat(layer: Layer, coat: Coat, words: Words) -> str:
    """Layer and coat in few words."""
    if coat.part == "drop":
        return words.say("layer-drop", short_layer=layer.name)
    return words.say("layer-coat", short_layer=layer.name, number=coat.number)


def clock_rows(plan: Plan, layers: tuple[Layer, ...], words: Words) -> list[str]:
    """Clocks with the limit and room for the hour."""
    names = {layer.name for layer in layers}
    rows = [
        clock_words(clock, words)
        for clock in plan.clocks
        if not clock_layer(clock) or clock_layer(clock) in names
    ]
    if plan.bake.verdict != "not needed" and "clear" in names:
        rows.append(words.say("card-metal", metal_c=plan.bake.metal_c, hold_s=plan.bake.hold_s))
    return rows


def limits_text(plan: Plan, words: Words) -> str:
    """Say in which air the plan is good."""
    limits = plan.limits_of_use
    return words.say(
        "card-limits",
        low_c=limits.temperature_low_c,
        high_c=limits.temperature_high_c,
        rh_low=limits.rh_low,
        rh_high=limits.rh_high,
    )


def lost_letters(texts: list[str]) -> list[str]:
    """Letters of the texts that the typeface lacks."""
    found = {old for text in texts for old, new in zip(text, readable(text), strict=True) if old != new}
    return [f"U+{ord(letter):04X}" for letter in sorted(found)]
