"""What other processes do to a book while the tests watch."""

import resource
from itertools import count

from cases.book_samples import taps
from laydown.schema.problem import InputError
from laydown.store.faults import BookError
from laydown.store.opening import open_book

BATCH = 3


def names_of(batch):
    """Ids of the taps of a batch."""
    return [f"{batch:06d}.{place}" for place in range(BATCH)]


def write_until_killed(place, first, answers):
    """Keep batch after batch and pass on each answer, until someone ends this process."""
    book = open_book(place)
    for batch in count(first):
        answers.send(book.add_events("session-1", taps(*names_of(batch))))


def write_some(place, names, answers):
    """Open the book, keep taps one by one and pass on what is safe to delete."""
    try:
        book = open_book(place)
        stored = [book.add_events("session-1", taps(name)) for name in names]
        book.close()
        answers.send([one for answer in stored for one in answer])
    except InputError as error:
        answers.send(error.problems)


def open_and_close(place, _names, answers):
    """Open a book that perhaps nobody has made yet."""
    try:
        book = open_book(place)
        answers.send([shop.id for shop in book.shops()])
        book.close()
    except InputError as error:
        answers.send(error.problems)


def write_until_no_room(place, room_bytes, answers):
    """Keep taps until the file may not grow any more; tell what was answered and what was said."""
    book = open_book(place)
    resource.setrlimit(resource.RLIMIT_FSIZE, (room_bytes, room_bytes))
    stored = []
    try:
        for batch in count():
            stored += book.add_events("session-1", taps(*names_of(batch)))
    except BookError as error:
        answers.send((stored, error.problems))
