"""How far the layers reach: the nouns of a proposal, panel by panel."""

from collections.abc import Mapping
from dataclasses import dataclass

from laydown.schema.choices import Extent, PanelState
from laydown.schema.message import Finding, Saying
from laydown.schema.product import LayerName

LEAST_FADE_M = 0.61
"""Shortest fade of the effect coat of a three-stage colour [m]; procedure sheets of paint makers for three- and
four-stage colours, from memory: 24 inches."""

LONGEST_FADE_M = 0.90
"""A longer fade is not seen any better [m]; assumption."""


@dataclass(frozen=True, slots=True)
class Fade:
    """A fade on one panel.

    Attributes
    ----------
    away_from
        Id of the neighbour where the layer is still full.
    length_m
        Length to nothing on the developed skin [m].
    """

    away_from: str
    length_m: float


@dataclass(frozen=True, slots=True)
class PanelReach:
    """How far the layers reach on one panel.

    Attributes
    ----------
    panel, label
        Id and trade name of the panel.
    state
        New, repaired or sound.
    ground, effect, clear
        How far each layer reaches.
    fades
        For each fading layer the neighbours it fades away from.
    effect_given
        Whether the user set how far the effect coat reaches.
    proposed
        Whether laydown chose any of it.
    reason
        Why, in one or two sentences.
    """

    panel: str
    label: str
    state: PanelState
    ground: Extent
    effect: Extent
    clear: Extent
    fades: Mapping[LayerName, tuple[Fade, ...]]
    effect_given: bool
    proposed: bool
    reason: Saying

    def of(self, layer: LayerName) -> Extent:
        """Give how far one layer reaches."""
        return {"ground": self.ground, "effect": self.effect, "clear": self.clear}[layer]


@dataclass(frozen=True, slots=True)
class Extents:
    """All panels of a side, in its order, and what is to be feared.

    Attributes
    ----------
    panels
        One entry per panel, untouched ones too.
    findings
        What the proposal or the user's choice brings with it.
    """

    panels: tuple[PanelReach, ...]
    findings: tuple[Finding, ...]

    def of(self, layer: LayerName) -> dict[str, Extent]:
        """Give how far a layer reaches on each panel, by id."""
        return {reach.panel: reach.of(layer) for reach in self.panels}

    def fades_of(self, layer: LayerName) -> dict[str, tuple[Fade, ...]]:
        """Give the fades of a layer, by panel id."""
        return {reach.panel: reach.fades[layer] for reach in self.panels if layer in reach.fades}
