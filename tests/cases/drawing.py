"""Reads pictures back for the tests: texts with their boxes, ids, and what refers to them."""

import re
import xml.etree.ElementTree as ET
from dataclasses import dataclass

from laydown.report.kit.text_width import text_width

SVG = "{http://www.w3.org/2000/svg}"


@dataclass(frozen=True)
class Words:
    text: str
    left: float
    right: float
    top: float
    bottom: float
    size: float


def root_of(svg):
    return ET.fromstring(svg)


def texts(svg, stretch=1.0):
    """Every text with the box it takes when the type is set larger by a factor."""
    found = []
    for node in root_of(svg).iter(f"{SVG}text"):
        size = float(node.get("font-size"))
        bold = node.get("font-weight") == "700"
        wide = text_width(node.text, size * stretch, bold=bold)
        anchor = node.get("text-anchor", "start")
        x, y = float(node.get("x")), float(node.get("y"))
        left = x - {"start": 0.0, "middle": wide / 2, "end": wide}[anchor]
        found.append(Words(node.text, left, left + wide, y - 0.74 * size * stretch, y + 0.2 * size, size))
    return found


def size_of(svg):
    root = root_of(svg)
    return float(root.get("width")), float(root.get("height"))


def ids(svg):
    return [node.get("id") for node in root_of(svg).iter() if node.get("id")]


def references(svg):
    return set(re.findall(r"url\(#([^)]+)\)", svg)) | set(re.findall(r'href="#([^"]+)"', svg))


def marked(svg, name):
    """Values of one data attribute, in order."""
    return [node.get(f"data-{name}") for node in root_of(svg).iter() if node.get(f"data-{name}")]


def overlapping(svg):
    """Pairs of texts that cover each other."""
    found = texts(svg)
    return [
        (a.text, b.text)
        for i, a in enumerate(found)
        for b in found[i + 1 :]
        if a.left < b.right - 1 and b.left < a.right - 1 and a.top < b.bottom - 2 and b.top < a.bottom - 2
    ]
