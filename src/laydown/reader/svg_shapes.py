"""Elements of an SVG drawing as lists of points, each with the transforms of its groups applied."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from xml.etree.ElementTree import Element

from laydown.reader.svg_outline import (
    IDENTITY,
    Matrix,
    Place,
    apply,
    flatten_path,
    multiply,
    numbers,
    read_transform,
)
from laydown.schema.problem import Problem

DRAWN = ("path", "polygon", "polyline", "line", "rect", "circle", "ellipse")
"""Element names that draw an outline."""


@dataclass(frozen=True, slots=True)
class Shape:
    """One drawn element.

    Attributes
    ----------
    name
        Its id, or its place in the file.
    attributes
        As written.
    lines
        Points of each subpath, in units of the drawing, y downwards.
    """

    name: str
    attributes: Mapping[str, str]
    lines: tuple[tuple[Place, ...], ...]


def elements(root: Element) -> Iterator[tuple[Element, Matrix | Problem]]:
    """Walk the drawn elements of a drawing.

    Parameters
    ----------
    root
        Top element of the drawing.

    Returns
    -------
    Each drawn element with the product of its groups' transforms, or the problem of one; definitions are left out.
    """
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
    except ValueError as error:
        return Problem(
            element.get("id", "transform"), str(error), "use translate, scale, rotate, skewX, skewY, matrix"
        )


def read_shape(element: Element, matrix: Matrix, flat: float) -> Shape:
    """Read one drawn element.

    Parameters
    ----------
    element
        The element.
    matrix
        Transform of its groups and its own.
    flat
        Largest distance of a straight piece from its curve, in units of the whole drawing, > 0.

    Returns
    -------
        The shape.

    Raises
    ------
    ValueError
        When its outline cannot be read.
    """
    grown = max(math.hypot(matrix[0], matrix[1]), math.hypot(matrix[2], matrix[3]), 1e-9)
    lines = flatten_path(_as_path(element), flat / grown)
    moved = tuple(tuple(apply(matrix, place) for place in line) for line in lines)
    return Shape(element.get("id", ""), dict(element.attrib), moved)


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
            raise ValueError(f"attribute {name} must be one number")
        return found[0]

    if tag == "line":
        return f"M {value('x1')} {value('y1')} L {value('x2')} {value('y2')}"
    if tag == "rect":
        return f"M {value('x')} {value('y')} h {value('width')} v {value('height')} h {-value('width')} Z"
    rx, ry = (value("r"), value("r")) if tag == "circle" else (value("rx"), value("ry"))
    left, middle = value("cx") - rx, value("cy")
    return f"M {left} {middle} a {rx} {ry} 0 1 0 {2 * rx} 0 a {rx} {ry} 0 1 0 {-2 * rx} 0 Z"
