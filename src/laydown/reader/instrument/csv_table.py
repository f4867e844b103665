"""The program's own table of readings, and tables of other programs whose columns the user has named."""

import csv
import io
from collections.abc import Sequence

from laydown.reader.instrument.raw import (
    Faults,
    RawReading,
    Spot,
    decimal,
    illuminant,
    lab_of,
    observer,
    read_angle_deg,
)
from laydown.reader.instrument.sample_name import is_ignored
from laydown.reader.values import nearest, short
from laydown.schema.reading import ROLES, ReadingMap, Readings, Role

HEADER = ("panel", "role", "coats", "zone", "reading", "angle_deg", "L", "a", "b", "illuminant", "observer")
"""Columns of the own table; the last two may be left out and are then D65 and 10."""

_SPOT = ("panel", "role", "coats", "zone", "reading", "angle_deg")
_COLOUR = ("L", "a", "b")


def write_readings_csv(readings: Readings) -> str:
    """Return readings as the program's own table.

    Parameters
    ----------
    readings
        What to write; spectra have no place in the table and stay out.

    Returns
    -------
    Text that reads back to the same readings.
    """
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(HEADER)
    for one in readings.readings:
        coats = "" if one.coats is None else repr(one.coats)
        spot = (one.panel, one.role, coats, one.zone, one.number, repr(one.angle_deg))
        writer.writerow(
            (*spot, repr(one.lab_l), repr(one.lab_a), repr(one.lab_b), one.illuminant, one.observer)
        )
    return text.getvalue()


def is_readings_csv(lines: Sequence[str], mapping: ReadingMap) -> bool:
    """Return whether a text begins with columns of the own table, or with those the user has named.

    Parameters
    ----------
    lines
        The text.
    mapping
        Columns with other names.
    """
    _, header = _start(lines)
    cells = {
        cell.strip().casefold()
        for cell in header.replace('"', "").replace(";", ",").replace("\t", ",").split(",")
    }
    names = {name.casefold() for name in _names(mapping).values()}
    return len(cells & names) >= 3


def csv_readings(lines: Sequence[str], mapping: ReadingMap, faults: Faults) -> list[RawReading]:
    """Return every row of a table of readings.

    Parameters
    ----------
    lines
        The text.
    mapping
        Columns with other names.
    faults
        Takes up every fault with its line.

    Returns
    -------
    Rows in the order of the file.
    """
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
            faults.add(f"line {number}", "cannot be parted into cells", 'close every opening quote with "')
        elif len(cells) != len(named):
            what = f"has {len(cells)} cells, line {first} names {len(named)}"
            hint = "with decimal commas, part the cells by ; in every line"
            faults.add(f"line {number}", what, hint)
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
            faults.add(f"line {line}", f"the column {short(told)} stands twice", "keep one")
            complete = False
        elif name in needed:
            near = nearest(told.casefold(), given[:100])
            hint = f"did you mean {near}?" if near else "name the column in the mapping, under [columns]"
            faults.add(f"line {line}", f"the column {short(told)} is missing", hint)
            complete = False
    unknown = [cell for cell in header if cell.casefold() not in {told.casefold() for told in names.values()}]
    if unknown and not mapping.columns.sample and names == _names(ReadingMap()):
        near = nearest(unknown[0][:60], list(HEADER))
        faults.add(
            f"line {line}",
            f"the column {short(unknown[0])} is not known",
            f"did you mean {near}?" if near else f"columns: {', '.join(HEADER)}",
        )
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
            faults.add(where, f"angle_deg is {short(cells['angle_deg'])}, which is no angle", "write 45")
    lab = lab_of((cells["L"], cells["a"], cells["b"]), where, faults)
    lamp_text = cells.get("illuminant") or mapping.illuminant or "D65"
    eye_text = cells.get("observer") or str(mapping.observer or 10)
    lamp, eye = illuminant(lamp_text), observer(eye_text)
    if lamp is None:
        faults.add(where, f"the illuminant {short(lamp_text)} is not known", "write D65, D50, A or F11")
    if eye is None:
        faults.add(where, f"the observer {short(eye_text)} is not known", "write 2 or 10")
    if faults.count() > before:
        return None
    return RawReading(where, name, "", seen_deg, lab, None, lamp, eye, spot)


def _spot(cells: dict[str, str], where: str, faults: Faults) -> Spot | None:
    """What the row was read on, or None after a fault."""
    role: Role | None = next((known for known in ROLES if known == cells["role"].casefold()), None)
    if role is None:
        faults.add(where, f"the role {short(cells['role'])} is not known", f"write {', '.join(ROLES)}")
    number = decimal(cells["reading"])
    if number is None or not number.is_integer() or not 1 <= number <= 999:
        faults.add(
            where, f"reading is {short(cells['reading'])}", "number the readings of a spot 1, 2, 3 ..."
        )
    if not cells["panel"]:
        faults.add(where, "names no panel", "write the panel's name or number")
    coats = decimal(cells["coats"])
    if cells["coats"] and coats is None:
        faults.add(where, f"coats is {short(cells['coats'])}, which is no number", "write 2 or 2.5")
    if role is None or number is None:
        return None
    if role == "ground_ref" and not cells["coats"]:
        coats = 0.0
    return Spot(cells["panel"], role, coats, cells["zone"], int(number))
