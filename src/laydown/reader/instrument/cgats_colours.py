"""Finds colours, angles and conditions in the tables of a CGATS text."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from laydown.reader.instrument.cgats import CgatsTable, read_cgats
from laydown.reader.instrument.raw import (
    Faults,
    RawReading,
    decimal,
    did_you_mean,
    digits,
    illuminant,
    lab_of,
    observer,
    quoted,
    read_angle_deg,
)
from laydown.reader.instrument.sample_name import is_ignored
from laydown.reader.values import nearest
from laydown.schema.message import Name, message
from laydown.schema.reading import ReadingMap, Spectrum, Understood

_LAB = ("LAB_L", "LAB_A", "LAB_B")
_NAMES = ("SAMPLE_NAME", "SAMPLE_ID", "SAMPLE_LOC")
_BAND = re.compile(r"(?:SPECTRAL_NM|SPECTRAL|SPEC|NM|R)_?(\d{3,6}(?:[.,]\d+)?)")


@dataclass(frozen=True, slots=True)
class _Table:
    """A table with colours, and what holds for all of its rows."""

    lab: tuple[int, int, int] | None
    bands: tuple[int, ...]
    start_nm: float
    increment_nm: float
    white: float
    illuminant: str | None
    observer: int | None
    angle_deg: float | None
    angle_column: int | None
    name_column: int | None
    id_column: int | None


def cgats_readings(
    lines: Sequence[str], mapping: ReadingMap, faults: Faults
) -> tuple[list[RawReading], list[Understood]]:
    """Return every colour of a CGATS text."""
    tables = read_cgats(lines, faults)
    coloured = [(number, table) for number, table in enumerate(tables, 1) if _has_colour(table, mapping)]
    if tables and not coloured:
        faults.add("file", message("readings.no-colours"), message("readings.no-colours.mend"))
    if mapping.angles_deg and len(mapping.angles_deg) != len(coloured):
        what = message("readings.angles-for-tables", count=len(mapping.angles_deg), tables=len(coloured))
        faults.add("angles_deg", what, message("readings.angles-for-tables.mend"))
    angles = dict(zip((number for number, _ in coloured), mapping.angles_deg, strict=False))
    raw: list[RawReading] = []
    understood: list[Understood] = []
    for number, table in coloured:
        settled = _settle(table, number, angles.get(number), mapping, faults)
        if settled is None:
            continue
        if number in angles:
            what = message("readings.all-rows-at", angle=digits(angles[number]))
            understood.append(Understood(f"table {number}", what, mapping.confirmed))
        for line, cells in table.rows:
            if len(cells) == len(table.fields):
                raw.append(_row(settled, line, cells, mapping, faults))
    return raw, understood


def _lab_names(mapping: ReadingMap) -> tuple[str, str, str]:
    """Names of the three columns, in capitals."""
    told = (mapping.columns.lightness, mapping.columns.a, mapping.columns.b)
    first, second, third = (name.upper() if name else usual for name, usual in zip(told, _LAB, strict=True))
    return first, second, third


def _has_colour(table: CgatsTable, mapping: ReadingMap) -> bool:
    """Whether a table has L*, a*, b* or several bands."""
    found = set(_lab_names(mapping)) & set(table.fields)
    return bool(found) or sum(bool(_BAND.fullmatch(name)) for name in table.fields) > 1


def _settle(
    table: CgatsTable, number: int, angle_deg: float | None, mapping: ReadingMap, faults: Faults
) -> _Table | None:
    """Find the columns and conditions of a table."""
    where = f"table {number}"
    columns = {name: index for index, name in enumerate(table.fields)}
    names = _lab_names(mapping)
    missing = [name for name in names if name not in columns]
    if 0 < len(missing) < 3:
        what = message("readings.no-columns", columns=tuple(map(Name, missing)))
        faults.add(where, what, message("readings.no-columns.mend"))
        return None
    bands = _bands(table, where, faults)
    if bands is None:
        return None
    lamp, eye = _conditions(table, where, faults)
    header = dict(table.header)
    white = decimal(header.get("SPECTRAL_NORM", "")) or 1.0
    told = {"factor": 1.0, "percent": 100.0}
    usual = next((columns[name] for name in _NAMES if name in columns), None)
    return _Table(
        None if missing else (columns[names[0]], columns[names[1]], columns[names[2]]),
        bands[0],
        bands[1],
        bands[2],
        told[mapping.spectra] if mapping.spectra else white,
        lamp,
        eye,
        angle_deg,
        _column(mapping.columns.angle, columns, where, faults),
        _column(mapping.columns.sample, columns, where, faults) if mapping.columns.sample else usual,
        columns.get("SAMPLE_ID"),
    )


def _column(told: str | None, columns: dict[str, int], where: str, faults: Faults) -> int | None:
    """Place of a column the user has named."""
    if told is None:
        return None
    if told.upper() not in columns:
        near = nearest(told.upper(), list(columns)[:100])
        its = message("readings.its-columns", columns=tuple(map(Name, list(columns)[:12])))
        what = message("readings.no-columns", columns=quoted(told))
        faults.add(where, what, did_you_mean(near) if near else its)
    return columns.get(told.upper())


def _bands(table: CgatsTable, where: str, faults: Faults) -> tuple[tuple[int, ...], float, float] | None:
    """Columns, first wavelength and step of the spectra; no columns where there is none, None after a fault."""
    found = [
        (decimal(hit[1]) or 0.0, index)
        for index, name in enumerate(table.fields)
        if (hit := _BAND.fullmatch(name))
    ]
    if len(found) < 2:
        return (), 0.0, 0.0
    places = tuple(index for _, index in found)
    steps = {after[0] - before[0] for before, after in pairwise(found)}
    if len(steps) == 1 and 0 < min(steps) <= 50:
        return places, found[0][0], min(steps)
    # Names are rounded where the step is no whole number; then the header says it.
    header = dict(table.header)
    start, end = (decimal(header.get(f"SPECTRAL_{word}_NM", "")) for word in ("START", "END"))
    if start is not None and end is not None and decimal(header.get("SPECTRAL_BANDS", "")) == len(places):
        return places, start, (end - start) / (len(places) - 1)
    faults.add(where, message("readings.uneven-spectra"), message("readings.uneven-spectra.mend"))
    return None


def _conditions(table: CgatsTable, where: str, faults: Faults) -> tuple[str | None, int | None]:
    """Illuminant and observer that the header states; what stands later counts."""
    lamp_text, eye_text = "", ""
    for keyword, value in table.header:
        if keyword in {"ILLUMINATION_NAME", "WEIGHTING_FUNCTION ILLUMINANT"}:
            lamp_text = value
        elif keyword in {"OBSERVER_ANGLE", "WEIGHTING_FUNCTION OBSERVER"}:
            eye_text = value
    lamp, eye = illuminant(lamp_text), observer(eye_text)
    for condition, text, known in (("illuminant", lamp_text, lamp), ("observer", eye_text, eye)):
        if text and known is None:
            what = message("readings.states-unknown", condition=condition, text=quoted(text))
            faults.add(where, what, message("readings.states-unknown.mend"))
    return lamp, eye


def _row(of: _Table, line: int, cells: tuple[str, ...], mapping: ReadingMap, faults: Faults) -> RawReading:
    """Return one data set."""
    where = f"line {line}"
    name = cells[of.name_column] if of.name_column is not None else ""
    key = cells[of.id_column] if of.id_column is not None else ""
    seen_deg = of.angle_deg
    if of.angle_column is not None:
        seen_deg = read_angle_deg(cells[of.angle_column])
        if seen_deg is None and not is_ignored(name, mapping):
            what = message("readings.no-angle", text=quoted(cells[of.angle_column]))
            faults.add(where, what, message("readings.mend.write-degrees"))
    lab = None
    if of.lab is not None and not is_ignored(name, mapping):
        lab = lab_of((cells[of.lab[0]], cells[of.lab[1]], cells[of.lab[2]]), where, faults)
    return RawReading(
        where=where,
        name=name,
        key=key,
        angle_deg=seen_deg,
        lab=lab,
        spectrum=_spectrum(of, cells, where, faults) if of.bands else None,
        illuminant=of.illuminant,
        observer=of.observer,
    )


def _spectrum(of: _Table, cells: tuple[str, ...], where: str, faults: Faults) -> Spectrum | None:
    """Return the spectrum of a data set as factors."""
    values = [decimal(cells[index]) for index in of.bands]
    factors = tuple(value / of.white for value in values if value is not None)
    if len(factors) < len(values):
        bad = cells[of.bands[values.index(None)]]
        what = message("readings.spectrum-no-number", text=quoted(bad))
        faults.add(where, what, message("readings.mend.export-again"))
        return None
    return Spectrum(of.start_nm, of.increment_nm, factors)
