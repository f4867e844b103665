"""Turns an SVG picture into PNG pixels."""

import re
from functools import cache

import typst

from laydown.report.kit.typeface import font_folder


@cache
def _fonts() -> typst.Fonts:
    """Read the typeface once."""
    return typst.Fonts(
        include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(font_folder())]
    )


def typeset_pdf(source: bytes, inputs: dict[str, str]) -> bytes:
    """Set a document as PDF that a screen reader can read.

    Source: ISO 14289-1 (PDF/UA-1), checked by the typesetter.
    """
    return typst.compile(
        source,
        font_paths=_fonts(),
        ignore_system_fonts=True,
        format="pdf",
        sys_inputs=inputs,
        pdf_standards="ua-1",
    )


def typeset_png(source: bytes, inputs: dict[str, str], ppi: float) -> bytes:
    """Set a document of one page as PNG."""
    return typst.compile(
        source, font_paths=_fonts(), ignore_system_fonts=True, format="png", ppi=ppi, sys_inputs=inputs
    )


_SIZE = re.compile(r'<svg[^>]* width="([\d.]+)" height="([\d.]+)"')
_MOST_PX = 20_000
_POINTS_PER_INCH = 72.0


def png(svg: str, width_px: int) -> bytes:
    """Draw a picture as PNG."""
    if not 1 <= width_px <= _MOST_PX:
        raise ValueError(f"width_px must be 1 to {_MOST_PX}; got {width_px}")
    size = _SIZE.search(svg)
    if size is None:
        raise ValueError("svg must have a width and a height on its root element")
    source = (
        f"#set page(width: {size[1]}pt, height: {size[2]}pt, margin: 0pt)\n"
        '#image(bytes(sys.inputs.picture), format: "svg", width: 100%, height: 100%)'
    )
    ppi = _POINTS_PER_INCH * width_px / float(size[1])
    return typeset_png(source.encode(), {"picture": svg}, ppi)
