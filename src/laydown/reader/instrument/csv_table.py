"""The program's own table of readings, and tables of other programs whose columns the user has named."""

import csv
from collections.abc import Sequence

from laydown.reader.instrument.raw import (
    Faults,
    RawReading,
    RawSpot,
    decimal,
    did_you_mean,
    illuminant,
    lab_of,
    observer,
    quoted,
    read_angle_deg,
)
from laydown.reader.instrument.sample_name import is_ignored
from laydown.reader.values import nearest
from laydown.schema.message import Name, message
from laydown.schema.reading import ROLES, ReadingMap, ReadingRole

HEADER = ("panel", "role", "coats", "zone", "reading", "angle_deg", "L", "a", "b", "illuminant", "observer")
"""Columns of the own table; the last two may be left out and are then D65 and 10."""

_SPOT = ("panel", "role", "coats", "zone", "reading", "angle_deg")
_COLOUR = ("L", "a", "b")


def is_readings_csv(lines: Sequence[str], mapping: ReadingMap) -> bool:
    """Return whether a text begins with columns of the own table, or with those the user has named."""
    _, header = _start(lines)
    cells = {
        cell.strip().casefold()
        for cell in header.replace('"', "").replace(";", ",").replace("\t", ",").split(",")
    }
    names = {name.casefold() for name in _names(mapping).values()}
    return len(cells & names) >= 3


def csv_readings(lines: Sequence[str], mapping: ReadingMap, faults: Faults) -> list[RawReading]:
    """Return every row of a table of readings."""
    first, header = _start(lines)
    parted_by = max(";\t,", key=header.count)
    # Each line is read by itself, so that one open quote cannot swallow the rest of the file.
    named = _cells(header, parted_by) or []
    columns = _columns(named, first, mapping, faults)
    rows: list[RawReading] = []
    for number, line in enumerate(lines[first:], start=first + 1):
        if not line.strip():
            continue
        cells = _cells(line, parted_by)
        if cells is None:
            faults.add(f"line {number}", message("readings.no-cells"), message("readings.no-cells.mend"))
        elif len(cells) != len(named):
            what = message("readings.other-cell-count", count=len(cells), line=first, named=len(named))
            faults.add(f"line {number}", what, message("readings.other-cell-count.mend"))
        elif columns:
            found = _row({name: cells[place] for name, place in columns.items()}, number, mapping, faults)
            rows += [found] if found else []
    return rows


def _start(lines: Sequence[str]) -> tuple[int, str]:
    """Count of lines up to the header, and the header; remarks with # and a line sep=; may stand before."""
    for number, line in enumerate(lines, start=1):
        plain = line.strip()
        if plain and not plain.startswith("#") and not plain.casefold().startswith("sep="):
            return number, line
    return len(lines), ""


def _cells(line: str, parted_by: str) -> list[str] | None:
    """Cells of a line; None if a quote stays open."""
    try:
        return [cell.strip() for cell in next(csv.reader([line], delimiter=parted_by, strict=True), [])]
    except csv.Error:
        return None


def _names(mapping: ReadingMap) -> dict[str, str]:
    """Name in the file of each own column."""
    told = mapping.columns
    other = {"angle_deg": told.angle, "L": told.lightness, "a": told.a, "b": told.b, "sample": told.sample}
    for name in ("panel", "role", "coats", "zone", "reading", "illuminant", "observer"):
        other[name] = getattr(told, name)
    names = {name: other.get(name) or name for name in HEADER}
    return {**names, "sample": told.sample} if told.sample else names


def _columns(header: list[str], line: int, mapping: ReadingMap, faults: Faults) -> dict[str, int]:
    """Place of each column that is there; empty after a fault."""
    given = [cell.casefold() for cell in header]
    names = _names(mapping)
    needed = (*_COLOUR, "sample") if mapping.columns.sample else (*_SPOT, *_COLOUR)
    places: dict[str, int] = {}
    complete = True
    for name, told in names.items():
        count = given.count(told.casefold())
        if count == 1:
            places[name] = given.index(told.casefold())
        elif count > 1:
            what = message("readings.column-twice", column=quoted(told))
            faults.add(f"line {line}", what, message("readings.mend.keep-one"))
            complete = False
        elif name in needed:
            near = nearest(told.casefold(), given[:100])
            hint = did_you_mean(near) if near else message("readings.column-missing.mend")
            faults.add(f"line {line}", message("readings.column-missing", column=quoted(told)), hint)
            complete = False
    unknown = [cell for cell in header if cell.casefold() not in {told.casefold() for told in names.values()}]
    if unknown and not mapping.columns.sample and names == _names(ReadingMap()):
        near = nearest(unknown[0][:60], list(HEADER))
        known = message("readings.column-unknown.mend", columns=tuple(map(Name, HEADER)))
        what = message("readings.column-unknown", column=quoted(unknown[0]))
        faults.add(f"line {line}", what, did_you_mean(near) if near else known)
    return places if complete else {}


def _row(cells: dict[str, str], line: int, mapping: ReadingMap, faults: Faults) -> RawReading | None:
    """Return one row, or None after a fault."""
    where, before = f"line {line}", faults.count()
    name = cells.get("sample", "")
    if name and is_ignored(name, mapping):
        return None
    spot = None if "sample" in cells else _spot(cells, where, faults)
    seen_deg = None
    if cells.get("angle_deg") or "sample" not in cells:
        seen_deg = read_angle_deg(cells.get("angle_deg", ""))
        if seen_deg is None:
            what = message("readings.angle-cell-no-angle", text=quoted(cells["angle_deg"]))
            faults.add(where, what, message("readings.angle-cell-no-angle.mend"))
    lab = lab_of((cells["L"], cells["a"], cells["b"]), where, faults)
    lamp_text = cells.get("illuminant") or mapping.illuminant or "D65"
    eye_text = cells.get("observer") or str(mapping.observer or 10)
    lamp, eye = illuminant(lamp_text), observer(eye_text)
    if lamp is None:
        what = message("readings.illuminant-unknown", text=quoted(lamp_text))
        faults.add(where, what, message("readings.mend.write-illuminant"))
    if eye is None:
        what = message("readings.observer-unknown", text=quoted(eye_text))
        faults.add(where, what, message("readings.mend.write-observer"))
    if faults.count() > before:
        return None
    return RawReading(where, name, "", seen_deg, lab, None, lamp, eye, spot)


def _spot(cells: dict[str, str], where: str, faults: Faults) -> RawSpot | None:
    """What the row was read on, or None after a fault."""
    role: ReadingRole | None = next((known for known in ROLES if known == cells["role"].casefold()), None)
    if role is None:
        hint = message("readings.role-unknown.mend", roles=tuple(map(Name, ROLES)))
        faults.add(where, message("readings.role-unknown", text=quoted(cells["role"])), hint)
    number = decimal(cells["reading"])
    if number is None or not number.is_integer() or not 1 <= number <= 999:
        what = message("readings.number-wrong", text=quoted(cells["reading"]))
        faults.add(where, what, message("readings.number-wrong.mend"))
    if not cells["panel"]:
        faults.add(where, message("readings.no-panel"), message("readings.no-panel.mend"))
    coats = decimal(cells["coats"])
    if cells["coats"] and coats is None:
        what = message("readings.coats-no-number", text=quoted(cells["coats"]))
        faults.add(where, what, message("readings.coats-no-number.mend"))
    if role is None or number is None:
        return None
    if role == "ground_ref" and not cells["coats"]:
        coats = 0.0
    return RawSpot(cells["panel"], role, coats, cells["zone"], int(number))
