"""Reads what an instrument has measured on panel and car; the content tells the format, not the name of the file."""

from pathlib import Path

from laydown.reader.cgats import is_cgats
from laydown.reader.cgats_readings import cgats_readings
from laydown.reader.cxf3 import cxf3_readings, is_xml
from laydown.reader.decode import decode
from laydown.reader.files import read_bytes, read_table, refused
from laydown.reader.leaf import short
from laydown.reader.raw_reading import LARGEST_READINGS, Faults, RawReading, illuminant, lines_of
from laydown.reader.reading_settle import settle
from laydown.reader.readings_csv import HEADER, csv_readings, is_readings_csv
from laydown.schema.problem import InputError, Problem
from laydown.schema.reading import OBSERVERS, ReadingMap, Readings, Understood

USUAL_MAP = ReadingMap()
"""A mapping in which the user has said nothing."""


def read_readings(path: Path, mapping: ReadingMap = USUAL_MAP) -> Readings:
    """Return the readings of a file.

    Parameters
    ----------
    path
        The program's own table (CSV), CGATS text, or CxF3.
    mapping
        What the user has said about the file.

    Returns
    -------
    The readings, and how the file was understood. What is not confirmed there was concluded from names and must be
    shown to the user before it is used.

    Raises
    ------
    InputError
        Everything that is wrong with the file; nothing of it is used then.
    """
    found = decode_readings(read_bytes(path, LARGEST_READINGS), path.name, mapping)
    if isinstance(found, Readings):
        return found
    raise InputError(str(path), found)


def decode_readings(
    data: bytes, source: str, mapping: ReadingMap = USUAL_MAP
) -> Readings | tuple[Problem, ...]:
    """Return the readings in the content of a file, or every problem at once.

    Parameters
    ----------
    data
        Content of the file.
    source
        Its name, kept with the readings.
    mapping
        What the user has said about the file.

    Returns
    -------
    Readings, or the problems in the order of the file; never both, and never a reading less than the file holds.
    """
    faults = Faults()
    if len(data) > LARGEST_READINGS:
        what = f"is larger than {LARGEST_READINGS // 1_000_000} MB"
        return (Problem("file", what, "export the readings of one panel and car only"),)
    raw, understood = _raw(data, mapping, faults)
    if faults.found and not raw:
        return faults.listed()
    readings = settle(source, raw, mapping, faults)
    if faults.found:
        return faults.listed()
    return Readings(source, readings.readings, readings.spectra, (*understood, *readings.understood))


def _raw(data: bytes, mapping: ReadingMap, faults: Faults) -> tuple[list[RawReading], list[Understood]]:
    """Tell the format and read it."""
    if is_xml(data):
        return cxf3_readings(data, mapping, faults)
    lines = lines_of(data, faults)
    if faults.found:
        return [], []
    if is_cgats(lines):
        return cgats_readings(lines, mapping, faults)
    if is_readings_csv(lines, mapping):
        return csv_readings(lines, mapping, faults), []
    hint = f"a table begins with the line {','.join(HEADER[:9])}; CGATS text and CxF3 are read too"
    faults.add("file", "holds no readings" if any(lines) else "is empty", hint)
    return [], []


def read_reading_map(path: Path) -> ReadingMap:
    """Return how the files of a measuring program are to be understood.

    Parameters
    ----------
    path
        TOML or JSON.

    Returns
    -------
    The mapping.

    Raises
    ------
    InputError
        Everything that is wrong with it.
    """
    raw = read_table(path)
    if raw.get("format", USUAL_MAP.format) != USUAL_MAP.format:
        hint = f'a mapping begins with format = "{USUAL_MAP.format}"'
        raise refused(
            path, f"has the format {short(raw['format'])}, which is not a mapping of readings", hint
        )
    decoded = decode(ReadingMap, {"format": USUAL_MAP.format, **raw})
    if decoded.noun is None:
        raise InputError(str(path), decoded.problems)
    found = decoded.noun
    faults = Faults()
    if found.illuminant is not None and illuminant(found.illuminant) != found.illuminant:
        faults.add("illuminant", f"{short(found.illuminant)} is not known", "write D65, D50, A or F11")
    if found.observer is not None and found.observer not in OBSERVERS:
        faults.add("observer", f"{found.observer} is not known", "write 2 or 10")
    for number, sample in enumerate(found.sample, start=1):
        if sample.role == "field" and sample.coats is None:
            faults.add(f"sample[{number}]", "is a field without coats", "add coats = 2")
        elif sample.role != "field" and sample.coats is not None:
            faults.add(f"sample[{number}].coats", f"a {sample.role} has no counted coats", "take it out")
    if faults.found:
        raise InputError(str(path), faults.listed())
    return found
