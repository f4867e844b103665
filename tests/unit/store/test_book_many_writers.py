"""Several writers at once, in threads and in processes, and a reader that follows them."""

from concurrent.futures import ThreadPoolExecutor

import pytest

from cases import book_writer
from cases.book_samples import begin_session, ids, job, taps
from laydown.store.kept import Shop
from laydown.store.opening import open_book

WRITERS = 4
EACH = 25


def run_at_once(processes, target, calls):
    """Answers of processes that run beside each other."""
    running = []
    for call in calls:
        ours, theirs = processes.Pipe(duplex=False)
        process = processes.Process(target=target, args=(*call, theirs), daemon=True)
        process.start()
        theirs.close()
        running.append((process, ours))
    answers = [ours.recv() if ours.poll(60) else "no answer within a minute" for _, ours in running]
    for process, ours in running:
        process.join(60)
        ours.close()
    return answers


def names_of(writer):
    """Half of the names are the writer's own, half are those of its neighbour too."""
    return [f"{writer // 2}.shared.{n}" for n in range(EACH)] + [f"{writer}.own.{n}" for n in range(EACH)]


ALL = {name for writer in range(WRITERS) for name in names_of(writer)}


@pytest.mark.parametrize("share_connections", [True, False])
def test_four_threads_lose_nothing_and_double_nothing(log, place, share_connections):
    books = [log if share_connections else open_book(place) for _ in range(WRITERS)]

    def write(writer):
        return [one for name in names_of(writer) for one in books[writer].add_events("session-1", taps(name))]

    with ThreadPoolExecutor(WRITERS) as pool:
        answers = list(pool.map(write, range(WRITERS)))
    assert answers == [names_of(writer) for writer in range(WRITERS)]
    kept = ids(log.events("session-1"))
    assert (len(kept), set(kept)) == (len(ALL), ALL)
    for one in books:
        one.close()


def test_four_processes_lose_nothing_and_double_nothing(log, place, processes):
    answers = run_at_once(processes, book_writer.write_some, [(place, names_of(n)) for n in range(WRITERS)])
    assert answers == [names_of(writer) for writer in range(WRITERS)]
    kept = ids(log.events("session-1"))
    assert (len(kept), set(kept)) == (len(ALL), ALL)


def test_a_reader_that_asks_for_what_is_new_misses_nothing(log):
    """Numbers given out in one order and seen in another would make it miss a tap for good."""

    def write(writer):
        for batch in range(EACH):
            log.add_events("session-1", taps(*(f"{writer}.{batch}.{place}" for place in range(3))))

    followed = []
    with ThreadPoolExecutor(WRITERS) as pool:
        writing = [pool.submit(write, writer) for writer in range(WRITERS)]
        while len(followed) < WRITERS * EACH * 3:
            done = all(one.done() for one in writing)
            new = log.events("session-1", after=followed[-1].number if followed else 0)
            followed += new
            if done and not new:
                break
    for one in writing:
        one.result()
    assert ids(followed) == ids(log.events("session-1"))
    assert len(followed) == WRITERS * EACH * 3


def test_sessions_of_several_shops_are_written_side_by_side(log):
    shops = [log]
    for number in range(1, WRITERS):
        log.put_shop(Shop(f"shop-{number}", ""))
        shops.append(log.of_shop(f"shop-{number}"))
        begin_session(shops[-1])

    def write(book):
        for number in range(EACH):
            book.add_events("session-1", taps(f"tap-{number}"))
        return ids(book.events("session-1"))

    with ThreadPoolExecutor(WRITERS) as pool:
        assert list(pool.map(write, shops)) == [[f"tap-{n}" for n in range(EACH)]] * WRITERS


def test_four_processes_may_make_the_same_new_book(place, processes):
    answers = run_at_once(processes, book_writer.open_and_close, [(place, ())] * WRITERS)
    assert answers == [["own"]] * WRITERS
    made = open_book(place)
    begin_session(made)
    assert len(made.jobs()) == 1
    made.close()


def test_writers_of_the_same_files_beside_many_jobs_do_not_wait_for_each_other_for_ever(book):
    """Two writers that take the same contents in another order would each hold what the other wants."""
    contents = {f"{n}.csv": bytes([n]) * 1000 for n in range(6)}

    def write(writer):
        names = sorted(contents, reverse=writer % 2 == 1)
        for number in range(EACH):
            own = f"{writer if number % 2 else 'shared'}-{number}"
            book.put_job(job(own), {name: contents[name] for name in names})

    with ThreadPoolExecutor(WRITERS) as pool:
        list(pool.map(write, range(WRITERS)))
    for kept in book.jobs():
        assert {one.name: book.job_file(kept.id, one.name) for one in book.job_files(kept.id)} == contents
