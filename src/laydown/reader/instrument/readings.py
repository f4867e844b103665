"""Reads what an instrument has measured on panel and car; the content tells the format, not the name of the file."""

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from laydown.reader.files import read_bytes
from laydown.reader.instrument.cgats import is_cgats
from laydown.reader.instrument.cgats_colours import cgats_readings
from laydown.reader.instrument.csv_table import HEADER, csv_readings, is_readings_csv
from laydown.reader.instrument.cxf3 import cxf3_readings, is_xml
from laydown.reader.instrument.mapping import USUAL_MAP
from laydown.reader.instrument.raw import LARGEST_READINGS, Faults, Question, RawReading, Spot, lines_of
from laydown.reader.instrument.sample_name import LONGEST_NAME, is_ignored, parts_of, spot_of
from laydown.reader.instrument.settle import settle
from laydown.schema.problem import InputError, Problem
from laydown.schema.reading import ReadingMap, Readings, Understood


@dataclass(frozen=True, slots=True)
class SampleAsked:
    """A sample of a file, and what it is taken for.

    Attributes
    ----------
    name
        Its name without angle and number of the reading, as a mapping explains it.
    where
        Where it stands first.
    count
        How many values it has.
    spot
        What it is taken for; none where its name says nothing or several things.
    told
        Whether the user said so.
    """

    name: str
    where: str
    count: int
    spot: Spot | None
    told: bool


def samples_asked(raw: Iterable[RawReading], mapping: ReadingMap) -> tuple[SampleAsked, ...]:
    """Return the samples of a file.

    Parameters
    ----------
    raw
        Everything the file holds.
    mapping
        What the user has said.

    Returns
    -------
    Each sample that is not left out, once, in the order of the file; none where the file itself says what was read.
    """
    found: dict[str, SampleAsked] = {}
    for one in raw:
        if one.spot is not None or not one.name or len(one.name) > LONGEST_NAME:
            continue
        if is_ignored(one.name, mapping):
            continue
        name = parts_of(one.name).rest or " ".join(one.name.casefold().split())
        before = found.get(name)
        if before is None:
            spot, told = spot_of(one.name, mapping) or (None, False)
            found[name] = SampleAsked(name, one.where, 1, spot, told)
        else:
            found[name] = SampleAsked(name, before.where, before.count + 1, before.spot, before.told)
    return tuple(found.values())


@dataclass(frozen=True, slots=True)
class Looked:
    """What was found in a file, for a person who may still answer questions about it.

    Attributes
    ----------
    readings
        The readings; none where anything is wrong.
    problems
        Everything that is wrong.
    asked
        What the problems ask that a mapping can answer.
    only_asked
        Whether answers would mend all of it.
    samples
        Names of the file and what they are taken for.
    """

    readings: Readings | None
    problems: tuple[Problem, ...]
    asked: frozenset[Question] = frozenset()
    only_asked: bool = False
    samples: tuple[SampleAsked, ...] = ()


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
    looked = look_into(data, source, mapping)
    return looked.problems if looked.readings is None else looked.readings


def look_into(data: bytes, source: str, mapping: ReadingMap = USUAL_MAP) -> Looked:
    """Return what is in the content of a file, and what has to be asked about it.

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
    Readings, or everything that is wrong, in the order of the file; and the samples the file names.
    """
    faults = Faults()
    if len(data) > LARGEST_READINGS:
        what = f"is larger than {LARGEST_READINGS // 1_000_000} MB"
        return Looked(None, (Problem("file", what, "export the readings of one panel and car only"),))
    raw, understood = _raw(data, mapping, faults)
    if faults.found and not raw:
        return Looked(None, faults.listed())
    readings = settle(source, raw, mapping, faults)
    samples = samples_asked(raw, mapping)
    if faults.found:
        only = faults.count() == sum(faults.asked.values())
        return Looked(None, faults.listed(), frozenset(faults.asked), only, samples)
    whole = Readings(source, readings.readings, readings.spectra, (*understood, *readings.understood))
    return Looked(whole, (), samples=samples)


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
