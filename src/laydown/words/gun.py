"""How the gun is held, in words: overlap, distance, hand speed and pressure of each pass."""

from laydown.schema.clock import ClockLimit
from laydown.schema.coat import Coat, Pass
from laydown.schema.message import Message, Name, message
from laydown.unit_table import FOOT_M
from laydown.words.numbers import duration
from laydown.words.show import Words

_NEXT = {"ground": "effect", "effect": "clear"}


def clock_layer(clock: ClockLimit) -> str:
    """Layer a clock belongs to."""
    return next((part for part in clock.starts.split(".") if part in {"ground", "effect", "clear"}), "")


def clock_words(clock: ClockLimit, words: Words) -> str:
    """Say a clock before a blank for the hour."""
    limit = message("clock-ask") if clock.limit_s is None else Name(duration(clock.limit_s, words))
    return words.say(f"clock-blank.{clock.kind}", **_layers(clock), limit=limit)


def clock_text(clock: ClockLimit, words: Words) -> str:
    """Say a clock in a sentence, with its source."""
    source = clock.source if isinstance(clock.source, Message) else Name(clock.source)
    if clock.limit_s is None:
        return words.say(f"clock-unknown.{clock.kind}", **_layers(clock), source=source)
    limit = Name(duration(clock.limit_s, words))
    return words.say(f"clock-known.{clock.kind}", **_layers(clock), limit=limit, source=source)


def _layers(clock: ClockLimit) -> dict[str, str]:
    """Layer of a clock and the one after it."""
    layer = clock_layer(clock)
    return {"short_layer": layer or "job", "next_layer": _NEXT.get(layer, "next")}


def gun_text(coats: tuple[Coat, ...], words: Words) -> str:
    """Say how the gun is held in each pass."""
    held = dict.fromkeys(
        words.say(
            "gun-pass.full" if row.name == "full" else "gun-pass.light",
            overlap=row.overlap,
            distance=Name(distance_text(row, words)),
            pace_s_m=row.seconds_per_m,
        )
        for coat in coats
        for row in coat.passes
    )
    pressures = dict.fromkeys(_pressure(row, words) for coat in coats for row in coat.passes)
    return " | ".join([*held, *pressures])


def distance_text(held: Pass, words: Words) -> str:
    """Say the distance of the gun."""
    if words.system == "metric":
        return f"{held.distance_m * 100:.0f} cm"
    return f"{round(held.distance_m * float(12 / FOOT_M), 1):g} in"


def _pressure(held: Pass, words: Words) -> str:
    """Say the pressure of a pass."""
    if held.pressure_bar is None:
        return words.say("gun-pressure-sheet")
    return words.say("gun-pressure", pressure_bar=held.pressure_bar)
