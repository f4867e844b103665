"""From an empty database to the tables of today, and no further."""

import pytest
from sqlalchemy import inspect

from cases.book_samples import ids, taps
from cases.speech import english
from laydown.store import tables as migrations
from laydown.store.faults import BookError
from laydown.store.opening import open_book
from laydown.store.tables import METADATA


def shape(engine):
    """What a database says of its own tables."""
    seen = inspect(engine)
    return {
        table: {
            "columns": [
                (
                    column["name"],
                    str(column["type"]),
                    column["nullable"],
                    getattr(column["type"], "collation", None),
                )
                for column in seen.get_columns(table)
            ],
            "key": seen.get_pk_constraint(table)["constrained_columns"],
            "references": sorted(
                (one["constrained_columns"], one["referred_table"], one["referred_columns"])
                for one in seen.get_foreign_keys(table)
            ),
            "unique": sorted(one["column_names"] for one in seen.get_unique_constraints(table)),
            "index": sorted((one["name"], one["column_names"]) for one in seen.get_indexes(table)),
            "check": [one["name"] for one in seen.get_check_constraints(table)],
        }
        for table in sorted(seen.get_table_names())
    }


def test_the_steps_lead_to_the_tables_the_program_knows(book):
    engine = book._rows.engine
    stepped = shape(engine)
    with engine.begin() as connection:
        METADATA.drop_all(connection)
        METADATA.create_all(connection)
    assert shape(engine) == stepped
    assert set(stepped) == set(METADATA.tables)


def test_every_step_has_its_file_and_its_number():
    folder = migrations.files("laydown.store").joinpath("steps")
    there = sorted(file.name for file in folder.iterdir() if file.name.endswith(".sql"))
    assert there == list(migrations.STEPS) == [f"{n:04d}.sql" for n in range(1, len(there) + 1)]


def version(book):
    with book._rows.engine.connect() as connection:
        return connection.exec_driver_sql("SELECT version FROM book_version").scalar_one()


def test_a_book_of_a_newer_laydown_is_refused_and_left_alone(log, place):
    with log._rows.engine.begin() as connection:
        connection.exec_driver_sql("UPDATE book_version SET version = 99")
    with pytest.raises(BookError) as refused:
        open_book(place)
    problem = refused.value.problems[0]
    assert (
        english(problem.what)
        == f"was written by a newer laydown: it has version 99, this laydown knows {len(migrations.STEPS)}"
    )
    assert "newer laydown" in english(problem.hint)
    assert version(log) == 99


@pytest.fixture
def later(monkeypatch):
    """A function that adds a step to those of today."""

    def add(*statements):
        before, today = migrations._statements, migrations.STEPS
        monkeypatch.setattr(migrations, "STEPS", (*today, "later"))
        monkeypatch.setattr(
            migrations,
            "_statements",
            lambda step, dialect: statements if step == "later" else before(step, dialect),
        )
        return len(today) + 1

    return add


def test_an_older_book_goes_forward_and_keeps_its_rows(log, place, later):
    log.add_events("session-1", taps("a"))
    number = later("CREATE TABLE later (id INTEGER NOT NULL)")
    again = open_book(place)
    assert version(again) == number
    assert "later" in inspect(again._rows.engine).get_table_names()
    assert ids(again.events("session-1")) == ["a"]
    open_book(place).close()
    assert version(again) == number
    again.close()


@pytest.fixture
def first_step_only(monkeypatch):
    """The steps of a laydown that knew no files beside jobs."""
    today = migrations.STEPS
    monkeypatch.setattr(migrations, "STEPS", today[:1])
    return lambda: monkeypatch.setattr(migrations, "STEPS", today)


def test_a_book_from_before_files_takes_them_and_keeps_its_jobs(first_step_only, place):
    before = open_book(place)
    assert version(before) == 1
    with before._rows.engine.begin() as connection:
        connection.exec_driver_sql(
            "INSERT INTO jobs (shop_id, id, name, format, saved_at, text) "
            "VALUES ('own', 'job-1', 'van', 'laydown-job/1', '2026-11-25T08:00:00Z', '{}')"
        )
    before.close()
    first_step_only()
    after = open_book(place)
    assert (after.job("job-1").name, after.job_files("job-1")) == ("van", ())
    after.put_job(after.job("job-1"), {"panel.csv": b"1"})
    assert after.job_file("job-1", "panel.csv") == b"1"
    after.close()


def test_a_book_from_before_versions_counts_from_one_and_has_nothing_put_away(monkeypatch, place):
    today = migrations.STEPS
    monkeypatch.setattr(migrations, "STEPS", today[:2])
    before = open_book(place)
    assert version(before) == 2
    columns = "(shop_id, id, name, format, saved_at, text)"
    with before._rows.engine.begin() as connection:
        for table in ("jobs", "products", "sides"):
            connection.exec_driver_sql(
                f"INSERT INTO {table} {columns} VALUES ('own', 'one', 'van', 'x/1', '2026-11-25T08:00:00Z', '{{}}')"
            )
    before.close()
    monkeypatch.setattr(migrations, "STEPS", today)
    after = open_book(place)
    assert [one.version for one in (*after.jobs(), *after.products(), *after.sides())] == [1, 1, 1]
    assert after.away() == ()
    after.put_job(after.job("one"), seen=1)
    after.put_away("one", "2026-11-26T08:00:00Z")
    assert [one.job_id for one in after.away()] == ["one"]
    after.close()


def test_a_step_that_fails_leaves_the_book_as_it_was(log, place, later):
    later("CREATE TABLE later (id INTEGER NOT NULL)", "INSERT INTO nowhere VALUES (1)")
    with pytest.raises(BookError):
        open_book(place)
    assert version(log) == len(migrations.STEPS) - 1
    assert "later" not in inspect(log._rows.engine).get_table_names()
    assert log.add_events("session-1", taps("a")) == ("a",)
