"""The book in a relational database; the same statements for both kinds."""

from collections.abc import Callable, Mapping, Sequence
from typing import Literal, Protocol, Self

from laydown.store.kept import (
    NO_FILES,
    Away,
    Hanging,
    Kept,
    KeptEvent,
    KeptFile,
    KeptPlan,
    KeptRecord,
    KeptSession,
    Shop,
    User,
)
from laydown.store.log import SqlLog
from laydown.store.papers import SqlPapers
from laydown.store.removal import SqlRemoval
from laydown.store.shops import SqlShops


class Shops(Protocol):
    """The shops of a book, the people of one shop and its settings."""

    @property
    def kind(self) -> Literal["sqlite", "postgresql"]:
        """What the book is kept in."""
        ...

    @property
    def shop_id(self) -> str:
        """The shop whose pages these are: everything is written for it, and read if it is its own or shared with it."""
        ...

    def of_shop(self, shop_id: str) -> Self:
        """Return the pages of another shop in the same book."""
        ...

    def put_shop(self, shop: Shop) -> None:
        """Keep a shop, or its new name."""
        ...

    def shops(self) -> tuple[Shop, ...]:
        """Return all shops by id."""
        ...

    def put_user(self, user: User) -> None:
        """Keep a user of this shop, or their new role and password."""
        ...

    def user(self, name: str) -> User | None:
        """Return the user of this shop with a name."""
        ...

    def users(self) -> tuple[User, ...]:
        """Return the users of this shop by name."""
        ...

    def put_setting(self, key: str, text: str) -> None:
        """Keep a setting of this shop."""
        ...

    def settings(self) -> dict[str, str]:
        """Return the settings of this shop."""
        ...

    def close(self) -> None:
        """Let go of files and connections, for all shops of the book; a closed book opens again when it is used."""
        ...


class Papers(Protocol):
    """Jobs with their files and plans, products and sides.

    Who saves what was read before gives the version that was read: then it is kept only if that is still the one in
    the book, and `ChangedError` says that it is not. Version 0 stands for "there was none". Looking and keeping are one
    statement, so of two who save at the same time one is told.
    """

    def put_job(self, job: Kept, files: Mapping[str, bytes] = NO_FILES, seen: int | None = None) -> None:
        """Keep a job and, by name, all files that lie beside it; one with the same id is replaced with its files."""
        ...

    def job_files(self, job_id: str, shop_id: str = "") -> tuple[KeptFile, ...]:
        """Return what lies beside a job, by name; the job as in `job`."""
        ...

    def job_file(self, job_id: str, name: str, shop_id: str = "") -> bytes | None:
        """Return the content of a file beside a job; the job as in `job`."""
        ...

    def job(self, job_id: str, shop_id: str = "") -> Kept | None:
        """Return a job of this shop, or one that another shop shares with it."""
        ...

    def jobs(self) -> tuple[Kept, ...]:
        """Return the jobs of this shop and those shared with it that are not put away, latest first."""
        ...

    def share_job(self, job_id: str, with_shop_id: str) -> None:
        """Let another shop read a job of this shop and its plans."""
        ...

    def unshare_job(self, job_id: str, with_shop_id: str) -> None:
        """Take back what was shared; harmless if nothing was."""
        ...

    def put_plan(self, plan: KeptPlan) -> None:
        """Keep a plan of a job of this shop; the same plan again changes nothing, another text is refused."""
        ...

    def plan(self, plan_id: str, shop_id: str = "") -> KeptPlan | None:
        """Return a plan of this shop, or one of a job that another shop shares with it."""
        ...

    def plans(self, job_id: str, shop_id: str = "") -> tuple[KeptPlan, ...]:
        """Return the plans of a job, latest first; the job as in `job`."""
        ...

    def put_product(self, product: Kept, seen: int | None = None) -> None:
        """Keep a product; one with the same id is replaced."""
        ...

    def products(self) -> tuple[Kept, ...]:
        """Return the products of this shop by id."""
        ...

    def put_side(self, side: Kept, seen: int | None = None) -> None:
        """Keep a side; one with the same id is replaced."""
        ...

    def sides(self) -> tuple[Kept, ...]:
        """Return the sides of this shop by id."""
        ...


class Removal(Protocol):
    """Putting jobs away, and deleting for good.

    Who deletes says what was seen; `ChangedError` says that it is not so any more.
    """

    def put_away(self, job_id: str, put_at: str, put_by: str = "") -> None:
        """Take a job of this shop out of the lists; one that is away already stays as it is."""
        ...

    def fetch_back(self, job_id: str) -> None:
        """Put a job into the lists again; harmless if it is there."""
        ...

    def away(self) -> tuple[Away, ...]:
        """Return the jobs of this shop that are put away, latest first."""
        ...

    def hanging(self, job_id: str) -> Hanging:
        """Return how much hangs on a job of this shop."""
        ...

    def delete_job(self, job_id: str, seen: Hanging, prefix: str, settings: Sequence[str] = ()) -> None:
        """Delete a job that is put away, with everything that hangs on it, or nothing at all.

        Plans, sessions, events, records, shares and files go; so do the jobs whose ids begin with the prefix, and the
        settings that are named. A file that lies beside another job too stays there.
        """
        ...

    def delete_product(self, product_id: str, seen: int, used_by: Callable[[Kept], bool]) -> tuple[Kept, ...]:
        """Delete a product of a version; if jobs of this shop use it, return them and delete nothing."""
        ...

    def delete_side(self, side_id: str, seen: int, used_by: Callable[[Kept], bool]) -> tuple[Kept, ...]:
        """Delete a side of a version; if jobs of this shop use it, return them and delete nothing."""
        ...


class Log(Protocol):
    """What was done: sessions, their events, and the records that close them."""

    def put_session(self, session: KeptSession) -> None:
        """Keep the beginning of a session; the same again changes nothing, another text is refused."""
        ...

    def session(self, session_id: str) -> KeptSession | None:
        """Return a session of this shop."""
        ...

    def sessions(self, plan_id: str = "") -> tuple[KeptSession, ...]:
        """Return the sessions of this shop, or those of one plan, latest first."""
        ...

    def add_events(self, session_id: str, events: Sequence[KeptEvent]) -> tuple[str, ...]:
        """Keep events, all or none, and return the ids of the taps that are safe to delete.

        A tap that is kept already is left as it is and named too, so a batch whose answer was lost is sent again.
        """
        ...

    def events(self, session_id: str, after: int = 0) -> tuple[KeptEvent, ...]:
        """Return the events of a session with a number above one, in order.

        Who asks again with the last number seen misses none: numbers become visible in their order.
        """
        ...

    def last_numbers(self, session_ids: Sequence[str]) -> dict[str, int]:
        """Return the number of the last event of each of some sessions; one without events is left out."""
        ...

    def put_record(self, record: KeptRecord) -> None:
        """Keep a record; one with the same id is replaced."""
        ...

    def records(self, painter: str = "") -> tuple[KeptRecord, ...]:
        """Return the records of this shop, or of one painter, oldest first."""
        ...


class Book(Shops, Papers, Removal, Log, Protocol):
    """The pages of one shop in the book."""


class SqlBook(SqlShops, SqlPapers, SqlRemoval, SqlLog):
    """The pages of one shop; `laydown.store.book.Book` says what each method promises."""

    @property
    def kind(self) -> Literal["sqlite", "postgresql"]:
        """What the book is kept in."""
        return "sqlite" if self._rows.engine.dialect.name == "sqlite" else "postgresql"
