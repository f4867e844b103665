"""What every book promises, whatever it is kept in: the same tests on SQLite and PostgreSQL."""

import hashlib
from dataclasses import replace

import pytest

from cases.book_samples import MORNING, NOON, ids, job, plan, record, session, tap, taps
from cases.speech import english
from laydown.schema.problem import InputError
from laydown.store.kept import Kept, KeptFile, KeptRecord, Shop, User
from laydown.store.opening import open_book


def told(error):
    return " | ".join(f"{problem.where}: {english(problem.what)}" for problem in error.value.problems)


def test_what_is_put_in_comes_out_unchanged(log):
    log.put_record(record())
    log.put_product(job("ground-a"))
    log.put_side(job("hatch"))
    assert log.job("job-1") == replace(job(), shop_id="own", version=1)
    assert log.plan("plan-1") == replace(plan(), shop_id="own")
    assert log.session("session-1") == replace(session(), shop_id="own")
    assert log.records() == (replace(record(), shop_id="own"),)
    assert ids_of(log.products()) == ["ground-a"]
    assert ids_of(log.sides()) == ["hatch"]


def ids_of(rows):
    return [row.id for row in rows]


def test_what_is_not_there_is_none_or_empty(book):
    assert (book.job("x"), book.plan("x"), book.session("x"), book.user("x")) == (None,) * 4
    assert (book.jobs(), book.plans("x"), book.products(), book.sides()) == ((),) * 4
    assert (book.sessions(), book.events("x"), book.records(), book.settings()) == ((), (), (), {})


@pytest.mark.parametrize(
    "text",
    ["Ω µ ü 漆 🚗 \u202eabc", "'; DROP TABLE jobs; --", "%s %(x)s :x ?", '{"a": "\\u0000"}', "x" * 3_000_000],
)
def test_any_text_survives(book, text):
    book.put_job(job(text=text))
    assert book.job("job-1").text == text


def test_a_job_put_in_again_is_replaced(book):
    book.put_job(job())
    book.put_job(job(saved_at=NOON, text='{"painter": "S"}'))
    assert [(one.saved_at, one.text) for one in book.jobs()] == [(NOON, '{"painter": "S"}')]


def test_a_plan_put_in_again_changes_nothing_and_another_text_is_refused(log):
    log.put_plan(plan(saved_at=NOON))
    with pytest.raises(InputError) as refused:
        log.put_plan(plan(text='{"coats": 9}'))
    assert "kept already with other content" in told(refused)
    assert [(one.saved_at, one.text) for one in log.plans("job-1")] == [(MORNING, "{}")]


def test_jobs_plans_and_sessions_come_latest_first_and_records_oldest_first(log):
    log.put_job(job("job-2", NOON))
    log.put_plan(plan("plan-2", saved_at=NOON))
    log.put_session(session("session-2", "plan-2", NOON))
    log.put_record(record("record-2", saved_at=NOON))
    log.put_record(record("record-1"))
    assert ids_of(log.jobs()) == ["job-2", "job-1"]
    assert ids_of(log.plans("job-1")) == ["plan-2", "plan-1"]
    assert ids_of(log.sessions()) == ["session-2", "session-1"]
    assert ids_of(log.sessions("plan-1")) == ["session-1"]
    assert ids_of(log.records()) == ["record-1", "record-2"]


def test_names_sort_by_code_point_in_every_kind_of_book(book):
    for key in ("b", "ä", "A", "_", "a", "Z"):
        book.put_product(job(key))
    assert ids_of(book.products()) == ["A", "Z", "_", "a", "b", "ä"]


def test_records_of_one_painter_are_found_and_one_from_paper_has_no_session(log):
    log.put_record(record("record-1", painter="R"))
    log.put_record(record("record-2", session_id=None, painter="S"))
    assert [(one.id, one.session_id) for one in log.records("S")] == [("record-2", None)]


# files beside a job

READ = {"panel.csv": b"L,a,b", "map.toml": b"\x00\xff\xfe no text at all \r\n"}


def names(files):
    return [one.name for one in files]


def test_files_beside_a_job_come_out_byte_for_byte(book):
    book.put_job(job(), READ)
    assert book.job_files("job-1") == tuple(
        KeptFile(name, hashlib.sha256(READ[name]).hexdigest()) for name in ("map.toml", "panel.csv")
    )
    assert {name: book.job_file("job-1", name) for name in READ} == READ


def test_a_large_file_and_an_empty_one_are_kept(book):
    large = bytes(range(256)) * 20_000
    book.put_job(job(), {"large": large, "empty": b""})
    assert (book.job_file("job-1", "large"), book.job_file("job-1", "empty")) == (large, b"")


def test_what_does_not_lie_beside_a_job_is_none_or_empty(book):
    assert (book.job_files("job-1"), book.job_file("job-1", "panel.csv")) == ((), None)
    book.put_job(job(), READ)
    book.put_job(job("job-2"))
    assert (book.job_files("job-2"), book.job_file("job-2", "panel.csv")) == ((), None)
    assert book.job_file("job-1", "Panel.csv") is None


def test_a_job_put_in_again_has_the_files_it_comes_with_and_no_others(book):
    book.put_job(job(), READ)
    book.put_job(job("job-2"), {"panel.csv": b"L,a,b"})
    book.put_job(job(), {"panel.csv": b"new"})
    assert names(book.job_files("job-1")) == ["panel.csv"]
    assert (book.job_file("job-1", "panel.csv"), book.job_file("job-2", "panel.csv")) == (b"new", b"L,a,b")
    book.put_job(job())
    assert book.job_files("job-1") == ()
    assert book.job_file("job-2", "panel.csv") == b"L,a,b"


def test_the_same_content_beside_many_jobs_is_kept_once(book):
    for number in range(3):
        book.put_job(job(f"job-{number}"), {f"panel-{number}.csv": b"L,a,b"})
    with book._rows.engine.connect() as connection:
        assert connection.exec_driver_sql("SELECT COUNT(*) FROM files").scalar_one() == 1


def test_a_job_whose_files_are_refused_stays_as_it_was(book):
    book.put_job(job(), READ)
    for bad in ("half a pair \ud800", "zero \0", "n" * 201):
        with pytest.raises(InputError) as refused:
            book.put_job(job(text='{"of": "later"}'), {"panel.csv": b"new", bad: b"x"})
        assert told(refused).startswith("name: ")
    assert book.job("job-1").text == "{}"
    assert book.job_file("job-1", "panel.csv") == b"L,a,b"


def test_files_of_a_shop_are_seen_by_another_only_with_the_job_that_is_shared(two):
    ours, theirs = two
    ours.put_job(job(), READ)
    ours.put_job(job("job-2"), READ)
    assert (theirs.job_files("job-1", "own"), theirs.job_file("job-1", "panel.csv", "own")) == ((), None)
    ours.share_job("job-1", "quay")
    assert names(theirs.job_files("job-1", "own")) == ["map.toml", "panel.csv"]
    assert theirs.job_file("job-1", "panel.csv", "own") == b"L,a,b"
    assert (theirs.job_files("job-2", "own"), theirs.job_file("job-2", "panel.csv", "own")) == ((), None)
    theirs.put_job(job(), {"panel.csv": b"theirs"})
    assert ours.job_file("job-1", "panel.csv") == b"L,a,b"
    ours.unshare_job("job-1", "quay")
    assert theirs.job_files("job-1", "own") == ()


# events


def test_events_come_in_the_order_they_were_kept_with_growing_numbers(log):
    log.add_events("session-1", taps("c", "a"))
    log.add_events("session-1", taps("b"))
    kept = log.events("session-1")
    assert ids(kept) == ["c", "a", "b"]
    assert [event.number for event in kept] == sorted({event.number for event in kept})
    assert ids(log.events("session-1", after=kept[0].number)) == ["a", "b"]


def test_the_last_numbers_are_those_of_the_last_events(log):
    log.put_session(session("session-2"))
    log.put_session(session("session-3"))
    log.add_events("session-1", taps("a", "b"))
    log.add_events("session-2", taps("c"))
    last = {name: log.events(name)[-1].number for name in ("session-1", "session-2")}
    assert log.last_numbers(["session-1", "session-2", "session-3", "none"]) == last
    assert log.last_numbers([]) == {}
    assert log.of_shop("elsewhere").last_numbers(["session-1"]) == {}


def test_a_batch_sent_again_is_kept_once_and_answered_in_full(log):
    first = log.add_events("session-1", taps("a", "b"))
    again = log.add_events("session-1", taps("a", "b", "c"))
    assert (first, again) == (("a", "b"), ("a", "b", "c"))
    assert ids(log.events("session-1")) == ["a", "b", "c"]


def test_a_tap_that_stands_twice_in_one_batch_is_kept_once(log):
    assert log.add_events("session-1", taps("a", "b", "a")) == ("a", "b")
    assert ids(log.events("session-1")) == ["a", "b"]


def test_the_first_content_of_a_tap_stays(log):
    log.add_events("session-1", [tap("a", '{"section": 1}')])
    log.add_events("session-1", [tap("a", '{"section": 2}')])
    assert [event.text for event in log.events("session-1")] == ['{"section": 1}']


def test_the_same_tap_id_in_another_session_is_another_tap(log):
    log.put_session(session("session-2"))
    log.add_events("session-1", taps("a"))
    log.add_events("session-2", taps("a"))
    assert ids(log.events("session-1")) == ids(log.events("session-2")) == ["a"]


def test_an_empty_batch_is_answered_with_nothing(log):
    assert log.add_events("session-1", []) == ()


def test_a_batch_with_one_bad_tap_is_not_kept_at_all(log):
    bad = [*taps("a", "b"), tap("c", text="half a pair \ud800"), tap("")]
    with pytest.raises(InputError) as refused:
        log.add_events("session-1", bad)
    assert told(refused) == "text: holds a character that is no text | tap_id: is empty"
    assert log.events("session-1") == ()


def test_a_batch_that_the_database_refuses_in_the_middle_is_not_kept_at_all(log):
    nothing = replace(tap("c"), made_at=None)  # what no caller with checked types can send
    with pytest.raises(InputError):
        log.add_events("session-1", [*taps("a", "b"), nothing, *taps("d")])
    assert log.events("session-1") == ()
    assert log.add_events("session-1", taps("a")) == ("a",)


# references


def test_nothing_hangs_on_what_is_not_there(book):
    refused = {
        "job 'job-1'": lambda: book.put_plan(plan()),
        "plan 'plan-1'": lambda: book.put_session(session()),
        "session 'session-1'": lambda: book.put_record(record()),
        "session 'none'": lambda: book.add_events("none", taps("a")),
        "shop 'far'": lambda: book.of_shop("far").put_job(job()),
    }
    for name, call in refused.items():
        with pytest.raises(InputError) as error:
            call()
        assert f"there is no {name}" in told(error)
    assert (book.jobs(), book.sessions(), book.records()) == ((), (), ())


def test_what_no_database_can_hold_is_refused_in_the_same_words(book):
    with pytest.raises(InputError) as refused:
        book.put_job(Kept("k" * 201, "zero \0", "", MORNING, "{}"))
    assert told(refused) == (
        "id: has 201 characters | name: holds a character that is no text | format: is empty"
    )


# shops and people


@pytest.fixture
def two(book):
    """Two shops in one book, the first with a job and a plan."""
    book.put_shop(Shop("quay", "Quay, invented"))
    book.put_job(job())
    book.put_plan(plan())
    return book, book.of_shop("quay")


def test_a_new_book_has_one_shop_without_a_name_that_can_be_given_one(book):
    assert book.shops() == (Shop("own", ""),)
    book.put_shop(Shop("own", "Lowmere, invented"))
    assert book.shops() == (Shop("own", "Lowmere, invented"),)


def test_a_shop_sees_nothing_of_another(two):
    ours, theirs = two
    ours.put_session(session())
    ours.add_events("session-1", taps("a"))
    ours.put_record(record())
    ours.put_product(job("ground-a"))
    ours.put_side(job("hatch"))
    ours.put_user(User("R", "painter", "hash"))
    ours.put_setting("currency", "EUR")
    assert (theirs.jobs(), theirs.plans("job-1"), theirs.plans("job-1", "own")) == ((), (), ())
    assert (theirs.job("job-1"), theirs.job("job-1", "own")) == (None, None)
    assert (theirs.plan("plan-1"), theirs.plan("plan-1", "own"), theirs.session("session-1")) == (None,) * 3
    assert (theirs.sessions(), theirs.events("session-1"), theirs.records()) == ((), (), ())
    assert (theirs.products(), theirs.sides(), theirs.users(), theirs.user("R")) == ((), (), (), None)
    assert theirs.settings() == {}


def test_a_shop_cannot_write_into_another_even_if_it_knows_the_ids(two):
    ours, theirs = two
    ours.put_session(session())
    for call in (
        lambda: theirs.put_plan(plan("plan-2")),
        lambda: theirs.put_session(session("session-2")),
        lambda: theirs.add_events("session-1", taps("a")),
        lambda: theirs.put_record(record()),
        lambda: theirs.share_job("job-1", "quay"),
    ):
        with pytest.raises(InputError, match="1 problem"):
            call()
    theirs.put_job(
        replace(job(text='{"of": "quay"}'), shop_id="own")
    )  # whose it is, is not for the caller to say
    assert ours.job("job-1").text == "{}"
    assert theirs.job("job-1").shop_id == "quay"
    assert (ours.events("session-1"), ours.records()) == ((), ())


def test_a_shared_job_is_read_with_its_plans_until_it_is_taken_back(two):
    ours, theirs = two
    theirs.put_job(job("job-9", NOON))
    ours.share_job("job-1", "quay")
    ours.share_job("job-1", "quay")
    assert [(one.shop_id, one.id) for one in theirs.jobs()] == [("quay", "job-9"), ("own", "job-1")]
    assert theirs.job("job-1", "own").id == "job-1"
    assert theirs.plan("plan-1", "own").id == "plan-1"
    assert ids_of(theirs.plans("job-1", "own")) == ["plan-1"]
    assert theirs.job("job-1") is None
    assert ids_of(ours.jobs()) == ["job-1"]
    ours.unshare_job("job-1", "quay")
    ours.unshare_job("job-1", "quay")
    assert ids_of(theirs.jobs()) == ["job-9"]
    assert theirs.plan("plan-1", "own") is None


def test_a_job_that_is_shared_with_one_shop_is_not_seen_by_a_third(two):
    ours, _ = two
    ours.put_shop(Shop("mill", "Mill, invented"))
    ours.put_job(job("job-2"))
    ours.share_job("job-1", "quay")
    ours.share_job("job-2", "mill")
    mill = ours.of_shop("mill")
    assert ids_of(mill.jobs()) == ["job-2"]
    assert (mill.job("job-1", "own"), mill.plan("plan-1", "own"), mill.plans("job-1", "own")) == (
        None,
        None,
        (),
    )


def test_a_shared_job_is_read_but_not_written(two):
    ours, theirs = two
    ours.share_job("job-1", "quay")
    with pytest.raises(InputError, match="1 problem"):
        theirs.put_plan(plan("plan-2"))
    with pytest.raises(InputError, match="1 problem"):
        theirs.put_session(session())


def test_a_job_is_not_shared_with_a_shop_that_is_not_there(two):
    with pytest.raises(InputError) as refused:
        two[0].share_job("job-1", "far")
    assert "shop 'far'" in told(refused)


def test_users_have_one_of_three_roles_and_change_them(book):
    for name, role in (("S", "painter"), ("M", "manager"), ("Q", "reader")):
        book.put_user(User(name, role, f"hash of {name}"))
    book.put_user(User("S", "manager", ""))
    assert [(user.name, user.role) for user in book.users()] == [
        ("M", "manager"),
        ("Q", "reader"),
        ("S", "manager"),
    ]
    assert book.user("S") == User("S", "manager", "")
    with pytest.raises(InputError, match="1 problem"):
        book.put_user(User("X", "owner", ""))


def test_settings_are_kept_by_key(book):
    book.put_setting("currency", "EUR")
    book.put_setting("currency", "GBP")
    book.put_setting("region", "uk")
    assert book.settings() == {"currency": "GBP", "region": "uk"}


def test_a_book_that_is_opened_again_holds_everything(place):
    first = open_book(place)
    first.put_shop(Shop("quay", "Quay, invented"))
    first.put_job(job(), READ)
    first.put_plan(plan())
    first.put_session(session())
    first.add_events("session-1", taps("a", "b"))
    first.put_record(record())
    first.put_user(User("R", "painter", "hash"))
    first.put_setting("currency", "EUR")
    first.share_job("job-1", "quay")
    first.close()
    again = open_book(place)
    assert (ids_of(again.jobs()), ids_of(again.plans("job-1"))) == (["job-1"], ["plan-1"])
    assert again.job_file("job-1", "panel.csv") == READ["panel.csv"]
    assert ids(again.events("session-1")) == ["a", "b"]
    assert again.add_events("session-1", taps("a", "c")) == ("a", "c")
    assert ids(again.events("session-1")) == ["a", "b", "c"]
    assert isinstance(again.records()[0], KeptRecord)
    assert (again.users()[0].name, again.settings()) == ("R", {"currency": "EUR"})
    assert ids_of(again.of_shop("quay").jobs()) == ["job-1"]
    again.close()


def test_a_book_says_what_it_is_kept_in(book, place):
    assert book.kind == ("postgresql" if place.startswith("postgresql") else "sqlite")
