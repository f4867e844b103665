"""Invented rows for the tests of the book."""

from laydown.store.kept import Kept, KeptEvent, KeptPlan, KeptRecord, KeptSession

MORNING = "2026-11-25T08:00:00Z"
NOON = "2026-11-25T12:00:00Z"


def job(job_id="job-1", saved_at=MORNING, text="{}"):
    return Kept(job_id, "white van, invented", "laydown-job/1", saved_at, text)


def plan(plan_id="plan-1", job_id="job-1", saved_at=MORNING, text="{}"):
    return KeptPlan(plan_id, job_id, "laydown-plan/2", saved_at, text)


def session(session_id="session-1", plan_id="plan-1", saved_at=MORNING):
    return KeptSession(session_id, plan_id, "R", "laydown-session/1", saved_at, "{}")


def record(record_id="record-1", session_id="session-1", painter="R", saved_at=MORNING):
    return KeptRecord(record_id, session_id, painter, "laydown-record/1", saved_at, "{}")


def tap(tap_id, text="{}"):
    return KeptEvent(tap_id, MORNING, NOON, text)


def taps(*ids):
    return [tap(one) for one in ids]


def begin_session(book):
    """Put in what a session hangs on."""
    book.put_job(job())
    book.put_plan(plan())
    book.put_session(session())


def ids(events):
    return [event.tap_id for event in events]
