"""Readings as they stand in a file, before anything is concluded from names, and the faults found on the way."""

import math
import re
from dataclasses import dataclass, field
from typing import Literal

from laydown.reader.faults import MOST_PROBLEMS
from laydown.reader.values import short
from laydown.schema.message import Message, Name, Saying, message
from laydown.schema.problem import Problem
from laydown.schema.reading import ILLUMINANTS, OBSERVERS, ReadingRole, Spectrum

LARGEST_READINGS = 5_000_000
"""Bytes of a file with readings read at most; assumption, a hundred times a usual panel."""

Lab = tuple[float, float, float]
"""L*, a*, b*."""

Question = Literal["sample", "light", "angle", "scale"]
"""What a mapping can answer: what a sample is, illuminant and observer, angles, factors or per cent; definition."""

_NUMBER = re.compile(r"[-+]?(?:\d{1,20}(?:[.,]\d{0,20})?|[.,]\d{1,20})(?:[eE][-+]?\d{1,3})?")
_ANGLE = re.compile(r"(?:as\s*)?([-+]?\d{1,3}(?:[.,]\d{1,4})?)\s*(?:deg(?:rees?)?|°)?", re.IGNORECASE)
_LINE = re.compile(r"line (\d+)")
_OBSERVER = re.compile(r"(\d{1,2})\s*[-_]?\s*(?:deg(?:rees?)?|°)?", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class RawSpot:
    """What was read, as a file or a name says it."""

    panel: str
    role: ReadingRole
    coats: float | None
    zone: str
    number: int | None


@dataclass(frozen=True, slots=True)
class RawReading:
    """One row or one value of a file."""

    where: str
    name: str = ""
    key: str = ""
    angle_deg: float | None = None
    lab: Lab | None = None
    spectrum: Spectrum | None = None
    illuminant: str | None = None
    observer: int | None = None
    spot: RawSpot | None = None


@dataclass(slots=True)
class Faults:
    """Faults of one file; what comes after `MOST_PROBLEMS` is only counted."""

    found: list[Problem] = field(default_factory=list)
    further: int = 0
    asked: dict[Question, int] = field(default_factory=dict)

    def add(self, where: str, what: Message, hint: Saying) -> None:
        """Note one fault."""
        if len(self.found) < MOST_PROBLEMS:
            self.found.append(Problem(where, what, hint))
        else:
            self.further += 1

    def ask(self, about: Question, where: str, what: Message, hint: Saying) -> None:
        """Note a fault that an answer of the user would mend."""
        self.asked[about] = self.asked.get(about, 0) + 1
        self.add(where, what, hint)

    def count(self) -> int:
        """Return how many faults there are."""
        return len(self.found) + self.further

    def listed(self) -> tuple[Problem, ...]:
        """Return all faults by line, and as the last one how many there are besides."""
        found = sorted(self.found, key=lambda one: int((_LINE.match(one.where) or ["", "0"])[1]))
        if self.further:
            further = message("readings.further-problems", count=self.further)
            found.append(Problem("file", further, message("readings.further-problems.mend")))
        return tuple(found)


def lines_of(data: bytes, faults: Faults) -> list[str]:
    """Return the lines of a text in UTF-8, UTF-16 with its mark, or Windows western."""
    mark = data.startswith((b"\xff\xfe", b"\xfe\xff"))
    text = None
    for encoding in ("utf-16",) if mark else ("utf-8-sig", "cp1252"):
        try:
            text = data.decode(encoding)
            break
        except UnicodeDecodeError:
            continue
    if text is None or "\0" in text:
        faults.add("file", message("readings.no-text"), message("readings.no-text.mend"))
        return []
    return text.replace("\r\n", "\n").replace("\r", "\n").split("\n")


def decimal(text: str) -> float | None:
    """Return a number written with a decimal point or comma."""
    plain = text.strip().replace("−", "-")
    if not _NUMBER.fullmatch(plain):
        return None
    value = float(plain.replace(",", "."))
    return value if math.isfinite(value) else None


def digits(value: float) -> Name:
    """Return a number with all its digits, as a message about it needs them."""
    return Name(f"{value:.10g}".replace("-", "−"))


def quoted(text: str) -> Name:
    """Return what stands in a file as a message shows it: in quotes, cut where it is long."""
    return Name(short(text))


def did_you_mean(near: str) -> Message:
    """Ask whether a name is the one that was meant."""
    return message("readings.did-you-mean", near=Name(near))


def read_angle_deg(text: str) -> float | None:
    """Return an angle in [deg] from a cell such as 15, as15, -15 deg or 15°."""
    found = _ANGLE.fullmatch(text.strip().replace("−", "-"))
    return decimal(found[1]) if found else None


def illuminant(text: str) -> str | None:
    """Return the house name of a CIE illuminant, such as D65 or F11; None if it is not known."""
    name = text.strip().upper().removeprefix("CIE").removeprefix("ILLUMINANT").strip(" -_,")
    name = re.sub(r"^FL(?=\d)", "F", name)
    return name if name in ILLUMINANTS else None


def observer(text: str) -> int | None:
    """Return 2 or 10 from a text such as 10, 10_Degree or 2 deg; None if it is neither."""
    found = _OBSERVER.fullmatch(text.strip())
    return int(found[1]) if found and int(found[1]) in OBSERVERS else None


def lab_of(texts: tuple[str, str, str], where: str, faults: Faults) -> Lab | None:
    """Return L*, a*, b* from three cells."""
    values = [decimal(text) for text in texts]
    for name, text, value in zip(("L*", "a*", "b*"), texts, values, strict=True):
        if value is None:
            what = message("readings.no-number", value=Name(name), text=Name(repr(text[:40])))
            faults.add(where, what, message("readings.no-number.mend"))
    first, second, third = values
    if first is None or second is None or third is None:
        return None
    return first, second, third
