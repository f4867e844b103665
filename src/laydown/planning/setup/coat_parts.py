"""What a number of coats consists of, and what undercoat a ground coat must hide."""

from dataclasses import dataclass

from laydown.schema.choices import PanelWork
from laydown.schema.coat import Part
from laydown.schema.message import Message, Name, message

_LIGHTNESS = {"white": 92.0, "light grey": 76.0, "dark grey": 45.0, "black": 25.0}
"""CIE L* of undercoats in words; common practice, no source."""

UNKNOWN_LIGHTNESS = 70.0
"""CIE L* taken where the job names no undercoat; common practice, no source."""


@dataclass(frozen=True, slots=True)
class CoatPlan:
    """One coat: what it consists of, for how many coats it counts, and its share of pigment."""

    part: Part
    counts: float
    strength: float = 1.0


def undercoat_of(panel: PanelWork) -> tuple[float, float, float, Message]:
    """Return CIE L* of the undercoat, its low and high end, and where it comes from.

    Source: The job; words and the unknown case: common practice, no source.
    """
    if panel.undercoat_lightness is not None:
        figure = panel.undercoat_lightness
        low = figure.low if figure.low is not None else figure.value
        high = figure.high if figure.high is not None else figure.value
        return figure.value, low, high, message("source.as-given", source=Name(figure.source))
    if panel.undercoat is not None:
        value = _LIGHTNESS[panel.undercoat]
        word = message("source.word", word=Name(panel.undercoat))
        return value, value - 8.0, min(100.0, value + 5.0), word
    return UNKNOWN_LIGHTNESS, 45.0, 85.0, message("source.middle-grey")


def composition(coats: float, layer: str) -> tuple[CoatPlan, ...]:
    """Return what a number of coats consists of.

    Source: Common practice, no source.
    """
    if layer == "clear":
        return tuple(CoatPlan("full", 1.0) for _ in range(max(1, round(coats))))
    halves = max(1, round(coats * 2.0))
    both, rest = divmod(halves, 3)
    if halves == 1:
        return (CoatPlan("light", 0.5),)
    if rest == 1 and layer == "ground":
        both, full, light = both - 1, 2, 0
    else:
        full, light = (1, 0) if rest == 2 else (0, rest)
    return (
        *(CoatPlan("full_light", 1.5) for _ in range(both)),
        *(CoatPlan("full", 1.0) for _ in range(full)),
        *(CoatPlan("light", 0.5) for _ in range(light)),
    )
