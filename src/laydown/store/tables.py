"""From an empty database to the tables of today, in the numbered steps of the folder ``steps``; forwards only."""

from importlib.resources import files

from sqlalchemy import (
    CheckConstraint,
    Column,
    Connection,
    ForeignKey,
    ForeignKeyConstraint,
    Index,
    Integer,
    LargeBinary,
    MetaData,
    Table,
    Text,
    UniqueConstraint,
    inspect,
    select,
    update,
)

from laydown.schema.message import Name, message
from laydown.schema.problem import Problem
from laydown.store.faults import BookError

METADATA = MetaData()
"""All tables; a test compares them with what the migrations make."""

WORD = Text().with_variant(Text(collation="C"), "postgresql")
"""Text that sorts by code point on every server, whatever its language."""


def _word(name: str, *, key: bool = False) -> Column[str]:
    """Column of text that is never empty of value."""
    return Column(name, WORD, primary_key=key, nullable=False)


def _shop() -> Column[str]:
    """First column of every key."""
    return Column("shop_id", WORD, ForeignKey("shops.id"), primary_key=True, nullable=False)


def _of(column: str, table: str) -> ForeignKeyConstraint:
    """Reference to a row of the same shop."""
    return ForeignKeyConstraint(["shop_id", column], [f"{table}.shop_id", f"{table}.id"])


BOOK_VERSION = Table("book_version", METADATA, Column("version", Integer, nullable=False))
"""One row: the number of the last migration."""

SHOPS = Table("shops", METADATA, _word("id", key=True), _word("name"))
"""Who keeps pages in the book."""

USERS = Table(
    "users",
    METADATA,
    _shop(),
    _word("name", key=True),
    _word("role"),
    _word("password_hash"),
    CheckConstraint("role IN ('painter', 'manager', 'reader')", name="users_role"),
)
"""Who may sign in, by shop."""

SETTINGS = Table("settings", METADATA, _shop(), _word("key", key=True), _word("text"))
"""Settings of a shop."""


def _papers(name: str) -> Table:
    """Table of nouns that stand on their own."""
    words = [_word(column) for column in ("name", "format", "saved_at", "text")]
    version = Column("version", Integer, nullable=False, server_default="1")
    return Table(name, METADATA, _shop(), _word("id", key=True), *words, version)


JOBS = _papers("jobs")
"""Jobs."""

PRODUCTS = _papers("products")
"""Products of the shop's shelf."""

SIDES = _papers("sides")
"""Sides that the shop measured or drew."""

FILES = Table(
    "files",
    METADATA,
    _shop(),
    _word("digest", key=True),
    Column("content", LargeBinary, nullable=False),
)
"""Contents of files beside jobs, each kept once; a row never changes."""

JOB_FILES = Table(
    "job_files",
    METADATA,
    _shop(),
    _word("job_id", key=True),
    _word("name", key=True),
    _word("digest"),
    _of("job_id", "jobs"),
    ForeignKeyConstraint(["shop_id", "digest"], ["files.shop_id", "files.digest"]),
)
"""Which files lie beside which job, by the name the job gives them."""

JOBS_AWAY = Table(
    "jobs_away",
    METADATA,
    _shop(),
    _word("job_id", key=True),
    _word("put_at"),
    _word("put_by"),
    _of("job_id", "jobs"),
)
"""Which jobs are put away."""

JOB_SHARES = Table(
    "job_shares",
    METADATA,
    _shop(),
    _word("job_id", key=True),
    Column("with_shop_id", WORD, ForeignKey("shops.id"), primary_key=True, nullable=False),
    _of("job_id", "jobs"),
    Index("job_shares_with", "with_shop_id"),
)
"""Which other shop may read a job and its plans."""

PLANS = Table(
    "plans",
    METADATA,
    _shop(),
    _word("id", key=True),
    _word("job_id"),
    _word("format"),
    _word("saved_at"),
    _word("text"),
    _of("job_id", "jobs"),
    Index("plans_of_job", "shop_id", "job_id"),
)
"""Plans; a row never changes."""

SESSIONS = Table(
    "sessions",
    METADATA,
    _shop(),
    _word("id", key=True),
    _word("plan_id"),
    _word("painter"),
    _word("format"),
    _word("saved_at"),
    _word("text"),
    _of("plan_id", "plans"),
    Index("sessions_of_plan", "shop_id", "plan_id"),
)
"""Sessions; a row never changes."""

EVENTS = Table(
    "events",
    METADATA,
    _shop(),
    _word("session_id", key=True),
    Column("number", Integer, primary_key=True, nullable=False, autoincrement=False),
    _word("tap_id"),
    _word("made_at"),
    _word("received_at"),
    _word("text"),
    _of("session_id", "sessions"),
    UniqueConstraint("shop_id", "session_id", "tap_id", name="events_tap"),
)
"""Taps; rows are only added."""

RECORDS = Table(
    "records",
    METADATA,
    _shop(),
    _word("id", key=True),
    Column("session_id", WORD, nullable=True),
    _word("painter"),
    _word("format"),
    _word("saved_at"),
    _word("text"),
    _of("session_id", "sessions"),
)
"""Records of closed sessions."""


STEPS = ("0001.sql", "0002.sql", "0003.sql")
"""All steps in order; the first has number 1."""

_TYPES = {
    "sqlite": {"WORD": "TEXT", "BYTES": "BLOB"},
    "postgresql": {"WORD": 'TEXT COLLATE "C"', "BYTES": "BYTEA"},
}
"""By kind of database: the types of text that sorts by code point, and of bytes."""


def version_of(connection: Connection, place: str) -> int:
    """Return the number of the last step a database has been through."""
    tables = inspect(connection).get_table_names()
    if BOOK_VERSION.name not in tables:
        if tables:
            what = message("book.of-something-else", table=Name(min(tables)))
            raise BookError(place, (Problem("book", what, message("book.of-something-else.hint")),))
        return 0
    version = int(connection.execute(select(BOOK_VERSION.c.version)).scalar_one())
    if version > len(STEPS):
        what = message("book.newer", version=version, known=len(STEPS))
        raise BookError(place, (Problem("book", what, message("book.newer.hint")),))
    return version


def migrate(connection: Connection, place: str) -> None:
    """Bring a database to the tables of today, within the transaction of a connection."""
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
