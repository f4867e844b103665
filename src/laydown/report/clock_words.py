"""Clocks in words: what runs out, and when."""

from laydown.report.text_words import duration
from laydown.schema.clock import ClockLimit
from laydown.units import System

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
