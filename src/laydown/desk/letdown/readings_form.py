"""What a page asks about a file of readings, and the mapping that follows from the answers."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from laydown.desk.papers.readings import Measured
from laydown.reader.decode import decode
from laydown.reader.instrument.mapping import USUAL_MAP, decode_reading_map
from laydown.reader.instrument.raw import Faults, RawSpot, decimal, lines_of
from laydown.reader.instrument.sample_name import spot_of
from laydown.schema.message import Name, message
from laydown.schema.problem import InputError, Problem
from laydown.schema.reading import ReadingMap, SampleMeaning
from laydown.units import figures

MOST_SAMPLES = 60
"""Samples of a file that are asked about at most; assumption, a panel and a car have twenty."""

LEAVE = "leave"
"""Answer that a sample is to be left out; definition."""

_PARTS = re.compile(r"[\s;]+")


@dataclass(frozen=True, slots=True)
class SampleRow:
    """A sample of a file as the page asks about it."""

    number: int
    name: str
    count: int
    role: str
    coats: str
    zone: str


def sample_rows(measured: Measured) -> tuple[SampleRow, ...]:
    """Return the samples of a file, and those that are left out."""
    asked = sorted(measured.looked.samples, key=lambda one: one.spot is not None)
    found = [(one.name, one.count, *_said(one.spot)) for one in asked]
    found += [(name, 0, LEAVE, "", "") for name in measured.mapping.ignore]
    return tuple(SampleRow(number, *row) for number, row in enumerate(found[:MOST_SAMPLES], start=1))


def typed_text(measured: Measured) -> str:
    """Return readings as a person can go on typing them."""
    is_own = measured.mapping_name is None and not measured.looked.samples
    return "\n".join(lines_of(measured.content, Faults())) if is_own else ""


def mapping_answers(measured: Measured) -> dict[str, str]:
    """Write a mapping as the page would have it filled in."""
    mapping = measured.mapping
    found = {
        "illuminant": mapping.illuminant or "",
        "observer": str(mapping.observer or ""),
        "spectra": mapping.spectra or "",
        "angles_deg": " ".join(figures(angle) for angle in mapping.angles_deg),
        "other_angles_deg": " ".join(figures(angle) for angle in mapping.other_angles_deg),
    }
    for row in sample_rows(measured):
        place = f"sample.{row.number}"
        found |= {f"{place}.role": row.role, f"{place}.coats": row.coats, f"{place}.zone": row.zone}
    return found


def mapping_said(measured: Measured, answers: Mapping[str, str]) -> ReadingMap:
    """Return the mapping that follows from the answers of a page."""
    before, problems = measured.mapping, list[Problem]()
    raw: dict[str, Any] = {}
    for name in ("illuminant", "observer", "spectra"):
        text = answers.get(name, str(getattr(before, name) or "")).strip()
        if text:
            raw[name] = int(text) if text.isdecimal() else text
    for name in ("angles_deg", "other_angles_deg"):
        raw[name] = _angles(name, answers, getattr(before, name), problems)
    samples, left_out = _samples(measured, answers, problems)
    try:
        heard = decode_reading_map(raw, Path("answers"))
    except InputError as error:
        problems += [replace(one, where=one.where.partition("[")[0]) for one in error.problems]
        heard = USUAL_MAP
    if problems:
        raise InputError("", tuple(dict.fromkeys(problems)))
    return replace(
        before,
        illuminant=heard.illuminant,
        observer=heard.observer,
        spectra=heard.spectra,
        angles_deg=heard.angles_deg,
        other_angles_deg=heard.other_angles_deg,
        sample=samples,
        ignore=left_out,
        confirmed=False,
    )


def _angles(
    name: str, answers: Mapping[str, str], before: tuple[float, ...], problems: list[Problem]
) -> list[float]:
    """Read a list of angles."""
    if name not in answers:
        return list(before)
    parts = [part for part in _PARTS.split(answers[name].replace("°", " ").strip()) if part]
    found = [decimal(part) for part in parts]
    if None in found:
        what = message("readings.no-angle", text=Name(f"'{parts[found.index(None)][:20]}'"))
        problems.append(Problem(name, what, message("readings.mend.write-angles")))
    return [angle for angle in found if angle is not None]


def _samples(
    measured: Measured, answers: Mapping[str, str], problems: list[Problem]
) -> tuple[tuple[SampleMeaning, ...], tuple[str, ...]]:
    """Read what the samples are, and which are left out."""
    before = measured.mapping
    told = {_plain(one.name): one for one in before.sample}
    left_out = {_plain(name): name for name in before.ignore}
    for row in sample_rows(measured):
        place = f"sample.{row.number}"
        if f"{place}.role" not in answers:
            continue
        plain, role = _plain(row.name), answers[f"{place}.role"]
        was = told.get(plain)
        if role == LEAVE:
            left_out.setdefault(plain, row.name)
        else:
            left_out.pop(plain, None)
        if role in {LEAVE, ""}:
            told.pop(plain, None)
            continue
        heard = _meaning(row.name, place, answers, problems)
        if heard is not None and was is not None:
            told[plain] = replace(heard, name=was.name, panel=was.panel)
        elif heard is not None and _needed(heard):
            told[plain] = heard
    return tuple(told.values()), tuple(left_out.values())


def _meaning(
    name: str, place: str, answers: Mapping[str, str], problems: list[Problem]
) -> SampleMeaning | None:
    """Read what one sample is, or note what is wrong."""
    role = answers[f"{place}.role"]
    zone = " ".join(answers.get(f"{place}.zone", "").split())
    raw: dict[str, Any] = {"name": name, "role": role, "zone": zone}
    coats = answers.get(f"{place}.coats", "").strip()
    if role == "field":
        if not coats:
            what = message("readings.sample-without-coats", sample=Name(name[:40]))
            hint = message("readings.sample-without-coats.mend")
            problems.append(Problem(f"{place}.coats", what, hint))
            return None
        number = decimal(coats)
        raw["coats"] = coats if number is None else number
    decoded = decode(SampleMeaning, raw, "answers")
    for one in decoded.problems:
        what = message("readings.of-sample", sample=Name(name[:40]), what=one.what)
        problems.append(Problem(f"{place}.{one.where}", what, one.hint))
    return decoded.noun


def _needed(meaning: SampleMeaning) -> bool:
    """Whether a name does not say by itself what was answered."""
    found = spot_of(meaning.name, USUAL_MAP)
    return found is None or _said(found[0]) != _said(
        RawSpot("", meaning.role, meaning.coats, meaning.zone, None)
    )


def _said(spot: RawSpot | None) -> tuple[str, str, str]:
    """What a sample is taken for, as the fields of the page hold it."""
    if spot is None:
        return "", "", ""
    coats = figures(spot.coats) if spot.role == "field" and spot.coats is not None else ""
    return spot.role, coats, spot.zone


def _plain(name: str) -> str:
    """A name as names are compared."""
    return " ".join(name.casefold().replace("_", " ").split())
