"""Shops, users and settings in the tables."""

from dataclasses import asdict
from typing import Any, Literal, Self

from sqlalchemy import ColumnElement, Connection, Table, and_, exists, or_, select, update

from laydown.schema.message import Message, Name, message
from laydown.schema.problem import InputError, Problem
from laydown.store.faults import ChangedError
from laydown.store.kept import Kept, Shop, ShopSetting, User
from laydown.store.tables import JOB_SHARES, SETTINGS, SHOPS, USERS
from laydown.store.transactions import Tables, check_sound


class Pages:
    """The rows of one shop."""

    def __init__(self, rows: Tables, shop_id: str) -> None:
        self._rows = rows
        self._shop_id = shop_id

    @property
    def shop_id(self) -> str:
        """The shop whose pages these are."""
        return self._shop_id

    def of_shop(self, shop_id: str) -> Self:
        """Return the pages of another shop in the same book."""
        return type(self)(self._rows, shop_id)

    def close(self) -> None:
        """Close all connections."""
        self._rows.close()

    def _own(self, table: Table) -> ColumnElement[bool]:
        """Rows of this shop."""
        return table.c.shop_id == self._shop_id

    def _seen(self, table: Table, job_id: str) -> ColumnElement[bool]:
        """Rows of this shop and of jobs that are shared with it; the second is the column with the job's id."""
        shared = exists().where(
            and_(
                JOB_SHARES.c.shop_id == table.c.shop_id,
                JOB_SHARES.c.job_id == table.c[job_id],
                JOB_SHARES.c.with_shop_id == self._shop_id,
            )
        )
        return or_(self._own(table), shared)

    def _put(self, table: Table, noun: Any, points_to: Message | None = None) -> None:
        """Keep a noun; one with the same key is replaced."""
        check_sound(self._rows.place, [noun])
        self._rows.put(table, self._row(noun), points_to or self._shop_row())

    def _save(self, connection: Connection, table: Table, paper: Kept, seen: int | None) -> None:
        """Keep a paper in one statement; with a version, only if that is the one in the book (0: only if there is none)."""
        row = {name: value for name, value in self._row(paper).items() if name != "version"}
        key = and_(self._own(table), table.c.id == paper.id)
        later = {"version": table.c.version + 1}
        statement: Any
        if seen is None:
            statement = self._rows.replacing(table, row, later)
        elif seen == 0:
            statement = self._rows.insert(table).values(**row).on_conflict_do_nothing()
        else:
            statement = update(table).where(and_(key, table.c.version == seen)).values(**row, **later)
        if connection.execute(statement.returning(table.c.version)).first() is None:
            what = message("book.saved-by-another", name=Name(paper.id))
            raise ChangedError(self._rows.place, (Problem("id", what, message("do.look-there")),))

    def _put_once(self, table: Table, noun: Any, points_to: Message) -> None:
        """Keep a noun that never changes: the same again is harmless, other content is refused."""
        check_sound(self._rows.place, [noun])
        row = self._row(noun)
        key = and_(self._own(table), table.c.id == noun.id)
        with self._rows.writing(points_to) as connection:
            connection.execute(self._rows.insert(table).values(**row).on_conflict_do_nothing())
            kept = connection.execute(select(table).where(key)).mappings().one()
        if any(kept[name] != value for name, value in row.items() if name != "saved_at"):
            what, hint = message("book.kept-once", name=Name(noun.id)), message("book.kept-once.hint")
            raise InputError(self._rows.place, (Problem("id", what, hint),))

    def _row(self, noun: Any) -> dict[str, Any]:
        """Columns of a noun of this shop."""
        return asdict(noun) | {"shop_id": self._shop_id}

    def _shop_row(self) -> Message:
        """Name this shop."""
        return message("row.shop", shop=Name(self._shop_id))

    def _row_of(self, kind: Literal["job", "plan", "session"], name: str) -> Message:
        """Name a row of this shop that another one points to."""
        return message(f"row.{kind}", name=Name(name), shop=Name(self._shop_id))


_USERS = select(USERS.c.name, USERS.c.role, USERS.c.password_hash).order_by(USERS.c.name)


class SqlShops(Pages):
    """The shops of a book, the people of one shop and its settings."""

    def put_shop(self, shop: Shop) -> None:
        """Keep a shop, or its new name."""
        check_sound(self._rows.place, [shop])
        self._rows.put(SHOPS, asdict(shop))

    def shops(self) -> tuple[Shop, ...]:
        """Return all shops by id."""
        return self._rows.read(select(SHOPS).order_by(SHOPS.c.id), Shop)

    def put_user(self, user: User) -> None:
        """Keep a user of this shop, or their new role and password."""
        self._put(USERS, user)

    def user(self, name: str) -> User | None:
        """Return the user of this shop with a name."""
        return self._rows.one(_USERS.where(and_(self._own(USERS), USERS.c.name == name)), User)

    def users(self) -> tuple[User, ...]:
        """Return the users of this shop by name."""
        return self._rows.read(_USERS.where(self._own(USERS)), User)

    def put_setting(self, key: str, text: str) -> None:
        """Keep a setting of this shop."""
        self._put(SETTINGS, ShopSetting(key, text))

    def settings(self) -> dict[str, str]:
        """Return the settings of this shop."""
        columns = select(SETTINGS.c.key, SETTINGS.c.text).where(self._own(SETTINGS))
        return {one.key: one.text for one in self._rows.read(columns.order_by(SETTINGS.c.key), ShopSetting)}
