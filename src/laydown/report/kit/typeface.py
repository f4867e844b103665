"""The one typeface of card and pictures, read from the font package: advance widths and known glyphs."""

import struct
from dataclasses import dataclass
from functools import cache
from importlib.util import find_spec
from pathlib import Path

FAMILY = "Source Sans Pro"
"""Family name that pictures and card ask for."""

_PACKAGE = "font_source_sans_pro"


@dataclass(frozen=True, slots=True)
class Typeface:
    """What is needed of a font to measure a text."""

    units_per_em: int
    advances: tuple[int, ...]
    glyphs: dict[int, int]


def font_folder() -> Path:
    """Find the folder of the font files; the package itself is not imported."""
    spec = find_spec(_PACKAGE)
    if spec is None or spec.submodule_search_locations is None:
        raise RuntimeError("the font package font-source-sans-pro is not installed")
    return Path(next(iter(spec.submodule_search_locations))) / "files"


@cache
def typeface(*, bold: bool) -> Typeface:
    """Read the regular or the bold face.

    Tables head, hhea, hmtx and the Unicode subtable of cmap in format 4 are read; big endian.

    Source: ISO/IEC 14496-22, Open Font Format: head, hhea, hmtx, cmap format 4 (from memory).
    """
    data = (font_folder() / f"SourceSansPro-{'Bold' if bold else 'Regular'}.ttf").read_bytes()
    tables = _tables(data)
    units: int = struct.unpack_from(">H", data, tables["head"] + 18)[0]
    count: int = struct.unpack_from(">H", data, tables["hhea"] + 34)[0]
    advances = tuple(pair[0] for pair in struct.iter_unpack(">Hh", data[tables["hmtx"] :][: 4 * count]))
    return Typeface(units, advances, _glyphs(data, tables["cmap"]))


def _tables(data: bytes) -> dict[str, int]:
    """Give the offset of every table."""
    count = struct.unpack_from(">H", data, 4)[0]
    rows = (struct.unpack_from(">4sLLL", data, 12 + 16 * row) for row in range(count))
    return {tag.decode("ascii"): offset for tag, _, offset, _ in rows}


def _glyphs(data: bytes, cmap: int) -> dict[int, int]:
    """Read the glyph of each code point of the basic plane."""
    count = struct.unpack_from(">H", data, cmap + 2)[0]
    for row in range(count):
        platform, encoding, offset = struct.unpack_from(">HHL", data, cmap + 4 + 8 * row)
        start = cmap + offset
        if (platform, encoding) == (3, 1) and struct.unpack_from(">H", data, start)[0] == 4:
            return _segments(data, start)
    raise RuntimeError("the font has no Unicode table in format 4")


def _segments(data: bytes, start: int) -> dict[int, int]:
    """Read the segments of a format 4 table."""
    count = struct.unpack_from(">H", data, start + 6)[0] // 2
    column = f">{count}H"
    ends = struct.unpack_from(column, data, start + 14)
    firsts = struct.unpack_from(column, data, start + 16 + 2 * count)
    deltas = struct.unpack_from(column, data, start + 16 + 4 * count)
    base = start + 16 + 6 * count
    offsets = struct.unpack_from(column, data, base)
    glyphs: dict[int, int] = {}
    for row, (first, end, delta, offset) in enumerate(zip(firsts, ends, deltas, offsets, strict=True)):
        for code in range(first, min(end, 0xFFFE) + 1):
            glyph = code
            if offset:
                glyph = struct.unpack_from(">H", data, base + 2 * row + offset + 2 * (code - first))[0]
                if glyph == 0:
                    continue
            glyphs[code] = (glyph + delta) % 65536
    return glyphs
