"""Turns an SVG picture into PNG pixels."""

import re

from laydown.report.typeset import typeset_png

_SIZE = re.compile(r'<svg[^>]* width="([\d.]+)" height="([\d.]+)"')
_MOST_PX = 20_000
_POINTS_PER_INCH = 72.0


def png(svg: str, width_px: int) -> bytes:
    """Draw a picture as PNG.

    Parameters
    ----------
    svg
        A picture of this package: width and height stand on its root element.
    width_px
        Width of the result, 1 to 20 000 px.

    Returns
    -------
    The PNG file.

    Raises
    ------
    ValueError
        When the width is out of range or the text is no picture with a size.
    """
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
