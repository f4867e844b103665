"""Every step on one clock: spraying, flashing, cooling, clear, bake."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

from laydown.planning.document.coats import LAYERS
from laydown.planning.document.joins import spread_of
from laydown.planning.layers.layer import CoatResult, LayerResult
from laydown.planning.layers.open_time import LONGEST_S
from laydown.planning.process.air import BLOW_WARM_C
from laydown.planning.process.bake import BakeTimes
from laydown.planning.process.drying import Cooling
from laydown.planning.process.process import Layered
from laydown.planning.setup.setup import Setup
from laydown.schema.clock import ClockLimit, Gate, Step
from laydown.schema.coat import Layer
from laydown.schema.message import Name, Saying, message
from laydown.schema.product import LayerName
from laydown.schema.supplies import Mix

GROUND_GATE = Gate(
    "ground released",
    "effect.1.spray",
    tuple(map(message, ("ask.matt-edges-too", "ask.hiding-card", "ask.even-and-clean"))),
)
"""Asked before the effect coat goes on."""

EFFECT_GATE = Gate(
    "effect released",
    "clear.1.spray",
    tuple(map(message, ("ask.matt-water-out", "ask.even-from-three-sides", "ask.panel-matches"))),
)
"""Asked before the clear goes on."""

BAKE_GATE = Gate(
    "car released",
    "polish",
    tuple(map(message, ("ask.cooled-through", "ask.seen-in-daylight", "ask.panel-filed"))),
)
"""Asked before the car leaves."""


def gates_of(layers: Sequence[Layer]) -> tuple[Gate, ...]:
    """Return the checks before steps that cannot be taken back.

    Source: Common practice, no source.
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
    setup: Setup, mixes: Sequence[Mix], layers: dict[LayerName, LayerResult], bake: BakeTimes
) -> tuple[ClockLimit, ...]:
    """Return the clocks that run out."""
    found = [
        ClockLimit(
            "pot_life",
            f"mix.{mix.layer}",
            mix.pot_life_s,
            message("source.sheet-at-booth", product=Name(mix.product)),
        )
        for mix in mixes
        if mix.pot_life_s is not None
    ]
    for name in ("ground", "effect"):
        if name in layers:
            product = setup.paints[name].product
            last = layers[name].coats[-1].number
            known = product.recoat_max_s is not None
            source = (
                message("source.sheet", product=Name(product.key))
                if known
                else message("source.ask-not-on-sheet")
            )
            found.append(ClockLimit("recoat_max", f"{name}.{last}.spray", product.recoat_max_s, source))
    if "clear" in layers:
        last = layers["clear"].coats[-1].number
        found.append(
            ClockLimit(
                "clearance",
                f"clear.{last}.spray",
                None,
                message("source.own-clearing-time"),
            )
        )
        found.append(ClockLimit("polish_from", "bake", bake.polish_s, message("source.practice-or-sheet")))
    return tuple(found)


PREPARE_S = 600.0
"""Blowing off, tack cloth, last look [s]; common practice, no source."""

MIX_S = 300.0
"""Weighing and straining one mix [s]; common practice, no source."""

RELEASE_S = 120.0
"""Looking at a layer before the next [s]; common practice, no source."""

BEFORE_BAKE_S = 600.0
"""Flash after the last clear coat before the heat goes on [s]; common practice, no source (0 to 10 min)."""

WAITS = frozenset({"flash", "cool", "dehydrate", "bake"})
"""Steps during which a painter's hands are free; definition."""

HANDS_OF_ONE = frozenset({"prepare", "release"})
"""Steps that need one person, so that a second may mix meanwhile; common practice, no source."""

SPRAY_SHARE = 0.15
"""Middle 90 % of a coat's time to either side, as a share; assumption."""

OTHER_SHARE = 0.25
"""Middle 90 % of the other hand work to either side, as a share; assumption."""


@dataclass(slots=True)
class _Line:
    """The booth's clock while the steps are laid out."""

    now_s: float = 0.0
    low_square: float = 0.0
    high_square: float = 0.0
    steps: list[Step] = field(default_factory=list)
    beside: list[Step] = field(default_factory=list)

    def add(
        self,
        name: tuple[str, str],
        length: tuple[float, float, float],
        text: Saying,
        layer: LayerName | None,
        coat: int | None,
        where: str = "booth",
    ) -> None:
        """Put a step after the last one on the clock; its spread adds to that of all before it."""
        step_id, kind = name
        value, low, high = length
        start = self.now_s
        self.now_s += value
        self.low_square += (value - low) ** 2
        self.high_square += (high - value) ** 2
        needs = (self.steps[-1].id,) if self.steps else ()
        if kind == "spray" and coat == 1:
            needs = tuple(dict.fromkeys((*needs, f"mix.{layer}")))
        self.steps.append(
            Step(
                step_id,
                kind,  # type: ignore[arg-type]
                layer,
                coat,
                start,
                self.now_s,
                max(start, self.now_s - math.sqrt(self.low_square)),
                self.now_s + math.sqrt(self.high_square),
                needs,
                where,  # type: ignore[arg-type]
                text,
            )
        )

    def mix(self, layer: LayerName, painters: int) -> None:
        """Put a mix beside the last wait that is long enough for it; where there is none, everybody waits for it."""
        free = WAITS if painters == 1 else WAITS | HANDS_OF_ONE
        text = message("step.mix", layer=layer)
        end = self.now_s
        for step in reversed(self.steps):
            if step.kind not in free:
                end = step.start_s
            elif end - step.start_s >= MIX_S:
                self.beside.append(_mix_step(layer, end, text))
                return
            if step.kind == "spray" and step.coat == 1:
                break  # A layer is mixed once the one before it is begun, so that the mix stands for no longer.
        self.add((f"mix.{layer}", "mix"), _around(MIX_S, OTHER_SHARE), text, layer, None, "mixing room")


def _mix_step(layer: LayerName, end_s: float, text: Saying) -> Step:
    """A mix that is ready at a time, made beside the booth."""
    start = end_s - MIX_S
    low, high = start + (1.0 - OTHER_SHARE) * MIX_S, start + (1.0 + OTHER_SHARE) * MIX_S
    return Step(f"mix.{layer}", "mix", layer, None, start, end_s, low, high, (), "mixing room", text)


def _around(value: float, share: float) -> tuple[float, float, float]:
    """A length with a share to either side."""
    return value, value * (1.0 - share), value * (1.0 + share)


def _coat(
    line: _Line, layer: LayerName, coat: CoatResult, length: tuple[float, float, float], text: Saying
) -> None:
    """Spray one coat, then flash."""
    name = f"{layer}.{coat.number}"
    spray = _around(coat.planned.made.total_s, SPRAY_SHARE)
    said = message("numbered-coat", layer=layer, number=coat.number)
    line.add((f"{name}.spray", "spray"), spray, said, layer, coat.number)
    line.add((f"{name}.flash", "flash"), length, text, layer, coat.number)


def _colour_layer(line: _Line, layer: LayerName, result: LayerResult) -> None:
    """Spray and flash of every coat of a layer."""
    for coat in result.coats:
        text = "step.flash-to-gloss-gone" if coat.wet_next else "step.flash-to-matt"
        _coat(line, layer, coat, _flash(coat, result), message(text))


def _flash(coat: CoatResult, result: LayerResult) -> tuple[float, float, float]:
    """Flash after a coat with its range."""
    flash = spread_of(min(coat.flash_s, LONGEST_S), result.conditions.flash_ln_sd)
    return flash.value, flash.low, flash.high


def timeline_of(process: Layered, bake: BakeTimes) -> tuple[Step, ...]:
    """Return every step on one clock.

    Source: Hand times: common practice, no source.
    """
    line = _Line()
    painters = next((one.task.crew.painters for one in process.layers.values()), 1)
    layers = process.layers
    first = next((name for name in LAYERS if name in layers), None)
    if first is not None and painters == 1:
        line.mix(first, painters)
    line.add(
        ("prepare", "prepare"),
        _around(PREPARE_S, OTHER_SHARE),
        message("step.prepare"),
        None,
        None,
    )
    if "ground" in layers:
        _mixed(line, "ground", painters)
        _ground(line, layers["ground"], process.cooling)
    if "effect" in layers:
        _mixed(line, "effect", painters)
        _effect(line, layers["effect"], process.dehydrate_s)
    if "clear" in layers:
        _mixed(line, "clear", painters)
        _clear(line, layers["clear"], bake)
    return tuple(sorted([*line.steps, *line.beside], key=lambda step: (step.start_s, step.id)))


def _ground(line: _Line, result: LayerResult, cooling: Cooling | None) -> None:
    """Ground coats, drying by the sheet, the look at them, cooling."""
    _colour_layer(line, "ground", result)
    if cooling is not None and cooling.dry_s > 0.0:
        length = _around(cooling.dry_s, 0.2)
        line.add(("ground.bake", "bake"), length, message("step.dry-by-sheet"), "ground", None)
    length = _around(RELEASE_S, OTHER_SHARE)
    line.add(("ground.release", "release"), length, message("step.ground-released"), "ground", None)
    if cooling is not None and cooling.cool_s:
        line.add(("ground.cool", "cool"), _around(cooling.cool_s, 0.4), cooling.text, "ground", None)


def _effect(line: _Line, result: LayerResult, dehydrate_s: float) -> None:
    """Effect coats, blowing until they are dry, the look at them."""
    _colour_layer(line, "effect", result)
    rest = max(0.0, min(dehydrate_s, LONGEST_S) - min(result.coats[-1].flash_s, LONGEST_S))
    if rest > 0.0:
        said = message("step.dehydrate", blower_c=BLOW_WARM_C)
        line.add(("effect.dehydrate", "dehydrate"), _around(rest, 0.4), said, "effect", None)
    length = _around(RELEASE_S, OTHER_SHARE)
    line.add(("effect.release", "release"), length, message("step.effect-released"), "effect", None)


def _mixed(line: _Line, layer: LayerName, painters: int) -> None:
    """Mix a layer unless that was done before preparing."""
    if all(step.id != f"mix.{layer}" for step in line.steps):
        line.mix(layer, painters)


def _clear(line: _Line, result: LayerResult, bake: BakeTimes) -> None:
    """Clear coats, bake, cooling, unmasking."""
    for coat in result.coats:
        last = coat is result.coats[-1]
        length = _around(BEFORE_BAKE_S, 0.5) if last else _flash(coat, result)
        _coat(line, "clear", coat, length, message("step.flash-by-sheet"))
    if bake.on_s is not None:
        line.add(("bake", "bake"), _around(bake.on_s, 0.15), bake.text, "clear", None)
    if bake.handle_s is not None:
        line.add(
            ("bake.cool", "cool"), _around(bake.handle_s, 0.3), message("step.cool-to-handle"), "clear", None
        )
    line.add(("unmask", "unmask"), _around(900.0, OTHER_SHARE), message("step.unmask"), None, None)
    if bake.polish_s is not None:
        start = line.steps[-1].end_s
        more = max(0.0, bake.polish_s - (bake.handle_s or 0.0) - 900.0)
        line.steps.append(
            Step(
                "polish",
                "polish",
                None,
                None,
                start + more,
                start + more,
                start + more,
                start + more * 1.3 + 60.0,
                ("unmask",),
                "outside",
                message("step.polish"),
            )
        )
