"""What is done to a panel, and how far each layer reaches on it."""

from dataclasses import dataclass
from typing import Annotated, Literal

from laydown.schema.bounds import Within, Words
from laydown.schema.figure import Figure

Extent = Literal["full", "fade", "none"]
"""How far a layer reaches on a panel: all of it, fading out on it, or not at all."""

PanelState = Literal["new", "repaired", "sound"]
"""What was done to a panel before painting."""


@dataclass(frozen=True, slots=True)
class PanelWork:
    """What is done to one panel.

    Attributes
    ----------
    name
        Label or id of the panel on the side.
    state
        New, repaired or sound.
    undercoat_lightness
        CIE L* of what the ground coat must hide.
    undercoat
        The same in words.
    ground, effect, clear
        How far each layer reaches; left out = laydown proposes.
    """

    name: Annotated[str, Words(60)]
    state: PanelState = "sound"
    undercoat_lightness: Annotated[Figure, Within(0, 100, "CIE L*, 0 black to 100 white")] | None = None
    undercoat: Literal["white", "light grey", "dark grey", "black"] | None = None
    ground: Extent | None = None
    effect: Extent | None = None
    clear: Extent | None = None
