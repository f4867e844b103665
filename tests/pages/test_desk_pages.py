"""Every page of the desk over HTTP: what it shows, and each problem at its field."""

import html
import json
import re
import tomllib
from pathlib import Path

import pytest

from cases.desk import NEW, Desk
from cases.metric_left import metric_left, words_of
from cases.problems import problems_of
from cases.speech import english
from laydown.desk.papers.document import plan_json
from laydown.desk.plans.plan import plan_job

DATA = Path(__file__).parents[2] / "src" / "laydown" / "data"


@pytest.fixture
def desk(tmp_path):
    with Desk(tmp_path) as made:
        yield made


def beside(text, name):
    """What stands as a problem beside a field."""
    found = re.search(rf'id="f-{re.escape(html.escape(name))}-problem">(.*?)</p>', text, re.DOTALL)
    return html.unescape(found[1]) if found else ""


def make_plan(desk, **changes):
    answer = desk.post("/new", NEW | changes)
    assert answer.status_code == 303, answer.text
    return answer.headers["location"]


def test_a_new_job_becomes_a_plan_with_what_was_typed(desk):
    plan = make_plan(desk)
    document = desk.get(f"{plan}/plan.json").json()
    assert document["inputs"]["job"] == "0417"
    assert document["inputs"]["air"]["rh"]["value"] == 0.3
    text = desk.get(plan).text
    for said in ("0417", "tightest join", "to mix", "What else could be done", "<svg"):
        assert said in text
    assert "None" not in re.sub(r"<[^>]*>|>None\.<", "", text).replace("None.", "")


def test_the_document_of_a_page_is_the_one_of_the_command_line(desk, tmp_path):
    plan = make_plan(desk)
    job = desk.get(f"/jobs/{desk.job_of(plan)}/job.toml").text
    (tmp_path / "job.toml").write_text(job)
    assert desk.get(f"{plan}/plan.json").text == plan_json(
        plan_job(tmp_path / "job.toml", drawn=False).planned.plan
    )


def test_a_job_sent_twice_is_kept_once(desk):
    assert make_plan(desk) == make_plan(desk)
    assert desk.get("/jobs").text.count('class="job-name"') == 1


@pytest.mark.parametrize(
    ("field", "value", "said"),
    [
        ("air.rh", "150", "outside 0 to 1"),
        ("air.temperature_c", "warm", ""),
        ("gun.nozzle_mm", "9", "outside 0.8 to 2.2"),
        ("gun.flow_g_s", "-1", ""),
        ("products.effect", "clear-a", "clear"),
        ("job.name", "", ""),
        ("painter.name", "x" * 100, ""),
    ],
)
def test_each_problem_of_a_new_job_stands_at_its_field(desk, field, value, said):
    answer = desk.post("/new", NEW | {field: value})
    assert answer.status_code == 422
    told = beside(answer.text, field)
    assert told, f"nothing beside {field}"
    assert said in told
    assert desk.get("/jobs").text.count('class="job-name"') == 0


def test_all_problems_come_at_once(desk):
    answer = desk.post("/new", NEW | {"air.rh": "150", "gun.nozzle_mm": "9", "job.name": ""})
    assert all(beside(answer.text, field) for field in ("air.rh", "gun.nozzle_mm", "job.name"))


def test_the_last_job_answers_the_next_one_but_not_its_name(desk):
    make_plan(desk, **{"painter.name": "Kim", "gun.flow_g_s": "2.7"})
    fresh = {name: value for name, value in NEW.items() if name.startswith(("body", "job.side", "work."))}
    text = desk.get("/new/today", params=fresh).text
    assert 'value="Kim"' in text
    assert 'value="2.7"' in text
    assert 'name="job.name" type="text" value=""' in text


def test_the_side_must_be_tapped_and_something_must_be_damaged(desk):
    assert "tap left or right" in desk.get("/new/damage", params={"body": "medium hatch"}).text
    answer = desk.get("/new/today", params={"body": "medium hatch", "job.side": "left", "work.sill": "blend"})
    assert "nothing is damaged yet" in answer.text


def test_a_panel_named_twice_in_a_job_of_the_book_is_refused_as_in_a_file(desk, tmp_path):
    path = f"/jobs/{desk.job_of(make_plan(desk))}"
    text = desk.get(f"{path}/job.toml").text
    twice = f'{text}\n[[panel]]\nname = "Front-Wing"\nstate = "new"\n'
    answer = desk.fill_in(f"{path}/edit", {"text": twice})
    assert answer.status_code == 422
    said = "&#39;Front-Wing&#39; is the same panel as panel[1]"
    assert said in answer.text
    (tmp_path / "job.toml").write_text(twice)
    (problem,) = problems_of(plan_job, tmp_path / "job.toml")
    assert html.escape(english(problem.what), quote=True).replace("&#x27;", "&#39;") == said


def test_a_suggestion_names_its_reason(desk):
    wish = {"body": "medium hatch", "job.side": "right", "work.front_wing": "repaired"}
    text = desk.get("/new/suggest", params=wish).text
    assert "front door" in text
    assert re.search(r"effect coat fades over \d+ cm away from the front wing", text)


def test_a_change_is_tried_kept_and_taken_back(desk):
    plan = make_plan(desk)
    tried = desk.get(f"{plan}/try", params={"rh": "60", "reducer": "slow"}).text
    assert "Tried, not kept" in tried
    assert "What it moves" in tried
    assert len(desk.book.plans(desk.job_of(plan))) == 1, "trying keeps nothing"
    kept = desk.post(f"{plan}/keep", {"rh": "60"} | desk.made_from(plan)).headers["location"]
    assert kept.split("?")[0] != plan
    assert desk.get(kept).text.count("Undo: back to plan") == 1
    job = desk.job_of(plan)
    assert desk.get(f"/jobs/{job}").headers["location"] == kept.split("?")[0]
    assert desk.post(f"{plan}/undo", desk.made_from(kept)).headers["location"] == plan
    assert desk.get(f"/jobs/{job}").headers["location"] == plan
    assert kept.split("?")[0].rsplit("/", 1)[1] in desk.get(f"{plan}/compare").text


def test_a_lever_outside_its_range_says_so_and_the_plan_stays(desk):
    plan = make_plan(desk)
    answer = desk.get(f"{plan}/try", params={"temperature_c": "80"})
    assert answer.status_code == 422
    assert "outside 5 to 45" in html.unescape(answer.text)
    assert "Tried, not kept" not in answer.text


def test_steps_without_a_script_stop_at_the_ends(desk):
    plan = make_plan(desk)
    text = desk.get(plan, params={"rh": "95", "step": "rh:up"}).text
    assert re.search(r'id="l-rh" name="rh" value="95"', text)


def test_card_maps_and_pour_sheet_of_a_plan(desk):
    plan = make_plan(desk)
    card = desk.get(f"{plan}/card.pdf")
    assert card.content.startswith(b"%PDF")
    assert card.headers["content-type"] == "application/pdf"
    assert "<svg" in desk.get(f"{plan}/maps", params={"layer": "effect", "coat": "1"}).text
    assert "Scale shows" in desk.get(f"{plan}/mix").text


def test_too_much_hardener_is_recomputed_and_the_clock_stands_absolutely(desk):
    plan = make_plan(desk)
    place = f"{plan}/mix/clear"
    base, hardener = (
        line["step_g"] for line in desk.get(f"{plan}/plan.json").json()["mixes"][2]["lines"][:2]
    )
    desk.post(place, {"after": "0", "as_shown": "yes"})
    desk.post(place, {"after": "0", "as_shown": "yes"})
    text = desk.get(place).text
    assert "Ingredient 2 of 3" in text, "the same tap sent twice counts once"
    desk.post(place, {"after": "1", "total_g": str(base + 1.1 * hardener)})
    text = desk.get(place).text
    factor = float(re.search(r"batch &times; ([\d.]+)", text)[1])
    assert factor == pytest.approx(1.1, abs=0.002), "hand calculation: 10 % too much of one line"
    first = re.search(r'data-deadline="([^"]+)"', text)[1]
    assert re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ", first)
    desk.post(place, {"after": "2", "as_shown": "yes"})
    assert re.search(r'data-deadline="([^"]+)"', desk.get(place).text)[1] == first
    desk.post(f"{place}/undo", {"all": "yes"})
    assert "Ingredient 1 of 3" in desk.get(place).text


def test_the_scale_cannot_show_less_than_before(desk):
    plan = make_plan(desk)
    desk.post(f"{plan}/mix/clear", {"after": "0", "as_shown": "yes"})
    answer = desk.post(f"{plan}/mix/clear", {"after": "1", "total_g": "1"})
    assert answer.status_code == 422
    assert "must be more than" in answer.text


def test_a_changed_job_file_is_planned_and_its_faults_are_listed(desk):
    plan = make_plan(desk)
    job = desk.job_of(plan)
    text = html.unescape(
        re.search(r"<textarea[^>]*>(.*?)</textarea>", desk.get(f"/jobs/{job}/edit").text, re.DOTALL)[1]
    )
    assert tomllib.loads(text)["job"]["name"] == "0417"
    made = desk.made_from(f"/jobs/{job}/edit")
    wrong = desk.post(f"/jobs/{job}/edit", made | {"text": text.replace('side = "left"', 'side = "top"')})
    assert wrong.status_code == 422
    assert "job.side" in wrong.text
    assert desk.made_from(f"/jobs/{job}/edit") == made, "a refused text changes nothing"
    right = desk.post(f"/jobs/{job}/edit", made | {"text": text.replace('name = "0417"', 'name = "0418"')})
    assert desk.get(f"{right.headers['location']}/plan.json").json()["inputs"]["job"] == "0418"


@pytest.mark.parametrize("name", ["white-pearl-left", "van-right", "wing-and-door"])
def test_shipped_job_files_come_in(desk, name):
    answer = desk.send("/jobs/in", "file", f"{name}.toml", (DATA / "jobs" / f"{name}.toml").read_bytes())
    assert desk.get(answer.headers["location"]).status_code == 200


def test_a_plan_that_was_made_elsewhere_comes_in_without_its_levers(desk, tmp_path):
    with Desk(tmp_path / "other") as other:
        document = other.get(f"{make_plan(other)}/plan.json").content
    answer = desk.send("/jobs/in", "file", "plan.json", document)
    text = desk.get(answer.headers["location"]).text
    assert "came in without its job" in text
    assert desk.get(f"{answer.headers['location']}/plan.json").content == document


@pytest.mark.parametrize(
    ("name", "content", "said"),
    [
        ("job.toml", b'format = "laydown-job/1"\n[job]\nname = 3', "job"),
        ("job.toml", b"\xff\xfe", "UTF-16"),
        ("x.json", b"[[[", "line 1"),
        ("side.svg", b"<svg><g", ""),
        ("x.toml", b"a = 1", "does not say what it is"),
    ],
)
def test_a_faulty_file_is_refused_with_every_problem(desk, name, content, said):
    answer = desk.send("/jobs/in", "file", name, content)
    assert answer.status_code == 422
    assert 'class="problems"' in answer.text
    assert said in html.unescape(answer.text)


def test_a_product_is_copied_changed_and_used(desk):
    form = desk.fields("/shelf/new?copy=effect-a")
    assert form["recipe[1].name"] == "effect base"
    answer = desk.post(
        "/shelf", form | {"key": "pearl-b", "density_g_ml": "1.07", "source": "sheet B, edition 2"}
    )
    assert answer.headers["location"] == "/shelf/pearl-b"
    product = desk.get("/shelf/pearl-b/product.json").json()
    assert product["density_g_ml"]["value"] == 1.07
    assert product["volume_solids"]["low"] == 0.12, "the spread of an unchanged figure stays"
    assert desk.get(make_plan(desk, **{"products.effect": "pearl-b"})).status_code == 200


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("density_g_ml", "9"),
        ("volume_solids", "most"),
        ("recipe[1].amount", "-4"),
        ("flash.min_s", "x"),
        ("key", ""),
    ],
)
def test_each_problem_of_a_product_stands_at_its_field(desk, field, value):
    answer = desk.post("/shelf", desk.fields("/shelf/new?copy=ground-a") | {field: value})
    assert answer.status_code == 422
    assert beside(answer.text, field), f"nothing beside {field}"


def test_a_measured_side_is_kept_and_painted(desk):
    form = {"shape": "medium hatch", "name": "own hatch, left", "body.measures.wheelbase_m": "2.70"}
    place = desk.post("/sides/measure", form).headers["location"]
    assert desk.get(place).status_code == 200
    assert desk.get(f"{place}/side.json").json()["measures"]["wheelbase_m"] == 2.7
    assert desk.get(make_plan(desk, body=f"file:{place.rsplit('/', 1)[1]}")).status_code == 200


@pytest.mark.parametrize(
    ("field", "value"), [("body.measures.roof_m", "9"), ("body.measures.wheelbase_m", "long"), ("name", "")]
)
def test_each_problem_of_a_measure_stands_at_its_field(desk, field, value):
    form = {"shape": "medium hatch", "name": "own", field: value}
    answer = desk.post("/sides/measure", form)
    assert answer.status_code == 422
    assert beside(answer.text, field)


def test_a_drawing_comes_in_as_a_side(desk):
    drawing = (
        b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 400 200"><line id="scale" data-length-m="1" x1="0" y1="0" x2="100" y2="0"/>'
        b'<line id="ground" x1="0" y1="200" x2="400" y2="200"/><line id="axle" x1="50" y1="0" x2="50" y2="200"/>'
        b'<path id="door" d="M100 50H200V150H100Z"/><path id="panel" d="M200 50H350V150H200Z"/></svg>'
    )
    answer = desk.send("/sides/draw", "drawing", "box.svg", drawing, name="own box")
    assert answer.status_code == 303, answer.text
    assert "own box" in desk.get("/sides").text


def test_names_are_text_and_never_markup(desk):
    plan = make_plan(desk, **{"job.name": "<script>alert(1)</script>", "painter.name": '"><img src=x>'})
    for place in (plan, "/jobs", f"{plan}/mix", f"{plan}/compare", f"{plan}/maps"):
        text = desk.get(place).text
        assert "<script>alert" not in text
        assert "<img src=x" not in text


def test_units_of_the_shop_are_kept(desk):
    plan = make_plan(desk)
    assert desk.post("/settings/units", {"units": "us"}).status_code == 303
    assert "°F" in desk.get(plan).text
    assert json.loads(desk.get(f"{plan}/plan.json").text)["inputs"]["air"]["temperature_c"]["value"] == 20


def test_in_us_units_no_page_of_a_plan_says_anything_metric(desk):
    plan = make_plan(desk, **{"work.rear_door": "blend", "air.temperature_c": "33"})
    places = ("", "/try?temperature_c=80", "/pour", "/pour/effect", "/compare", "/maps")
    assert metric_left(words_of(desk.get(plan).text))
    desk.post("/settings/units", {"units": "us"})
    for place in places:
        # Sources are quoted as they are, nozzles are named in millimetres.
        text = words_of(desk.get(f"{plan}{place}").text.partition('id="ass-head"')[0])
        assert [one for one in metric_left(text) if not one.endswith(" mm")] == [], place
        assert "m/s" not in text


def test_a_figure_may_be_typed_in_either_system(desk):
    typed = {
        "air.temperature_c": "75 °F",
        "gun.cup_ml": "18 fl oz",
        "gun.speed_m_s": "100 fpm",
    }
    plan = make_plan(desk, **typed)
    inputs = desk.get(f"{plan}/plan.json").json()["inputs"]
    assert inputs["air"]["temperature_c"]["value"] == pytest.approx(23.889, abs=0.001)
    assert inputs["gun"]["speed_m_s"]["value"] == pytest.approx(0.508)
    moved = desk.get(f"{plan}/try", params={"temperature_c": "80 °F", "rh": "40 %", "speed_m_s": "110 fpm"})
    assert moved.status_code == 200
    assert "Tried, not kept" in moved.text


def test_a_bare_temperature_has_the_unit_beside_its_field(desk):
    desk.post("/settings/units", {"units": "us"})
    inputs = desk.get(f"{make_plan(desk, **{'air.temperature_c': '68'})}/plan.json").json()["inputs"]
    assert inputs["air"]["temperature_c"]["value"] == pytest.approx(20)


@pytest.mark.parametrize(
    "place", ["/plans/none", "/jobs/none", "/shelf/none", "/sides/none", "/plans/none/try", "/x"]
)
def test_what_is_not_there_is_said_plainly(desk, place):
    answer = desk.get(place)
    assert answer.status_code == 404
    assert "There is no such page" in answer.text
