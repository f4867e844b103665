"""The notes under the ruler: how much time is spare at each join, where one lies in the open, what is filled."""

from laydown.report.measure_text import text_width
from laydown.report.scene import Scene
from laydown.report.side_by_side import spread
from laydown.report.style import SMALLEST_PX
from laydown.report.svg import element, label, track
from laydown.schema.coat import Join
from laydown.schema.side import Point
from laydown.units import show

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
