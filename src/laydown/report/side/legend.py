"""The legend: every sign on the picture with its word, in rows that fit."""

from collections.abc import Callable
from dataclasses import dataclass

from laydown.report.kit.coat_scene import Scene, extent_of
from laydown.report.kit.signs import plate, sign
from laydown.report.kit.style import JOIN_STATES, SMALLEST_PX
from laydown.report.kit.svg import element, label
from laydown.report.kit.text_width import text_width
from laydown.report.side.joins import join_mark

_SIGN_PX = 34.0
_AIR_PX = 15.0


@dataclass(frozen=True, slots=True)
class LegendNeeds:
    """What a legend has to explain beside order, start, joins and masked parts."""

    way: bool
    refills: bool
    steps: bool
    fades: bool
    row_px: float = 32.0
    short: bool = False


def shown_in(scene: Scene) -> LegendNeeds:
    """Say what a picture shows."""
    return LegendNeeds(
        way=not scene.plain,
        refills=bool(scene.coat.refills),
        steps=any(section.needs_step for section in scene.coat.sections),
        fades=any(extent_of(panel, scene.layer.name) == "fade" for panel in scene.plan.side.panels),
    )


_Drawer = Callable[[float, float], str]


def legend_height(scene: Scene, width_px: float, shown: LegendNeeds | None = None) -> float:
    """Height that the legend takes for what it shows [px]."""
    kind = shown or shown_in(scene)
    return kind.row_px * len(_rows(scene, width_px, kind))


def legend(
    scene: Scene, top_px: float, left_px: float, width_px: float, shown: LegendNeeds | None = None
) -> str:
    """Draw the legend."""
    shapes = []
    kind = shown or shown_in(scene)
    for index, row in enumerate(_rows(scene, width_px, kind)):
        y = top_px + kind.row_px * (index + 0.5)
        x = left_px
        for draw, text in row:
            shapes.append(draw(x + _SIGN_PX / 2, y))
            shapes.append(label(text, (x + _SIGN_PX + 4, y + 5), SMALLEST_PX, scene.palette.ink))
            x += _width(text)
    return element("g", *shapes, data_kind="legend")


def _width(text: str) -> float:
    """Room one entry takes."""
    return _SIGN_PX + 4 + text_width(text, SMALLEST_PX) + _AIR_PX


def _rows(scene: Scene, width_px: float, shown: LegendNeeds) -> list[list[tuple[_Drawer, str]]]:
    """Entries broken into rows."""
    rows: list[list[tuple[_Drawer, str]]] = [[]]
    used = 0.0
    for entry in _entries(scene, shown):
        if rows[-1] and used + _width(entry[1]) - _AIR_PX > width_px:
            rows.append([])
            used = 0.0
        rows[-1].append(entry)
        used += _width(entry[1])
    return rows


def _entries(scene: Scene, shown: LegendNeeds) -> list[tuple[_Drawer, str]]:
    """What the picture shows; the three states of a join always."""
    palette, prefix = scene.palette, scene.prefix
    entries: list[tuple[_Drawer, str]] = [
        (lambda x, y: plate("1", (x, y), 24, palette), _text("order", scene, shown)),
        (lambda x, y: sign(prefix, "flag", (x - 5, y + 9), 52), _text("start", scene, shown)),
    ]
    if shown.way:
        entries.append((lambda x, y: _line(x, y, palette.muted), _text("way", scene, shown)))
    entries += [(_mark(scene, state), _text(state, scene, shown)) for state in JOIN_STATES]
    if shown.refills:
        entries.append((lambda x, y: sign(prefix, "cup", (x, y), 44), _text("fill", scene, shown)))
    if shown.steps:
        entries.append((lambda x, y: sign(prefix, "step", (x, y), 44), _text("step", scene, shown)))
    if shown.fades:
        entries.append((lambda x, y: _fading(x, y, scene.tints[2]), _text("fades", scene, shown)))
    entries.append(
        (lambda x, y: _patch(x, y, f"url(#{prefix}-masked)", palette.ink), _text("masked", scene, shown))
    )
    return entries


def _text(name: str, scene: Scene, shown: LegendNeeds) -> str:
    """Text of an entry, shorter where room is."""
    if shown.short:
        return scene.words.say(f"legend-short.{name}")
    return scene.words.say(f"legend.{name}")


def _mark(scene: Scene, state: str) -> _Drawer:
    """Drawer of one state of a join."""
    return lambda x, y: join_mark(((x, y + 12), (x, y - 12)), state, scene.palette, 4.5)


def _line(x: float, y: float, tone: str) -> str:
    """A short way of the gun."""
    arrow = element("path", d=f"M{x + 16:.1f},{y:.1f}l-10,-5v10Z", fill=tone)
    dot = element("circle", cx=x - 15, cy=y, r=4, fill="#FFFFFF", stroke=tone, stroke_width=2)
    line = element("path", d=f"M{x - 14:.1f},{y:.1f}H{x + 8:.1f}", stroke=tone, stroke_width=1.8)
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
