"""Patterns that name a layer: ground level lines, effect dots, clear slanted lines; a fade is fading dots."""

from laydown.report.body_picture import panel_data
from laydown.report.scene import Scene, extent_of
from laydown.report.style import Tones
from laydown.report.svg import element
from laydown.schema.plan import PlannedPanel
from laydown.schema.side import SidePanel

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
    name, palette, prefix = scene.layer.name, scene.palette, scene.prefix
    fills = (palette.section_a, palette.section_b)
    return "".join(
        layer_pattern(name, f"{prefix}-section{turn}", (fill, palette.pattern))
        for turn, fill in enumerate(fills)
    )


def fade(scene: Scene, panel: SidePanel, planned: PlannedPanel) -> str:
    """Draw a fading panel: dots get smaller away from the full panel.

    Parameters
    ----------
    scene
        What is shown.
    panel
        The panel on the side.
    planned
        The same panel in the plan.

    Returns
    -------
    Markup: one dotted line for each column of dots, clipped to the panel.
    """
    frame, palette = scene.frame, scene.palette
    outer = frame.all(panel.rings[0])
    left, right = min(x for x, _ in outer), max(x for x, _ in outer)
    top, bottom = min(y for _, y in outer), max(y for _, y in outer)
    start, run = fade_run(scene, panel, planned)
    clip = f"{scene.prefix}-fade-{panel.id}"
    columns = []
    x = left + _CELL_PX / 2
    while x < right:
        weight = max(0.0, min(1.0, 1 - (x - start) / run))
        if weight > 0.04:
            columns.append(_dots(x, (top, bottom), 4.6 * weight**0.5, palette))
        x += _CELL_PX
    shape = element("clipPath", element("path", d=panel_data(panel, frame), clip_rule="evenodd"), id=clip)
    return shape + element("g", *columns, clip_path=f"url(#{clip})", data_kind="fade")


def fade_run(scene: Scene, panel: SidePanel, planned: PlannedPanel) -> tuple[float, float]:
    """Where a fade starts and how far it runs.

    Parameters
    ----------
    scene
        What is shown.
    panel
        The panel on the side.
    planned
        The same panel in the plan.

    Returns
    -------
    Start and run along the picture [px]; the run is negative towards the left.
    """
    frame = scene.frame
    xs = [x for x, _ in frame.all(panel.rings[0])]
    full = _full_middle(scene)
    length = planned.fade_m * frame.scale if planned.fade_m else max(xs) - min(xs)
    if full is None or full <= (min(xs) + max(xs)) / 2:
        return min(xs), length
    return max(xs), -length


def _full_middle(scene: Scene) -> float | None:
    """Mean place of the panels on which the layer is full [px]."""
    full = {panel.id for panel in scene.plan.side.panels if extent_of(panel, scene.layer.name) == "full"}
    middles = [
        sum(scene.frame.across(x) for x, _ in panel.rings[0]) / len(panel.rings[0])
        for panel in scene.plan.side.outline.panels
        if panel.id in full
    ]
    return sum(middles) / len(middles) if middles else None


def _dots(x: float, span: tuple[float, float], width: float, palette: Tones) -> str:
    """One upright row of dots."""
    return element(
        "path",
        d=f"M{x:.1f},{span[0] + _CELL_PX / 2:.1f}V{span[1]:.1f}",
        stroke=palette.pattern,
        stroke_width=width,
        stroke_linecap="round",
        stroke_dasharray=f"0 {_CELL_PX:.0f}",
    )
