"""How the gun is held, in words: overlap, distance, hand speed and pressure of each pass."""

from laydown.schema.clock import ClockLimit
from laydown.schema.coat import Coat, Pass
from laydown.unit_table import FOOT_M
from laydown.units import System, show
from laydown.words.numbers import duration, pace_text

_NEXT = {"ground": "effect", "effect": "clear", "clear": "next"}
_WORDS = {
    "pot_life": "{layer} mix: pot life {limit}, use by",
    "recoat_max": "{next} over {layer}: {limit}, by",
    "clearance": "booth clear: {limit}, at",
    "polish_from": "polish from: {limit}, at",
}
_TOLD = {
    "pot_life": "{layer} mix: use within {limit} of mixing",
    "recoat_max": "{next} over {layer}: within {limit}",
    "clearance": "booth clear: {limit} after the last stroke",
    "polish_from": "polish: from {limit} after the bake",
}
_ASK = {
    "pot_life": "{layer} mix: pot life not known",
    "recoat_max": "{next} over {layer}: latest time not known",
    "clearance": "booth clear: time not known",
    "polish_from": "polish: earliest time not known",
}


def clock_layer(clock: ClockLimit) -> str:
    """Layer a clock belongs to.

    Parameters
    ----------
    clock
        The clock.

    Returns
    -------
    "ground", "effect", "clear" or nothing.
    """
    return next((part for part in clock.starts.split(".") if part in {"ground", "effect", "clear"}), "")


def clock_words(clock: ClockLimit, system: System) -> str:
    """Say a clock before a blank for the hour.

    Parameters
    ----------
    clock
        The clock.
    system
        How figures are shown.

    Returns
    -------
    Such as "clear mix: pot life 1 h, use by".
    """
    limit = "ask" if clock.limit_s is None else duration(clock.limit_s, system)
    return _filled(_WORDS[clock.kind], clock, limit)


def clock_text(clock: ClockLimit, system: System) -> str:
    """Say a clock in a sentence, with its source.

    Parameters
    ----------
    clock
        The clock.
    system
        How figures are shown.

    Returns
    -------
    Such as "clear over effect: within 24 h (sheet of effect-a)".
    """
    if clock.limit_s is None:
        return f"{_filled(_ASK[clock.kind], clock, '')} ({clock.source})"
    return f"{_filled(_TOLD[clock.kind], clock, duration(clock.limit_s, system))} ({clock.source})"


def _filled(words: str, clock: ClockLimit, limit: str) -> str:
    """Words with layer and limit in their places."""
    layer = clock_layer(clock)
    return words.format(layer=layer or "job", limit=limit, next=_NEXT.get(layer, "next"))


def gun_text(coats: tuple[Coat, ...], system: System) -> str:
    """Say how the gun is held in each pass.

    Parameters
    ----------
    coats
        Coats of a layer.
    system
        How figures are shown.

    Returns
    -------
    Such as "closed pass 70 % overlap, 18 cm, 1.4 s per m | light pass 65 % overlap, 22 cm, 1.1 s per m | pressure as
    the sheet"; settings that differ from coat to coat stand one after another.
    """
    held = dict.fromkeys(
        f"{'light' if row.name == 'control' else row.name} pass {show(row.overlap, 'overlap', system)} overlap, "
        f"{distance_text(row, system)}, {pace_text(row.seconds_per_m, system)}"
        for coat in coats
        for row in coat.passes
    )
    pressures = dict.fromkeys(pressure_text(row, system) for coat in coats for row in coat.passes)
    return " | ".join([*held, *(f"pressure {text}" for text in pressures)])


def distance_text(held: Pass, system: System) -> str:
    """Say the distance of the gun.

    Parameters
    ----------
    held
        The pass.
    system
        How figures are shown.

    Returns
    -------
    Whole centimetres, or inches and tenths.
    """
    if system == "metric":
        return f"{held.distance_m * 100:.0f} cm"
    return f"{round(held.distance_m * float(12 / FOOT_M), 1):g} in"


def pressure_text(held: Pass, system: System) -> str:
    """Say the pressure of a pass.

    Parameters
    ----------
    held
        The pass.
    system
        How figures are shown.

    Returns
    -------
    The pressure, or "as the sheet" where nobody named one.
    """
    return "as the sheet" if held.pressure_bar is None else show(held.pressure_bar, "pressure_bar", system)
