"""The legend: every sign on the picture with its word, in rows that fit."""

from collections.abc import Callable

from laydown.report.join_picture import join_mark
from laydown.report.measure_text import text_width
from laydown.report.scene import Scene, extent_of
from laydown.report.signs import plate, sign
from laydown.report.style import JOIN_WORDS, SMALLEST_PX
from laydown.report.svg import element, label

ROW_PX = 32.0
"""Height of a row [px]."""

_SIGN_PX = 34.0
_AIR_PX = 15.0

_Drawer = Callable[[float, float], str]


def legend_height(scene: Scene, width_px: float) -> float:
    """Height of the legend.

    Parameters
    ----------
    scene
        What is shown.
    width_px
        Room there is [px].

    Returns
    -------
    Height [px].
    """
    return ROW_PX * len(_rows(scene, width_px))


def legend(scene: Scene, top_px: float, left_px: float, width_px: float) -> str:
    """Draw the legend.

    Parameters
    ----------
    scene
        What is shown.
    top_px, left_px
        Upper left corner [px].
    width_px
        Room there is [px].

    Returns
    -------
    Markup.
    """
    shapes = []
    for index, row in enumerate(_rows(scene, width_px)):
        y = top_px + ROW_PX * (index + 0.5)
        x = left_px
        for draw, text in row:
            shapes.append(draw(x + _SIGN_PX / 2, y))
            shapes.append(label(text, (x + _SIGN_PX + 4, y + 5), SMALLEST_PX, scene.palette.ink))
            x += _width(text)
    return element("g", *shapes, data_kind="legend")


def _width(text: str) -> float:
    """Room one entry takes."""
    return _SIGN_PX + 4 + text_width(text, SMALLEST_PX) + _AIR_PX


def _rows(scene: Scene, width_px: float) -> list[list[tuple[_Drawer, str]]]:
    """Entries broken into rows."""
    rows: list[list[tuple[_Drawer, str]]] = [[]]
    used = 0.0
    for entry in _entries(scene):
        if rows[-1] and used + _width(entry[1]) - _AIR_PX > width_px:
            rows.append([])
            used = 0.0
        rows[-1].append(entry)
        used += _width(entry[1])
    return rows


def _entries(scene: Scene) -> list[tuple[_Drawer, str]]:
    """What the picture shows; the three states of a join always."""
    palette, prefix = scene.palette, scene.prefix
    entries: list[tuple[_Drawer, str]] = [
        (lambda x, y: plate("1", (x, y), 24, palette), "order of work"),
        (lambda x, y: sign(prefix, "flag", (x - 5, y + 9), 52), "start"),
        (lambda x, y: _line(x, y, palette.muted, None), "way of the gun, not every stroke"),
    ]
    entries += [(_mark(scene, state), text) for state, text in JOIN_WORDS.items()]
    if scene.coat.refills:
        entries.append((lambda x, y: sign(prefix, "cup", (x, y), 44), "fill the cup"))
    if any(section.needs_step for section in scene.coat.sections):
        entries.append((lambda x, y: sign(prefix, "step", (x, y), 44), "stand on a step"))
    if any(extent_of(panel, scene.layer.name) == "fade" for panel in scene.plan.side.panels):
        entries.append((lambda x, y: _fading(x, y, palette.pattern), "fades out"))
    entries.append((lambda x, y: _patch(x, y, f"url(#{prefix}-masked)", palette.ink), "masked"))
    return entries


def _mark(scene: Scene, state: str) -> _Drawer:
    """Drawer of one state of a join."""
    return lambda x, y: join_mark(((x, y + 12), (x, y - 12)), state, scene.palette, 4.5)


def _line(x: float, y: float, tone: str, dashes: str | None) -> str:
    """A short way of the gun."""
    arrow = element("path", d=f"M{x + 16:.1f},{y:.1f}l-10,-5v10Z", fill=tone)
    dot = element("circle", cx=x - 15, cy=y, r=4, fill="#FFFFFF", stroke=tone, stroke_width=2)
    line = element(
        "path", d=f"M{x - 14:.1f},{y:.1f}H{x + 8:.1f}", stroke=tone, stroke_width=1.8, stroke_dasharray=dashes
    )
    return line + dot + arrow


def _patch(x: float, y: float, fill: str, stroke: str) -> str:
    """A patch of a pattern."""
    return element("rect", x=x - 14, y=y - 9, width=28, height=18, fill=fill, stroke=stroke, stroke_width=1.2)


def _fading(x: float, y: float, tone: str) -> str:
    """Dots that get smaller."""
    return "".join(
        element("circle", cx=x - 12 + 8 * column, cy=y - 4 + 8 * row, r=2.5 - 0.6 * column, fill=tone)
        for column in range(4)
        for row in range(2)
    )
