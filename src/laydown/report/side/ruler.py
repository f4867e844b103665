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
from laydown.schema.message import Name, Range
from laydown.schema.side import Point
from laydown.unit_table import FOOT_M
from laydown.units import System
from laydown.words.show import Words

METRES_PX = 36.0
"""Height of the scale with the air around it [px]."""

_TICK_PX = 7.0
_OVER_PX = 12.0
_STEPS: dict[System, tuple[float, int, str]] = {"metric": (1.0, 1, "m"), "us": (2 * float(FOOT_M), 2, "ft")}


def metres(scene: Scene) -> str:
    """Draw a tick with its metre, or every second foot, along the ground line."""
    frame = scene.frame
    top = frame.bottom_px
    shapes = []
    step_m, counted, unit = _STEPS[scene.words.system]
    zero = scene.words.say("ruler-zero", zero=Name(f"0 {unit}"))
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


def notes_height(scene: Scene) -> float:
    """Height that the notes below the ruler take [px]."""
    lines = max((len(lines) for _, lines in note_texts(scene)), default=0)
    return _NOTE_PX * lines + 10 if lines else 4


def note_texts(scene: Scene) -> tuple[tuple[float, tuple[tuple[str, bool], ...]], ...]:
    """What is written under the ruler for each join of the coat, and which lines weigh."""
    words = scene.words
    fills = {refill.after_section: refill.fill_g for refill in scene.coat.refills}
    found = []
    for join in scene.coat.joins:
        first, second = margin_lines(join, words)
        lines = [(first, True), (second, False)]
        if join.kind != "gap":
            place = words.say("ruler-place", feature_kind=join.kind, x_m=round(join.x_m, 2))
            lines.append((place, False))
        if join.between[0] in fills:
            lines.append((words.say("ruler-fill", fill_g=round(fills[join.between[0]])), True))
        found.append((scene.frame.across(join.x_m), tuple(lines)))
    return tuple(sorted(found))


def margin_lines(join: Join, words: Words) -> tuple[str, str]:
    """Say how much time is spare at a join, and in which range."""
    margin, low, high = (
        round(value) for value in (join.margin_s.value, join.margin_s.low, join.margin_s.high)
    )
    head = (
        words.say("ruler-margin", margin_s=margin) if margin >= 0 else words.say("ruler-late", late_s=-margin)
    )
    if high < 0:
        return head, words.say("ruler-late-range", late_s=Range(-high, -low))
    return head, words.say("ruler-range", margin_s=Range(low, high)).replace("-", "\N{MINUS SIGN}")


def notes(scene: Scene, top: float) -> str:
    """Write the margin of each join, side by side without touching."""
    texts = note_texts(scene)
    widths = [max(text_width(line, SMALLEST_PX, bold=True) for line, _ in lines) + 16 for _, lines in texts]
    room = (scene.frame.left_px, scene.frame.right_px)
    middles = spread([place for place, _ in texts], widths, room)
    shapes = [
        label(
            scene.words.say("nine-of-ten"),
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
        for index, (line, is_heavy) in enumerate(lines):
            weight = "700" if is_heavy else "400"
            at = (middle, top + 20 + _NOTE_PX * index)
            shapes.append(haloed(line, at, scene, text_anchor="middle", font_weight=weight))
    return "".join(shapes)


def haloed(text: str, at: Point, scene: Scene, **more: str) -> str:
    """Write a text with a rim of paper, so that a line behind it does not cross it."""
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
    """Height of the ruler with its notes."""
    return ROW_PX * len(scene.layer.coats) + notes_height(scene)


def ruler(scene: Scene, top_px: float) -> str:
    """Draw the ruler."""
    rows = {coat.number: top_px + ROW_PX * (index + 0.5) for index, coat in enumerate(scene.layer.coats)}
    ties = "".join(
        _ties(scene, coats, ends)
        for coats, ends in zip(pairwise(scene.layer.coats), pairwise(rows.values()), strict=True)
    )
    lines = "".join(_line(scene, coat, rows[coat.number]) for coat in scene.layer.coats)
    notes_top = top_px + ROW_PX * len(scene.layer.coats)
    return _leaders(scene, rows[scene.coat.number], notes_top) + lines + ties + notes(scene, notes_top)


def plain_ruler_height(layer: Layer) -> float:
    """Height of the ruler without notes."""
    return _PLAIN_ROW_PX * len(layer.coats) + 4


def plain_ruler(scene: Scene) -> str:
    """Draw the ruler from the upper edge, without notes and with short names."""
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
    name = _name(coat, scene.words, short=short)
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


def _name(coat: Coat, words: Words, *, short: bool) -> str:
    """Name of a coat at its line."""
    if coat.part == "drop":
        return words.say("drop-letter" if short else "drop")
    return str(coat.number) if short else words.say("coat-number", number=coat.number)


def refill_places(scene: Scene, coat: Coat) -> tuple[float, ...]:
    """Where the cup is filled in a coat."""
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
    text = scene.words.amount(round(abs(joins[0].x_m - joins[1].x_m), 2), "moved_m")
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
