"""Two people save the same job, product or side on the pages: the second sees both and decides; nothing goes unseen."""

import html
import json
import re

import pytest

from cases.desk import NEW, Desk, plain, put_away
from cases.speech import english
from laydown.trade.side.measures import SHAPES
from laydown.web.request.fields import field_words, told_values
from laydown.words.sentences.labels import TABLE


@pytest.fixture
def desk(tmp_path):
    with Desk(tmp_path) as made:
        made.plan = made.post("/new", NEW).headers["location"]
        made.job = made.job_of(made.plan)
        yield made


def text_of(desk):
    page = desk.get(f"/jobs/{desk.job}/edit").text
    return html.unescape(re.search(r"<textarea[^>]*>(.*?)</textarea>", page, re.DOTALL)[1])


def hidden(answer):
    """The hidden fields of the page that shows both."""
    return {
        name: html.unescape(value)
        for name, value in re.findall(r'type="hidden" name="([^"]+)" value="([^"]*)"', answer.text)
        if name != "token"
    }


def takes(answer):
    return set(re.findall(r'name="take" value="(\w+)"', answer.text))


def keep(desk, form, **moves):
    return desk.post(f"{desk.plan}/keep", form | moves)


def inputs(desk):
    plan = desk.get(f"/jobs/{desk.job}").headers["location"]
    return desk.get(f"{plan}/plan.json").json()["inputs"]


@pytest.fixture
def late(desk):
    """A form that was opened before somebody else made the air damper."""
    form = desk.made_from(desk.plan)
    assert keep(desk, form, rh="60").status_code == 303
    return form


def test_a_save_that_comes_second_overwrites_nothing_and_shows_both_field_by_field(desk, late):
    before = desk.book.job(desk.job)
    answer = keep(desk, late, rh="45", temperature_c="24")
    assert answer.status_code == 409
    assert desk.book.job(desk.job) == before
    assert len(desk.book.plans(desk.job)) == 2, "no plan was kept of it either"
    said = plain(answer.text)
    assert "0417: somebody else saved it too" in said
    assert "It was saved just now" in said
    assert "Humidity both changed it 30 % 60 % 45 %" in said
    assert "Booth air you changed it 20 °C 20 °C 24 °C" in said
    assert takes(answer) == {"mine", "theirs"}, "both changed the humidity, so there is no both"


def test_in_the_units_of_the_shop(desk, late):
    desk.post("/settings/units", {"units": "us"})
    assert "Booth air you changed it 68 °F 68 °F 75.2 °F" in plain(
        keep(desk, late, temperature_c="75.2").text
    )


def test_mine_takes_the_place_and_theirs_can_be_fetched_back(desk, late):
    theirs = desk.get(f"/jobs/{desk.job}").headers["location"]
    answer = keep(desk, late, rh="45")
    settled = desk.post(f"/jobs/{desk.job}/settle", hidden(answer) | {"take": "mine"})
    assert settled.status_code == 303
    assert inputs(desk)["air"]["rh"]["value"] == 0.45
    page = desk.get(settled.headers["location"]).text
    assert f"Undo: back to plan {theirs.rsplit('/', 1)[1]}" in page


def test_theirs_stays(desk, late):
    answer = keep(desk, late, rh="45")
    settled = desk.post(f"/jobs/{desk.job}/settle", hidden(answer) | {"take": "theirs"})
    assert settled.headers["location"] == f"/jobs/{desk.job}"
    assert inputs(desk)["air"]["rh"]["value"] == 0.6


def test_both_where_the_fields_do_not_overlap(desk, late):
    answer = keep(desk, late, temperature_c="24", speed_m_s="0.6")
    assert takes(answer) == {"mine", "theirs", "both"}
    assert "Humidity they changed it 30 % 60 % 30 %" in plain(answer.text)
    settled = desk.post(f"/jobs/{desk.job}/settle", hidden(answer) | {"take": "both"})
    assert settled.status_code == 303, plain(settled.text)
    found = inputs(desk)
    assert (found["air"]["rh"]["value"], found["air"]["temperature_c"]["value"]) == (0.6, 24)
    assert found["gun"]["speed_m_s"]["value"] == 0.6


def test_a_third_who_saves_in_between_is_not_overwritten_either(desk, late):
    first = keep(desk, late, temperature_c="24")
    now = desk.get(f"/jobs/{desk.job}").headers["location"]
    assert desk.post(f"{now}/keep", {"rh": "70"} | desk.made_from(now)).status_code == 303
    for take in ("mine", "both"):
        again = desk.post(f"/jobs/{desk.job}/settle", hidden(first) | {"take": take})
        assert again.status_code == 409
        assert "Humidity they changed it 30 % 70 % 30 %" in plain(again.text)
    assert inputs(desk)["air"]["rh"]["value"] == 0.7
    settled = desk.post(f"/jobs/{desk.job}/settle", hidden(again) | {"take": "both"})
    assert settled.status_code == 303
    assert inputs(desk)["air"]["temperature_c"]["value"] == 24
    assert inputs(desk)["air"]["rh"]["value"] == 0.7


def test_who_types_the_whole_job_is_told_too_and_finds_the_text_again(desk):
    made, text = desk.made_from(f"/jobs/{desk.job}/edit"), text_of(desk)
    assert keep(desk, desk.made_from(desk.plan), rh="60").status_code == 303
    typed = {"text": text.replace('name = "0417"', 'name = "0417 b"')}
    answer = desk.post(f"/jobs/{desk.job}/edit", made | typed)
    assert answer.status_code == 409
    assert "Name of the job you changed it 0417 0417 0417 b" in plain(answer.text)
    settled = desk.post(f"/jobs/{desk.job}/settle", hidden(answer) | {"take": "both"})
    found = desk.get(f"{settled.headers['location'].split('?')[0]}/plan.json").json()["inputs"]
    assert (found["job"], found["air"]["rh"]["value"]) == ("0417 b", 0.6)


def test_ticks_of_the_panel_are_told_beside_what_the_other_ticked(desk):
    place = f"/jobs/{desk.job}/panel"
    form = desk.made_from(place)
    assert desk.post(place, form | {"ground_check": "match", "do": "keep"}).status_code == 303
    answer = desk.post(place, form | {"ground_check": "off", "do": "keep"})
    assert answer.status_code == 409
    assert "Bare ground of panel and car both changed it not done match off" in plain(answer.text)
    settled = desk.post(f"/jobs/{desk.job}/settle", hidden(answer) | {"take": "mine"})
    assert settled.status_code == 303
    assert '"off"' in desk.book.job(desk.job).text


def test_an_undo_does_not_undo_what_somebody_else_did(desk):
    kept = keep(desk, desk.made_from(desk.plan), temperature_c="24").headers["location"]
    undo = desk.made_from(kept)
    desk.post(f"{kept.split('?')[0]}/keep", {"rh": "60"} | desk.made_from(kept))
    answer = desk.post(f"{desk.plan}/undo", undo)
    assert answer.status_code == 409
    assert "Booth air you changed it 24 °C 24 °C 20 °C" in plain(answer.text)
    desk.post(f"/jobs/{desk.job}/settle", hidden(answer) | {"take": "both"})
    found = inputs(desk)["air"]
    assert (found["temperature_c"]["value"], found["rh"]["value"]) == (20, 0.6)


def test_the_same_saved_twice_is_no_quarrel(desk):
    form = desk.made_from(desk.plan)
    first, again = (keep(desk, form, rh="60") for _ in range(2))
    assert first.status_code == again.status_code == 303
    assert len(desk.book.plans(desk.job)) == 2


def test_a_job_that_went_there_and_back_is_what_the_form_was_made_from(desk, late):
    now = desk.get(f"/jobs/{desk.job}").headers["location"]
    assert desk.post(f"{desk.plan}/undo", desk.made_from(now)).status_code == 303
    assert keep(desk, late, rh="45").status_code == 303


def test_what_somebody_deleted_meanwhile_is_said_and_what_was_typed_stays(desk):
    made, text = desk.made_from(f"/jobs/{desk.job}/edit"), text_of(desk)
    put_away(desk)
    seen = re.search(r'name="seen" value="([^"]*)"', desk.get(f"/jobs/{desk.job}/delete").text)[1]
    assert desk.post(f"/jobs/{desk.job}/delete", {"seen": seen}).status_code == 303
    answer = desk.post(f"/jobs/{desk.job}/edit", made | {"text": text})
    assert answer.status_code == 409
    assert "0417 was deleted meanwhile" in plain(answer.text)
    left = desk.post(f"/jobs/{desk.job}/settle", hidden(answer) | {"take": "theirs"})
    assert left.headers["location"] == "/jobs"
    assert desk.book.jobs() == ()
    kept = desk.post(f"/jobs/{desk.job}/settle", hidden(answer) | {"take": "mine"})
    assert desk.get(kept.headers["location"]).status_code == 200
    assert 'class="job-name">0417' in desk.get("/jobs").text


@pytest.mark.parametrize(
    "forged",
    [{}, {"version": "1"}, {"version": "-1"}, {"version": "9" * 30}, {"version": "0", "made_from": "[[["}],
)
def test_a_form_that_does_not_say_what_it_was_made_from_overwrites_nothing(desk, late, forged):
    before = desk.book.job(desk.job)
    assert keep(desk, forged, temperature_c="24").status_code == 409
    assert desk.book.job(desk.job) == before


@pytest.mark.parametrize("mine", ["", "[]", "{", '{"format": "laydown-job/1"}', '{"panel": 5}', "[" * 9000])
def test_a_draft_that_cannot_be_read_is_said_plainly(desk, mine):
    for place in (f"/jobs/{desk.job}/settle", "/shelf/settle", "/sides/settle"):
        answer = desk.post(place, {"mine": mine, "take": "mine", "version": "1", "id": "x"})
        assert answer.status_code == 422
        assert "cannot be read any more" in answer.text


def test_a_merge_that_cannot_be_planned_says_why_and_keeps_both_on_the_page(desk, late):
    text = json.loads(late["made_from"])
    text["products"]["effect"] = "nowhere"
    form = hidden(keep(desk, late, temperature_c="24")) | {"mine": json.dumps(text), "take": "mine"}
    answer = desk.post(f"/jobs/{desk.job}/settle", form)
    assert answer.status_code == 422
    assert "no product 'nowhere'" in html.unescape(answer.text)
    assert "theirs" in takes(answer)


# products


@pytest.fixture
def product(desk):
    form = desk.fields("/shelf/new?copy=effect-a") | {"key": "pearl-b", "source": "sheet B, edition 2"}
    assert desk.post("/shelf", form).status_code == 303
    return desk.fields("/shelf/pearl-b")


def test_a_product_that_two_save_is_shown_in_the_words_of_its_form(desk, product):
    assert desk.post("/shelf", product | {"density_g_ml": "1.07"}).status_code == 303
    answer = desk.post(
        "/shelf", product | {"density_g_ml": "1.09", "flash.min_s": "7", "recipe[1].amount": "90"}
    )
    assert answer.status_code == 409
    said = plain(answer.text)
    assert "Density both changed it" in said
    assert "1.07 g/mL 1.09 g/mL" in said
    assert "Flash, from you changed it" in said
    assert "Recipe line 1: Amount you changed it" in said
    assert takes(answer) == {"mine", "theirs"}
    settled = desk.post("/shelf/settle", hidden(answer) | {"take": "mine"})
    assert settled.headers["location"] == "/shelf/pearl-b"
    found = desk.get("/shelf/pearl-b/product.json").json()
    assert (found["density_g_ml"]["value"], found["flash"]["min_s"]) == (1.09, 420)


def test_both_changes_of_a_product(desk, product):
    desk.post("/shelf", product | {"density_g_ml": "1.07"})
    answer = desk.post("/shelf", product | {"flash.min_s": "7"})
    desk.post("/shelf/settle", hidden(answer) | {"take": "both"})
    found = desk.get("/shelf/pearl-b/product.json").json()
    assert (found["density_g_ml"]["value"], found["flash"]["min_s"]) == (1.07, 420)
    assert found["volume_solids"]["low"] == 0.12, "the spread of a figure that nobody changed stays"


def test_a_new_product_does_not_take_the_place_of_another_with_its_key(desk, product):
    form = desk.fields("/shelf/new?copy=clear-a") | {"key": "pearl-b"}
    answer = desk.post("/shelf", form)
    assert answer.status_code == 409
    assert "pearl-b is there already" in plain(answer.text)
    assert takes(answer) == {"mine", "theirs", "rename"}
    for name in ("", "pearl-b"):
        again = desk.post("/shelf/settle", hidden(answer) | {"take": "rename", "name": name})
        assert again.status_code == 422
        assert 'id="f-name-problem"' in again.text
    desk.post("/shelf/settle", hidden(answer) | {"take": "rename", "name": "clear-b"})
    kinds = {one.id: json.loads(one.text)["kind"] for one in desk.book.products()}
    assert kinds == {"pearl-b": "effect", "clear-b": "clear"}


def test_another_key_makes_another_product(desk, product):
    assert desk.post("/shelf", product | {"key": "pearl-c"}).headers["location"] == "/shelf/pearl-c"
    assert {one.id for one in desk.book.products()} == {"pearl-b", "pearl-c"}


def test_a_file_of_a_product_does_not_overwrite_an_own_one(desk, product):
    file = desk.get("/shelf/pearl-b/product.json").content
    same = desk.send("/jobs/in", "file", "p.json", file)
    assert same.headers["location"] == "/shelf/pearl-b"
    other = desk.send(
        "/jobs/in", "file", "p.json", file.replace(b"sheet B, edition 2", b"sheet B, edition 3")
    )
    assert other.status_code == 409
    assert "Source sheet B, edition 2 sheet B, edition 3" in plain(other.text)
    assert b"edition 2" in desk.get("/shelf/pearl-b/product.json").content
    desk.post("/shelf/settle", hidden(other) | {"take": "mine"})
    assert b"edition 3" in desk.get("/shelf/pearl-b/product.json").content


# sides


def test_a_side_of_a_name_that_is_taken_is_shown_beside_it(desk):
    form = {"shape": "medium hatch", "name": "own hatch", "body.measures.wheelbase_m": "2.70"}
    place = desk.post("/sides/measure", form).headers["location"]
    assert desk.post("/sides/measure", form).headers["location"] == place, "the same again is no quarrel"
    answer = desk.post("/sides/measure", form | {"body.measures.wheelbase_m": "2.75"})
    assert answer.status_code == 409
    said = plain(answer.text)
    assert "own hatch is there already" in said
    assert "Wheelbase 2.7 m 2.75 m" in said
    assert re.search(r"Front door: planned area [\d.]+ m² [\d.]+ m²", said)
    assert desk.get(f"{place}/side.json").json()["measures"]["wheelbase_m"] == 2.7
    other = desk.post("/sides/settle", hidden(answer) | {"take": "rename", "name": "own hatch 2"})
    assert desk.get(f"{other.headers['location']}/side.json").json()["measures"]["wheelbase_m"] == 2.75
    desk.post("/sides/settle", hidden(answer) | {"take": "mine"})
    assert desk.get(f"{place}/side.json").json()["measures"]["wheelbase_m"] == 2.75


# words


def labels(text):
    """Label of each field of a form by its name."""
    found = {}
    for name, label in re.findall(r'<label for="f-([^"]+)">(.*?)</label>', text, re.DOTALL):
        found[html.unescape(name)] = html.unescape(re.sub(r"<span.*?</span>", "", label)).strip()
    return found


def words_of_kind(kind):
    """Labels of one kind by their word."""
    return {code.partition(".")[2]: one.text for code, one in TABLE.items() if code.startswith(f"{kind}.")}


def test_fields_are_called_as_the_forms_call_them(desk):
    form = labels(desk.get("/shelf/new?copy=effect-a").text)
    for place, words in words_of_kind("product_field").items():
        if place != "reducers":
            assert form[place] == words
            assert field_words(tuple(place.split(".")), english) == words
    for name, words in words_of_kind("recipe_field").items():
        assert form[f"recipe[1].{name}"] == words
    form = {}
    for shape in SHAPES:
        form |= labels(desk.get("/sides/measure", params={"shape": shape}).text)
    for name, words in words_of_kind("measure").items():
        assert form[f"body.measures.{name}"] == words


def test_values_that_read_alike_are_told_apart():
    path = ("air", "temperature_c")
    figures = ({"value": 20.0, "source": "typed"}, {"value": 20.0, "source": "display"})
    assert told_values(path, figures, english) == ("20 °C [20, typed]", "20 °C [20, display]")
    assert told_values(("job", "can_walk"), (True, False, None), english) == ("yes", "no", "not given")
    assert told_values(("volume_solids",), (0.13,), english) == ("13 %",)
    assert told_values(("sample", "face"), (["few", "match"], []), english) == ("few, match", "none")
