"""A job together with what lies beside it, in one ZIP file: out of the book, and into it again."""

import io
import posixpath
import zipfile
import zlib
from collections.abc import Mapping
from pathlib import Path, PurePosixPath
from typing import Any

from laydown.reader.files import LARGEST_FILE, kind_of, refused, table_of, text_of
from laydown.reader.instrument.raw import LARGEST_READINGS
from laydown.reader.papers.job_text import job_text
from laydown.schema.choices import Sample
from laydown.schema.job import Job
from laydown.schema.message import Message, Name, message
from laydown.schema.problem import InputError, Problem
from laydown.words.show import ENGLISH

MOST_ENTRIES = 40
"""Files of an archive at most; assumption, a job with its readings has three."""

LARGEST_UNPACKED = 15_000_000
"""Bytes of all files of an archive together; assumption, twice what a job and the largest readings need."""

_MADE = (1980, 1, 1, 0, 0, 0)
_PLAIN = frozenset({zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED})
_ENCRYPTED = 0x1


def is_archive(content: bytes) -> bool:
    """Return whether a content begins as a ZIP file does."""
    return content.startswith((b"PK\x03\x04", b"PK\x05\x06"))


def named_files(sample: Sample, files: Mapping[str, bytes]) -> dict[str, bytes]:
    """Return those files beside a job that the job names."""
    named = (sample.readings, sample.readings_map)
    return {name: files[name] for name in named if name is not None and name in files}


def pack_job(job: Job, files: Mapping[str, bytes]) -> bytes:
    """Return a job and what it names as one ZIP file."""
    taken = named_files(job.sample, files)
    own = next(name for name in ("job.toml", "the-job.toml", "this-job.toml") if name not in taken)
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in {own: job_text(job, ENGLISH).encode(), **taken}.items():
            entry = zipfile.ZipInfo(name, _MADE)
            entry.compress_type = zipfile.ZIP_DEFLATED
            entry.external_attr = 0o644 << 16
            archive.writestr(entry, content)
    return made.getvalue()


def unpack_job(content: bytes, path: Path) -> tuple[dict[str, Any], dict[str, bytes]]:
    """Return the job of an archive with the files that it names."""
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            return _unpacked(archive, path)
    except (zipfile.BadZipFile, zlib.error, EOFError, ValueError, NotImplementedError):
        raise refused(path, message("archive-damaged"), message("do.pack-again")) from None


def _unpacked(archive: zipfile.ZipFile, path: Path) -> tuple[dict[str, Any], dict[str, bytes]]:
    """Find the job, then what it names."""
    entries = {entry.filename: entry for entry in archive.infolist() if not _is_of_the_system(entry.filename)}
    if len(entries) > MOST_ENTRIES:
        raise refused(path, message("archive-many", count=len(entries)), message("do.pack-job-only"))
    # What an entry says of its size is all that is unpacked of it, so this bounds the work as well.
    whole = sum(entry.file_size for entry in entries.values())
    if whole > LARGEST_UNPACKED:
        what = message("archive-large", megabytes=whole / 1e6)
        raise refused(path, what, message("do.pack-job-only"))
    tables = {
        name: _table(archive, entry, path)
        for name, entry in entries.items()
        if PurePosixPath(name).suffix.lower() in {".toml", ".json"}
    }
    kinds = {name: kind_of(raw) for name, raw in tables.items()}
    jobs = [name for name, kind in kinds.items() if kind == "job"]
    others = tuple(
        Problem(name, message("archive-other", paper=kind), message("archive-other.hint"))
        for name, kind in kinds.items()
        if kind not in {"", "job"}
    )
    if others:
        raise InputError(str(path), others)
    if len(jobs) != 1:
        what = message("archive-jobs", count=len(jobs), names=Name(", ".join(jobs)[:200]))
        raise refused(path, what if jobs else message("archive-no-job"), message("archive-no-job.hint"))
    raw, folder = tables[jobs[0]], posixpath.dirname(jobs[0])
    files, problems = {}, []
    for key, name in _names(raw):
        found = _beside(folder, name, entries)
        if isinstance(found, zipfile.ZipInfo):
            files[name] = _content(archive, found, path, LARGEST_READINGS)
        else:
            problems.append(Problem(key, *found))
    if problems:
        raise InputError(str(path), tuple(problems))
    return raw, files


def _is_of_the_system(name: str) -> bool:
    """Whether an entry is a folder, or was put there by a desktop."""
    parts = PurePosixPath(name).parts
    return name.endswith("/") or not parts or parts[0] == "__MACOSX" or parts[-1].startswith(".")


def _names(raw: dict[str, Any]) -> list[tuple[str, str]]:
    """Places and names of the files that a raw job names."""
    sample = raw.get("sample")
    given = sample if isinstance(sample, dict) else {}
    return [
        (f"sample.{key}", given[key])
        for key in ("readings", "readings_map")
        if isinstance(given.get(key), str)
    ]


def _beside(
    folder: str, name: str, entries: Mapping[str, zipfile.ZipInfo]
) -> zipfile.ZipInfo | tuple[Message, Message]:
    """The entry that a job means, or what is wrong with its name."""
    parts = PurePosixPath(name).parts
    if "\\" in name or name.startswith("/") or ".." in parts or ":" in name:
        return message("archive-elsewhere", name=Name(name[:60])), message("archive-elsewhere.hint")
    there = posixpath.normpath(posixpath.join(folder, name))
    if there not in entries:
        names = Name(", ".join(sorted(entries))[:200])
        return message("archive-lacks", name=Name(name[:60])), message("archive-lacks.hint", names=names)
    return entries[there]


def _table(archive: zipfile.ZipFile, entry: zipfile.ZipInfo, path: Path) -> dict[str, Any]:
    """Read one TOML or JSON file of an archive; problems name it."""
    inside = Path(PurePosixPath(entry.filename).name)
    try:
        return table_of(text_of(_content(archive, entry, path, LARGEST_FILE), inside), inside)
    except InputError as error:
        placed = tuple(
            Problem(f"{entry.filename}: {one.where}", one.what, one.hint) for one in error.problems
        )
        raise InputError(str(path), placed) from None


def _content(archive: zipfile.ZipFile, entry: zipfile.ZipInfo, path: Path, largest: int) -> bytes:
    """Unpack one entry, and stop where it becomes too large whatever it says of itself."""
    name = Name(entry.filename[:60])
    if entry.flag_bits & _ENCRYPTED:
        raise refused(path, message("archive-encrypted", name=name), message("archive-encrypted.hint"))
    if entry.compress_type not in _PLAIN:
        raise refused(path, message("archive-unusual", name=name), message("do.pack-again"))
    with archive.open(entry) as stream:
        content = stream.read(largest + 1)
    if len(content) > largest:
        what = message("archive-entry-large", name=name, megabytes=largest // 1_000_000)
        raise refused(path, what, message("do.another-file"))
    return content
