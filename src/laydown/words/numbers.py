"""Words and numbers that the plain texts share."""

from collections.abc import Callable, Sequence
from math import ceil

from laydown.schema.clock import Gate
from laydown.schema.figure import Spread
from laydown.schema.message import Name
from laydown.schema.plan import Caution, Plan
from laydown.words.show import ENGLISH, Words

MARKS = {"wet": "=", "tight": "-", "dry": "Z"}
"""Mark of a join's state; the word always stands beside it."""

_GATES = {"ground released": "gate.ground", "effect released": "gate.effect", "car released": "gate.car"}


def spread_text(spread: Spread, words: Words = ENGLISH) -> str:
    """Write seconds with their interval."""
    value, low, high = round(spread.value), round(spread.low), round(spread.high)
    if low >= 0:
        return words.say("spread", value_s=value, low_s=low, high_s=high)
    return words.say("spread-signed", value_s=value, low_s=low, high_s=high)


def people_text(plan: Plan, words: Words = ENGLISH) -> str:
    """Name who sprays."""
    name, count = plan.inputs.painter.strip(), plan.inputs.painters
    return (
        words.say("painters-named", count=count, name=Name(name))
        if name
        else words.say("painters", count=count)
    )


def plural(coats: float) -> int:
    """Return the whole number that bends a sentence as this number of coats does."""
    return 1 if coats == 1 else max(2, ceil(coats))


def minutes(seconds: float) -> str:
    """Write elapsed time as hours and minutes."""
    whole = round(seconds / 60)
    return f"{whole // 60}:{whole % 60:02d}"


def water_text(share: float, words: Words) -> str:
    """Write how much water goes in."""
    return words.say("with-water", water=share) if share else words.say("no-water")


def names_that_fit(names: Sequence[str], fits: Callable[[str], bool]) -> str:
    """Name as many panels as there is room for, and how many are left out."""
    for count in range(len(names), 0, -1):
        rest = len(names) - count
        text = ", ".join(names[:count]) + (f" +{rest}" if rest else "")
        if fits(text):
            return text
    return f"{names[0]} +{len(names) - 1}" if len(names) > 1 else "".join(names)


def duration(seconds: float, words: Words) -> str:
    """Write a limit without seconds that nobody keeps."""
    return words.amount(seconds - seconds % 60 if seconds >= 600 else seconds, "limit_s")


def place_words(feature: str) -> str:
    """Write the label of a place for people."""
    return feature.replace("|", " / ")


def gate_name(gate: Gate, words: Words) -> str:
    """Name a check; one that a file brought keeps its own name."""
    return words.say(_GATES[gate.id]) if gate.id in _GATES else gate.id


def caution_text(caution: Caution, words: Words) -> str:
    """Write a caution behind its title."""
    return words.say("caution", title=caution.title, text=caution.text)
