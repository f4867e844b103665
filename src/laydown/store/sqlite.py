"""The book in one file.

Sources: SQLite documentation, "PRAGMA statements", "Write-Ahead Logging", from memory.
"""

import os
import sqlite3
from pathlib import Path

from sqlalchemy import URL, Connection, Engine, create_engine, event

from laydown.schema.message import Message, Name, message
from laydown.schema.problem import Problem
from laydown.store.faults import BookError, told
from laydown.store.tables import migrate, version_of
from laydown.store.transactions import READS, Tables

BUSY_MS = 5000
"""How long a writer waits for another [ms]; assumption, far above a commit of some milliseconds."""

OWNER_ONLY = 0o600
"""Rights of a new file: it holds names and hashes of passwords."""

_SETTINGS = (
    f"PRAGMA busy_timeout={BUSY_MS}",
    "PRAGMA foreign_keys=ON",
    "PRAGMA synchronous=FULL",  # in WAL mode NORMAL may lose the last commits when the power goes
    "PRAGMA fullfsync=ON",  # one system flushes disks only when asked like this; elsewhere it does nothing
)


def open_file(path: Path) -> Tables:
    """Open the book in a file; a file that is not there is made, its folder is not."""
    place = str(path)
    _check_path(path)
    engine = _engine(path.absolute())
    try:
        with told(place):
            _make(path)
            with engine.connect().execution_options(**{READS: True}) as connection:
                version_of(connection, place)
            _log_ahead(engine, place)
            with engine.begin() as connection:
                migrate(connection, place)
    except BaseException:
        engine.dispose()
        raise
    return Tables(engine, place)


def _check_path(path: Path) -> None:
    """Refuse what cannot become a file."""
    if path.is_dir():
        hint = message("book.folder.hint", path=Name(path / "laydown.book"))
        raise _refused(path, message("book.folder"), hint)
    if path.exists() and not path.is_file():
        raise _refused(path, message("book.no-plain-file"), message("book.no-plain-file.hint"))
    if not path.parent.is_dir():
        what = message("book.no-folder", folder=Name(path.parent))
        raise _refused(path, what, message("book.no-folder.hint"))


def _make(path: Path) -> None:
    """Make a new file readable by its owner only; the files beside it take over its rights."""
    try:
        os.close(os.open(path, os.O_CREAT | os.O_RDWR, OWNER_ONLY))
    except OSError as error:
        what = message("book.cannot-write", error=Name((error.strerror or "unknown").lower()))
        raise _refused(path, what, message("book.read-only.hint")) from None


def _engine(path: Path) -> Engine:
    """Connections to a file, each with the settings of the house."""
    engine = create_engine(URL.create("sqlite", database=str(path)), hide_parameters=True)
    event.listen(engine, "connect", _set_up)
    event.listen(engine, "begin", _begin)
    return engine


def _set_up(raw: sqlite3.Connection, _record: object) -> None:
    """Leave transactions to `_begin`, and set what SQLite forgets with each connection."""
    raw.isolation_level = None
    for setting in _SETTINGS:
        raw.execute(setting)


def _begin(connection: Connection) -> None:
    """Begin as a writer: a reader that turns writer later may find that it must start again."""
    reads = connection.get_execution_options().get(READS, False)
    connection.exec_driver_sql("BEGIN" if reads else "BEGIN IMMEDIATE")


def _log_ahead(engine: Engine, place: str) -> None:
    """Let readers and a writer work side by side; the file keeps this setting."""
    raw = engine.raw_connection()
    try:
        mode = raw.cursor().execute("PRAGMA journal_mode=WAL").fetchone()[0]
    finally:
        raw.close()
    if mode != "wal":
        what, hint = message("book.no-shared-log"), message("book.no-shared-log.hint")
        raise BookError(place, (Problem("book", what, hint),))


def _refused(path: Path, what: Message, hint: Message) -> BookError:
    """Fault of a path."""
    return BookError(str(path), (Problem("book", what, hint),))
