"""From a job file to plan, card, pictures and answers."""

import json
import re
import shutil
from dataclasses import replace
from pathlib import Path

import jsonschema
import pytest
from click.testing import CliRunner

from cases.metric_left import metric_left, words_of
from laydown.cli.main import cli
from laydown.cli.plan import CODES
from laydown.desk.papers.document import plan_json
from laydown.desk.plans.glance import minutes_of, weakest_join
from laydown.desk.plans.plan import standing
from laydown.desk.plans.why import items
from laydown.reader.json_schema import json_schema
from laydown.reader.papers.other_files import read_plan
from laydown.reader.papers.shelf import shipped_folder
from laydown.schema.message import Finding

JOB = "white-pearl-left.toml"


def run(*words, **extra):
    return CliRunner().invoke(cli, [str(word) for word in words], **extra)


@pytest.fixture(scope="module")
def shown(tmp_path_factory):
    folder = tmp_path_factory.mktemp("demo") / "demo"
    return folder, run("demo", folder)


@pytest.fixture(scope="module")
def plan(shown):
    return read_plan(shown[0])


@pytest.fixture
def job(tmp_path):
    """The wing-and-door job: a small one, so that planning it again is quick."""
    return Path(shutil.copy(shipped_folder() / "jobs" / "wing-and-door.toml", tmp_path / "job.toml"))


def test_the_demonstration_writes_jobs_shelf_plan_card_and_pictures(shown, plan):
    folder, result = shown
    assert result.exit_code == CODES[standing(plan)]
    names = {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}
    coats = {f"{layer.name}-{coat.number}" for layer in plan.layers for coat in layer.coats}
    assert {
        JOB,
        "van-right.toml",
        "wing-and-door.toml",
        "shelf/ground-a.toml",
        "plan.json",
        "card.pdf",
        "day.svg",
    } <= names
    assert {f"side-{coat}.svg" for coat in coats} | {f"side-{coat}.png" for coat in coats} <= names
    assert any(name.startswith("maps-") for name in names)
    assert not any(name.endswith(".part") for name in names)
    assert (folder / "card.pdf").read_bytes().startswith(b"%PDF")
    assert (folder / "day.png").read_bytes().startswith(b"\x89PNG")


def test_the_printed_plan_fits_eighty_columns_and_says_that_it_is_invented(shown):
    result = shown[1]
    assert max(len(line) for line in result.stdout.splitlines()) <= 80
    assert "INVENTED" in result.stdout
    assert "VERDICT" in result.stdout


def test_the_plan_document_keeps_its_schema_and_reads_back_as_it_was(shown, plan):
    text = (shown[0] / "plan.json").read_text()
    jsonschema.Draft202012Validator(json_schema("plan")).validate(json.loads(text))
    assert plan_json(plan) == text
    assert run("check", shown[0] / "plan.json").exit_code == 0


def test_a_large_area_is_planned(plan):
    # A whole side of a medium hatch has 3 to 4 square metres: common practice, no source.
    assert 3 < plan.side.area_m2 < 4
    assert {panel.ground for panel in plan.side.panels} == {"full"}


def test_the_same_job_gives_the_same_bytes_and_nothing_but_the_document(shown):
    first = run("plan", shown[0] / JOB, "--json")
    assert first.stdout == (shown[0] / "plan.json").read_text()


def test_us_units_are_printed_and_the_document_stays_metric(job):
    printed = run("plan", job, "--units", "us")
    assert "air 68 °F" in printed.stdout
    document = json.loads(run("plan", job, "--units", "us", "--json").stdout)
    assert document["inputs"]["air"]["temperature_c"]["value"] == 20


@pytest.mark.parametrize(
    "words",
    [
        ("plan",),
        ("why",),
        ("why", "limits_of_use"),
        ("mix",),
        ("mix", "--layer", "ground", "--have", "base=400"),
    ],
)
def test_nothing_metric_is_printed_in_us_units(job, words):
    verb, *more = words
    assert metric_left(run(verb, job, *more).stdout)
    assert not metric_left(run(verb, job, *more, "--units", "us").stdout)


def test_pictures_are_in_us_units_and_the_document_beside_them_is_not(job):
    for system in ("metric", "us"):
        run("plan", job, "-o", job.parent / system, "--units", system)
    metric, us = job.parent / "metric", job.parent / "us"
    assert (metric / "plan.json").read_bytes() == (us / "plan.json").read_bytes()
    drawn = {path.name: path.read_text(encoding="utf-8") for path in us.glob("*.svg")}
    assert any(metric_left(words_of(path.read_text(encoding="utf-8"))) for path in metric.glob("*.svg"))
    assert not {name: metric_left(words_of(svg)) for name, svg in drawn.items() if metric_left(words_of(svg))}
    assert "mil a coat" in drawn["hiding.svg"]
    assert "g/ft²" in drawn["maps-effect-1.svg"]


def test_a_plan_into_a_place_that_takes_no_files_leaves_nothing(job):
    (job.parent / "file").write_text("x")
    result = run("plan", job, "-o", job.parent / "file" / "out")
    assert result.exit_code == 3
    assert "not a folder" in result.stderr
    assert result.stdout == ""
    assert sorted(path.name for path in job.parent.iterdir()) == ["file", "job.toml"]


def test_air_outside_the_sheet_ends_with_four_and_still_prints_the_plan(job):
    job.write_text(re.sub(r"(?m)^rh = .*$", 'rh = "12 %"', job.read_text()))  # the sheets allow 20 to 75 %
    result = run("plan", job)
    assert result.exit_code == 4
    assert "VERDICT" in result.stdout
    assert result.stderr.splitlines()[-1].startswith("sheet says no:")


def test_a_plan_that_says_stop_ends_with_five(plan, shown):
    stopped = replace(plan, verdict=replace(plan.verdict, state="stop"))
    assert CODES[standing(stopped)] == 5
    sheet = Finding("stop", "air-outside-sheet", "ground.air", "too dry", "the sheet")
    assert CODES[standing(replace(stopped, findings=(*plan.findings, sheet)))] == 4


def test_the_hard_van_has_no_good_plan_and_is_told_what_would_cure_it(shown):
    # One painter, warm air and 90 s refills on a large van: late joins, common practice, no source.
    result = run("plan", shown[0] / "van-right.toml", "--json")
    document = json.loads(result.stdout)
    assert result.exit_code == 5
    assert result.stderr.startswith("no good plan:")
    assert document["verdict"]["state"] == "stop"
    assert {way["verdict"] for way in document["alternatives"]}
    assert document["side"]["side"] == "right"


def test_every_item_of_a_plan_can_be_asked_for(shown, plan):
    for item in items(plan):
        result = run("why", shown[0], item)
        assert result.exit_code == 0, item
        assert max(len(line) for line in result.stdout.splitlines()) <= 80
    assert run("why", shown[0], weakest_join(plan).id).stdout.startswith(weakest_join(plan).id)


def test_why_without_an_item_begins_with_the_verdict(shown):
    assert run("why", shown[0]).stdout.startswith("verdict: ")
    explanations = json.loads(run("why", shown[0], "--json").stdout)["explanations"]
    assert [one["item"] for one in explanations[:2]] == ["verdict", "adjustment.effect"]


def test_why_of_what_is_not_in_the_plan_names_the_nearest(shown):
    result = run("why", shown[0], "colur")
    assert result.exit_code == 2
    assert "did you mean 'colour'?" in result.stderr


def test_the_pour_sheet_is_printed_and_put_right(shown, plan):
    assert plan.mixes[0].lines[0].name in run("mix", shown[0]).stdout
    base = plan.mixes[0].lines[0].step_g
    sheet = json.loads(
        run("mix", shown[0], "--layer", "ground", "--poured", f"base={1.1 * base}", "--json").stdout
    )
    assert sheet["sheets"][0]["factor"] == pytest.approx(1.1, rel=1e-4)
    text = run("mix", shown[0], "--layer", "ground", "--have", f"base={base / 2}").stdout
    assert "SCALE DOWN" in text


def test_the_card_is_written_where_it_is_wanted(shown, tmp_path):
    assert run("card", shown[0], "-o", tmp_path / "a.pdf").exit_code == 0
    assert (tmp_path / "a.pdf").read_bytes().startswith(b"%PDF")
    assert run("card", shown[0], "-o", tmp_path).exit_code == 3


def test_several_values_give_a_table_with_the_job_as_it_is_on_top(job):
    before = job.read_bytes()
    result = run("try", job, "--water", "0,5%,10%")
    assert result.exit_code == 0
    assert [line.split("  ")[0] for line in result.stdout.splitlines()[1:5]] == [
        "as planned",
        "water 0",
        "water 5%",
        "water 10%",
    ]
    assert job.read_bytes() == before


def test_try_as_json_is_one_document(job):
    rows = json.loads(run("try", job, "--painters", "2", "--second-cup", "yes", "--json").stdout)["tried"]
    assert [row["change"]["text"] for row in rows] == ["as planned", "painters 2, spare cup yes"]
    assert all(row["minutes"] > 0 for row in rows)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--water", "10"], "write 55 % as 0.55"),
        (["--nozzle", "1.5"], "choose one of 1.2, 1.3"),
        (["--reducer", "slwo"], "did you mean 'slow'"),
        (["--effect-coats", "2.3"], "halves"),
        (["--second-cup", "maybe"], "yes or no"),
        (["--hand-speed", "nan"], "not a finite number"),
        (["--water", "0,1%,2%,3%,4%", "--effect-coats", "2,2.5,3,3.5,4"], "too many"),
    ],
)
def test_a_change_that_cannot_be_is_a_wrong_call(job, words, said):
    result = run("try", job, *words)
    assert result.exit_code == 2
    assert said in result.stderr
    assert result.stdout == ""


def test_the_day_has_a_length(plan):
    assert minutes_of(plan) == max(step.end_s for step in plan.timeline) / 60
