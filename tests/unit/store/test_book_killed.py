"""A writer is killed in the middle of its work, again and again.

This shows what a killed process, a crashed server and a file that cannot grow do to the book. It does not show what a loss of
power does: the operating system lives on, and with it all that it had not yet written to the disk.
"""

import random
import sqlite3
from signal import SIGKILL

import pytest

from cases import book_writer
from cases.book_samples import begin_session, ids, taps
from cases.speech import english
from laydown.store.faults import BookError
from laydown.store.opening import open_book

KILLS = 60
"""Far more than the handful of places in a commit at which a kill can fall."""


def life(processes, place, first, answers_wanted):
    """Answers of a writer that is killed after some of them; it writes on until the signal strikes."""
    ours, theirs = processes.Pipe(duplex=False)
    process = processes.Process(
        target=book_writer.write_until_killed, args=(place, first, theirs), daemon=True
    )
    process.start()
    theirs.close()
    answers = []
    try:
        while True:
            assert ours.poll(60), "the writer is silent for a minute"
            answers.append(ours.recv())
            if len(answers) == answers_wanted:
                process.kill()
    except EOFError:
        pass
    process.join(60)
    ours.close()
    assert process.exitcode == -SIGKILL
    return answers


def test_sixty_kills_lose_no_answered_tap_and_double_none(log, place, processes):
    dice = random.Random(60)
    answered, first = [], 0
    for _ in range(KILLS):
        answers = life(processes, place, first, dice.randint(1, 12))
        answered += [name for answer in answers for name in answer]
        first += len(answers)  # as a screen does: what was not answered is sent again
    again = open_book(place)
    kept = ids(again.events("session-1"))
    again.close()
    assert answered == [name for batch in range(first) for name in book_writer.names_of(batch)]
    assert kept[: len(answered)] == answered, "an answered tap is missing, doubled or out of order"
    unanswered = kept[len(answered) :]
    assert unanswered in ([], book_writer.names_of(first)), "a batch is kept in part"
    if not place.startswith("postgresql"):
        with sqlite3.connect(place) as raw:
            assert raw.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
            assert raw.execute("PRAGMA foreign_key_check").fetchall() == []
        raw.close()


def test_a_killed_writer_leaves_no_lock_behind(log, place, processes):
    life(processes, place, 0, 5)
    assert log.add_events("session-1", taps("after")) == ("after",)


def test_a_server_that_crashes_keeps_what_it_answered_and_the_book_finds_it_again(server):
    book = open_book(server.fresh())
    begin_session(book)
    stored = book.add_events("session-1", taps("a", "b"))
    server.crash()
    with pytest.raises(BookError) as refused:
        book.add_events("session-1", taps("c"))
    assert english(refused.value.problems[0].what) == "does not answer"
    server.start()
    assert ids(book.events("session-1")) == list(stored)
    assert book.add_events("session-1", taps("b", "c")) == ("b", "c")
    book.close()


def test_a_server_that_was_started_again_in_the_night_is_not_noticed_in_the_morning(server):
    book = open_book(server.fresh())
    begin_session(book)
    server.crash()
    server.start()
    assert book.add_events("session-1", taps("a")) == ("a",)
    book.close()


def test_a_file_that_cannot_grow_keeps_what_was_answered_and_says_so(tmp_path, processes):
    place = str(tmp_path / "shop.book")
    book = open_book(place)
    begin_session(book)
    ours, theirs = processes.Pipe(duplex=False)
    process = processes.Process(
        target=book_writer.write_until_no_room, args=(place, 200_000, theirs), daemon=True
    )
    process.start()
    theirs.close()
    assert ours.poll(60)
    stored, problems = ours.recv()
    process.join(60)
    ours.close()
    assert stored
    assert [problem.where for problem in problems] == ["book"]
    assert "disk" in english(problems[0].what)
    assert ids(book.events("session-1")) == stored
    book.close()
