"""Instrument readings of a job of the book: taken in, looked at, kept, taken away.

What was taken in waits beside the job until somebody has looked at it; the job and its plans do not know it yet.
"""

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from laydown.desk.papers.files import fetched, map_in, placed
from laydown.desk.papers.jobs import OF_PLAN, files_of, plan_kept, save_job
from laydown.planning.counts.spectra import with_lab
from laydown.reader.instrument.mapping import USUAL_MAP, reading_map_text
from laydown.reader.instrument.readings import Looked, look_into
from laydown.reader.papers.tables import read_spectral_weights
from laydown.schema.job import Job
from laydown.schema.message import Message, Name, Saying, message
from laydown.schema.plan import Plan
from laydown.schema.problem import InputError, Problem, gathered
from laydown.schema.reading import ReadingMap, Readings
from laydown.store.book import Book

WAITING = f"{OF_PLAN}new"
"""End of the id under which readings wait; no plan has it, because its id is hexadecimal."""


@dataclass(frozen=True, slots=True)
class Measured:
    """Readings of a job, kept with it or waiting to be."""

    name: str
    files: Mapping[str, bytes]
    mapping: ReadingMap
    mapping_name: str | None
    waiting: bool
    looked: Looked
    readings: Readings | None
    problems: tuple[Problem, ...]

    @property
    def content(self) -> bytes:
        """Content of the file."""
        return self.files[self.name]

    @property
    def digest(self) -> str:
        """What tells this file from another."""
        return hashlib.sha256(self.content).hexdigest()[:16]


def measured_of(book: Book, job_id: str, job: Job) -> Measured | None:
    """Return the readings of a job."""
    waiting = files_of(book, job_id + WAITING)
    if waiting:
        kept = book.job(job_id + WAITING)
        sample = json.loads(kept.text)["sample"] if kept is not None else {}
        return _measured(sample["readings"], sample["readings_map"], waiting, waiting=True)
    files = files_of(book, job_id)
    if job.sample.readings is None or job.sample.readings not in files:
        return None
    return _measured(job.sample.readings, job.sample.readings_map, files, waiting=False)


def _measured(name: str, mapping_name: str | None, files: Mapping[str, bytes], *, waiting: bool) -> Measured:
    """Look into a file as its mapping says."""
    mapping = USUAL_MAP
    problems: list[Problem] = []
    if mapping_name is not None:
        with gathered(problems), placed(mapping_name):
            mapping = map_in(fetched(files, mapping_name), mapping_name)
    looked = look_into(files[name], Path(name).name, mapping)
    problems += looked.problems
    readings: Readings | None = None
    if looked.readings is not None:
        with gathered(problems):
            readings = with_lab(looked.readings, read_spectral_weights(), name)
    shown = None if problems else readings
    return Measured(name, files, mapping, mapping_name, waiting, looked, shown, tuple(problems))


LONGEST_NAME = 80
"""Letters of a file's name that are kept; assumption."""

_NO_SIGN = frozenset(':*?"<>|')


def plain_name(name: str) -> str:
    """Return the name of a file as every system can write it."""
    # A browser sends a quotation mark as %22.
    last = name.replace("%22", "-").replace("\\", "/").rpartition("/")[2]
    plain = "".join("-" if sign in _NO_SIGN else sign for sign in last if sign.isprintable()).strip(" .")
    stem, dot, ending = plain.rpartition(".")
    if not dot:
        stem, ending = plain, "csv"
    stem, ending = stem.strip(" ."), ending.strip()[:8]
    if not any(sign.isalnum() for sign in stem):
        stem = "panel"
    return f"{stem[:LONGEST_NAME]}.{ending}"


def name_of_mapping(name: str) -> str:
    """Return the name of the mapping of a file of readings."""
    return f"{Path(name).stem}-map.toml"


def name_of_typed(text: str) -> str:
    """Return a name for readings that were typed or pasted."""
    begin = text.lstrip()[:6].upper()
    ending = "cxf" if begin.startswith("<") else "txt" if begin.startswith("CGATS") else "csv"
    return f"panel.{ending}"


@dataclass(frozen=True, slots=True)
class Given:
    """A file as it was sent."""

    name: str
    content: bytes
    mapping: tuple[str, bytes] | None = None


def understand(book: Book, job_id: str, job: Job, given: Given) -> tuple[str, ReadingMap]:
    """Return how a file is understood at first; nothing is kept."""
    name = plain_name(given.name)
    problems: list[Problem] = []
    maps = (USUAL_MAP, _usual(book, job_id, job))
    if given.mapping is not None:
        try:
            maps = (map_in(given.mapping[1], given.mapping[0]),) * 2
        except InputError as error:
            problems = [Problem("mapping", at_place(one), one.hint) for one in error.problems]
    mapping, looked = _best(given.content, name, maps)
    if not looked.only_asked:
        problems += [Problem("file", _placed(one), one.hint) for one in looked.problems]
    if problems:
        raise InputError(name, tuple(problems))
    return name, replace(mapping, confirmed=False)


def take_in(book: Book, job_id: str, job: Job, given: Given, at: str) -> None:
    """Let readings wait beside a job; what is kept with it stays until these are kept."""
    name, mapping = understand(book, job_id, job, given)
    _wait(book, job_id, job, (name, given.content, mapping), at)


def _placed(problem: Problem) -> Saying:
    """What is wrong, with its place in the file in front where it is not the whole file."""
    return problem.what if problem.where == "file" else at_place(problem)


def at_place(problem: Problem) -> Message:
    """What is wrong, with its place in front."""
    return message("readings.at-place", where=Name(problem.where), what=problem.what)


def _best(content: bytes, name: str, maps: tuple[ReadingMap, ReadingMap]) -> tuple[ReadingMap, Looked]:
    """Look into a file with the usual mapping and another: which one leaves less open."""
    usual, other = ((mapping, look_into(content, name, mapping)) for mapping in maps)
    found = usual[1].readings
    if found is not None and not found.understood:
        return usual
    for is_good in (lambda looked: looked.readings is not None, lambda looked: looked.only_asked):
        for pair in (other, usual):
            if is_good(pair[1]):
                return pair
    return usual


def _usual(book: Book, job_id: str, job: Job) -> ReadingMap:
    """The mapping of the readings that are there already: the next file is mostly of the same measuring program."""
    there = measured_of(book, job_id, job)
    return USUAL_MAP if there is None else replace(there.mapping, confirmed=False)


def _wait(book: Book, job_id: str, job: Job, file: tuple[str, bytes, ReadingMap], at: str) -> None:
    """Put a file where it waits."""
    name, content, mapping = file
    files = {name: content}
    mapping_name = None
    if mapping != USUAL_MAP:
        mapping_name = name_of_mapping(name)
        files[mapping_name] = reading_map_text(mapping).encode()
    sample = replace(job.sample, readings=name, readings_map=mapping_name)
    save_job(book, replace(job, sample=sample), at, job_id + WAITING, files)


def answer(book: Book, job_id: str, job: Job, mapping: ReadingMap, at: str) -> None:
    """Let the readings of a job wait with another mapping."""
    there = measured_of(book, job_id, job)
    if there is not None:
        _wait(book, job_id, job, (there.name, there.content, replace(mapping, confirmed=False)), at)


def let_go(book: Book, job_id: str, job: Job, at: str) -> None:
    """Let readings that wait go; what is kept with the job stays."""
    if book.job_files(job_id + WAITING):
        save_job(book, job, at, job_id + WAITING)


def keep_readings(
    book: Book, job_id: str, job: Job, file: tuple[Measured, str | None], at: str, seen: int | None = None
) -> Plan:
    """Keep readings with their job, as somebody has looked at them, and plan the job anew."""
    measured, zone = file
    if measured.readings is None:
        raise InputError(measured.name, measured.problems)
    mapping = _mapping_kept(measured)
    files = {measured.name: measured.content} | (dict([mapping]) if mapping is not None else {})
    mapping_name = mapping[0] if mapping is not None else None
    sample = replace(job.sample, readings=measured.name, readings_map=mapping_name, zone=zone)
    plan = plan_kept(book, job_id, replace(job, sample=sample), at, files, seen)
    let_go(book, job_id, job, at)
    return plan


def _mapping_kept(measured: Measured) -> tuple[str, bytes] | None:
    """Name and content of the mapping, now that somebody has looked at what it leads to."""
    name, mapping = measured.mapping_name, measured.mapping
    if name is not None and mapping.confirmed:
        return name, measured.files[name]
    if mapping == USUAL_MAP and not (measured.readings and measured.readings.understood):
        return None
    return name_of_mapping(measured.name), reading_map_text(replace(mapping, confirmed=True)).encode()


def without_readings(job: Job) -> Job:
    """Return a job without its readings; each plan keeps those it was made with."""
    return replace(job, sample=replace(job.sample, readings=None, readings_map=None))
