"""What a side picture is about: one coat of one layer of a plan, in a frame."""

from dataclasses import dataclass

from laydown.report.frame import Frame
from laydown.report.style import Tones
from laydown.schema.coat import Coat, Layer
from laydown.schema.panel import Extent
from laydown.schema.plan import Plan, PlannedPanel
from laydown.units import System


@dataclass(frozen=True, slots=True)
class Scene:
    """One coat in its frame.

    Attributes
    ----------
    plan, layer, coat
        What is shown.
    frame, palette
        Where, and in which tones.
    prefix
        Begins every id of the picture.
    signs
        Size of signs and plates; 1 on a screen.
    system
        How figures are shown.
    """

    plan: Plan
    layer: Layer
    coat: Coat
    frame: Frame
    palette: Tones
    prefix: str
    signs: float = 1.0
    system: System = "metric"


def layer_named(plan: Plan, name: str) -> Layer:
    """Find a layer of a plan.

    Parameters
    ----------
    plan
        The plan.
    name
        "ground", "effect" or "clear".

    Returns
    -------
    The layer.

    Raises
    ------
    ValueError
        When the plan has no such layer.
    """
    for layer in plan.layers:
        if layer.name == name:
            return layer
    raise ValueError(f"layer must be one of {', '.join(layer.name for layer in plan.layers)}; got {name!r}")


def coat_numbered(layer: Layer, number: int) -> Coat:
    """Find a coat of a layer.

    Parameters
    ----------
    layer
        The layer.
    number
        Number of the coat, from 1.

    Returns
    -------
    The coat.

    Raises
    ------
    ValueError
        When the layer has no such coat.
    """
    for coat in layer.coats:
        if coat.number == number:
            return coat
    raise ValueError(f"coat must be one of {[coat.number for coat in layer.coats]}; got {number}")


def extent_of(panel: PlannedPanel, layer: str) -> Extent:
    """How far a layer reaches on a panel.

    Parameters
    ----------
    panel
        A planned panel.
    layer
        "ground", "effect" or "clear".

    Returns
    -------
    "full", "fade" or "none".
    """
    return {"ground": panel.ground, "effect": panel.effect, "clear": panel.clear}[layer]


def coat_name(coat: Coat) -> str:
    """Name of a coat as the painter says it.

    Parameters
    ----------
    coat
        The coat.

    Returns
    -------
    "coat 2" or "control coat".
    """
    return "control coat" if coat.part == "control" else f"coat {coat.number}"
