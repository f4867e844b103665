"""Putting away and deleting: what goes, what stays, and what nobody may lose unseen; on SQLite and PostgreSQL."""

import threading
from dataclasses import replace

import pytest
from sqlalchemy import text

from cases.book_samples import MORNING, NOON, begin_session, ids, job, plan, record, session, taps
from cases.speech import english
from laydown.schema.problem import InputError
from laydown.store.faults import ChangedError
from laydown.store.kept import Away, Hanging, Shop
from laydown.store.opening import open_book

READ = {"panel.csv": b"L,a,b"}


def ids_of(rows):
    return [row.id for row in rows]


def count(book, table):
    with book._rows.engine.connect() as connection:
        return connection.execute(text(f"SELECT COUNT(*) FROM {table}")).scalar_one()


@pytest.fixture
def full(log):
    """A job with everything that can hang on one, and a second job that shares its file."""
    log.put_shop(Shop("quay", "Quay, invented"))
    log.put_job(job(), READ)
    log.put_job(job("job-1.plan-1"), READ)
    log.put_job(job("job-10"), READ)
    log.put_plan(plan("plan-10", "job-10"))
    log.put_session(session("session-10", "plan-10"))
    log.add_events("session-1", taps("a", "b"))
    log.add_events("session-10", taps("a"))
    log.put_record(record())
    log.put_record(record("from paper", session_id=None))
    log.share_job("job-1", "quay")
    log.put_setting("pour.plan-1.clear", "[]")
    log.put_setting("units", "us")
    return log


def test_a_job_that_is_put_away_leaves_the_lists_and_comes_back_as_it_was(log):
    before = log.job("job-1")
    log.put_away("job-1", NOON, "Kim")
    assert log.jobs() == ()
    assert log.away() == (Away("job-1", "white van, invented", NOON, "Kim"),)
    assert (log.job("job-1"), ids_of(log.plans("job-1"))) == (before, ["plan-1"])
    log.put_away("job-1", "2026-11-26T08:00:00Z", "Robin")
    assert log.away()[0].put_by == "Kim", "the first time stays"
    log.fetch_back("job-1")
    log.fetch_back("job-1")
    assert (log.jobs(), log.away()) == ((before,), ())


def test_jobs_put_away_last_come_first(log):
    log.put_job(job("job-2"))
    log.put_away("job-1", MORNING)
    log.put_away("job-2", NOON)
    assert [one.job_id for one in log.away()] == ["job-2", "job-1"]


def test_what_is_not_there_is_not_put_away(book):
    with pytest.raises(InputError) as refused:
        book.put_away("none", NOON)
    assert "there is no job 'none'" in english(refused.value.problems[0].what)
    assert book.away() == ()


def test_a_shop_puts_away_only_its_own_jobs_and_a_shared_one_goes_for_both(full):
    quay = full.of_shop("quay")
    with pytest.raises(InputError):
        quay.put_away("job-1", NOON)
    assert ids_of(quay.jobs()) == ["job-1"]
    full.put_away("job-1", NOON)
    assert (quay.jobs(), quay.away()) == ((), ())


def test_what_hangs_on_a_job_is_counted(full, book):
    assert full.hanging("job-1") == Hanging(1, 1, 2, 1)
    assert full.hanging("job-10") == Hanging(1, 1, 1, 0)
    assert full.hanging("none") == full.of_shop("quay").hanging("job-1") == Hanging()


def test_a_deleted_job_takes_with_it_what_hangs_on_it_and_nothing_else(full):
    full.put_away("job-1", NOON)
    full.delete_job("job-1", full.hanging("job-1"), "job-1.", ["pour.plan-1.clear"])
    assert ids_of(full.jobs()) == ["job-10"]
    assert (full.job("job-1"), full.job("job-1.plan-1"), full.plan("plan-1")) == (None,) * 3
    assert (full.session("session-1"), full.events("session-1"), full.away()) == (None, (), ())
    assert ids_of(full.records()) == ["from paper"]
    assert ids_of(full.sessions()) == ["session-10"]
    assert ids(full.events("session-10")) == ["a"]
    assert full.settings() == {"units": "us"}
    assert full.of_shop("quay").jobs() == ()
    assert full.job_file("job-10", "panel.csv") == READ["panel.csv"], "the other job's file stays"
    left = {"plans": 1, "sessions": 1, "events": 1, "records": 1, "job_shares": 0, "job_files": 1, "files": 1}
    assert {table: count(full, table) for table in left} == left


def test_a_file_goes_with_the_last_job_it_lies_beside(full):
    for name in ("job-1", "job-10"):
        full.put_away(name, NOON)
        full.delete_job(name, full.hanging(name), f"{name}.")
    assert count(full, "files") == 0


def test_a_job_that_is_not_put_away_is_not_deleted(full):
    with pytest.raises(ChangedError) as refused:
        full.delete_job("job-1", full.hanging("job-1"), "job-1.")
    assert "is not put away" in english(refused.value.problems[0].what)
    assert full.hanging("job-1") == Hanging(1, 1, 2, 1)


@pytest.mark.parametrize(
    "add",
    [
        lambda book: book.put_plan(plan("plan-2")),
        lambda book: book.put_session(session("session-2")),
        lambda book: book.add_events("session-1", taps("c")),
        lambda book: book.put_record(record("record-2")),
    ],
)
def test_what_came_since_somebody_looked_is_not_deleted_unseen(full, add):
    full.put_away("job-1", NOON)
    seen = full.hanging("job-1")
    add(full)
    with pytest.raises(ChangedError) as refused:
        full.delete_job("job-1", seen, "job-1.")
    assert "something was added" in english(refused.value.problems[0].what)
    assert full.job("job-1") is not None
    full.delete_job("job-1", full.hanging("job-1"), "job-1.")
    assert full.job("job-1") is None


def test_a_shop_deletes_nothing_of_another(full):
    full.put_away("job-1", NOON)
    quay = full.of_shop("quay")
    with pytest.raises(ChangedError):
        quay.delete_job("job-1", full.hanging("job-1"), "job-1.")
    full.put_product(job("ground-a"))
    with pytest.raises(ChangedError):
        quay.delete_product("ground-a", 1, lambda _job: False)
    assert full.job("job-1") is not None
    assert ids_of(full.products()) == ["ground-a"]


def test_a_tap_that_comes_while_its_job_is_deleted_is_seen_or_refused(place):
    """Whichever comes first: a tap that was answered is never deleted by somebody who did not see it."""
    for number in range(12):
        book, other = open_book(place), open_book(place)
        name = f"job-{number}"
        book.put_job(job(name))
        book.put_plan(plan(f"plan-{number}", name))
        book.put_session(session(f"session-{number}", f"plan-{number}"))
        book.put_away(name, NOON)
        seen, start, said = book.hanging(name), threading.Barrier(2), []

        def tap(other=other, number=number, start=start, said=said):
            start.wait()
            try:
                said.append(other.add_events(f"session-{number}", taps("dry")))
            except InputError:
                said.append(())

        beside = threading.Thread(target=tap)
        beside.start()
        start.wait()
        try:
            book.delete_job(name, seen, f"{name}.")
            is_gone = True
        except ChangedError:
            is_gone = False
        beside.join(30)
        assert said == ([()] if is_gone else [("dry",)])
        assert (book.job(name) is None) is is_gone
        book.close()
        other.close()


@pytest.mark.parametrize("kind", ["product", "side"])
def test_a_paper_that_jobs_use_is_not_deleted_and_they_are_named(book, kind):
    put, remove = getattr(book, f"put_{kind}"), getattr(book, f"delete_{kind}")
    read = getattr(book, f"{kind}s")
    put(job("a"))
    book.put_job(job("job-1", text='"a"'))
    book.put_job(job("job-2", text='"b"'))
    assert ids_of(remove("a", 1, lambda one: one.text == '"a"')) == ["job-1"]
    assert ids_of(read()) == ["a"]
    book.put_job(job("job-1"))
    assert remove("a", 1, lambda one: one.text == '"a"') == ()
    assert read() == ()


@pytest.mark.parametrize("kind", ["product", "side"])
def test_a_paper_that_was_changed_since_is_not_deleted(book, kind):
    put, remove = getattr(book, f"put_{kind}"), getattr(book, f"delete_{kind}")
    put(job("a"))
    put(job("a", text='{"later": 1}'))
    for seen in (1, 0, 3):
        with pytest.raises(ChangedError):
            remove("a", seen, lambda _job: False)
    assert ids_of(getattr(book, f"{kind}s")()) == ["a"]
    assert remove("a", 2, lambda _job: False) == ()


def test_a_book_without_sessions_is_left_by_its_only_job(book):
    begin_session(book)
    book.put_away("job-1", NOON)
    book.delete_job("job-1", Hanging(1, 1, 0, 0), "job-1.")
    assert [count(book, table) for table in ("jobs", "plans", "sessions")] == [0, 0, 0]
    book.put_job(replace(job(), text='{"new": 1}'))
    assert book.job("job-1").version == 1
