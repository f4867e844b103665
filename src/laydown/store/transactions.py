"""What no database of the two could keep is refused before it is tried, in the same words for both."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import fields
from typing import Any, TypeVar

from sqlalchemy import Connection, Engine, Select, Table
from sqlalchemy.dialects import postgresql, sqlite

from laydown.schema.message import Message, message
from laydown.schema.problem import InputError, Problem
from laydown.store.faults import told

Noun = TypeVar("Noun")

READS = "laydown_reads"
"""Mark of a connection that only reads; SQLite then lets writers pass."""

_INSERT: dict[str, Callable[[Table], Any]] = {"sqlite": sqlite.insert, "postgresql": postgresql.insert}
"""The two databases say "on conflict" with the same words, and the library has one function for each."""


class Tables:
    """The tables behind a book."""

    def __init__(self, engine: Engine, place: str) -> None:
        self.engine = engine
        self.place = place
        self._readers = engine.execution_options(**{READS: True})

    @contextmanager
    def writing(self, missing: Message | None = None) -> Iterator[Connection]:
        """Give a connection in a transaction: committed at the end, undone by any exception."""
        with told(self.place, missing), self.engine.begin() as connection:
            yield connection

    def put(self, table: Table, values: Mapping[str, Any], missing: Message | None = None) -> None:
        """Insert a row, or replace the one with the same key."""
        with self.writing(missing) as connection:
            connection.execute(self.replacing(table, values))

    def replacing(
        self, table: Table, values: Mapping[str, Any], later: Mapping[str, Any] | None = None
    ) -> Any:
        """Return the statement that inserts a row, or replaces the one with the same key and sets what comes later."""
        keys = [column.name for column in table.primary_key]
        rest = {name: value for name, value in values.items() if name not in keys}
        statement = self.insert(table).values(**values)
        if not rest:
            return statement.on_conflict_do_nothing()
        return statement.on_conflict_do_update(index_elements=keys, set_={**rest, **(later or {})})

    def insert(self, table: Table) -> Any:
        """Begin an insert that may say what happens on a conflict."""
        return _INSERT[self.engine.dialect.name](table)

    def read(self, statement: Select[Any], noun: type[Noun]) -> tuple[Noun, ...]:
        """Return the rows of a query as nouns; columns bear the names of the fields."""
        with told(self.place), self._readers.connect() as connection:
            return tuple(noun(**row) for row in connection.execute(statement).mappings())

    def one(self, statement: Select[Any], noun: type[Noun]) -> Noun | None:
        """Return the row of a query that finds one or none."""
        return next(iter(self.read(statement, noun)), None)

    def close(self) -> None:
        """Close all connections."""
        with told(self.place):
            self.engine.dispose()


LONGEST_WORD = 200
"""Characters of an id, name or other short word; assumption, far below the size of a key in either database."""

LONG = frozenset({"text", "password_hash"})
"""Fields that may be longer."""

_NEEDED = frozenset({"id", "job_id", "plan_id", "session_id", "tap_id", "key", "format", "saved_at"})


def check_sound(place: str, nouns: Iterable[Any]) -> None:
    """Check every text of what is to be kept."""
    problems = [
        Problem(item.name, *fault)
        for noun in nouns
        for item in fields(noun)
        if isinstance(value := getattr(noun, item.name), str) and (fault := _fault(item.name, value))
    ]
    if problems:
        raise InputError(place, tuple(problems))


def _fault(name: str, value: str) -> tuple[Message, Message] | None:
    """Return what is wrong with a text and how to mend it."""
    if not value and name in _NEEDED:
        return message("word-empty"), message("word-empty.hint")
    if len(value) > LONGEST_WORD and name not in LONG:
        return message("word-long", count=len(value)), message("word-long.hint", most=LONGEST_WORD)
    if "\0" in value or any("\ud800" <= letter <= "\udfff" for letter in value):
        return message("word-no-text"), message("word-no-text.hint")
    return None
