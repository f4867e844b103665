"""Patterns that name a layer: ground level lines, effect dots, clear slanted lines."""

from dataclasses import dataclass

from laydown.report.kit.style import SectionTones, Tones
from laydown.report.kit.svg import element
from laydown.report.kit.vehicle_frame import Frame
from laydown.schema.choices import Extent
from laydown.schema.coat import Coat, Layer, Section
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


_CELL_PX = 10.0


def layer_pattern(
    name: str, ident: str, tones: tuple[str, str], cell: float = _CELL_PX, top: float = 0
) -> str:
    """Write the pattern of a layer.

    Parameters
    ----------
    name
        "ground", "effect" or "clear".
    ident
        Id of the pattern.
    tones
        Colours of its ground and of its lines or dots.
    cell
        Edge of one repeat [px].
    top
        Where a repeat begins [px].

    Returns
    -------
    Markup for the defs.
    """
    fill, line = tones
    half, over = cell / 2, cell + 2
    shape = {
        "ground": element("path", d=f"M0,{half}H{cell}", stroke=line, stroke_width=1.3),
        "effect": element("circle", cx=half, cy=half, r=1.4, fill=line),
        "clear": element(
            "path",
            d=f"M-2,{over}L{over},-2M-2,2L2,-2M{cell - 2},{over}L{over},{cell - 2}",
            stroke=line,
            stroke_width=1.3,
        ),
    }[name]
    ground = element("rect", width=cell, height=cell, fill=fill)
    return element(
        "pattern", ground, shape, id=ident, y=top, width=cell, height=cell, patternUnits="userSpaceOnUse"
    )


def section_patterns(scene: Scene) -> str:
    """Write the two patterns that neighbouring sections take in turn.

    Parameters
    ----------
    scene
        What is shown.

    Returns
    -------
    Markup for the defs.
    """
    *fills, tone = scene.tints
    return "".join(
        layer_pattern(scene.layer.name, f"{scene.prefix}-section{turn}", (fill, tone))
        for turn, fill in enumerate(fills)
    )
