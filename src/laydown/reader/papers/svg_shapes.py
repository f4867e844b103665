"""Elements of an SVG drawing as lists of points, each with the transforms of its groups applied."""

import math
import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from itertools import pairwise
from xml.etree.ElementTree import Element

from laydown.schema.message import Message, Name, message
from laydown.schema.problem import Problem

DrawnPoint = complex
"""A point of the drawing as x + iy, in its own units, y downwards."""

Matrix = tuple[float, float, float, float, float, float]
"""Affine transform (a, b, c, d, e, f) as SVG writes it."""

IDENTITY: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)
"""The transform that changes nothing; definition."""

_NUMBER = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?")
_TOKEN = re.compile(rf"([MmLlHhVvCcSsQqTtAaZz])|({_NUMBER.pattern})")
_CALL = re.compile(r"(\w+)\s*\(([^)]*)\)")
_COUNT: Mapping[str, int] = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "A": 7, "Z": 0}
"""Numbers each path command takes; W3C SVG 1.1, chapter 8."""

_MOST_PIECES = 200
"""Straight pieces one curve is cut into at most."""


class DrawingError(ValueError):
    """An outline or a transform that cannot be read."""

    def __init__(self, what: Message) -> None:
        super().__init__(what.code)
        self.what = what


@dataclass(slots=True)
class _Pen:
    """Where the drawing of a path stands."""

    flat: float
    at: DrawnPoint = 0j
    start: DrawnPoint = 0j
    control: DrawnPoint | None = None
    last: str = ""
    lines: list[list[DrawnPoint]] = field(default_factory=list)


def numbers(text: str) -> list[float]:
    """Read the numbers of an attribute."""
    return [float(number) for number in _NUMBER.findall(text)]


def multiply(outer: Matrix, inner: Matrix) -> Matrix:
    """Apply one transform after another."""
    a, b, c, d, e, f = outer
    k, m, n, p, q, r = inner
    return (a * k + c * m, b * k + d * m, a * n + c * p, b * n + d * p, a * q + c * r + e, b * q + d * r + f)


def apply(matrix: Matrix, place: DrawnPoint) -> DrawnPoint:
    """Move a point by a transform."""
    a, b, c, d, e, f = matrix
    x, y = place.real, place.imag
    return complex(a * x + c * y + e, b * x + d * y + f)


def read_transform(text: str) -> Matrix:
    """Read a transform attribute.

    Source: W3C SVG 1.1, chapter 7.6.
    """
    matrix = IDENTITY
    for name, inside in _CALL.findall(text):
        matrix = multiply(matrix, _transform(name, numbers(inside)))
    return matrix


def _transform(name: str, given: list[float]) -> Matrix:
    """One transform function."""
    angle = math.radians(given[0]) if given else 0.0
    match name, given:
        case "matrix", [a, b, c, d, e, f]:
            matrix = (a, b, c, d, e, f)
        case "translate", [x, *y] if len(y) < 2:
            matrix = (1.0, 0.0, 0.0, 1.0, x, y[0] if y else 0.0)
        case "scale", [k, *other] if len(other) < 2:
            matrix = (k, 0.0, 0.0, other[0] if other else k, 0.0, 0.0)
        case "rotate", [_]:
            matrix = (math.cos(angle), math.sin(angle), -math.sin(angle), math.cos(angle), 0.0, 0.0)
        case "rotate", [degrees, x, y]:
            turned = multiply((1.0, 0.0, 0.0, 1.0, x, y), _transform("rotate", [degrees]))
            matrix = multiply(turned, (1.0, 0.0, 0.0, 1.0, -x, -y))
        case "skewX", [_]:
            matrix = (1.0, 0.0, math.tan(angle), 1.0, 0.0, 0.0)
        case "skewY", [_]:
            matrix = (1.0, math.tan(angle), 0.0, 1.0, 0.0, 0.0)
        case _:
            raise DrawingError(message("transform-not-known", transform=Name(name), numbers=len(given)))
    return matrix


def flatten_path(text: str, flat: float) -> list[list[DrawnPoint]]:
    """Flatten the d attribute of a path.

    Source: W3C SVG 1.1, chapters 8.3 and F.6 (elliptical arcs).
    """
    pen = _Pen(flat)
    for command, values in _commands(text):
        if not pen.lines and command not in "Mm":
            raise DrawingError(message("path-must-begin-with-m"))
        _draw(pen, command, values)
        pen.last = command.upper()
    return pen.lines


def _commands(text: str) -> Iterator[tuple[str, list[float]]]:
    """Cut a path into commands with their numbers; a repeated M goes on as L."""
    tokens = [(match[1], match[2]) for match in _TOKEN.finditer(text)]
    place = 0
    while place < len(tokens):
        command, number = tokens[place]
        if not command:
            raise DrawingError(message("number-without-a-command", number=Name(number)))
        place += 1
        count = _COUNT[command.upper()]
        while True:
            values = [value for _, value in tokens[place : place + count]]
            if len(values) < count or "" in values:
                raise DrawingError(message("command-wants-numbers", command=Name(command), numbers=count))
            yield command, [float(value) for value in values]
            place += count
            if count == 0 or place >= len(tokens) or tokens[place][0]:
                break
            command = {"M": "L", "m": "l"}.get(command, command)


def _draw(pen: _Pen, command: str, v: list[float]) -> None:
    """Carry out one command."""
    kind = command.upper()
    origin = pen.at if command.islower() else 0j
    points = [origin + complex(x, y) for x, y in zip(v[::2], v[1::2], strict=False)]
    control: DrawnPoint | None = None
    match kind:
        case "M":
            pen.at = pen.start = points[0]
            pen.lines.append([pen.at])
        case "Z":
            pen.lines[-1].append(pen.start)
            pen.at = pen.start
        case "L":
            _line(pen, points[0])
        case "H":
            _line(pen, complex(origin.real + v[0], pen.at.imag))
        case "V":
            _line(pen, complex(pen.at.real, origin.imag + v[0]))
        case "C" | "S":
            first = points[0] if kind == "C" else _mirrored(pen, "CS")
            control, end = points[-2], points[-1]
            _bezier(pen, [pen.at, first, control, end])
        case "Q" | "T":
            control = points[0] if kind == "Q" else _mirrored(pen, "QT")
            _bezier(pen, [pen.at, control, points[-1]])
        case _:
            _arc(pen, v, origin + complex(v[5], v[6]))
    pen.control = control


def _mirrored(pen: _Pen, family: str) -> DrawnPoint:
    """Control point of a smooth command: the last one mirrored, else the current point."""
    return 2 * pen.at - pen.control if pen.control is not None and pen.last in family else pen.at


def _line(pen: _Pen, end: DrawnPoint) -> None:
    """Go straight on; after a close a new subpath begins."""
    if pen.last == "Z":
        pen.lines.append([pen.at])
        pen.last = ""
    pen.lines[-1].append(end)
    pen.at = end


def _curve(pen: _Pen, bend: float, end: DrawnPoint, at: Callable[[float], DrawnPoint]) -> None:
    """Go along a curve whose second difference over the whole of it is `bend`."""
    pieces = min(_MOST_PIECES, max(1, math.ceil(math.sqrt(bend / (8 * pen.flat)))))
    for step in range(1, pieces):
        _line(pen, at(step / pieces))
    _line(pen, end)


def _bezier(pen: _Pen, p: list[DrawnPoint]) -> None:
    """Go along a quadratic or cubic curve."""
    degree = len(p) - 1
    bend = degree * (degree - 1) * max(abs(p[i] - 2 * p[i + 1] + p[i + 2]) for i in range(degree - 1))

    def at(t: float) -> DrawnPoint:
        """Point by de Casteljau's construction."""
        level = p
        while len(level) > 1:
            level = [a + (b - a) * t for a, b in pairwise(level)]
        return level[0]

    _curve(pen, bend, p[-1], at)


def _arc(pen: _Pen, v: list[float], end: DrawnPoint) -> None:
    """Go along an elliptical arc."""
    rx, ry, turn = abs(v[0]), abs(v[1]), complex(math.cos(math.radians(v[2])), math.sin(math.radians(v[2])))
    half = (pen.at - end) / 2 / turn
    if rx == 0 or ry == 0 or half == 0:
        _line(pen, end)
        return
    size = math.hypot(half.real / rx, half.imag / ry)
    rx, ry = rx * max(1.0, size), ry * max(1.0, size)
    unit = complex(half.real / rx, half.imag / ry)
    reach = math.sqrt(max(0.0, 1 / abs(unit) ** 2 - 1)) * (-1 if bool(v[3]) == bool(v[4]) else 1)
    middle = complex(unit.imag, -unit.real) * reach
    start, stop = unit - middle, -unit - middle
    sweep = math.atan2(stop.imag, stop.real) - math.atan2(start.imag, start.real)
    if v[4] and sweep < 0:
        sweep += 2 * math.pi
    elif not v[4] and sweep > 0:
        sweep -= 2 * math.pi
    centre = (pen.at + end) / 2 + complex(middle.real * rx, middle.imag * ry) * turn

    def at(t: float) -> DrawnPoint:
        """Point on the ellipse."""
        on = start * complex(math.cos(sweep * t), math.sin(sweep * t))
        return centre + complex(on.real * rx, on.imag * ry) * turn

    _curve(pen, max(rx, ry) * sweep**2, end, at)


DRAWN = ("path", "polygon", "polyline", "line", "rect", "circle", "ellipse")
"""Element names that draw an outline."""


@dataclass(frozen=True, slots=True)
class DrawnShape:
    """One drawn element."""

    name: str
    attributes: Mapping[str, str]
    lines: tuple[tuple[DrawnPoint, ...], ...]


def elements(root: Element) -> Iterator[tuple[Element, Matrix | Problem]]:
    """Walk the drawn elements of a drawing."""
    waiting: list[tuple[Element, Matrix | Problem]] = [(root, IDENTITY)]
    while waiting:
        element, outer = waiting.pop()
        tag = element.tag.rsplit("}", 1)[-1] if isinstance(element.tag, str) else ""
        if tag in {"defs", "symbol", "clipPath", "mask", "pattern"}:
            continue
        matrix = _inner(element, outer)
        if tag in DRAWN:
            yield element, matrix
        waiting += [(child, matrix) for child in reversed(element)]


def _inner(element: Element, outer: Matrix | Problem) -> Matrix | Problem:
    """Transform of an element within its groups."""
    if isinstance(outer, Problem) or "transform" not in element.attrib:
        return outer
    try:
        return multiply(outer, read_transform(element.attrib["transform"]))
    except DrawingError as error:
        return Problem(element.get("id", "transform"), error.what, message("use-these-transforms"))


def read_shape(element: Element, matrix: Matrix, flat: float) -> DrawnShape:
    """Read one drawn element."""
    grown = max(math.hypot(matrix[0], matrix[1]), math.hypot(matrix[2], matrix[3]), 1e-9)
    lines = flatten_path(_as_path(element), flat / grown)
    moved = tuple(tuple(apply(matrix, place) for place in line) for line in lines)
    return DrawnShape(element.get("id", ""), dict(element.attrib), moved)


def _as_path(element: Element) -> str:
    """Write any drawn element as path commands."""
    tag = element.tag.rsplit("}", 1)[-1]
    if tag == "path":
        return element.get("d", "")
    if tag in {"polygon", "polyline"}:
        points = " ".join(str(number) for number in numbers(element.get("points", "")))
        return f"M {points}{' Z' if tag == 'polygon' else ''}" if points else ""

    def value(name: str) -> float:
        """Number of an attribute; left out counts as nought, as in the standard."""
        found = numbers(element.get(name, "0"))
        if len(found) != 1:
            raise DrawingError(message("attribute-must-be-a-number", attribute=Name(name)))
        return found[0]

    if tag == "line":
        return f"M {value('x1')} {value('y1')} L {value('x2')} {value('y2')}"
    if tag == "rect":
        return f"M {value('x')} {value('y')} h {value('width')} v {value('height')} h {-value('width')} Z"
    rx, ry = (value("r"), value("r")) if tag == "circle" else (value("rx"), value("ry"))
    left, middle = value("cx") - rx, value("cy")
    return f"M {left} {middle} a {rx} {ry} 0 1 0 {2 * rx} 0 a {rx} {ry} 0 1 0 {-2 * rx} 0 Z"
