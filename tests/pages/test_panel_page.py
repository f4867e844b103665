"""The let-down panel on the desk: ticks become a kept job, a verdict, or a problem at its field."""

import html
import re
from pathlib import Path

import pytest

from cases.desk import ORIGIN, Desk
from laydown.web.security.passwords import set_user

JOB = Path(__file__).parents[2] / "src" / "laydown" / "data" / "jobs" / "wing-and-door.toml"
# Field 2 matches at the face; at the flop the car lies between 2 and 3.
TICKED = {
    "ground_check": "match",
    **{f"face.{n}": word for n, word in enumerate(["few", "few", "match", "many", "many", "many"])},
    **{f"flop.{n}": word for n, word in enumerate(["few", "few", "few", "many", "many", "many"])},
    "card_gone_after": "3",
    "coat_g_m2": "31",
    "same_settings": "yes",
}


@pytest.fixture(scope="module")
def desk(tmp_path_factory):
    with Desk(tmp_path_factory.mktemp("panel")) as made:
        yield made


@pytest.fixture
def place(desk):
    plan = desk.send("/jobs/in", "file", "job.toml", JOB.read_bytes()).headers["location"]
    return f"/jobs/{desk.job_of(plan)}/panel"


def test_what_was_ticked_is_kept_and_the_count_is_said(desk, place):
    answer = desk.post(place, TICKED | desk.made_from(place) | {"coat_g_m2": ""})
    assert answer.status_code == 303, answer.text
    text = html.unescape(desk.get(place).text)
    for said in ("Effect coats: 2 (", "Panel judged by eye", "NEXT", "Chance that this half coat", "<svg"):
        assert said in text
    job = desk.book.job(place.split("/")[2]).text
    assert '"match"' in job
    plan = desk.get(place.removesuffix("/panel")).headers["location"]
    assert desk.get(f"{plan}/plan.json").json()["colour"]["read_by"] == "eye"
    assert f'href="{place}"' in desk.get(plan).text


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("ground_check", "perhaps"),
        ("face.2", "good"),
        ("flop.3", ""),
        ("card_gone_after", "2.5"),
        ("card_gone_after", "99"),
        ("coat_g_m2", "much"),
        ("coat_g_m2", "nan"),
    ],
)
def test_each_problem_stands_at_its_field_and_nothing_is_kept(desk, place, field, value):
    before = desk.book.job(place.split("/")[2]).text
    answer = desk.post(place, TICKED | {field: value})
    assert answer.status_code == 422
    assert f'id="f-{field.partition(".")[0]}-problem"' in answer.text
    assert desk.book.job(place.split("/")[2]).text == before


def test_without_the_visitors_token_nothing_is_entered(desk, place):
    assert desk.client.post(place, data=TICKED, headers={"origin": ORIGIN}).status_code == 403


def test_a_job_that_is_not_there_has_no_panel(desk):
    assert desk.get("/jobs/none/panel").status_code == 404


def test_a_fixed_count_is_set_aside_and_said(desk, place):
    job = place.removesuffix("/panel")
    text = re.sub(r"(?m)^(?:# )?effect_coats =.*$", "effect_coats = 4", desk.get(f"{job}/job.toml").text)
    text = re.sub(r"(?m)^# \[choices\]$", "[choices]", text)
    assert desk.post(f"{job}/edit", desk.made_from(f"{job}/edit") | {"text": text}).status_code == 303
    assert desk.post(place, TICKED | desk.made_from(place) | {"coat_g_m2": ""}).status_code == 303
    said = html.unescape(desk.get(place).text)
    assert "Effect coats: 2 (" in said
    assert "The job fixes 4 coats" in said


def test_a_reader_sees_the_panel_and_cannot_change_it(tmp_path):
    with Desk(tmp_path) as desk:
        plan = desk.send("/jobs/in", "file", "job.toml", JOB.read_bytes()).headers["location"]
        place = f"/jobs/{desk.job_of(plan)}/panel"
        set_user(desk.book, "Kim", "manager", "the first long word")
        set_user(desk.book, "Lee", "reader", "a long reader word")
        desk.sign_in("Lee", "a long reader word", desk.client)
        text = desk.get(place).text
        assert "<fieldset disabled>" in text
        assert "Keep and plan anew" not in text
        made = desk.made_from(place)
        assert desk.post(place, TICKED | made).status_code == 403


def test_a_thinner_coat_on_the_panel_is_said(desk, place):
    assert desk.post(place, TICKED | desk.made_from(place)).status_code == 303
    assert "Counts in the table and under Next are coats of the panel" in desk.get(place).text
