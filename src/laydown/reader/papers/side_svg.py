"""Reads a side drawn as SVG: closed paths are panels, one line gives the scale, one the ground, one mark the axle."""

import math
import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from difflib import get_close_matches
from typing import Literal
from xml.etree.ElementTree import Element, ParseError

from defusedxml.common import DefusedXmlException
from defusedxml.ElementTree import fromstring

from laydown.reader.papers.svg_shapes import (
    DrawingError,
    DrawnPoint,
    DrawnShape,
    Matrix,
    elements,
    read_shape,
)
from laydown.schema.message import Name, message
from laydown.schema.problem import InputError, Problem
from laydown.schema.side import Backdrop, Cut, Line, Masked, Point, Ring, Side, SidePanel

MOST_BYTES = 2_000_000
"""Largest drawing that is read [bytes]; assumption: a traced side has some 50 kB."""

_FLAT_M = 0.001
"""Curves are flattened to this distance [m]."""

_CLOSED_M = 0.005
"""Largest distance between start and end of an outline that is meant to be closed [m]; assumption."""

ToMetres = Callable[[DrawnPoint], Point]
"""Way from a place of the drawing to metres."""

CutKind = Literal["gap", "arch", "pillar"]
"""What lies where a panel ends."""

_ID = re.compile(r"[a-z][a-z0-9_]{0,59}")
_MARKS = ("scale", "axle", "ground")
_CUTS = ("gap", "arch", "pillar")
_LINES = ("moulding", "body_line")
_BACKDROP = ("silhouette", "glass", "bumper", "wheel", "handle")
_KINDS = ("panel", "masked", "cut", "line", *_CUTS, *_LINES, *_BACKDROP)


@dataclass(slots=True)
class _Parts:
    """What was found so far."""

    panels: list[SidePanel] = field(default_factory=list)
    masked: list[Masked] = field(default_factory=list)
    cuts: list[Cut] = field(default_factory=list)
    lines: list[Line] = field(default_factory=list)
    backdrop: list[tuple[str, DrawnShape]] = field(default_factory=list)
    faults: list[Problem] = field(default_factory=list)


def read_side_svg(text: str | bytes, name: str) -> Side:
    """Read a side from an SVG drawing; every problem of it is refused at once.

    A closed outline with an id or `data-panel` is a panel, unless `data-kind` makes it masked, gap, arch, pillar,
    moulding, body_line or a part of the backdrop (silhouette, glass, bumper, wheel, handle). `id="scale"` with
    `data-length-m` gives the scale, `id="axle"` the front axle, `id="ground"` the ground. On the root element
    `data-girth`, `data-edge-m`, `data-side` and `data-status` may stand. Entities in the file are refused.
    """
    root = _parse(text, name)
    parts = _Parts()
    shapes = _shapes(root, parts)
    place = _place(root, shapes, parts)
    for shape in shapes:
        if shape.name not in _MARKS:
            _take(shape, place, parts)
    settings = _settings(root, parts)
    if not parts.panels:
        parts.faults.append(Problem("panels", message("no-panel-found"), message("give-each-outline-an-id")))
    if parts.faults:
        raise InputError(name, tuple(parts.faults))
    girth, edge = settings
    return Side(
        format="laydown-side/1",
        name=name,
        panels=tuple(parts.panels),
        side="right" if root.get("data-side") == "right" else "left",
        girth=girth,
        edge_m=edge,
        status="photo" if root.get("data-status") == "photo" else "measured",
        masked=tuple(parts.masked),
        cuts=tuple(parts.cuts),
        lines=tuple(parts.lines),
        backdrop=_backdrop(parts, place),
    )


def _parse(text: str | bytes, name: str) -> Element:
    """Parse without entities."""
    size = len(text.encode()) if isinstance(text, str) else len(text)
    if size > MOST_BYTES:
        hint = message("most-megabytes-of-a-drawing", megabytes=MOST_BYTES / 1e6)
        raise InputError(name, (Problem("file", message("size-of-a-drawing", megabytes=size / 1e6), hint),))
    try:
        root: Element = fromstring(text)
    except DefusedXmlException:
        problem = Problem("file", message("contains-an-entity"), message("save-without-entities"))
        raise InputError(name, (problem,)) from None
    except (ParseError, ValueError) as error:
        what = message("no-svg-drawing-because", reason=Name(error))
        raise InputError(name, (Problem("file", what, message("save-as-plain-svg")),)) from None
    if not isinstance(root.tag, str) or root.tag.rsplit("}", 1)[-1] != "svg":
        raise InputError(name, (Problem("file", message("no-svg-drawing"), message("save-as-plain-svg")),))
    return root


def _shapes(root: Element, parts: _Parts) -> list[DrawnShape]:
    """Read every outline that has a meaning; decoration without id, panel or kind is passed over."""
    wanted = [
        (element, matrix)
        for element, matrix in elements(root)
        if {"id", "data-panel", "data-kind"} & set(element.attrib)
    ]
    marks = _read([entry for entry in wanted if entry[0].get("id") == "scale"], 1.0, _Parts())
    per_m = _units_per_m(marks[0]) if marks else None
    return _read(wanted, _FLAT_M * per_m if per_m else 1.0, parts)


def _read(wanted: Sequence[tuple[Element, Matrix | Problem]], flat: float, parts: _Parts) -> list[DrawnShape]:
    """Flatten outlines; those that cannot be read become faults."""
    shapes = []
    for number, (element, matrix) in enumerate(wanted, 1):
        name = element.get("data-panel") or element.get("id") or f"element {number}"
        if isinstance(matrix, Problem):
            parts.faults.append(matrix)
            continue
        try:
            shape = read_shape(element, matrix, flat)
        except DrawingError as error:
            parts.faults.append(Problem(name, error.what, message("draw-the-outline-again")))
            continue
        except ValueError as error:
            what = message("in-other-words", said=Name(error))
            parts.faults.append(Problem(name, what, message("draw-the-outline-again")))
            continue
        shapes.append(DrawnShape(name, shape.attributes, shape.lines))
    return shapes


def _units_per_m(scale: DrawnShape) -> float | None:
    """Units of the drawing per metre, from the scale line; None when it says nothing."""
    try:
        length_m = float(scale.attributes.get("data-length-m", ""))
    except ValueError:
        return None
    if not scale.lines or not math.isfinite(length_m) or length_m <= 0:
        return None
    drawn = abs(scale.lines[0][-1] - scale.lines[0][0])
    return drawn / length_m if drawn > 0 else None


def _place(root: Element, shapes: Sequence[DrawnShape], parts: _Parts) -> ToMetres:
    """Find scale, axle and ground, and give the way from the drawing to metres."""
    marks = {shape.name: shape for shape in shapes if shape.name in _MARKS and shape.lines}
    per_m = _units_per_m(marks["scale"]) if "scale" in marks else None
    if per_m is None:
        parts.faults.append(Problem("scale", message("scale-is-missing"), message("draw-the-scale")))
    if "axle" not in marks:
        parts.faults.append(Problem("axle", message("axle-is-missing"), message("draw-the-axle")))
    if "ground" not in marks:
        parts.faults.append(Problem("ground", message("ground-is-missing"), message("draw-the-ground")))
    x0 = _centre(marks["axle"]).real if "axle" in marks else 0.0
    y0 = _centre(marks["ground"]).imag if "ground" in marks else 0.0
    unit = per_m or 1.0
    # The right side is stored as its mirror image, so that the front always lies at small x.
    mirror = -1.0 if root.get("data-side") == "right" else 1.0

    def to_metres(place: DrawnPoint) -> Point:
        """Along the vehicle from the front axle, and up from the ground, to 0.1 mm."""
        return round(mirror * (place.real - x0) / unit, 4) + 0.0, round((y0 - place.imag) / unit, 4) + 0.0

    return to_metres


def _centre(shape: DrawnShape) -> DrawnPoint:
    """Middle of a shape's bounding box."""
    places = [place for line in shape.lines for place in line]
    x, y = [place.real for place in places], [place.imag for place in places]
    return complex((min(x) + max(x)) / 2, (min(y) + max(y)) / 2)


def _take(shape: DrawnShape, place: ToMetres, parts: _Parts) -> None:
    """Add one outline to what it is a part of."""
    kind = shape.attributes.get("data-kind", "panel")
    if kind not in _KINDS:
        close = get_close_matches(kind, _KINDS, n=1)
        kinds = tuple(map(Name, _KINDS))
        hint = (
            message("did-you-mean-of-the-kinds", near=Name(close[0]), kinds=kinds)
            if close
            else message("kinds-known", kinds=kinds)
        )
        parts.faults.append(Problem(shape.name, message("kind-not-known", kind=Name(kind)), hint))
        return
    if kind in _BACKDROP:
        parts.backdrop.append((kind, shape))
        return
    lines = [_without_repeats([place(point) for point in line]) for line in shape.lines]
    if kind in {"panel", "masked"}:
        _take_ring(shape, kind, lines, parts)
        return
    if not lines or len(lines[0]) < 2:
        parts.faults.append(Problem(shape.name, message("needs-two-points"), message("draw-the-line-again")))
        return
    points = tuple(lines[0])
    if kind in _LINES or kind == "line":
        front_first = points if points[0][0] <= points[-1][0] else points[::-1]
        parts.lines.append(Line(shape.name, "moulding" if kind == "moulding" else "body_line", front_first))
        return
    named = tuple(_id(word) for word in shape.attributes.get("data-panels", "").replace(",", " ").split())
    if not 1 <= len(named) <= 2:
        what = message("says-not-which-panels")
        parts.faults.append(Problem(shape.name, what, message("name-the-panels-on-both-sides")))
        return
    cut: CutKind = "arch" if kind == "arch" else "pillar" if kind == "pillar" else "gap"
    bottom_first = points if points[0][1] <= points[-1][1] else points[::-1]
    parts.cuts.append(Cut(shape.name, cut, named, bottom_first))


def _take_ring(shape: DrawnShape, kind: str, lines: list[list[Point]], parts: _Parts) -> None:
    """Add a panel or a masked part."""
    gaps = [math.dist(line[0], line[-1]) for line in lines if line]
    if not lines or any(len(line) < 4 for line in lines) or max(gaps, default=1.0) > _CLOSED_M:
        parts.faults.append(Problem(shape.name, message("outline-not-closed"), message("close-the-path")))
        return
    rings: tuple[Ring, ...] = tuple(tuple(line[:-1]) for line in lines)
    name = _id(shape.name)
    if not _ID.fullmatch(name):
        parts.faults.append(Problem(shape.name, message("cannot-be-an-id"), message("write-an-id")))
    elif kind == "masked":
        parts.masked.append(Masked(name, rings))
    else:
        label = shape.attributes.get("data-label", name.replace("_", " "))
        parts.panels.append(SidePanel(name, label[:60], rings))


def _id(text: str) -> str:
    """Turn a name into an id: lower case, blanks and hyphens to underscores."""
    return "_".join(text.lower().replace("-", " ").replace("_", " ").split())


def _without_repeats(points: list[Point]) -> list[Point]:
    """Drop points that repeat the one before."""
    return [point for number, point in enumerate(points) if number == 0 or point != points[number - 1]]


def _settings(root: Element, parts: _Parts) -> tuple[float, float]:
    """Girth and edge from the root element."""
    found = []
    for key, usual, low, high in (("data-girth", 1.0, 1.0, 1.4), ("data-edge-m", 0.0, 0.0, 0.03)):
        text = root.get(key)
        try:
            value = usual if text is None else float(text)
        except ValueError:
            value = math.nan
        if not low <= value <= high:
            hint = message("a-number-from-to", low=low, high=high)
            parts.faults.append(Problem(key, message("cannot-be", typed=Name(text)), hint))
        found.append(value)
    for key, allowed in (("data-side", ("left", "right")), ("data-status", ("measured", "photo"))):
        if root.get(key, allowed[0]) not in allowed:
            what = message("word-not-known", typed=Name(root.get(key)))
            parts.faults.append(Problem(key, what, message("one-of-these", words=tuple(map(Name, allowed)))))
    return found[0], found[1]


def _backdrop(parts: _Parts, place: ToMetres) -> Backdrop:
    """What a picture shows around the panels."""
    rings: dict[str, list[Ring]] = {kind: [] for kind in _BACKDROP}
    for kind, shape in parts.backdrop:
        rings[kind] += [tuple(_without_repeats([place(point) for point in line])) for line in shape.lines]
    boxes = {kind: [_box(ring) for ring in rings[kind]] for kind in ("wheel", "handle")}
    return Backdrop(
        silhouette=rings["silhouette"][0] if rings["silhouette"] else (),
        glass=tuple(rings["glass"]),
        bumpers=tuple(rings["bumper"]),
        wheels=tuple((x, y, width / 2) for x, y, width in boxes["wheel"]),
        handles=tuple((x, y) for x, y, _ in boxes["handle"]),
    )


def _box(ring: Ring) -> tuple[float, float, float]:
    """Centre and width of a ring [m]."""
    x, y = [point[0] for point in ring], [point[1] for point in ring]
    return (min(x) + max(x)) / 2, (min(y) + max(y)) / 2, max(x) - min(x)
