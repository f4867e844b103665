"""Shops, users and settings in the tables."""

from dataclasses import asdict
from typing import Any, Self

from sqlalchemy import ColumnElement, Connection, Table, and_, exists, or_, select, update

from laydown.schema.problem import InputError, Problem
from laydown.store.faults import ChangedError
from laydown.store.kept import Kept, Setting, Shop, User
from laydown.store.tables import JOB_SHARES, SETTINGS, SHOPS, USERS
from laydown.store.transactions import Rows, check_sound


class Pages:
    """The rows of one shop."""

    def __init__(self, rows: Rows, shop_id: str) -> None:
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

    def _put(self, table: Table, noun: Any, points_to: str = "") -> None:
        """Keep a noun; one with the same key is replaced."""
        check_sound(self._rows.place, [noun])
        self._rows.put(table, self._row(noun), self._missing(points_to))

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
            what = f"{paper.id!r} was saved or deleted by somebody else meanwhile"
            raise ChangedError(self._rows.place, (Problem("id", what, "look at what stands there now"),))

    def _put_once(self, table: Table, noun: Any, points_to: str) -> None:
        """Keep a noun that never changes: the same again is harmless, other content is refused."""
        check_sound(self._rows.place, [noun])
        row = self._row(noun)
        key = and_(self._own(table), table.c.id == noun.id)
        with self._rows.writing(self._missing(points_to)) as connection:
            connection.execute(self._rows.insert(table).values(**row).on_conflict_do_nothing())
            kept = connection.execute(select(table).where(key)).mappings().one()
        if any(kept[name] != value for name, value in row.items() if name != "saved_at"):
            what = f"{noun.id!r} is kept already with other content"
            hint = "give it another id; plans and sessions are not changed, because others build on them"
            raise InputError(self._rows.place, (Problem("id", what, hint),))

    def _row(self, noun: Any) -> dict[str, Any]:
        """Columns of a noun of this shop."""
        return asdict(noun) | {"shop_id": self._shop_id}

    def _missing(self, points_to: str) -> str:
        """Name what a refused row points to."""
        return f"{points_to} of shop {self._shop_id!r}" if points_to else f"shop {self._shop_id!r}"


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
        self._put(SETTINGS, Setting(key, text))

    def settings(self) -> dict[str, str]:
        """Return the settings of this shop."""
        columns = select(SETTINGS.c.key, SETTINGS.c.text).where(self._own(SETTINGS))
        return {one.key: one.text for one in self._rows.read(columns.order_by(SETTINGS.c.key), Setting)}
