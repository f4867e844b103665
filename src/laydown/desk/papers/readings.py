"""Instrument readings of a job of the book: taken in, looked at, kept, taken away.

What was taken in waits beside the job until somebody has looked at it; the job and its plans do not know it yet.
"""

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from laydown.desk.papers.files import fetched, map_in
from laydown.desk.papers.jobs import OF_PLAN, files_of, plan_kept, save_job
from laydown.planning.counts.spectra import with_lab
from laydown.reader.instrument.mapping import USUAL_MAP, reading_map_text
from laydown.reader.instrument.readings import Looked, look_into
from laydown.reader.papers.tables import read_spectral_weights
from laydown.schema.job import Job
from laydown.schema.plan import Plan
from laydown.schema.problem import InputError, Problem
from laydown.schema.reading import ReadingMap, Readings
from laydown.store.book import Book

WAITING = f"{OF_PLAN}new"
"""End of the id under which readings wait; no plan has it, because its id is hexadecimal."""


@dataclass(frozen=True, slots=True)
class Measured:
    """Readings of a job, kept with it or waiting to be.

    Attributes
    ----------
    name
        Name of the file.
    files
        Contents of the file and, if there is one, of its mapping, by name.
    mapping, mapping_name
        How it is understood, and the file that says so, if there is one.
    waiting
        Whether it waits to be looked at.
    looked
        What was found in it.
    readings
        All in CIELAB; none where anything is wrong.
    problems
        Everything that is wrong.
    """

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
    """Return the readings of a job.

    Parameters
    ----------
    book
        The book.
    job_id
        Its id.
    job
        The job.

    Returns
    -------
    Those that wait, else those that are kept; None where there are none, or where they did not come with the job.
    """
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
    problems: tuple[Problem, ...] = ()
    try:
        if mapping_name is not None:
            mapping = map_in(fetched(files, mapping_name), mapping_name)
    except InputError as error:
        problems = tuple(
            Problem(f"{mapping_name}: {one.where}", one.what, one.hint) for one in error.problems
        )
    looked = look_into(files[name], Path(name).name, mapping)
    problems += looked.problems
    readings = looked.readings
    if readings is not None:
        made = with_lab(readings, read_spectral_weights(), name)
        problems += () if isinstance(made, Readings) else made
        readings = made if isinstance(made, Readings) and not problems else None
    return Measured(name, files, mapping, mapping_name, waiting, looked, readings, problems)


LONGEST_NAME = 80
"""Letters of a file's name that are kept; assumption."""

_NO_SIGN = frozenset(':*?"<>|')


def plain_name(name: str) -> str:
    """Return the name of a file as every system can write it.

    Parameters
    ----------
    name
        As the sender's computer writes it, perhaps with folders.

    Returns
    -------
    Its last part without signs that some system refuses; "panel.csv" where no letter is left.
    """
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
    """Return the name of the mapping of a file of readings.

    Parameters
    ----------
    name
        Name of the file.

    Returns
    -------
    Such as "panel-map.toml".
    """
    return f"{Path(name).stem}-map.toml"


def name_of_typed(text: str) -> str:
    """Return a name for readings that were typed or pasted.

    Parameters
    ----------
    text
        What was typed.

    Returns
    -------
    A name whose ending goes with the content.
    """
    begin = text.lstrip()[:6].upper()
    ending = "cxf" if begin.startswith("<") else "txt" if begin.startswith("CGATS") else "csv"
    return f"panel.{ending}"


@dataclass(frozen=True, slots=True)
class Given:
    """A file as it was sent.

    Attributes
    ----------
    name, content
        Name on the sender's computer, and content.
    mapping
        Name and content of the mapping that came with it, if any.
    """

    name: str
    content: bytes
    mapping: tuple[str, bytes] | None = None


def understand(book: Book, job_id: str, job: Job, given: Given) -> tuple[str, ReadingMap]:
    """Return how a file is understood at first; nothing is kept.

    Parameters
    ----------
    book
        The book.
    job_id
        Id of the job.
    job
        The job.
    given
        The file.

    Returns
    -------
    The name under which it is kept, and its mapping.

    Raises
    ------
    InputError
        Everything that is wrong with file and mapping, unless answers on the page would mend all of it.
    """
    name = plain_name(given.name)
    problems: list[Problem] = []
    maps = (USUAL_MAP, _usual(book, job_id, job))
    if given.mapping is not None:
        try:
            maps = (map_in(given.mapping[1], given.mapping[0]),) * 2
        except InputError as error:
            problems = [Problem("mapping", f"{one.where}: {one.what}", one.hint) for one in error.problems]
    mapping, looked = _best(given.content, name, maps)
    if not looked.only_asked:
        problems += [Problem("file", _placed(one), one.hint) for one in looked.problems]
    if problems:
        raise InputError(name, tuple(problems))
    return name, replace(mapping, confirmed=False)


def take_in(book: Book, job_id: str, job: Job, given: Given, at: str) -> None:
    """Let readings wait beside a job; what is kept with it stays until these are kept.

    Parameters
    ----------
    book
        The book.
    job_id
        Id of the job.
    job
        The job.
    given
        The file.
    at
        Now, as ISO 8601 text.

    Raises
    ------
    InputError
        As `understand`.
    """
    name, mapping = understand(book, job_id, job, given)
    _wait(book, job_id, job, (name, given.content, mapping), at)


def _placed(problem: Problem) -> str:
    """What is wrong, with its place in the file in front."""
    return problem.what if problem.where == "file" else f"{problem.where}: {problem.what}"


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
    """Let the readings of a job wait with another mapping.

    Parameters
    ----------
    book
        The book.
    job_id
        Id of the job.
    job
        The job.
    mapping
        How the file is understood from now on.
    at
        Now, as ISO 8601 text.
    """
    there = measured_of(book, job_id, job)
    if there is not None:
        _wait(book, job_id, job, (there.name, there.content, replace(mapping, confirmed=False)), at)


def let_go(book: Book, job_id: str, job: Job, at: str) -> None:
    """Let readings that wait go; what is kept with the job stays.

    Parameters
    ----------
    book
        The book.
    job_id
        Id of the job.
    job
        The job.
    at
        Now, as ISO 8601 text.
    """
    if book.job_files(job_id + WAITING):
        save_job(book, job, at, job_id + WAITING)


def keep_readings(
    book: Book, job_id: str, job: Job, file: tuple[Measured, str | None], at: str, seen: int | None = None
) -> Plan:
    """Keep readings with their job, as somebody has looked at them, and plan the job anew.

    Parameters
    ----------
    book
        The book.
    job_id
        Id of the job.
    job
        The job.
    file
        The readings, and the zone whose count is planned.
    at
        Now, as ISO 8601 text.
    seen
        Version of the job that was read before; left out, whatever stands there is replaced.

    Returns
    -------
    The new plan.

    Raises
    ------
    InputError
        Everything that is wrong with them; nothing is kept then.
    ChangedError
        Somebody else saved or deleted the job since.
    """
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
    """Return a job without its readings; each plan keeps those it was made with.

    Parameters
    ----------
    job
        The job.

    Returns
    -------
    The same job otherwise.
    """
    return replace(job, sample=replace(job.sample, readings=None, readings_map=None))
