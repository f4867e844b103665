"""The stagger ruler over a side: one line for each coat, its joins in their shape at their place."""

from itertools import pairwise
from math import ceil, floor

from laydown.report.kit.coat_scene import Scene
from laydown.report.kit.signs import sign, spread
from laydown.report.kit.style import CLOSE_M, SMALLEST_PX
from laydown.report.kit.svg import element, label, track
from laydown.report.kit.text_width import text_width
from laydown.report.side.joins import join_mark
from laydown.schema.coat import Coat, Join, Layer
from laydown.schema.side import Point
from laydown.unit_table import FOOT_M
from laydown.units import System, show

METRES_PX = 36.0
"""Height of the scale with the air around it [px]."""

_TICK_PX = 7.0
_OVER_PX = 12.0
_STEPS: dict[System, tuple[float, int, str]] = {"metric": (1.0, 1, "m"), "us": (2 * float(FOOT_M), 2, "ft")}


def metres(scene: Scene) -> str:
    """Draw a tick with its metre, or every second foot, along the ground line.

    Parameters
    ----------
    scene
        What is shown.

    Returns
    -------
    Markup.
    """
    frame = scene.frame
    top = frame.bottom_px
    shapes = []
    step_m, counted, unit = _STEPS[scene.system]
    zero = f"0 {unit}, middle of the front wheel"
    zero_half = text_width(zero, SMALLEST_PX) / 2 + 8
    for step in range(ceil(frame.bounds.left_m / step_m), floor(frame.bounds.right_m / step_m) + 1):
        x = frame.across(step * step_m)
        shapes.append(
            element("path", d=f"M{x:.1f},{top:.1f}v{_TICK_PX}", stroke=scene.palette.muted, stroke_width=1.5)
        )
        text = zero if step == 0 else f"{step * counted} {unit}".replace("-", "\N{MINUS SIGN}")
        half = text_width(text, SMALLEST_PX) / 2
        clear = abs(x - frame.across(0)) > zero_half + half
        inside = frame.left_px - _OVER_PX < x - half and x + half < frame.right_px + _OVER_PX
        if inside and (step == 0 or clear):
            shapes.append(label(text, (x, top + 21), SMALLEST_PX, scene.palette.ink, text_anchor="middle"))
    return element("g", *shapes, data_kind="metres")


_NOTE_PX = 18.0
_RANGE = "9 of 10"
_KINDS = {
    "gap": "gap",
    "arch": "arch",
    "pillar": "pillar",
    "moulding": "moulding",
    "body_line": "body line",
    "open": "open panel",
}


def notes_height(scene: Scene) -> float:
    """Height of the notes.

    Parameters
    ----------
    scene
        What is shown.

    Returns
    -------
    Height [px].
    """
    lines = max((len(lines) for _, lines in note_texts(scene)), default=0)
    return _NOTE_PX * lines + 10 if lines else 4


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
    found = []
    for join in scene.coat.joins:
        lines = [*spare_lines(join)]
        if join.kind != "gap":
            lines.append(f"{_KINDS[join.kind]}, {show(round(join.x_m, 2), 'x_m', scene.system)}")
        if join.between[0] in fills:
            lines.append(f"fill {show(round(fills[join.between[0]]), 'fill_g')}")
        found.append((scene.frame.across(join.x_m), tuple(lines)))
    return tuple(sorted(found))


def spare_lines(join: Join) -> tuple[str, str]:
    """Say how much time is spare at a join, and in which range.

    Parameters
    ----------
    join
        The join.

    Returns
    -------
    Such as ("9 s spare", "3 to 16 s") or ("180 s too late", "81 to 245 s late"); a range on both sides of
    nought keeps its signs.
    """
    spare, low, high = (round(value) for value in (join.spare_s.value, join.spare_s.low, join.spare_s.high))
    head = f"{spare} s spare" if spare >= 0 else f"{-spare} s too late"
    if high < 0:
        return head, f"{-high} to {-low} s late"
    return head, f"{low} to {high} s".replace("-", "\N{MINUS SIGN}")


def notes(scene: Scene, top: float) -> str:
    """Write the spare time of each join, side by side without touching.

    Parameters
    ----------
    scene
        What is shown.
    top
        Upper edge [px].

    Returns
    -------
    Markup.
    """
    texts = note_texts(scene)
    widths = [max(text_width(line, SMALLEST_PX, bold=True) for line in lines) + 16 for _, lines in texts]
    room = (scene.frame.left_px, scene.frame.right_px)
    middles = spread([place for place, _ in texts], widths, room)
    shapes = [
        label(
            _RANGE,
            (scene.frame.left_px - 10, top + 20 + _NOTE_PX),
            SMALLEST_PX,
            scene.palette.ink,
            text_anchor="end",
        )
        for _ in texts[:1]
    ]
    for (place, lines), middle in zip(texts, middles, strict=True):
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
            weight = "700" if index == 0 or line.startswith("fill") else "400"
            at = (middle, top + 20 + _NOTE_PX * index)
            shapes.append(haloed(line, at, scene, text_anchor="middle", font_weight=weight))
    return "".join(shapes)


def haloed(text: str, at: Point, scene: Scene, **more: str) -> str:
    """Write a text with a rim of paper, so that a line behind it does not cross it.

    Parameters
    ----------
    text
        One line.
    at
        Start of the baseline, or its middle [px].
    scene
        What is shown.
    **more
        Further attributes.

    Returns
    -------
    A text element.
    """
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


ROW_PX = 26.0
"""Height of a coat's line [px]."""

_PLAIN_ROW_PX = 19.0
_SAME_M = 0.02


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
    return ROW_PX * len(scene.layer.coats) + notes_height(scene)


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
    return _leaders(scene, rows[scene.coat.number], notes_top) + lines + ties + notes(scene, notes_top)


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
        shapes.append(join_mark(((x, y + reach), (x, y - reach)), join.state, palette, 3.2 if short else 4.5))
    size, beside = (20, 11) if short else (34, 17)
    shapes += [sign(scene.prefix, "cup", (place + beside, y), size) for place in refill_places(scene, coat)]
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
    return hair + (haloed(text, at, scene) if scene.signs == 1 else "")


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
