"""Draws the vehicle behind the work: outline, glass, wheels, and what is masked."""

from laydown.report.frame import Frame
from laydown.report.scene import Scene, extent_of
from laydown.report.style import Tones
from laydown.report.svg import element, track
from laydown.schema.plan import PlannedPanel
from laydown.schema.side import Backdrop, Point, SidePanel

_HANDLE_M = (0.16, 0.032)


def body(scene: Scene) -> str:
    """Draw everything behind the sections.

    Parameters
    ----------
    scene
        What is shown.

    Returns
    -------
    Markup: silhouette, glass, panels that are masked, wheels and ground line.
    """
    outline = scene.plan.side.outline
    planned = {panel.id: panel for panel in scene.plan.side.panels}
    masked = [panel for panel in outline.panels if not painted(planned.get(panel.id), scene.layer.name)]
    return backdrop(outline.backdrop, scene.frame, scene.palette) + "".join(
        panel_shape(panel, scene.frame, f"url(#{scene.prefix}-masked)", scene.palette, "masked")
        for panel in masked
    )


def painted(panel: PlannedPanel | None, layer: str) -> bool:
    """Whether a layer is sprayed on a panel.

    Parameters
    ----------
    panel
        The planned panel, or None for one the job does not touch.
    layer
        "ground", "effect" or "clear".

    Returns
    -------
    True when the layer is full or fades there.
    """
    return panel is not None and extent_of(panel, layer) != "none"


def backdrop(parts: Backdrop, frame: Frame, palette: Tones) -> str:
    """Draw the vehicle without its panels.

    Parameters
    ----------
    parts
        Silhouette, glass, bumpers and wheels.
    frame
        Where.
    palette
        Tones.

    Returns
    -------
    Markup.
    """
    shapes = []
    if parts.silhouette:
        shapes.append(_filled(frame.all(parts.silhouette), palette.glass, palette.ink, 1.6))
    shapes += [_filled(frame.all(ring), palette.glass, palette.muted, 1.0) for ring in parts.bumpers]
    shapes += [_filled(frame.all(ring), palette.glass, palette.muted, 1.2) for ring in parts.glass]
    ground = frame.bottom_px
    shapes.append(
        element(
            "path",
            d=track([(frame.left_px, ground), (frame.right_px, ground)]),
            stroke=palette.muted,
            stroke_width=1.5,
        )
    )
    return "".join(shapes) + wheels(parts, frame, palette)


def wheels(parts: Backdrop, frame: Frame, palette: Tones) -> str:
    """Draw the wheels, which also hide the strokes that run over them.

    Parameters
    ----------
    parts
        The backdrop.
    frame
        Where.
    palette
        Tones.

    Returns
    -------
    Markup.
    """
    return "".join(_wheel(wheel, frame, palette) for wheel in parts.wheels)


def panel_shape(panel: SidePanel, frame: Frame, fill: str, palette: Tones, kind: str) -> str:
    """Draw one panel with its holes.

    Parameters
    ----------
    panel
        The panel.
    frame
        Where.
    fill
        Colour or pattern.
    palette
        Tones.
    kind
        Written as ``data-kind``: "masked", "section" or "outline".

    Returns
    -------
    Markup.
    """
    return element(
        "path",
        d=panel_data(panel, frame),
        fill=fill,
        fill_rule="evenodd",
        stroke=palette.ink,
        stroke_width=1.6,
        stroke_linejoin="round",
        data_panel=panel.id,
        data_kind=kind,
    )


def panel_data(panel: SidePanel, frame: Frame) -> str:
    """Path data of a panel.

    Parameters
    ----------
    panel
        The panel.
    frame
        Where.

    Returns
    -------
    Closed rings; fill with the even-odd rule.
    """
    return "".join(track(thinned(frame.all(ring)), closed=True) for ring in panel.rings)


def thinned(points: tuple[Point, ...]) -> tuple[Point, ...]:
    """Drop points nearer than 1.2 px to the last one kept; keeps pictures small.

    Parameters
    ----------
    points
        Points of a ring [px].

    Returns
    -------
    Fewer points; the first stays.
    """
    kept = [points[0]]
    for point in points[1:]:
        if abs(point[0] - kept[-1][0]) + abs(point[1] - kept[-1][1]) >= 1.2:
            kept.append(point)
    return tuple(kept)


def masked_parts(scene: Scene) -> str:
    """Draw handles and whatever else is masked on painted panels.

    Parameters
    ----------
    scene
        What is shown.

    Returns
    -------
    Markup.
    """
    outline, frame, palette = scene.plan.side.outline, scene.frame, scene.palette
    shapes = [
        element(
            "path",
            d="".join(track(frame.all(ring), closed=True) for ring in part.rings),
            fill=f"url(#{scene.prefix}-masked)",
            stroke=palette.muted,
            stroke_width=1.2,
            data_kind="masked",
        )
        for part in outline.masked
    ]
    width, height = (_HANDLE_M[0] * frame.scale, _HANDLE_M[1] * frame.scale)
    for place in outline.backdrop.handles if not outline.masked else ():
        x, y = frame.at(place)
        shapes.append(
            element(
                "rect",
                x=x - width / 2,
                y=y - height / 2,
                width=width,
                height=height,
                rx=height * 0.45,
                fill=palette.paper,
                stroke=palette.muted,
                stroke_width=1.2,
            )
        )
    return "".join(shapes)


def body_lines(scene: Scene) -> str:
    """Draw gaps, arch edges and lines over the sections.

    Parameters
    ----------
    scene
        What is shown.

    Returns
    -------
    Markup.
    """
    outline, frame, palette = scene.plan.side.outline, scene.frame, scene.palette
    gaps = [_stroke(frame.all(cut.points), palette.ink, 1.6) for cut in outline.cuts]
    lines = [_stroke(frame.all(line.points), palette.rule, 1.4) for line in outline.lines]
    return "".join(lines + gaps)


def masked_pattern(prefix: str, palette: Tones) -> str:
    """Write the pattern of what is masked: crossing lines.

    Parameters
    ----------
    prefix
        Begins the id.
    palette
        Tones.

    Returns
    -------
    Markup for the defs.
    """
    return element(
        "pattern",
        element("rect", width=9, height=9, fill=palette.paper),
        element("path", d="M0,0L9,9M9,0L0,9", stroke=palette.masked, stroke_width=0.9),
        id=f"{prefix}-masked",
        width=9,
        height=9,
        patternUnits="userSpaceOnUse",
    )


def _filled(points: tuple[Point, ...], fill: str, stroke: str, width: float) -> str:
    """One filled ring."""
    return element(
        "path", d=track(thinned(points), closed=True), fill=fill, stroke=stroke, stroke_width=width
    )


def _stroke(points: tuple[Point, ...], stroke: str, width: float) -> str:
    """One open line."""
    return element("path", d=track(thinned(points)), fill="none", stroke=stroke, stroke_width=width)


def _wheel(wheel: tuple[float, float, float], frame: Frame, palette: Tones) -> str:
    """One wheel: tyre, rim, hub."""
    x, y = frame.at((wheel[0], wheel[1]))
    radius = wheel[2] * frame.scale
    tyre = element(
        "circle",
        cx=x,
        cy=y,
        r=radius * 0.87,
        fill=palette.paper,
        stroke=palette.muted,
        stroke_width=radius * 0.24,
    )
    rim = element("circle", cx=x, cy=y, r=radius * 0.58, fill="none", stroke=palette.rule, stroke_width=1.5)
    return tyre + rim
