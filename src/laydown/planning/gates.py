"""Gates before steps that cannot be taken back, and the clocks that run out."""

from collections.abc import Sequence

from laydown.planning.bake_nouns import BakeTimes
from laydown.planning.layers import LayerResult
from laydown.planning.setup import Setup
from laydown.schema.clock import ClockLimit, Gate
from laydown.schema.coat import Layer
from laydown.schema.product import Kind
from laydown.schema.supplies import Mix

GROUND_GATE = Gate(
    "ground released",
    "effect.1.spray",
    (
        "matt everywhere, edges and recesses too",
        "hiding card: black and white look the same",
        "even and clean",
    ),
)
"""Asked before the effect coat goes on."""

EFFECT_GATE = Gate(
    "effect released",
    "clear.1.spray",
    (
        "matt everywhere, water and co-solvent out",
        "even from three sides",
        "the let-down panel held to it matches",
    ),
)
"""Asked before the clear goes on."""

BAKE_GATE = Gate(
    "car released", "polish", ("cooled through", "film and colour seen in daylight", "let-down panel filed")
)
"""Asked before the car leaves."""


def gates_of(layers: Sequence[Layer]) -> tuple[Gate, ...]:
    """Return the checks before steps that cannot be taken back.

    Parameters
    ----------
    layers
        Planned layers.

    Returns
    -------
    Gates in order.

    Sources
    -------
    Common practice, no source.
    """
    names = {layer.name for layer in layers}
    return tuple(
        gate
        for gate, wanted in (
            (GROUND_GATE, {"ground", "effect"} <= names),
            (EFFECT_GATE, {"effect", "clear"} <= names),
            (BAKE_GATE, "clear" in names),
        )
        if wanted
    )


def clocks_of(
    setup: Setup, mixes: Sequence[Mix], layers: dict[Kind, LayerResult], bake: BakeTimes
) -> tuple[ClockLimit, ...]:
    """Return the clocks that run out.

    Parameters
    ----------
    setup
        The sheets.
    mixes
        What is mixed.
    layers
        Planned layers.
    bake
        The clock after the bake.

    Returns
    -------
    Clocks with the step that starts them; a limit nobody gave is None and said so.

    Sources
    -------
    The sheets.
    """
    found = [
        ClockLimit(
            "pot_life",
            f"mix.{mix.layer}",
            mix.pot_life_s,
            f"sheet of {mix.product}, moved to the booth's temperature",
        )
        for mix in mixes
        if mix.pot_life_s is not None
    ]
    for name in ("ground", "effect"):
        if name in layers:
            product = setup.paints[name].product
            last = layers[name].coats[-1].number
            source = (
                f"sheet of {product.key}" if product.recoat_max_s is not None else "not on the sheet: ask"
            )
            found.append(ClockLimit("recoat_max", f"{name}.{last}.spray", product.recoat_max_s, source))
    if "clear" in layers:
        last = layers["clear"].coats[-1].number
        found.append(
            ClockLimit(
                "clearance",
                f"clear.{last}.spray",
                None,
                "your booth's own measured clearing time: not known here",
            )
        )
        found.append(
            ClockLimit("polish_from", "bake", bake.polish_s, "common practice, no source; the sheet wins")
        )
    return tuple(found)
