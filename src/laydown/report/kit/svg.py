"""Writes SVG elements: everything that comes from a file is escaped, every number is short."""

from collections.abc import Iterable
from xml.sax.saxutils import escape, quoteattr

from laydown.report.kit.text_width import readable
from laydown.report.kit.typeface import FAMILY
from laydown.schema.side import Point

Attribute = str | float | None
"""What an attribute may hold; None leaves it out."""


def number(value: float) -> str:
    """Write a length in at most one decimal, without a trailing zero."""
    text = f"{value:.1f}".removesuffix(".0")
    return "0" if text == "-0" else text


def element(tag: str, *children: str, **attributes: Attribute) -> str:
    """Write one element."""
    parts = [tag]
    for key, value in attributes.items():
        if value is None:
            continue
        text = value if isinstance(value, str) else number(float(value))
        parts.append(f"{key.rstrip('_').replace('_', '-')}={quoteattr(text)}")
    head = " ".join(parts)
    inner = "".join(children)
    return f"<{head}>{inner}</{tag}>" if inner else f"<{head}/>"


def words(tag: str, text: str) -> str:
    """Write an element that holds only text, such as title or desc."""
    return f"<{tag}>{escape(readable(text))}</{tag}>"


def label(text: str, at: Point, size: float, fill: str, **more: Attribute) -> str:
    """Write one line of text."""
    return element("text", escape(readable(text)), x=at[0], y=at[1], font_size=size, fill=fill, **more)


def track(points: Iterable[Point], *, closed: bool = False) -> str:
    """Write the data of a path through points."""
    text = "L".join(f"{number(x)},{number(y)}" for x, y in points)
    return f"M{text}{'Z' if closed else ''}"


def picture(size: Point, title: str, description: str, *children: str) -> str:
    """Write a whole picture with its title, its description and its role."""
    return element(
        "svg",
        words("title", title),
        words("desc", description),
        *children,
        xmlns="http://www.w3.org/2000/svg",
        width=size[0],
        height=size[1],
        viewBox=f"0 0 {number(size[0])} {number(size[1])}",
        role="img",
        font_family=f"{FAMILY}, sans-serif",
    )
