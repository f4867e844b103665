"""Putting away, fetching back and deleting on the pages: nothing goes unseen, and each role does what it may."""

import html
import re

import pytest

from cases.desk import NEW, Desk, plain, put_away
from laydown.desk.plans.kept import Ready, open_kept_plan
from laydown.desk.sessions.session import open_session, take_taps
from laydown.schema.problem import InputError, Problem
from laydown.store.kept import KeptRecord
from laydown.web.security.passwords import set_user

AT = "2026-11-25T09:00:00Z"
AT_S = 1_795_600_000.0
WORDS = {
    "manager": ("Kim", "a long manager word"),
    "painter": ("Robin", "a long painter word"),
    "reader": ("Lee", "a long reader word"),
}


@pytest.fixture
def desk(tmp_path):
    with Desk(tmp_path) as made:
        made.plan = made.post("/new", NEW).headers["location"]
        made.job = made.job_of(made.plan)
        yield made


@pytest.fixture
def people(desk):
    """One browser for each role, signed in."""
    for role, (name, word) in WORDS.items():
        set_user(desk.book, name, role, word)
    browsers = {role: desk.visitor() for role in WORDS}
    for role, (name, word) in WORDS.items():
        assert desk.sign_in(name, word, browsers[role]).status_code == 303
    yield browsers
    for one in browsers.values():
        one.close()


def spray(desk, *kinds):
    """A session of the plan with some taps."""
    plan = desk.get(f"{desk.plan}/plan.json").json()
    session = open_session(desk.book, _plan(desk, plan["id"]), AT_S, fresh=True)
    taps = [
        {"id": f"tap-{number}", "at_s": AT_S + number, "event": {"kind": kind}}
        for number, kind in enumerate(kinds, 1)
    ]
    take_taps(desk.book, session, taps, AT_S)
    return session


def _plan(desk, plan_id):
    return open_kept_plan(desk.book, Ready(), plan_id)[0]


def delete_form(desk, client=None, job=""):
    text = desk.get(f"/jobs/{job or desk.job}/delete", client).text
    return {"seen": re.search(r'name="seen" value="([^"]*)"', text)[1]}


def test_a_job_is_put_away_with_an_undo_and_stands_in_its_own_list(desk):
    assert "Put the job away" in desk.get(desk.plan).text
    answer = desk.post(f"/jobs/{desk.job}/away", {})
    text = desk.get(answer.headers["location"]).text
    assert "0417 is put away." in plain(text)
    assert f'action="/jobs/{desk.job}/back"' in text
    assert 'class="jobs"' not in text
    assert "Put away: 1" in plain(text)
    assert "0417 put away just now" in plain(desk.get("/jobs/away").text)
    assert "This job was put away just now" in plain(desk.get(desk.plan).text)
    back = desk.post(f"/jobs/{desk.job}/back", {})
    assert desk.get(back.headers["location"]).headers["location"] == desk.plan
    assert 'class="job-name">0417' in desk.get("/jobs").text
    assert "Nothing is put away" in desk.get("/jobs/away").text


def test_who_put_it_away_is_named(desk, people):
    desk.post(f"/jobs/{desk.job}/away", {}, people["painter"])
    assert "by Robin" in plain(desk.get("/jobs/away", people["reader"]).text)


def test_each_role_sees_and_does_what_it_may(desk, people):
    job = desk.job
    assert "Put the job away" not in desk.get(desk.plan, people["reader"]).text
    assert desk.post(f"/jobs/{job}/away", {}, people["reader"]).status_code == 403
    assert desk.post(f"/jobs/{job}/away", {}, people["painter"]).status_code == 303
    for role, sees in (("reader", ()), ("painter", ("back",)), ("manager", ("back", "delete"))):
        text = desk.get("/jobs/away", people[role]).text
        for deed in ("back", "delete"):
            assert (f"/jobs/{job}/{deed}" in text) is (deed in sees), f"{role} {deed}"
    for role in ("reader", "painter"):
        assert desk.get(f"/jobs/{job}/delete", people[role]).status_code == 403
        assert desk.post(f"/jobs/{job}/delete", {"seen": "1.0.0.0"}, people[role]).status_code == 403
    assert desk.book.job(job) is not None
    form = delete_form(desk, people["manager"])
    assert desk.post(f"/jobs/{job}/delete", form, people["manager"]).status_code == 303
    assert desk.book.job(job) is None


def test_a_job_that_nobody_put_away_is_not_deleted(desk):
    assert desk.get(f"/jobs/{desk.job}/delete").status_code == 404
    assert desk.post(f"/jobs/{desk.job}/delete", {"seen": "1.0.0.0"}).status_code == 404
    assert desk.book.job(desk.job) is not None


def test_the_second_step_says_what_goes_and_then_it_is_gone(desk):
    kept = desk.post(f"{desk.plan}/keep", {"rh": "60"} | desk.made_from(desk.plan)).headers["location"]
    desk.post(f"{kept.split('?')[0]}/pour/clear", {"after": "0", "as_shown": "yes"})
    put_away(desk)
    text = plain(desk.get(f"/jobs/{desk.job}/delete").text)
    assert "2 plans" in text
    assert "0 sessions at the booth, with 0 taps" in text
    assert "Name of the job" not in text
    answer = desk.post(f"/jobs/{desk.job}/delete", delete_form(desk))
    assert "0417 is deleted" in plain(desk.get(answer.headers["location"]).text)
    assert (desk.book.jobs(), desk.book.away()) == ((), ())
    assert desk.get(desk.plan).status_code == 404
    assert not [key for key in desk.book.settings() if key.startswith("pour.")]


@pytest.mark.parametrize("kinds", [("begin", "close"), ("begin",)], ids=["finished", "begun"])
def test_work_that_was_done_goes_only_with_the_name_of_the_job(desk, kinds):
    session = spray(desk, *kinds)
    put_away(desk)
    text = desk.get(f"/jobs/{desk.job}/delete").text
    assert ("finished" if "close" in kinds else "open") in plain(text)
    assert f"1 session at the booth, with {len(kinds)} tap" in plain(text)
    assert f'href="/guide/{session}/log"' in text
    assert desk.get(f"/guide/{session}").status_code == 200
    form = delete_form(desk)
    for typed, said in (("", "is missing"), ("0418", "is not the name of this job"), ("417", "is not")):
        answer = desk.post(f"/jobs/{desk.job}/delete", form | {"typed": typed})
        assert answer.status_code == 422
        assert said in answer.text
        assert desk.book.session(session) is not None
    assert desk.post(f"/jobs/{desk.job}/delete", form | {"typed": " 0417 "}).status_code == 303
    assert (desk.book.session(session), desk.book.events(session)) == (None, ())
    assert desk.get(f"/guide/{session}").status_code == 404, "nothing of it stands ready"


def test_a_session_that_was_only_opened_needs_no_name_and_a_record_does(desk):
    session = spray(desk)
    put_away(desk)
    assert "Name of the job" not in desk.get(f"/jobs/{desk.job}/delete").text
    desk.book.put_record(KeptRecord("r", session, "Robin", "laydown-record/1", AT, "{}"))
    assert "Name of the job" in desk.get(f"/jobs/{desk.job}/delete").text


def test_a_tap_that_came_since_the_page_was_shown_stops_the_deed(desk):
    put_away(desk)
    form = delete_form(desk)
    session = spray(desk, "begin", "close")
    answer = desk.post(f"/jobs/{desk.job}/delete", form | {"typed": "0417"})
    assert answer.status_code == 422
    assert "more is there than you were shown" in answer.text
    assert len(desk.book.events(session)) == 3
    assert delete_form(desk) != form


def test_the_same_job_made_again_comes_back_instead_of_staying_away(desk):
    put_away(desk)
    assert desk.post("/new", NEW).headers["location"] == desk.plan
    assert 'class="job-name">0417' in desk.get("/jobs").text


def test_a_job_that_is_put_away_does_not_answer_for_the_next_one(desk):
    put_away(desk)
    fresh = {name: value for name, value in NEW.items() if name.startswith(("body", "job.side", "work."))}
    assert 'value="R."' not in desk.get("/new/today", params=fresh).text


# products and sides


@pytest.fixture
def used(desk):
    """A product and a side of the shop's own, and a job that uses both."""
    form = desk.fields("/shelf/new?copy=effect-a") | {"key": "pearl-b", "source": "sheet B, edition 2"}
    desk.post("/shelf", form)
    side = desk.post("/sides/measure", {"shape": "medium hatch", "name": "own hatch"}).headers["location"]
    wish = {"products.effect": "pearl-b", "body": f"file:{side.rsplit('/', 1)[1]}", "job.name": "0500"}
    desk.own_plan = desk.post("/new", NEW | wish).headers["location"]
    return {"product": "/shelf/pearl-b", "side": side}


@pytest.mark.parametrize("kind", ["product", "side"])
def test_what_a_job_uses_is_not_deleted_and_the_job_is_named(desk, used, kind):
    place, job = used[kind], desk.job_of(desk.own_plan)
    made = desk.made_from(f"{place}/delete")
    answer = desk.post(f"{place}/delete", made)
    assert answer.status_code == 422
    assert "job '0500' uses it" in plain(answer.text)
    assert "0417" not in plain(answer.text)
    desk.post(f"/jobs/{job}/away", {})
    assert "'0500' (put away) uses it" in plain(desk.post(f"{place}/delete", made).text)
    assert desk.get(place).status_code == 200
    desk.post(f"/jobs/{job}/delete", delete_form(desk, job=job))
    gone = desk.post(f"{place}/delete", made)
    assert "is deleted" in plain(desk.get(gone.headers["location"]).text)
    assert (desk.book.products() if kind == "product" else desk.book.sides()) == ()
    assert desk.get(place).status_code == 404


def test_an_earlier_plan_keeps_its_product_too(desk, used):
    job = desk.job_of(desk.own_plan)
    text = html.unescape(
        re.search(r"<textarea[^>]*>(.*?)</textarea>", desk.get(f"/jobs/{job}/edit").text, re.DOTALL)[1]
    )
    other = {"text": text.replace('"pearl-b"', '"effect-a"')} | desk.made_from(f"/jobs/{job}/edit")
    assert desk.post(f"/jobs/{job}/edit", other).status_code == 303
    answer = desk.post("/shelf/pearl-b/delete", desk.made_from("/shelf/pearl-b/delete"))
    assert "job '0500' has an earlier plan that uses it" in plain(answer.text)


@pytest.mark.parametrize("kind", ["product", "side"])
def test_only_a_manager_deletes_a_product_or_a_side(desk, used, people, kind):
    place = used[kind]
    for role in ("reader", "painter"):
        assert f"{place}/delete" not in desk.get(place, people[role]).text
        assert desk.get(f"{place}/delete", people[role]).status_code == 403
        assert desk.post(f"{place}/delete", {"version": "1"}, people[role]).status_code == 403
    assert f"{place}/delete" in desk.get(place, people["manager"]).text


def test_a_job_that_another_program_deleted_and_made_anew_is_found_again(desk):
    assert desk.get(desk.plan).status_code == 200, "from now on it stands ready in this program"
    put_away(desk)
    with Desk(desk.folder) as other:
        other.post(f"/jobs/{desk.job}/delete", delete_form(other, job=desk.job))
        assert desk.get(desk.plan).status_code == 404
        assert other.post("/new", NEW).headers["location"] == desk.plan
    assert desk.get(desk.plan).status_code == 200


def test_what_was_changed_since_the_question_is_not_deleted(desk):
    desk.post("/shelf", desk.fields("/shelf/new?copy=clear-a") | {"key": "clear-b"})
    made = desk.made_from("/shelf/clear-b/delete")
    desk.book.put_product(desk.book.products()[0])
    answer = desk.post("/shelf/clear-b/delete", made)
    assert answer.status_code == 422
    assert "was changed or deleted meanwhile" in plain(answer.text)
    assert len(desk.book.products()) == 1


def test_a_shipped_product_is_not_deleted_and_shows_again_under_an_own_one(desk):
    assert desk.get("/shelf/clear-a/delete").status_code == 404
    assert "/shelf/clear-a/delete" not in desk.get("/shelf/clear-a").text
    desk.post("/shelf", desk.fields("/shelf/new?copy=ground-a") | {"key": "ground-a", "source": "own"})
    text = plain(desk.get("/shelf/ground-a/delete").text)
    assert "A shipped, invented product has the same key" in text


def test_a_product_that_is_missing_all_the_same_is_said_and_is_no_fault(desk, monkeypatch):
    missing = Problem("products.effect", "no product 'effect-a' on the shelf", "known here: none")

    def refused(_book, _names):
        raise InputError("", (missing,))

    monkeypatch.setattr("laydown.web.pages.plan.named_products", refused)
    answer = desk.get(desk.plan)
    assert answer.status_code == 422
    assert "no product 'effect-a' on the shelf" in html.unescape(answer.text)


def test_a_part_of_a_job_is_not_put_away_by_itself(desk):
    plan = desk.plan.rsplit("/", 1)[1]
    assert desk.post(f"/jobs/{desk.job}.{plan}/away", {}).status_code == 422
    assert desk.book.away() == ()
    with pytest.raises(InputError):
        desk.book.put_away("none", AT)
