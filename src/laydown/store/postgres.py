"""The book on a PostgreSQL server, for several computers or shops.

Sources: PostgreSQL manual, "Client Connection Defaults", "Write Ahead Log", "Advisory Locks", from memory.
"""

from typing import Any

from sqlalchemy import URL, create_engine, event, text
from sqlalchemy.exc import NoSuchModuleError

from laydown.schema.message import Name, message
from laydown.schema.problem import Problem
from laydown.store.faults import BookError, told
from laydown.store.tables import migrate
from laydown.store.transactions import Tables

CONNECT_S = 10
"""How long the server may take to answer [s]; assumption, a person waits no longer."""

ONE_AT_A_TIME = 5_812_774_901
"""Number of the lock under which one program at a time brings the tables up to date; any number that others do not use."""

_ASKED = {"connect_timeout": CONNECT_S, "application_name": "laydown"}
"""What is asked of the driver, unless the address says otherwise."""

_SETTINGS = (
    "SET SESSION synchronous_commit = on",  # a server may be set up to answer before the disk has it
    "SET SESSION lock_timeout = '5s'",
    "SET SESSION idle_in_transaction_session_timeout = '60s'",
)


def open_server(url: URL, place: str) -> Tables:
    """Open the book in a database of a server."""
    try:
        engine = create_engine(
            url.set(drivername="postgresql+psycopg"),
            hide_parameters=True,
            pool_pre_ping=True,
            isolation_level="READ COMMITTED",
            connect_args={name: value for name, value in _ASKED.items() if name not in url.query},
        )
    except (ModuleNotFoundError, NoSuchModuleError):
        what, hint = message("book.no-driver"), message("book.no-driver.hint")
        raise BookError(place, (Problem("book", what, hint),)) from None
    event.listen(engine, "connect", _set_up)
    try:
        with told(place), engine.begin() as connection:
            _check_encoding(connection.execute(text("SHOW server_encoding")).scalar_one(), place)
            connection.execute(text("SELECT pg_advisory_xact_lock(:key)"), {"key": ONE_AT_A_TIME})
            migrate(connection, place)
    except BaseException:
        engine.dispose()
        raise
    return Tables(engine, place)


def _set_up(raw: Any, _record: object) -> None:
    """Settings of the house, whatever the server's own are."""
    with raw.cursor() as cursor:
        for setting in _SETTINGS:
            cursor.execute(setting)
    raw.commit()


def _check_encoding(encoding: str, place: str) -> None:
    """Refuse a database that cannot hold every letter."""
    if encoding != "UTF8":
        what = message("book.encoding", encoding=Name(encoding))
        raise BookError(place, (Problem("book", what, message("book.encoding.hint")),))
