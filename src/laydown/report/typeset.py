"""The one place that calls the typesetter: only the shipped typeface, nothing from the system, nothing from the net."""

from functools import cache

import typst

from laydown.report.typeface import font_folder


@cache
def _fonts() -> typst.Fonts:
    """Read the typeface once."""
    return typst.Fonts(
        include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(font_folder())]
    )


def typeset_pdf(source: bytes, inputs: dict[str, str]) -> bytes:
    """Set a document as PDF that a screen reader can read.

    Parameters
    ----------
    source
        The document.
    inputs
        Texts it reads from ``sys.inputs``.

    Returns
    -------
    The PDF file; the same input gives the same bytes.

    Raises
    ------
    typst.TypstError
        When the document is faulty, an assertion in it fails, or the typeface lacks a letter.

    Sources
    -------
    ISO 14289-1 (PDF/UA-1), checked by the typesetter.
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
    """Set a document of one page as PNG.

    Parameters
    ----------
    source
        The document.
    inputs
        Texts it reads from ``sys.inputs``.
    ppi
        Pixels per inch.

    Returns
    -------
    The PNG file.

    Raises
    ------
    typst.TypstError
        When the document is faulty.
    """
    return typst.compile(
        source, font_paths=_fonts(), ignore_system_fonts=True, format="png", ppi=ppi, sys_inputs=inputs
    )
