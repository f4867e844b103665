"""The stagger ruler over a side: one line for each coat, its joins in their shape at their place."""

from itertools import pairwise

from laydown.report.join_picture import join_mark
from laydown.report.measure_text import text_width
from laydown.report.scene import Scene
from laydown.report.side_by_side import spread
from laydown.report.signs import sign
from laydown.report.style import CLOSE_M, SMALLEST_PX
from laydown.report.svg import element, label, track
from laydown.schema.coat import Coat, Join, Layer
from laydown.schema.side import Point
from laydown.units import show

ROW_PX = 26.0
"""Height of a coat's line [px]."""

_PLAIN_ROW_PX = 19.0
_SAME_M = 0.02
_NOTE_PX = 18.0


def ruler_height(scene: Scene) -> float:
    """Height of the ruler with its notes.

    Parameters
    ----------
    scene
        What is shown.

    Returns
    -------
    Height [px].
    """
    lines = _note_lines(scene)
    return ROW_PX * len(scene.layer.coats) + (_NOTE_PX * lines + 10 if lines else 4)


def _note_lines(scene: Scene) -> int:
    """Lines of text under the ruler."""
    if not scene.coat.joins:
        return 0
    return 3 if scene.coat.refills else 2


def ruler(scene: Scene, top_px: float) -> str:
    """Draw the ruler.

    Parameters
    ----------
    scene
        What is shown; all coats of its layer get a line.
    top_px
        Upper edge [px].

    Returns
    -------
    Markup.
    """
    rows = {coat.number: top_px + ROW_PX * (index + 0.5) for index, coat in enumerate(scene.layer.coats)}
    ties = "".join(
        _ties(scene, coats, ends)
        for coats, ends in zip(pairwise(scene.layer.coats), pairwise(rows.values()), strict=True)
    )
    lines = "".join(_line(scene, coat, rows[coat.number]) for coat in scene.layer.coats)
    notes_top = top_px + ROW_PX * len(scene.layer.coats)
    return _leaders(scene, rows[scene.coat.number], notes_top) + lines + ties + _notes(scene, notes_top)


def plain_ruler_height(layer: Layer) -> float:
    """Height of the ruler without notes.

    Parameters
    ----------
    layer
        The layer whose coats get a line.

    Returns
    -------
    Height [px].
    """
    return _PLAIN_ROW_PX * len(layer.coats) + 4


def plain_ruler(scene: Scene) -> str:
    """Draw the ruler from the upper edge, without notes and with short names.

    Parameters
    ----------
    scene
        What is shown.

    Returns
    -------
    Markup.
    """
    rows = [_PLAIN_ROW_PX * (index + 0.5) for index in range(len(scene.layer.coats))]
    lines = [_line(scene, coat, y, short=True) for coat, y in zip(scene.layer.coats, rows, strict=True)]
    ties = [
        _ties(scene, coats, ends)
        for coats, ends in zip(pairwise(scene.layer.coats), pairwise(rows), strict=True)
    ]
    return "".join(lines + ties)


def _line(scene: Scene, coat: Coat, y: float, *, short: bool = False) -> str:
    """One coat: its name, its line, its joins and refills."""
    frame, palette = scene.frame, scene.palette
    here = coat.number == scene.coat.number and not short
    reach = 7 if short else 9
    full = "control" if coat.part == "control" else f"coat {coat.number}"
    name = full.removeprefix("coat ").replace("control", "C") if short else full
    ends = sorted(frame.across(x) for row in coat.sections for x in (row.x_from_m, row.x_to_m))
    shapes = [
        label(
            name,
            (frame.left_px - 10, y + 5),
            SMALLEST_PX,
            palette.ink,
            text_anchor="end",
            font_weight="700" if here else "400",
        )
    ]
    if ends:
        shapes.append(
            element(
                "path",
                d=track([(ends[0], y), (ends[-1], y)]),
                stroke=palette.ink if here else palette.rule,
                stroke_width=2.2 if here else 2,
            )
        )
    for join in coat.joins:
        x = frame.across(join.x_m)
        shapes.append(join_mark(((x, y + reach), (x, y - reach)), join.state, palette, 4.5))
    size = 24 if short else 34
    shapes += [sign(scene.prefix, "cup", (place + 17, y), size) for place in refill_places(scene, coat)]
    return element("g", *shapes, data_ruler=f"{scene.layer.name}.{coat.number}")


def refill_places(scene: Scene, coat: Coat) -> tuple[float, ...]:
    """Where the cup is filled in a coat.

    Parameters
    ----------
    scene
        What is shown.
    coat
        A coat of its layer.

    Returns
    -------
    Places along the picture [px]: the join after the section, else the end of the section.
    """
    places = []
    for refill in coat.refills:
        joins = [join for join in coat.joins if join.between[0] == refill.after_section]
        sections = [section for section in coat.sections if section.order == refill.after_section]
        if joins:
            places.append(scene.frame.across(joins[0].x_m))
        elif sections:
            places.append(scene.frame.across(sections[0].x_to_m))
    return tuple(places)


def _ties(scene: Scene, coats: tuple[Coat, Coat], rows: Point) -> str:
    """Hairs between joins of successive coats that lie close, with the distance."""
    shapes = []
    for join in coats[0].joins:
        nearest = min(coats[1].joins, key=lambda other: abs(other.x_m - join.x_m), default=None)
        if nearest is None or abs(nearest.x_m - join.x_m) >= CLOSE_M or _may_repeat(join, nearest):
            continue
        shapes.append(_tie(scene, (join, nearest), rows))
    return "".join(shapes)


def _may_repeat(join: Join, later: Join) -> bool:
    """Whether two joins share one true gap, which no film bridges."""
    return join.kind == "gap" == later.kind and abs(join.x_m - later.x_m) < _SAME_M


def _tie(scene: Scene, joins: tuple[Join, Join], rows: Point) -> str:
    """One hair and its distance."""
    a, b = (scene.frame.across(join.x_m) for join in joins)
    text = show(round(abs(joins[0].x_m - joins[1].x_m), 2), "moved_m", scene.system)
    hair = element(
        "path",
        d=track([(a, rows[0] + 9), (b, rows[1] - 9)]),
        stroke=scene.palette.ink,
        stroke_width=1,
        fill="none",
    )
    middle = (rows[0] + rows[1]) / 2
    at = (max(a, b) + 8, middle + 5)
    if at[0] + text_width(text, SMALLEST_PX) > scene.frame.right_px:
        at = (min(a, b) - 8 - text_width(text, SMALLEST_PX), at[1])
    return hair + (_haloed(text, at, scene) if scene.signs == 1 else "")


def _haloed(text: str, at: Point, scene: Scene, **more: str) -> str:
    """Text with a rim of paper, so that a line behind it does not cross it."""
    return label(
        text,
        at,
        SMALLEST_PX,
        scene.palette.ink,
        paint_order="stroke",
        stroke=scene.palette.paper,
        stroke_width=4,
        stroke_linejoin="round",
        **more,
    )


def _leaders(scene: Scene, row: float, notes_top: float) -> str:
    """Thin lines from the ruler's marks down to the notes."""
    return "".join(
        element(
            "path",
            d=track([(x, row), (x, notes_top + 4)]),
            stroke=scene.palette.rule,
            stroke_width=1,
            fill="none",
        )
        for x in (scene.frame.across(join.x_m) for join in scene.coat.joins)
    )


def note_texts(scene: Scene) -> tuple[tuple[float, tuple[str, ...]], ...]:
    """What is written under the ruler for each join of the coat.

    Parameters
    ----------
    scene
        What is shown.

    Returns
    -------
    Place along the picture [px] and lines of text, from left to right.
    """
    fills = {refill.after_section: refill.fill_g for refill in scene.coat.refills}
    notes = []
    for join in scene.coat.joins:
        spare = round(join.spare_s.value)
        head = f"{show(spare, 'spare_s')} spare" if spare >= 0 else f"{show(-spare, 'spare_s')} too late"
        span = f"{round(join.spare_s.low)} to {round(join.spare_s.high)} s".replace("-", "\N{MINUS SIGN}")
        fill = fills.get(join.between[0])
        lines = (head, span) if fill is None else (head, span, f"fill {show(round(fill), 'fill_g')}")
        notes.append((scene.frame.across(join.x_m), lines))
    return tuple(sorted(notes))


def _notes(scene: Scene, top: float) -> str:
    """Spare time of each join, side by side without touching."""
    notes = note_texts(scene)
    widths = [max(text_width(line, SMALLEST_PX, bold=True) for line in lines) + 16 for _, lines in notes]
    room = (scene.frame.left_px, scene.frame.right_px)
    middles = spread([place for place, _ in notes], widths, room)
    shapes = []
    for (place, lines), middle in zip(notes, middles, strict=True):
        if abs(middle - place) > 3:
            shapes.append(
                element(
                    "path",
                    d=track([(place, top), (middle, top + 7)]),
                    stroke=scene.palette.muted,
                    stroke_width=1,
                    fill="none",
                )
            )
        for index, line in enumerate(lines):
            weight = "400" if index == 1 else "700"
            at = (middle, top + 20 + _NOTE_PX * index)
            shapes.append(_haloed(line, at, scene, text_anchor="middle", font_weight=weight))
    return "".join(shapes)
