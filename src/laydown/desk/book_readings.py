"""Instrument readings of a job of the book: taken in, looked at, kept, taken away.

What was taken in waits beside the job until somebody has looked at it; the job and its plans do not know it yet.
"""

from dataclasses import dataclass, replace

from laydown.desk.book_jobs import plan_kept, save_job
from laydown.desk.file_name import name_of_mapping, plain_name
from laydown.desk.measured import WAITING, Measured, measured_of
from laydown.desk.readings import map_in
from laydown.reader.reading_map import USUAL_MAP
from laydown.reader.reading_map_text import reading_map_text
from laydown.reader.readings import Looked, look_into
from laydown.schema.job import Job
from laydown.schema.plan import Plan
from laydown.schema.problem import InputError, Problem
from laydown.schema.reading import ReadingMap
from laydown.store.book import Book


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
