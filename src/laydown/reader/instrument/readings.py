"""Reads what an instrument has measured on panel and car; the content tells the format, not the name of the file."""

from collections.abc import Iterable
from dataclasses import dataclass

from laydown.reader.instrument.cgats import is_cgats
from laydown.reader.instrument.cgats_colours import cgats_readings
from laydown.reader.instrument.csv_table import HEADER, csv_readings, is_readings_csv
from laydown.reader.instrument.cxf3 import cxf3_readings, is_xml
from laydown.reader.instrument.mapping import USUAL_MAP
from laydown.reader.instrument.raw import LARGEST_READINGS, Faults, Question, RawReading, RawSpot, lines_of
from laydown.reader.instrument.sample_name import LONGEST_NAME, is_ignored, parts_of, spot_of
from laydown.reader.instrument.settle import settle
from laydown.schema.message import Name, message
from laydown.schema.problem import InputError, Problem
from laydown.schema.reading import ReadingMap, Readings, Understood


@dataclass(frozen=True, slots=True)
class SampleAsked:
    """A sample of a file, and what it is taken for."""

    name: str
    where: str
    count: int
    spot: RawSpot | None
    told: bool


def samples_asked(raw: Iterable[RawReading], mapping: ReadingMap) -> tuple[SampleAsked, ...]:
    """Return the samples of a file."""
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
    """What was found in a file, for a person who may still answer questions about it."""

    readings: Readings | None
    problems: tuple[Problem, ...]
    asked: frozenset[Question] = frozenset()
    only_asked: bool = False
    samples: tuple[SampleAsked, ...] = ()


def decode_readings(data: bytes, source: str, mapping: ReadingMap = USUAL_MAP) -> Readings:
    """Return the readings in the content of a file; every problem of it is refused at once."""
    looked = look_into(data, source, mapping)
    if looked.readings is None:
        raise InputError(source, looked.problems)
    return looked.readings


def look_into(data: bytes, source: str, mapping: ReadingMap = USUAL_MAP) -> Looked:
    """Return what is in the content of a file, and what has to be asked about it."""
    faults = Faults()
    if len(data) > LARGEST_READINGS:
        what = message("readings.too-large", megabytes=LARGEST_READINGS // 1_000_000)
        return Looked(None, (Problem("file", what, message("readings.too-large.mend")),))
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
    hint = message("readings.none.mend", columns=tuple(map(Name, HEADER[:9])))
    faults.add("file", message("readings.none" if any(lines) else "readings.empty"), hint)
    return [], []
