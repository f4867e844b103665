"""Patterns that name a layer: ground level lines, effect dots, clear slanted lines."""

from dataclasses import dataclass

from laydown.report.kit.style import SectionTones, Tones
from laydown.report.kit.svg import element
from laydown.report.kit.vehicle_frame import VehicleFrame
from laydown.schema.choices import Extent
from laydown.schema.coat import Coat, Layer, Section
from laydown.schema.plan import Plan, PlannedPanel
from laydown.schema.side import SidePanel
from laydown.words.show import ENGLISH, Words


@dataclass(frozen=True, slots=True)
class Scene:
    """One coat in its frame."""

    plan: Plan
    layer: Layer
    coat: Coat
    frame: VehicleFrame
    palette: Tones
    prefix: str
    signs: float = 1.0
    plain: bool = False
    words: Words = ENGLISH

    @property
    def tints(self) -> SectionTones:
        """Two fills of neighbouring sections, and the tone of the pattern on them, for this layer."""
        return self.palette.sections[self.layer.name]


def layer_named(plan: Plan, name: str) -> Layer:
    """Find a layer of a plan."""
    for layer in plan.layers:
        if layer.name == name:
            return layer
    raise ValueError(f"layer must be one of {', '.join(layer.name for layer in plan.layers)}; got {name!r}")


def coat_numbered(layer: Layer, number: int) -> Coat:
    """Find a coat of a layer."""
    for coat in layer.coats:
        if coat.number == number:
            return coat
    raise ValueError(f"coat must be one of {[coat.number for coat in layer.coats]}; got {number}")


def extent_of(panel: PlannedPanel, layer: str) -> Extent:
    """How far a layer reaches on a panel."""
    return {"ground": panel.ground, "effect": panel.effect, "clear": panel.clear}[layer]


def panels_of(scene: Scene, section: Section) -> tuple[SidePanel, ...]:
    """Painted panels that reach into a section, slivers too: nothing that is sprayed stays without a section."""
    planned = {row.id: row for row in scene.plan.side.panels}
    return tuple(
        panel
        for panel in scene.plan.side.outline.panels
        if panel.id in planned
        and extent_of(planned[panel.id], scene.layer.name) != "none"
        and min(x for x, _ in panel.rings[0]) < section.x_to_m
        and max(x for x, _ in panel.rings[0]) > section.x_from_m
    )


def coat_name(coat: Coat, words: Words = ENGLISH) -> str:
    """Name of a coat as the painter says it."""
    return words.say("drop-coat") if coat.part == "drop" else words.say("coat-number", number=coat.number)


def coat_parts(coat: Coat, words: Words = ENGLISH) -> str:
    """Say what is sprayed in a coat."""
    return words.say(f"coat-part.{coat.part}")


_CELL_PX = 10.0


def layer_pattern(
    name: str, ident: str, tones: tuple[str, str], cell: float = _CELL_PX, top: float = 0
) -> str:
    """Write the pattern of a layer."""
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
    """Write the two patterns that neighbouring sections take in turn."""
    *fills, tone = scene.tints
    return "".join(
        layer_pattern(scene.layer.name, f"{scene.prefix}-section{turn}", (fill, tone))
        for turn, fill in enumerate(fills)
    )
