"""What a side picture is about: one coat of one layer of a plan, in a frame."""

from dataclasses import dataclass

from laydown.report.frame import Frame
from laydown.report.style import SectionTones, Tones
from laydown.schema.coat import Coat, Layer, Section
from laydown.schema.panel import Extent
from laydown.schema.plan import Plan, PlannedPanel
from laydown.schema.side import SidePanel
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
    plain
        Whether it is a sketch too small for the way of the gun: order, start and joins only.
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
    plain: bool = False
    system: System = "metric"

    @property
    def tints(self) -> SectionTones:
        """Two fills of neighbouring sections, and the tone of the pattern on them, for this layer."""
        return self.palette.sections[self.layer.name]


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


def panels_of(scene: Scene, section: Section) -> tuple[SidePanel, ...]:
    """Painted panels that reach into a section, slivers too: nothing that is sprayed stays without a section.

    Parameters
    ----------
    scene
        What is shown.
    section
        One of its sections.

    Returns
    -------
    The panels of the side, in its order.
    """
    planned = {row.id: row for row in scene.plan.side.panels}
    return tuple(
        panel
        for panel in scene.plan.side.outline.panels
        if panel.id in planned
        and extent_of(planned[panel.id], scene.layer.name) != "none"
        and min(x for x, _ in panel.rings[0]) < section.x_to_m
        and max(x for x, _ in panel.rings[0]) > section.x_from_m
    )


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


def coat_parts(coat: Coat) -> str:
    """Say what is sprayed in a coat.

    Parameters
    ----------
    coat
        The coat.

    Returns
    -------
    Such as "closed pass" or "closed pass and light pass"; for the control coat "light pass".
    """
    return {
        "closed": "closed pass",
        "light": "light pass",
        "full": "closed pass and light pass",
        "control": "light pass",
    }[coat.part]
