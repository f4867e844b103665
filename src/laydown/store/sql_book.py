"""The book in a relational database; the same statements for both kinds."""

from typing import Literal

from laydown.store.sql_log import SqlLog
from laydown.store.sql_papers import SqlPapers
from laydown.store.sql_removal import SqlRemoval
from laydown.store.sql_shops import SqlShops


class SqlBook(SqlShops, SqlPapers, SqlRemoval, SqlLog):
    """The pages of one shop; `laydown.store.book.Book` says what each method promises."""

    @property
    def kind(self) -> Literal["sqlite", "postgresql"]:
        """What the book is kept in."""
        return "sqlite" if self._rows.engine.dialect.name == "sqlite" else "postgresql"
