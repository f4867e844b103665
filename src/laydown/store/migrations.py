"""From an empty database to the tables of today, in the numbered steps of the folder ``steps``; forwards only."""

from importlib.resources import files

from sqlalchemy import Connection, inspect, select, update

from laydown.schema.problem import Problem
from laydown.store.fault import BookError
from laydown.store.tables import BOOK_VERSION

STEPS = ("0001.sql", "0002.sql", "0003.sql")
"""All steps in order; the first has number 1."""

_TYPES = {
    "sqlite": {"WORD": "TEXT", "BYTES": "BLOB"},
    "postgresql": {"WORD": 'TEXT COLLATE "C"', "BYTES": "BYTEA"},
}
"""By kind of database: the types of text that sorts by code point, and of bytes."""


def version_of(connection: Connection, place: str) -> int:
    """Return the number of the last step a database has been through.

    Parameters
    ----------
    connection
        To the database.
    place
        Name of the book in messages.

    Returns
    -------
    Number; 0 for an empty database.

    Raises
    ------
    BookError
        It holds the tables of something else, or was written by a newer laydown.
    """
    tables = inspect(connection).get_table_names()
    if BOOK_VERSION.name not in tables:
        if tables:
            what = f"is a database of something else: it holds the table {min(tables)!r}"
            raise BookError(place, (Problem("book", what, "give the book a file or a database of its own"),))
        return 0
    version = int(connection.execute(select(BOOK_VERSION.c.version)).scalar_one())
    if version > len(STEPS):
        what = f"was written by a newer laydown: it has version {version}, this laydown knows {len(STEPS)}"
        raise BookError(place, (Problem("book", what, "use the newer laydown here too"),))
    return version


def migrate(connection: Connection, place: str) -> None:
    """Bring a database to the tables of today, within the transaction of a connection.

    Parameters
    ----------
    connection
        To the database, in a transaction that no other may write beside.
    place
        Name of the book in messages.

    Raises
    ------
    BookError
        As `version_of`.
    """
    version = version_of(connection, place)
    for number, step in enumerate(STEPS[version:], version + 1):
        for statement in _statements(step, connection.dialect.name):
            connection.exec_driver_sql(statement)
        connection.execute(update(BOOK_VERSION).values(version=number))


def _statements(step: str, dialect: str) -> list[str]:
    """Statements of a step for one kind of database."""
    text = files("laydown.store").joinpath("steps", step).read_text(encoding="utf-8")
    plain = "\n".join(line for line in text.splitlines() if not line.startswith("--"))
    for name, type_of_it in _TYPES[dialect].items():
        plain = plain.replace(name, type_of_it)
    return [one for part in plain.split(";") if (one := part.strip())]
