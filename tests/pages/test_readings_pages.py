"""Readings of an instrument over HTTP: what is taken in, asked, kept, planned with, taken away, and handed out again."""

import hashlib
import html
import io
import json
import re
import zipfile
from dataclasses import replace
from pathlib import Path

import pytest

from cases.desk import ORIGIN, Desk
from cases.measured import cgats, cxf3, name_of, own_table, ten_faults
from laydown.desk.letdown.panel import Entry, read_panel
from laydown.desk.papers.document import plan_json
from laydown.desk.papers.jobs import OF_PLAN
from laydown.desk.plans.kept import Ready, open_kept_plan, setup_of_plan
from laydown.desk.plans.plan import plan_job, try_changes
from laydown.desk.sessions.session import open_session, read_live
from laydown.desk.sessions.turn import turn
from laydown.web.security.passwords import set_user

JOB = (Path(__file__).parents[2] / "src" / "laydown" / "data" / "jobs" / "wing-and-door.toml").read_text()
# The job that ships is judged by eye; here only the instrument speaks.
PLAIN = re.sub(r"(?m)^(coats|face|flop|ground_check) = .*\n", "", JOB)
EXPORTS = {"panel.csv": own_table(), "export.txt": cgats(), "export.cxf": cxf3()}
PICTURE = b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR" + bytes(range(256)) * 8
ENTITIES = '<?xml version="1.0"?><!DOCTYPE a [<!ENTITY b "cc">]><CxF>&b;</CxF>'


@pytest.fixture(scope="module")
def desk(tmp_path_factory):
    with Desk(tmp_path_factory.mktemp("readings")) as made:
        yield made


@pytest.fixture
def job(desk, request):
    """Path of a job of this test's own; its name makes it another job than those of other tests."""
    name = hashlib.sha256(request.node.name.encode()).hexdigest()[:8]
    return bring_in(desk, PLAIN.replace('name = "', f'name = "{name} ', 1))


def bring_in(desk, text):
    answer = desk.send("/jobs/in", "file", "job.toml", text.encode())
    assert answer.status_code == 303, said(answer)
    return f"/jobs/{desk.job_of(answer.headers['location'])}"


def said(answer):
    words = " ".join(html.unescape(re.sub(r"<[^>]+>", " ", answer.text)).split())
    return re.sub(r" ([,.;:])", r"\1", words)


def send(desk, job, name, content, **fields):
    content = content if isinstance(content, bytes) else content.encode()
    usual = {"ground_check": "not done", "same_settings": "yes", "do": "read"}
    made = desk.made_from(f"{job}/panel")
    return desk.send(f"{job}/panel", "file", name, content, **usual | made | fields)


def enter(desk, job, do, **answers):
    """Send the page of readings as it stands, with other answers."""
    text = desk.get(f"{job}/readings").text
    fields = dict(re.findall(r'type="radio" name="([^"]+)" value="([^"]*)" checked', text))
    radios = set(re.findall(r'type="radio" name="([^"]+)"', text))
    fields |= {name: value for name, value in desk.fields(f"{job}/readings").items() if name not in radios}
    fields = {html.unescape(name): html.unescape(value) for name, value in fields.items()}
    return desk.post(f"{job}/readings", fields | answers | {"do": do})


def keep(desk, job, name="panel.csv", content=None):
    """Bring a file in and keep it as it was understood."""
    answer = send(desk, job, name, own_table() if content is None else content)
    assert (answer.status_code, answer.headers.get("location")) == (303, f"{job}/readings"), said(answer)
    answer = enter(desk, job, "keep")
    assert answer.status_code == 303, said(answer)
    return answer.headers["location"]


def sample_of(desk, job):
    return json.loads(desk.book.job(job.split("/")[2]).text)["sample"]


def plan_of(desk, job):
    return desk.get(job).headers["location"]


def colour_of(desk, job):
    return desk.get(f"{plan_of(desk, job)}/plan.json").json()["colour"]


# taken in and kept


@pytest.mark.parametrize("name", EXPORTS)
def test_each_kind_of_file_waits_is_shown_and_counts_once_it_is_kept(desk, job, name):
    before = plan_of(desk, job)
    assert send(desk, job, name, EXPORTS[name]).status_code == 303
    assert sample_of(desk, job)["readings"] is None
    assert plan_of(desk, job) == before
    text = said(desk.get(f"{job}/readings"))
    for part in (
        "not kept yet",
        f"{name} 6 fields, bare ground, car (left side); 15°, 25°, 45°, 75°, 110°; 120 colours for D65 and 10°",
        "Field 2 3",  # two coats, three readings
        "Car left side 3 99.4 −0.8 1.4",  # 93 + 13.6 (1 - exp(-0.265 * 2.4)) = 99.4 at 15 deg
    ):
        assert part in text
    assert enter(desk, job, "keep").status_code == 303
    assert sample_of(desk, job)["readings"] == name
    assert "kept with the job" in said(desk.get(f"{job}/readings"))
    colour = colour_of(desk, job)
    assert colour["read_by"] == "instrument"
    # the files were made for 2.4 coats
    assert colour["zones"][0]["low"] <= 2.4 <= colour["zones"][0]["high"]
    assert "Panel read with an instrument" in said(desk.get(f"{job}/panel"))


def test_the_file_is_handed_out_again_byte_for_byte(desk, job):
    content = own_table().replace("\n", "\r\n").encode("utf-16")
    keep(desk, job, "Messung Tür.csv", content)
    answer = desk.get(f"{job}/readings/file")
    assert answer.content == content
    assert answer.headers["content-disposition"].startswith("attachment")
    assert sample_of(desk, job)["readings"] == "Messung Tür.csv"


def test_ticks_that_were_made_before_the_file_was_chosen_are_kept_too(desk, job):
    assert (
        send(desk, job, "panel.csv", own_table(), **{"flop.2": "match", "card_gone_after": "3"}).status_code
        == 303
    )
    sample = sample_of(desk, job)
    assert (sample["flop"], sample["card_gone_after"], sample["readings"]) == (["match"], 3, None)
    assert enter(desk, job, "keep").status_code == 303
    assert sample_of(desk, job)["flop"] == ["match"]
    assert colour_of(desk, job)["read_by"] == "instrument and eye"


def test_ticks_made_while_a_file_waits_stay_when_it_is_kept(desk, job):
    send(desk, job, "panel.csv", own_table())
    assert desk.fill_in(f"{job}/panel", {"ground_check": "match", "same_settings": "yes"}).status_code == 303
    assert enter(desk, job, "keep").status_code == 303
    assert (sample_of(desk, job)["ground_check"], sample_of(desk, job)["readings"]) == ("match", "panel.csv")


@pytest.mark.parametrize(
    "name", ["../../etc/panel.csv", "C:\\data\\panel.csv", 'pa"nel?.csv', "...", "x" * 300 + ".csv"]
)
def test_no_name_of_a_file_leads_anywhere(desk, job, name):
    keep(desk, job, name)
    kept = sample_of(desk, job)["readings"]
    assert re.fullmatch(r"[\w-]{1,80}\.csv", kept), kept
    with zipfile.ZipFile(io.BytesIO(desk.get(f"{job}/job.zip").content)) as archive:
        assert archive.namelist() == ["job.toml", kept]


def test_a_waiting_file_can_be_let_go(desk, job):
    send(desk, job, "panel.csv", own_table())
    assert enter(desk, job, "leave").status_code == 303
    assert "Nothing was read yet" in said(desk.get(f"{job}/readings"))
    assert "waits to be looked at" not in said(desk.get(f"{job}/panel"))


def test_waiting_files_are_no_jobs_of_the_list(desk, job):
    before = said(desk.get("/jobs"))
    send(desk, job, "panel.csv", own_table())
    assert re.sub(r"just now|\d+ min ago", "", said(desk.get("/jobs"))) == re.sub(
        r"just now|\d+ min ago", "", before
    )


# wrong files


@pytest.mark.parametrize(
    ("name", "content", "parts"),
    [
        ("panel.png", PICTURE, ("is not a text file",)),
        ("panel.csv", b"", ("is empty",)),
        ("panel.csv", own_table().encode("utf-16-le"), ("is not a text file",)),
        ("panel.csv", own_table().encode("utf-32"), ("is not a text file",)),
        ("panel.csv", b"# " + b"x" * 5_000_000, ("is larger than 5 MB",)),
        ("panel.cxf", ENTITIES.encode(), ("refused for safety",)),
        ("panel.cxf", cxf3()[:4000].encode(), ("the file is cut off or damaged",)),
        ("panel.csv", ten_faults().encode(), tuple(f"line {n}:" for n in range(2, 12))),
        ("job.zip", b"PK\x03\x04" + bytes(200), ("is not a text file",)),
    ],
)
def test_a_wrong_file_is_told_at_its_field_and_nothing_is_kept_or_lost(desk, job, name, content, parts):
    keep(desk, job)
    before = desk.book.job(job.split("/")[2]).text
    answer = send(desk, job, name, content, **{"flop.2": "match", "coat_g_m2": "31"})
    assert answer.status_code == 422
    at_field = re.search(r'id="f-file-problem">(.*?)</(?:p|ul)>', answer.text, re.DOTALL)[1]
    for part in parts:
        assert part in html.unescape(at_field)
    assert re.search(r'name="flop.2" value="match" checked', answer.text)
    assert 'value="31"' in answer.text
    assert desk.book.job(job.split("/")[2]).text == before
    assert "panel.csv" in said(desk.get(f"{job}/readings"))


def test_faults_of_ticks_file_and_mapping_come_all_at_once(desk, job):
    files = {
        "file": ("panel.csv", ten_faults().encode()),
        "mapping": ("map.toml", b'illuminant = "neon"\nobserver = 7\n'),
    }
    data = {"token": desk.token(), "do": "read", "coat_g_m2": "much"}
    answer = desk.client.post(f"{job}/panel", data=data, files=files, headers={"origin": ORIGIN})
    assert answer.status_code == 422
    for field in ("file", "mapping", "coat_g_m2"):
        assert f'id="f-{field}-problem"' in answer.text
    assert "neon" in answer.text


def test_without_a_file_nothing_can_be_read(desk, job):
    answer = desk.post(f"{job}/panel", {"do": "read"})
    assert answer.status_code == 422
    assert "choose the file" in said(answer)


def test_more_than_the_pages_take_is_refused_in_words(desk, job):
    answer = send(desk, job, "panel.csv", b"x" * 10_000_000)
    assert answer.status_code == 413
    assert "<h1>Too large</h1>" in answer.text


@pytest.mark.long
def test_a_file_of_a_hundred_thousand_short_lines_is_answered(desk, job):
    text = "panel,role,coats,zone,reading,angle_deg,L,a,b\n" + "p,x,,,,,,,\n" * 400_000
    answer = send(desk, job, "panel.csv", text)
    assert answer.status_code == 422
    assert "further problems" in said(answer)


# what the reader has to ask


def test_names_that_say_nothing_are_asked_and_the_answers_are_the_mapping(desk, job):
    names = {"0": "bare", "1": "one", "2": "two", "3": "three", "4": "field 4", "5": "white tile"}
    text = cgats(
        names=lambda role, coats, zone: names[coats] if role == "field" else name_of(role, coats, zone),
        conditions=False,
    )
    assert send(desk, job, "export.txt", text).status_code == 303
    page = said(desk.get(f"{job}/readings"))
    assert "5 names do not say what was read" in page
    assert "does not say for which illuminant and observer" in page
    assert "Keep and plan anew" not in page
    refused = enter(desk, job, "keep")
    assert refused.status_code == 422
    answers = {"illuminant": "D65", "observer": "10"}
    for number, coats in enumerate("0123", start=1):
        answers |= {f"sample.{number}.role": "field", f"sample.{number}.coats": coats}
    answers["sample.5.role"] = "leave"
    bad = enter(
        desk,
        job,
        "look",
        **answers | {"sample.2.coats": "99", "sample.3.coats": "", "angles_deg": "15 north"},
    )
    assert bad.status_code == 422
    for place in ("sample.2.coats", "sample.3.coats", "angles_deg"):
        assert f'id="f-{place}-problem"' in bad.text
    assert 'value="15 north"' in bad.text
    assert enter(desk, job, "look", **answers).status_code == 303
    page = said(desk.get(f"{job}/readings"))
    assert "5 fields, bare ground, car (left side)" in page
    assert enter(desk, job, "keep").status_code == 303
    sample = sample_of(desk, job)
    assert sample["readings_map"] == "export-map.toml"
    mapping = desk.book.job_file(job.split("/")[2], "export-map.toml").decode()
    for part in (
        'illuminant = "D65"',
        "observer = 10",
        'ignore = ["white tile"]',
        "confirmed = true",
        'name = "two"',
    ):
        assert part in mapping
    assert "field 4" not in mapping, "what a name says by itself needs no word"
    assert colour_of(desk, job)["read_by"] == "instrument"


def test_an_answer_can_be_changed_after_it_was_kept(desk, job):
    keep(desk, job, "export.txt", cgats())
    before = plan_of(desk, job)
    page = desk.get(f"{job}/readings").text
    number = re.search(r'<legend>field 5 .*?name="sample\.(\d+)\.role"', page, re.DOTALL)[1]
    assert enter(desk, job, "keep", **{f"sample.{number}.role": "leave"}).status_code == 303
    assert "5 fields" in said(desk.get(f"{job}/readings"))
    assert plan_of(desk, job) != before
    number = re.search(
        r'<legend>field 5.*?name="sample\.(\d+)\.role"', desk.get(f"{job}/readings").text, re.DOTALL
    )[1]
    assert enter(desk, job, "keep", **{f"sample.{number}.role": ""}).status_code == 303
    assert plan_of(desk, job) == before


def test_what_was_replaced_on_another_screen_is_looked_at_first(desk, job):
    send(desk, job, "panel.csv", own_table())
    seen = desk.fields(f"{job}/readings")["seen"]
    send(desk, job, "panel.csv", own_table(3.1))
    answer = desk.post(f"{job}/readings", {"do": "keep", "seen": seen})
    assert answer.status_code == 422
    assert "were replaced on another screen" in said(answer)
    assert sample_of(desk, job)["readings"] is None


def test_the_zone_that_is_planned_is_asked_where_the_car_was_read_at_several(desk, job):
    send(desk, job, "panel.csv", own_table(cars={"left side": 2.0, "bumper": 4.0}))
    assert "Which zone of the car is planned?" in said(desk.get(f"{job}/readings"))
    assert enter(desk, job, "keep", zone="bumper").status_code == 303
    colour = colour_of(desk, job)
    assert (colour["zone"], colour["effect_coats"]) == ("bumper", 4.0)
    assert enter(desk, job, "keep", zone="roof").status_code == 422
    assert enter(desk, job, "keep", zone="").status_code == 303
    assert colour_of(desk, job)["zone"] == "left side"


def test_a_zone_of_other_readings_is_asked_anew(desk, job):
    send(desk, job, "panel.csv", own_table(cars={"left side": 2.0, "bumper": 4.0}))
    enter(desk, job, "keep", zone="bumper")
    send(desk, job, "panel.csv", own_table(cars={"roof": 3.0}))
    assert "Which zone of the car is planned?" in said(desk.get(f"{job}/readings"))
    assert enter(desk, job, "keep").status_code == 303
    assert sample_of(desk, job)["zone"] is None


def test_what_is_left_out_is_said_with_its_reason(desk, job):
    rows = own_table(repeats=5).splitlines()
    far = next(n for n, row in enumerate(rows) if row.startswith("p1,field,2,,3,15,"))
    rows[far] = "p1,field,2,,3,15,60.00,-0.80,1.40"
    rows.append("p1,field,1,,1,-15,120,0,0")
    send(desk, job, "panel.csv", "\n".join(rows))
    page = said(desk.get(f"{job}/readings"))
    assert "4, without reading 3: far off" in page
    assert "1 reading: so far from the middle of its place" in page
    assert "−15° does not count" in page


def test_a_mapping_can_come_with_the_file(desk, job):
    rows = [row.split(",") for row in own_table().splitlines()[1:]]
    lines = [f'"{name_of(*row[1:4])} r{row[4]}",{",".join(row[5:])}' for row in rows]
    text = "NAME,angle_deg,L,a,b\n" + "\n".join(lines) + "\n"
    assert send(desk, job, "raw.csv", text).status_code == 422
    mapping = (
        b'format = "laydown-readings/1"\nilluminant = "D65"\nobserver = 10\n[columns]\nsample = "NAME"\n'
    )
    files = {"file": ("raw.csv", text.encode()), "mapping": ("program.toml", mapping)}
    data = desk.made_from(f"{job}/panel") | {"token": desk.token(), "do": "read"}
    answer = desk.client.post(f"{job}/panel", data=data, files=files, headers={"origin": ORIGIN})
    assert answer.status_code == 303, said(answer)
    assert enter(desk, job, "keep").status_code == 303
    assert colour_of(desk, job)["read_by"] == "instrument"
    # The next file of the same program needs no word.
    assert send(desk, job, "raw.csv", text.replace("-0.80", "-0.90")).status_code == 303


# typed


def test_numbers_are_typed_and_looked_at(desk, job):
    page = desk.get(f"{job}/readings/type").text
    assert ">\npanel,role,coats,zone,reading,angle_deg,L,a,b" in page
    typed = own_table(repeats=1).replace(",", ";").replace(".", ",")
    answer = desk.post(f"{job}/readings/type", {"text": typed.replace("\n", "\r\n")})
    assert answer.headers.get("location") == f"{job}/readings", said(answer)
    assert enter(desk, job, "keep").status_code == 303
    assert sample_of(desk, job)["readings"] == "panel.csv"
    assert typed in html.unescape(desk.get(f"{job}/readings/type").text), "go on typing where it was left"


def test_the_example_of_the_page_is_read_as_it_stands(desk, job):
    example = html.unescape(
        re.search(r"<pre>(.*?)</pre>", desk.get(f"{job}/readings/type").text, re.DOTALL)[1]
    )
    assert desk.post(f"{job}/readings/type", {"text": example}).status_code == 303
    assert "2 fields, bare ground, car (front door)" in said(desk.get(f"{job}/readings"))


@pytest.mark.parametrize(
    "text", [ten_faults(), "", "L 93.4 a -1", "<script>alert(1)</script>\n" * 3, "x" * 500_000]
)
def test_what_was_typed_wrongly_stays_in_the_field(desk, job, text):
    answer = desk.post(f"{job}/readings/type", {"text": text})
    assert answer.status_code == 422
    assert 'id="f-text-problem"' in answer.text
    inside = re.search(r"<textarea[^>]*>\n(.*?)</textarea>", answer.text, re.DOTALL)[1]
    assert html.unescape(inside) == text
    assert "<script>alert" not in answer.text


def test_pasted_text_of_a_program_is_read_too(desk, job):
    assert desk.post(f"{job}/readings/type", {"text": cgats()}).status_code == 303
    assert "panel.txt" in said(desk.get(f"{job}/readings"))


# taken away, replaced, undone


def test_readings_are_taken_away_and_put_back(desk, job):
    keep(desk, job)
    before, sample = plan_of(desk, job), sample_of(desk, job)
    away = desk.fill_in(f"{job}/readings", {}, f"{job}/readings/away")
    assert away.status_code == 303
    assert sample_of(desk, job)["readings"] is None
    assert colour_of(desk, job)["read_by"] == "nobody"
    page = desk.get(away.headers["location"]).text
    plan = before.rsplit("/", 1)[1]
    assert f"Undo: back to plan {plan}" in page
    back = desk.fill_in(away.headers["location"], {"plan": plan}, f"{job}/readings/back")
    assert back.status_code == 303
    assert (sample_of(desk, job), plan_of(desk, job)) == (sample, before)
    assert desk.get(f"{job}/readings/file").content == own_table().encode()


def test_another_file_of_the_same_name_replaces_the_first_and_undo_brings_that_back(desk, job):
    keep(desk, job)
    first = plan_of(desk, job)
    keep(desk, job, content=own_table(4.0))
    assert plan_of(desk, job) != first
    assert colour_of(desk, job)["effect_coats"] == 4.0
    wish = {"plan": first.rsplit("/", 1)[1]}
    assert desk.fill_in(f"{job}/panel", wish, f"{job}/readings/back").status_code == 303
    assert plan_of(desk, job) == first, "the list of jobs names the plan that goes with these readings"
    assert desk.get(f"{job}/readings/file").content == own_table().encode()


def test_only_a_plan_of_the_job_can_be_gone_back_to(desk, job):
    other = plan_of(desk, bring_in(desk, PLAIN.replace('name = "', 'name = "other ', 1))).rsplit("/", 1)[1]
    assert desk.post(f"{job}/readings/back", {"plan": other}).status_code == 404
    assert f"back to plan {other}" not in desk.get(f"{job}/panel?away_from={other}").text


def test_a_change_that_is_kept_and_a_changed_job_file_keep_the_readings(desk, job):
    keep(desk, job)
    kept = desk.fill_in(plan_of(desk, job), {"speed_m_s": "0.45"}, f"{plan_of(desk, job)}/keep")
    assert kept.status_code == 303, said(kept)
    assert colour_of(desk, job)["read_by"] == "instrument"
    text = desk.get(f"{job}/job.toml").text
    assert desk.fill_in(f"{job}/edit", {"text": text + "\n# looked at\n"}).status_code == 303
    assert colour_of(desk, job)["read_by"] == "instrument"
    without = re.sub(r"(?m)^readings = .*\n", "", text)
    assert desk.fill_in(f"{job}/edit", {"text": without}).status_code == 303
    assert colour_of(desk, job)["read_by"] == "nobody"
    assert desk.fill_in(f"{job}/edit", {"text": text}).status_code == 303
    assert colour_of(desk, job)["read_by"] == "instrument", "the file still lies beside the job"
    wrong = desk.fill_in(f"{job}/edit", {"text": text.replace("[sample]", '[sample]\nzone = "roof"')})
    assert wrong.status_code == 422
    assert "&#39;roof&#39; was not read" in wrong.text


# the same as on the command line


@pytest.mark.parametrize("name", EXPORTS)
def test_the_same_job_and_readings_give_the_same_plan_as_the_command_line(desk, job, name, tmp_path):
    keep(desk, job, name, EXPORTS[name])
    with zipfile.ZipFile(io.BytesIO(desk.get(f"{job}/job.zip").content)) as archive:
        archive.extractall(tmp_path)
    document = desk.get(f"{plan_of(desk, job)}/plan.json").text
    own = plan_job(tmp_path / "job.toml").planned.plan
    assert document == plan_json(own)
    assert own.id == plan_of(desk, job).rsplit("/", 1)[1]
    page = said(desk.get(f"{job}/panel"))
    answer = read_panel(tmp_path / "job.toml", Entry())
    assert f"Effect coats: {answer.coats:g} (" in page


def test_what_if_uses_the_readings_as_the_command_line_does(desk, job, tmp_path):
    keep(desk, job, content=own_table(3.4))
    with zipfile.ZipFile(io.BytesIO(desk.get(f"{job}/job.zip").content)) as archive:
        archive.extractall(tmp_path)
    tried = try_changes(tmp_path / "job.toml", {"rh": ["35 %"]})[-1].plan
    plan = plan_of(desk, job)
    answer = desk.get(f"{plan}/try?rh=35")
    assert answer.status_code == 200
    assert tried.colour.read_by == "instrument"
    ready = desk.app.state.ready
    seen = next(
        value
        for key, value in ready._kept.items()
        if key.startswith("tried") and plan.rsplit("/", 1)[1] in key
    )
    # The two doors name the source of a tried figure each in its own word, and the id is made from all words.
    assert _without_words(seen) == _without_words(tried)


def _without_words(plan):
    return plan_json(replace(plan, id="")).replace('"asked"', '"tried"')


# out and in


def test_a_job_goes_out_with_its_readings_and_comes_in_elsewhere_as_the_same(desk, job, tmp_path):
    keep(desk, job, "export.txt", cgats())
    assert f"{job}/job.zip" in desk.get(plan_of(desk, job)).text
    assert f"{job}/job.zip" in desk.get(f"{job}/edit").text
    packed = desk.get(f"{job}/job.zip")
    assert packed.headers["content-type"] == "application/zip"
    with Desk(tmp_path) as other:
        answer = other.send("/jobs/in", "file", "job.zip", packed.content)
        assert answer.headers["location"] == plan_of(desk, job)
        there = f"/jobs/{other.job_of(answer.headers['location'])}"
        assert other.get(f"{there}/job.zip").content == packed.content
        assert "kept with the job" in said(other.get(f"{there}/readings"))


def test_a_job_without_readings_goes_out_as_a_plain_file(desk, job):
    assert f"{job}/job.toml" in desk.get(plan_of(desk, job)).text


def test_a_job_that_came_without_its_readings_says_so_and_takes_them(desk, request):
    text = PLAIN.replace('name = "', 'name = "came alone ', 1).replace(
        "[sample]", '[sample]\nreadings = "far.csv"'
    )
    job = bring_in(desk, text)
    assert "The job names far.csv, which did not come with it" in said(desk.get(f"{job}/panel"))
    assert "The job names far.csv" in said(desk.get(f"{job}/readings"))
    assert "the file of readings was not at hand" in said(desk.get(plan_of(desk, job)))
    keep(desk, job, "near.csv")
    assert colour_of(desk, job)["read_by"] == "instrument"


def test_the_rest_of_a_session_is_planned_again_with_the_readings(desk, job):
    keep(desk, job, content=own_table(3.4))
    book, ready = desk.book, Ready()
    plan, job_id = open_kept_plan(book, ready, plan_of(desk, job).rsplit("/", 1)[1])
    session = open_session(book, plan, 0.0, fresh=True)
    made = turn(book, ready, read_live(book, ready, session), {"kind": "air changed", "rh": "25 %"}, 60.0)
    assert made.changes
    assert made.plan.id != plan.id
    assert made.setup.readings is not None
    assert made.plan.colour.read_by == "instrument"
    # A plan of the turned session can be turned again: its own job has the readings beside it.
    assert book.job_files(f"{job_id}{OF_PLAN}{made.plan.id}") == book.job_files(job_id)
    assert setup_of_plan(book, Ready(), made.plan.id).readings == made.setup.readings


# who may


def test_a_reader_looks_at_readings_and_changes_nothing(tmp_path):
    with Desk(tmp_path) as desk:
        job = bring_in(desk, PLAIN)
        keep(desk, job)
        set_user(desk.book, "Kim", "manager", "the first long word")
        set_user(desk.book, "Lee", "reader", "a long reader word")
        desk.sign_in("Lee", "a long reader word", desk.client)
        page = desk.get(f"{job}/readings").text
        assert "kept with the job" in page
        assert "Take them away" not in page
        assert "<fieldset disabled>" in page
        assert desk.get(f"{job}/job.zip").status_code == 200
        assert send(desk, job, "panel.csv", own_table()).status_code == 403
        for path in ("readings", "readings/away", "readings/back", "readings/type"):
            assert desk.post(f"{job}/{path}", {}).status_code == 403


def test_without_the_visitors_token_nothing_is_taken_in(desk, job):
    for path in ("panel", "readings", "readings/away", "readings/back", "readings/type"):
        assert desk.client.post(f"{job}/{path}", data={}, headers={"origin": ORIGIN}).status_code == 403


def test_a_job_that_is_not_there_has_no_readings(desk):
    for path in ("readings", "readings/type", "readings/file", "job.zip"):
        assert desk.get(f"/jobs/none/{path}").status_code == 404


@pytest.mark.parametrize(
    ("content", "part"),
    [
        (b"PK\x03\x04" + bytes(400), "is a damaged ZIP file"),
        ({"panel.csv": own_table()}, "holds no job file"),
        (
            {"job.toml": PLAIN.replace("[sample]", '[sample]\nreadings = "panel.csv"')},
            "'panel.csv' is not in the archive",
        ),
        (
            {
                "job.toml": PLAIN.replace("[sample]", '[sample]\nreadings = "panel.csv"'),
                "panel.csv": ten_faults(),
            },
            "panel.csv: line 11",
        ),
        ({"job.toml": PLAIN, "panel.csv": b"0" * 300_000_000}, "would unpack to 300 MB"),
    ],
)
def test_a_wrong_archive_is_refused_with_all_that_is_wrong(desk, content, part):
    before = [one.id for one in desk.book.jobs()]
    if isinstance(content, dict):
        made = io.BytesIO()
        with zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as archive:
            for name, inside in content.items():
                archive.writestr(name, inside)
        content = made.getvalue()
    answer = desk.send("/jobs/in", "file", "job.zip", content)
    assert answer.status_code == 422
    assert part in said(answer)
    assert [one.id for one in desk.book.jobs()] == before
