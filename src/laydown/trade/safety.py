"""Safety words by key, and which of them a plan must show.

Sources: public guidance on spraying isocyanate paint, named at `cautions`.
"""

from dataclasses import dataclass

from laydown.schema.limits import Region
from laydown.schema.plan import Caution
from laydown.trade.regions import breathing_words

FIRST_SCREEN = ("S01", "S02", "S06", "S07")
"""Shown on the card and the first screen; the others stand behind "safety" and at their gate."""

_TEXTS: dict[str, tuple[str, str]] = {
    "S01": (
        "Breathe fed air",
        (
            "Hardener in the mix, or any clear: wear {breathing}, fed with clean breathing air, flow indicator in "
            "the green. A filter mask neither warns of isocyanate mist nor holds it back well enough."
        ),
    ),
    "S02": (
        "Visor stays down",
        (
            "Keep the visor down until you are outside or the booth's clearing time has passed. The finest mist "
            "cannot be seen. Look at the work afterwards."
        ),
    ),
    "S03": (
        "Clearing time",
        (
            "Use the clearing time measured for your own booth. laydown counts it from the last trigger; without "
            "a number it says: unknown, stay air-fed."
        ),
    ),
    "S04": (
        "Skin and eyes",
        "Gloves that suit the product, overalls, no bare wrists. Hardener on the skin comes off at once.",
    ),
    "S05": (
        "Health",
        (
            "Wheezing, a tight chest or a rash, even hours later or at night: stop spraying, tell your employer, see "
            "a doctor. There are health checks and urine tests for sprayers; ask for them."
        ),
    ),
    "S06": (
        "No electronics inside",
        (
            "Tablet, phone, scale, lamp, fan and charger stay outside while anybody sprays, mixes solvent, or vapour "
            "is about, unless they are approved for that zone. Read the plan at the door or take the paper card."
        ),
    ),
    "S07": (
        "Airflow first",
        "Fan on and proven before the trigger, doors shut, filters in date. No air, no spraying.",
    ),
    "S08": (
        "Earth and static",
        (
            "Bond booth, car, drums and gun washer to earth; wear conductive shoes; do not wipe plastic dry while "
            "solvent stands open."
        ),
    ),
    "S09": (
        "Fire",
        (
            "No flame, spark or hot lamp; extinguisher within reach; sanding dust and soaked wipes into a closed metal "
            "bin. Waterborne paint still carries solvent, and clear burns."
        ),
    ),
    "S10": (
        "Blowers",
        (
            "Blow only once the film no longer runs, with clean filtered air, never on a bare solvent film or a hot "
            "surface. Rated equipment only; a blower is not a heater. Keep below the vehicle maker's temperature."
        ),
    ),
    "S11": (
        "Bake",
        (
            "Nobody inside; purge first. Fuel, battery, spray cans and gas bottles are dealt with as the vehicle maker "
            "says."
        ),
    ),
    "S12": (
        "Waste",
        (
            "Keep waterborne, solvent and hardener waste apart and vented. Never seal water with hardener, or water "
            "with metal flake: gas forms. Nothing goes down the drain; a licensed collector takes it."
        ),
    ),
    "S13": (
        "Compressed air",
        "Never on skin or clothes. Breathing air only from the breathing-air line.",
    ),
    "S14": (
        "What comes first",
        (
            "This program helps to plan. The data sheet, the safety data sheet, local law and your own risk assessment "
            "come first; where they differ from it, follow them."
        ),
    ),
}

CAUTION_KEYS = tuple(_TEXTS)
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
    return tuple(
        Caution(key, _TEXTS[key][0], _TEXTS[key][1].format(breathing=breathing_words(region))) for key in keys
    )
