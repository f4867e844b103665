"""Safety words by key, and which of them a plan must show.

Sources: public guidance on spraying isocyanate paint, named at `cautions`.
"""

from dataclasses import dataclass

from laydown.schema.limits import Region
from laydown.schema.message import Message, message
from laydown.schema.plan import Caution
from laydown.trade.regions import breathing

_FED_AIR = "S01"

FIRST_SCREEN = ("S01", "S02", "S06", "S07")
"""Shown on the card and the first screen; the others stand behind "safety" and at their gate."""

CAUTION_KEYS = tuple(f"S{number:02d}" for number in range(1, 15))
"""Every key, in order."""


@dataclass(frozen=True, slots=True)
class Occasion:
    """What a plan does that calls for cautions.

    Attributes
    ----------
    hardener, clear
        Whether a mix holds hardener, and whether clear is sprayed.
    bake, blowers
        Whether the car is baked, and whether blowers are used.
    trainee
        Whether all of them are wanted, as for a trainee.
    """

    hardener: bool
    clear: bool
    bake: bool
    blowers: bool
    trainee: bool = False


def caution_keys(occasion: Occasion) -> tuple[str, ...]:
    """Return the keys of the cautions a plan must show, in order.

    Parameters
    ----------
    occasion
        What the plan does.

    Notes
    -----
    Fed air, visor, clearing time and health belong to hardened mixes and to clear; blowing and baking to
    their own steps; the rest to every job.
    """
    isocyanate = occasion.hardener or occasion.clear
    wanted = {
        "S01": isocyanate,
        "S02": isocyanate,
        "S03": isocyanate,
        "S05": isocyanate,
        "S10": occasion.blowers,
        "S11": occasion.bake,
    }
    return tuple(key for key in CAUTION_KEYS if occasion.trainee or wanted.get(key, True))


def cautions(keys: tuple[str, ...], region: Region = "none") -> tuple[Caution, ...]:
    """Return the words of cautions.

    Parameters
    ----------
    keys
        As caution_keys gives them.
    region
        What the shop has switched on; it only changes the name of the breathing protection.

    Raises
    ------
    KeyError
        If a key is unknown.

    Sources
    -------
    Own words after public guidance of the British health and safety authority on spraying isocyanate
    paint (filter masks unsuitable, visor lifted too early, clearing time) and common practice.
    """
    unknown = [key for key in keys if key not in CAUTION_KEYS]
    if unknown:
        raise KeyError(unknown[0])
    return tuple(Caution(key, message(f"caution.{key.lower()}.title"), _text(key, region)) for key in keys)


def _text(key: str, region: Region) -> Message:
    """The words of one caution; fed air is named as the region names it."""
    if key == _FED_AIR:
        return message("caution.s01.text", breathing=breathing(region))
    return message(f"caution.{key.lower()}.text")
