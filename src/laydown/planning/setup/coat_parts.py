"""What a number of coats consists of, and what undercoat a ground coat must hide."""

from dataclasses import dataclass

from laydown.schema.choices import PanelWork
from laydown.schema.coat import Part

_LIGHTNESS = {"white": 92.0, "light grey": 76.0, "dark grey": 45.0, "black": 25.0}
"""CIE L* of undercoats in words; common practice, no source."""

UNKNOWN_LIGHTNESS = 70.0
"""CIE L* taken where the job names no undercoat; common practice, no source."""


@dataclass(frozen=True, slots=True)
class CoatPlan:
    """One coat: what it consists of, for how many coats it counts, and its share of pigment.

    Attributes
    ----------
    part, counts
        What it consists of, and for how many coats it counts.
    strength
        Share of pigment against the mix as ordered, above 0 to 1; half for a half-strength coat.
    """

    part: Part
    counts: float
    strength: float = 1.0


def undercoat_of(panel: PanelWork) -> tuple[float, float, float, str]:
    """Return CIE L* of the undercoat, its low and high end, and where it comes from.

    Parameters
    ----------
    panel
        The panel.

    Returns
    -------
    L*, low, high, source.

    Sources
    -------
    The job; words and the unknown case: common practice, no source.
    """
    if panel.undercoat_lightness is not None:
        figure = panel.undercoat_lightness
        low = figure.low if figure.low is not None else figure.value
        high = figure.high if figure.high is not None else figure.value
        return figure.value, low, high, figure.source
    if panel.undercoat is not None:
        value = _LIGHTNESS[panel.undercoat]
        return value, value - 8.0, min(100.0, value + 5.0), f"the word {panel.undercoat}"
    return UNKNOWN_LIGHTNESS, 45.0, 85.0, "not given: taken as a middle grey"


def composition(coats: float, layer: str) -> tuple[CoatPlan, ...]:
    """Return what a number of coats consists of.

    Parameters
    ----------
    coats
        Coats in halves, at least 0.5.
    layer
        "ground", "effect" or "clear".

    Returns
    -------
    Coats in order. Closed and light together are a coat and a half; a further closed coat counts for one; on the
    effect coat a light one, wet on wet, for a half.

    Sources
    -------
    Common practice, no source.
    """
    if layer == "clear":
        return tuple(CoatPlan("closed", 1.0) for _ in range(max(1, round(coats))))
    halves = max(1, round(coats * 2.0))
    fulls, rest = divmod(halves, 3)
    if halves == 1:
        return (CoatPlan("light", 0.5),)
    if rest == 1 and layer == "ground":
        fulls, closed, light = fulls - 1, 2, 0
    else:
        closed, light = (1, 0) if rest == 2 else (0, rest)
    return (
        *(CoatPlan("full", 1.5) for _ in range(fulls)),
        *(CoatPlan("closed", 1.0) for _ in range(closed)),
        *(CoatPlan("light", 0.5) for _ in range(light)),
    )
