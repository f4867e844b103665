"""Patterns that name a layer: ground level lines, effect dots, clear slanted lines."""

from laydown.report.scene import Scene
from laydown.report.svg import element

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
