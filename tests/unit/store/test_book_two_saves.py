"""Two who save the same paper: the second is told, and nothing is overwritten; on SQLite and PostgreSQL."""

import threading

import pytest
from sqlalchemy import event

from cases.book_samples import NOON, job
from cases.speech import english
from laydown.store.faults import ChangedError
from laydown.store.opening import open_book

READ = {"panel.csv": b"L,a,b"}
KINDS = {
    "job": (lambda book: book.put_job, lambda book: book.jobs()),
    "product": (lambda book: book.put_product, lambda book: book.products()),
    "side": (lambda book: book.put_side, lambda book: book.sides()),
}


@pytest.fixture(params=sorted(KINDS))
def kind(request):
    return request.param


@pytest.fixture
def put(book, kind):
    return KINDS[kind][0](book)


@pytest.fixture
def read(book, kind):
    return lambda: [(one.text, one.version) for one in KINDS[kind][1](book)]


def test_the_version_grows_with_every_save(put, read):
    put(job())
    assert read() == [("{}", 1)]
    put(job(text='{"a": 1}'))
    put(job(text='{"a": 2}'), seen=2)
    assert read() == [('{"a": 2}', 3)]


def test_who_saves_what_somebody_else_changed_is_told_and_overwrites_nothing(put, read):
    put(job(), seen=0)
    put(job(text='{"a": 1}'), seen=1)
    for seen in (0, 1, 3):
        with pytest.raises(ChangedError) as told:
            put(job(text='{"b": 1}', saved_at=NOON), seen=seen)
        assert "by somebody else" in english(told.value.problems[0].what)
    assert read() == [('{"a": 1}', 2)]


def test_a_paper_that_is_gone_is_not_put_in_again_by_who_read_it(put, read):
    with pytest.raises(ChangedError):
        put(job(), seen=4)
    assert read() == []


def test_files_stay_as_they_were_where_the_job_was_changed(book):
    book.put_job(job(), READ)
    book.put_job(job(text='{"a": 1}'), READ)
    with pytest.raises(ChangedError):
        book.put_job(job(), {"panel.csv": b"new"}, seen=1)
    assert book.job_file("job-1", "panel.csv") == READ["panel.csv"]


def test_looking_and_keeping_are_one_statement(book, put):
    put(job())
    said = []

    def note(_connection, _cursor, statement, *_rest):
        if statement.split()[0] in {"SELECT", "INSERT", "UPDATE"} and "job_files" not in statement:
            said.append(statement)

    event.listen(book._rows.engine, "before_cursor_execute", note)
    put(job(text='{"a": 1}'), seen=1)
    event.remove(book._rows.engine, "before_cursor_execute", note)
    assert [one.split()[0] for one in said] == ["UPDATE"]
    assert "version" in said[0].partition("WHERE")[2]


@pytest.mark.parametrize("begun", [False, True])
def test_of_many_who_save_at_once_one_wins_and_the_others_are_told(place, kind, begun):
    writers, rounds = 4, 6
    books = [open_book(place) for _ in range(writers)]
    for number in range(rounds):
        name, start = f"{kind}-{number}", threading.Barrier(writers)
        if begun:
            KINDS[kind][0](books[0])(job(name))
        won = []

        def save(writer, name=name, start=start, won=won):
            start.wait()
            try:
                KINDS[kind][0](books[writer])(job(name, text=f'"{writer}"'), seen=int(begun))
                won.append(writer)
            except ChangedError:
                pass

        threads = [threading.Thread(target=save, args=(writer,)) for writer in range(writers)]
        for one in threads:
            one.start()
        for one in threads:
            one.join(60)
        assert len(won) == 1
        kept = next(one for one in KINDS[kind][1](books[0]) if one.id == name)
        assert (kept.text, kept.version) == (f'"{won[0]}"', 1 + int(begun))
    for one in books:
        one.close()
