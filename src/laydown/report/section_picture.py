"""Draws the sections of a coat: their tint, and the flag where it starts."""

from laydown.report.body_picture import panel_shape
from laydown.report.fade_picture import fade
from laydown.report.join_picture import join_line
from laydown.report.scene import Scene, extent_of, panels_of
from laydown.report.signs import sign
from laydown.report.svg import element, track
from laydown.report.way_picture import start_place
from laydown.schema.coat import Section
from laydown.schema.side import Point, SidePanel

_FAR_M = 50.0


def sections(scene: Scene) -> str:
    """Tint every section.

    Parameters
    ----------
    scene
        What is shown.

    Returns
    -------
    Markup: the panels of each section, clipped where two sections share a panel.
    """
    return "".join(
        _tinted(scene, section, panel)
        for section in scene.coat.sections
        for panel in panels_of(scene, section)
    )


def _tinted(scene: Scene, section: Section, panel: SidePanel) -> str:
    """One panel of one section."""
    planned = next((row for row in scene.plan.side.panels if row.id == panel.id), None)
    if planned is not None and extent_of(planned, scene.layer.name) == "fade":
        shape = panel_shape(panel, scene.frame, scene.palette.paper, scene.palette, "section")
        return shape + fade(scene, panel, planned) if _first(scene, section, panel) else ""
    fill = f"url(#{scene.prefix}-section{section.order % 2})"
    shape = panel_shape(panel, scene.frame, fill, scene.palette, "section")
    if not _shared(scene, panel):
        return shape
    name = f"{scene.prefix}-clip-{section.order}-{panel.id}"
    clip = element("clipPath", element("path", d=track(_area(scene, section), closed=True)), id=name)
    return clip + element("g", shape, clip_path=f"url(#{name})")


def _shared(scene: Scene, panel: SidePanel) -> bool:
    """Whether more than one section lies on a panel."""
    return sum(panel in panels_of(scene, section) for section in scene.coat.sections) > 1


def _first(scene: Scene, section: Section, panel: SidePanel) -> bool:
    """Whether a section is the first one on a panel."""
    return all(
        panel not in panels_of(scene, other) for other in scene.coat.sections if other.order < section.order
    )


def _area(scene: Scene, section: Section) -> tuple[Point, ...]:
    """Area between the two ends of a section, along its joins [px]."""
    low = _end(scene, section, section.x_from_m, -_FAR_M)
    high = _end(scene, section, section.x_to_m, _FAR_M)
    return scene.frame.all((*low, *high[::-1]))


def _end(scene: Scene, section: Section, x_m: float, far_m: float) -> tuple[Point, ...]:
    """Bottom-to-top line at one end of a section; far away where no join lies."""
    joins = [join for join in scene.coat.joins if section.order in join.between and abs(join.x_m - x_m) < 0.3]
    if not joins:
        return ((far_m, -1.0), (far_m, 9.0))
    line = join_line(scene.plan.side, scene.coat, min(joins, key=lambda join: abs(join.x_m - x_m)))
    return ((line[0][0], -1.0), *line, (line[-1][0], 9.0))


def flag(scene: Scene) -> str:
    """Plant the flag where the coat starts.

    Parameters
    ----------
    scene
        What is shown.

    Returns
    -------
    Markup.
    """
    return sign(scene.prefix, "flag", start_place(scene), 60 * scene.signs)
