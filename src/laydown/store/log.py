"""Sessions, events and records in the tables."""

from collections.abc import Sequence
from dataclasses import asdict

from sqlalchemy import Connection, and_, func, select

from laydown.schema.message import message
from laydown.schema.problem import InputError, Problem
from laydown.store.kept import KeptEvent, KeptRecord, KeptSession, LastNumber
from laydown.store.shops import Pages
from laydown.store.tables import EVENTS, RECORDS, SESSIONS
from laydown.store.transactions import check_sound


class SqlLog(Pages):
    """Sessions, their events, and the records that close them."""

    def put_session(self, session: KeptSession) -> None:
        """Keep the beginning of a session; the same again changes nothing, another text is refused."""
        self._put_once(SESSIONS, session, self._row_of("plan", session.plan_id))

    def session(self, session_id: str) -> KeptSession | None:
        """Return a session of this shop."""
        query = select(SESSIONS).where(and_(self._own(SESSIONS), SESSIONS.c.id == session_id))
        return self._rows.one(query, KeptSession)

    def sessions(self, plan_id: str = "") -> tuple[KeptSession, ...]:
        """Return the sessions of this shop, or those of one plan, latest first."""
        query = select(SESSIONS).where(self._own(SESSIONS))
        if plan_id:
            query = query.where(SESSIONS.c.plan_id == plan_id)
        return self._rows.read(query.order_by(SESSIONS.c.saved_at.desc(), SESSIONS.c.id), KeptSession)

    def add_events(self, session_id: str, events: Sequence[KeptEvent]) -> tuple[str, ...]:
        """Keep events, all or none, and return the ids of the taps that are safe to delete."""
        check_sound(self._rows.place, events)
        new = self._rows.insert(EVENTS).on_conflict_do_nothing(
            index_elements=["shop_id", "session_id", "tap_id"]
        )
        with self._rows.writing() as connection:
            last = self._last_number(connection, session_id)
            rows = [
                asdict(event) | {"shop_id": self.shop_id, "session_id": session_id, "number": number}
                for number, event in enumerate(events, last + 1)
            ]
            if rows:
                connection.execute(new, rows)
        return tuple(dict.fromkeys(event.tap_id for event in events))

    def _last_number(self, connection: Connection, session_id: str) -> int:
        """Hold the session against other writers, so that numbers are seen in their order; return the last one."""
        key = and_(self._own(SESSIONS), SESSIONS.c.id == session_id)
        if connection.execute(select(SESSIONS.c.id).where(key).with_for_update()).first() is None:
            what = message("book.no-row", row=self._row_of("session", session_id))
            raise InputError(self._rows.place, (Problem("session_id", what, message("book.keep-session")),))
        inside = and_(self._own(EVENTS), EVENTS.c.session_id == session_id)
        return connection.execute(select(func.max(EVENTS.c.number)).where(inside)).scalar() or 0

    def events(self, session_id: str, after: int = 0) -> tuple[KeptEvent, ...]:
        """Return the events of a session with a number above one, in order."""
        columns = [EVENTS.c[name] for name in ("tap_id", "made_at", "received_at", "text", "number")]
        inside = and_(self._own(EVENTS), EVENTS.c.session_id == session_id, EVENTS.c.number > after)
        return self._rows.read(select(*columns).where(inside).order_by(EVENTS.c.number), KeptEvent)

    def last_numbers(self, session_ids: Sequence[str]) -> dict[str, int]:
        """Return the number of the last event of each of some sessions; one without events is left out."""
        last = func.max(EVENTS.c.number).label("number")
        inside = and_(self._own(EVENTS), EVENTS.c.session_id.in_(session_ids))
        query = select(EVENTS.c.session_id, last).where(inside).group_by(EVENTS.c.session_id)
        return {one.session_id: one.number for one in self._rows.read(query, LastNumber)}

    def put_record(self, record: KeptRecord) -> None:
        """Keep a record; one with the same id is replaced."""
        session = None if record.session_id is None else self._row_of("session", record.session_id)
        self._put(RECORDS, record, session)

    def records(self, painter: str = "") -> tuple[KeptRecord, ...]:
        """Return the records of this shop, or of one painter, oldest first."""
        query = select(RECORDS).where(self._own(RECORDS))
        if painter:
            query = query.where(RECORDS.c.painter == painter)
        return self._rows.read(query.order_by(RECORDS.c.saved_at, RECORDS.c.id), KeptRecord)
