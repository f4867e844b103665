"""Putting jobs away, and deleting jobs, products and sides for good."""

from collections.abc import Callable, Sequence
from contextlib import suppress

from sqlalchemy import ColumnElement, Connection, Select, Table, and_, delete, exists, func, or_, select
from sqlalchemy.exc import IntegrityError

from laydown.schema.message import Message, Name, message
from laydown.schema.problem import Problem
from laydown.store.faults import ChangedError
from laydown.store.kept import Away, Hanging, Kept
from laydown.store.shops import Pages
from laydown.store.tables import (
    EVENTS,
    FILES,
    JOB_FILES,
    JOB_SHARES,
    JOBS,
    JOBS_AWAY,
    PLANS,
    PRODUCTS,
    RECORDS,
    SESSIONS,
    SETTINGS,
    SIDES,
)
from laydown.store.transactions import check_sound


class SqlRemoval(Pages):
    """Putting jobs away, and deleting jobs, products and sides for good."""

    def put_away(self, job_id: str, put_at: str, put_by: str = "") -> None:
        """Take a job out of the lists; one that is away already stays as it is."""
        away = Away(job_id, "", put_at, put_by)
        check_sound(self._rows.place, [away])
        row = {"shop_id": self._shop_id, "job_id": job_id, "put_at": put_at, "put_by": put_by}
        with self._rows.writing(self._row_of("job", job_id)) as connection:
            connection.execute(self._rows.insert(JOBS_AWAY).values(**row).on_conflict_do_nothing())

    def fetch_back(self, job_id: str) -> None:
        """Put a job into the lists again; harmless if it is there."""
        with self._rows.writing() as connection:
            connection.execute(
                delete(JOBS_AWAY).where(and_(self._own(JOBS_AWAY), JOBS_AWAY.c.job_id == job_id))
            )

    def away(self) -> tuple[Away, ...]:
        """Return the jobs of this shop that are put away, latest first."""
        same = and_(JOBS.c.shop_id == JOBS_AWAY.c.shop_id, JOBS.c.id == JOBS_AWAY.c.job_id)
        columns = (JOBS_AWAY.c.job_id, JOBS.c.name, JOBS_AWAY.c.put_at, JOBS_AWAY.c.put_by)
        query = select(*columns).join(JOBS, same).where(self._own(JOBS_AWAY))
        return self._rows.read(query.order_by(JOBS_AWAY.c.put_at.desc(), JOBS_AWAY.c.job_id), Away)

    def hanging(self, job_id: str) -> Hanging:
        """Return how much hangs on a job of this shop."""
        return self._rows.read(self._counts(job_id), Hanging)[0]

    def delete_job(self, job_id: str, seen: Hanging, prefix: str, settings: Sequence[str] = ()) -> None:
        """Delete a job that is put away, with all that hangs on it; refused if more or less hangs on it than was seen."""
        with self._rows.writing() as connection:
            # Whoever adds a plan, session, tap or record holds one of these rows, or waits here until all is gone.
            for rows in (self._jobs(job_id), self._plans(job_id), self._sessions(job_id)):
                connection.execute(rows.with_for_update())
            is_away = and_(self._own(JOBS_AWAY), JOBS_AWAY.c.job_id == job_id)
            if connection.execute(select(JOBS_AWAY.c.job_id).where(is_away)).first() is None:
                what = message("book.not-away", job=Name(job_id))
                raise self._changed("job", what, message("book.not-away.hint"))
            if Hanging(**connection.execute(self._counts(job_id)).mappings().one()) != seen:
                raise self._changed("job", message("book.more-hangs"), message("do.look-again"))
            self._delete_with(connection, job_id, prefix)
            chosen = and_(self._own(SETTINGS), SETTINGS.c.key.in_(settings))
            connection.execute(delete(SETTINGS).where(chosen))

    def delete_product(self, product_id: str, seen: int, used_by: Callable[[Kept], bool]) -> tuple[Kept, ...]:
        """Delete a product of a version; if jobs use it, return them and delete nothing."""
        return self._delete_unused(PRODUCTS, product_id, seen, used_by)

    def delete_side(self, side_id: str, seen: int, used_by: Callable[[Kept], bool]) -> tuple[Kept, ...]:
        """Delete a side of a version; if jobs use it, return them and delete nothing."""
        return self._delete_unused(SIDES, side_id, seen, used_by)

    def _delete_unused(
        self, table: Table, name: str, seen: int, used_by: Callable[[Kept], bool]
    ) -> tuple[Kept, ...]:
        """Delete a paper unless jobs use it."""
        key = and_(self._own(table), table.c.id == name, table.c.version == seen)
        with self._rows.writing() as connection:
            if connection.dialect.name == "postgresql":
                # No job may come to use it between the look and the deed; in a file there is one writer anyway.
                connection.exec_driver_sql("LOCK TABLE jobs IN SHARE MODE")
            rows = connection.execute(select(JOBS).where(self._own(JOBS)).order_by(JOBS.c.id)).mappings()
            users = tuple(job for row in rows if used_by(job := Kept(**row)))
            if (
                not users
                and connection.execute(delete(table).where(key).returning(table.c.id)).first() is None
            ):
                what = message("book.changed", name=Name(name))
                raise self._changed("id", what, message("do.look-again"))
        return users

    def _delete_with(self, connection: Connection, job_id: str, prefix: str) -> None:
        """Delete all rows of a job, those that point to others first."""
        plans, sessions = self._plans(job_id), self._sessions(job_id)
        copies = self._gone(JOB_FILES, "job_id", job_id, prefix)
        digests = list(connection.execute(select(JOB_FILES.c.digest).where(copies)).scalars())
        for table, rows in (
            (RECORDS, RECORDS.c.session_id.in_(sessions)),
            (EVENTS, EVENTS.c.session_id.in_(sessions)),
            (SESSIONS, SESSIONS.c.plan_id.in_(plans)),
            (PLANS, PLANS.c.job_id == job_id),
            (JOB_FILES, copies),
            (JOB_SHARES, self._gone(JOB_SHARES, "job_id", job_id, prefix)),
            (JOBS_AWAY, self._gone(JOBS_AWAY, "job_id", job_id, prefix)),
            (JOBS, self._gone(JOBS, "id", job_id, prefix)),
        ):
            connection.execute(delete(table).where(and_(self._own(table), rows)))
        used = exists().where(
            and_(JOB_FILES.c.shop_id == FILES.c.shop_id, JOB_FILES.c.digest == FILES.c.digest)
        )
        unused = and_(self._own(FILES), FILES.c.digest.in_(digests), ~used)
        # A job that takes up the same content this very moment keeps it.
        with suppress(IntegrityError), connection.begin_nested():
            connection.execute(delete(FILES).where(unused))

    def _gone(self, table: Table, column: str, job_id: str, prefix: str) -> ColumnElement[bool]:
        """Rows of a job and of those that go with it."""
        ids = table.c[column]
        return or_(ids == job_id, func.substr(ids, 1, len(prefix)) == prefix)

    def _jobs(self, job_id: str) -> Select[tuple[str]]:
        """The job itself."""
        return select(JOBS.c.id).where(and_(self._own(JOBS), JOBS.c.id == job_id))

    def _plans(self, job_id: str) -> Select[tuple[str]]:
        """Ids of the plans of a job."""
        return select(PLANS.c.id).where(and_(self._own(PLANS), PLANS.c.job_id == job_id))

    def _sessions(self, job_id: str) -> Select[tuple[str]]:
        """Ids of the sessions of a job."""
        of_job = SESSIONS.c.plan_id.in_(self._plans(job_id))
        return select(SESSIONS.c.id).where(and_(self._own(SESSIONS), of_job))

    def _counts(self, job_id: str) -> Select[tuple[int, ...]]:
        """How much hangs on a job."""
        sessions = self._sessions(job_id)
        counted = {
            "plan_count": (PLANS, PLANS.c.job_id == job_id),
            "session_count": (SESSIONS, SESSIONS.c.id.in_(sessions)),
            "event_count": (EVENTS, EVENTS.c.session_id.in_(sessions)),
            "record_count": (RECORDS, RECORDS.c.session_id.in_(sessions)),
        }
        return select(
            *(
                select(func.count())
                .select_from(table)
                .where(and_(self._own(table), rows))
                .scalar_subquery()
                .label(name)
                for name, (table, rows) in counted.items()
            )
        )

    def _changed(self, where: str, what: Message, hint: Message) -> ChangedError:
        """Fault of somebody who does not see what stands in the book now."""
        return ChangedError(self._rows.place, (Problem(where, what, hint),))
