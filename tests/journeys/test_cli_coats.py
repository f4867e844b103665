"""From a printed leaf to a count at the command line."""

import errno
import io
import json
import math
import tomllib
from pathlib import Path

import pytest
from click.testing import CliRunner
from pypdf import PdfReader

from laydown.cli.main import cli
from laydown.reader.papers.shelf import shipped_folder

COMMENTED = """
[sample]                    # the let-down panel
ground_check = "match"      # seen by R. in the filler flap
# the panel hangs behind the booth
"""
BY_EYE = ("--ground-match", "match", "--face", "few few match many many many", "--flop", "2")


def run(*words):
    return CliRunner().invoke(cli, [str(word) for word in words])


@pytest.fixture
def job(tmp_path):
    """The shipped job without a panel and without a fixed count."""
    text = (shipped_folder() / "jobs" / "white-pearl-left.toml").read_text()
    head = text[: text.index("[sample]")]
    kept = [line for line in head.splitlines() if not line.startswith("effect_coats")]
    path = tmp_path / "job.toml"
    path.write_text("\n".join(kept) + COMMENTED)
    return path


def table(car=2.4, *, ground=0.0):
    """Readings of an invented panel; each angle moves exponentially with coats, as Kubelka-Munk films do."""
    moves = {15: (93.0, 10.0), 25: (92.6, 2.2), 45: (90.5, -8.4), 75: (87.0, -13.0), 110: (85.0, -17.0)}
    rows = ["panel,role,coats,zone,reading,angle_deg,L,a,b"]
    for angle, (start, move) in moves.items():
        spots = [("field", n, "", n) for n in range(6)] + [
            ("car", "", "left side", car),
            ("ground_ref", "", "", 0),
        ]
        for role, coats, zone, real in spots:
            light = (
                start + move * 1.36 * (1 - math.exp(-0.265 * real)) + (ground if role == "ground_ref" else 0)
            )
            rows += [
                f"p1,{role},{coats},{zone},{n},{angle},{light + wiggle:.2f},-0.80,1.40"
                for n, wiggle in enumerate((-0.05, 0.0, 0.05), start=1)
            ]
    return "\n".join(rows) + "\n"


def test_the_leaf_is_written_beside_the_job_and_nothing_is_planned(job):
    result = run("coats", job, "--print")
    assert result.exit_code == 0
    assert result.stdout == ""
    pages = PdfReader(io.BytesIO((job.parent / "job-panel.pdf").read_bytes())).pages
    assert len(pages) == 2


@pytest.mark.parametrize(("fields", "count"), [("0-5", 6), ("1-6", 6), ("0,2,4", 3)])
def test_the_leaf_has_the_fields_that_were_asked_for(job, fields, count):
    target = job.parent / "leaf.pdf"
    assert run("coats", job, "--print", target, "--steps", fields).exit_code == 0
    front = PdfReader(io.BytesIO(target.read_bytes())).pages[0].extract_text()
    assert front.count("not cleared") == count


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--print", "--steps", "5-1"), "does not rise"),
        (("--print", "--steps", "0-8"), "room for"),
        (("--print", "leaf.txt"), "not named as a PDF"),
        (("--face", "few mach many"), "did you mean 'match'?"),
        (("--face", "few match"), "judges 2 fields, the panel has 6"),
        (("--flop", "between 3 and 2"), "names no two fields"),
        (("--flop", "9"), "no field 9"),
        (("--step-coats", "0 1 x"), "no number of coats"),
        (("--ground-match", "perhaps"), "sample.ground_check"),
        (("--readings", "missing.csv"), "no file"),
        (("--card-gone-after", "0"), "sample.card_gone_after"),
        (("--coat-g-m2", "3 gallons"), "sample.coat_g_m2"),
    ],
)
def test_bad_input_is_told_with_exit_code_3(job, words, said):
    more = ("--step-coats", "0-5") if words[0] == "--face" else ()
    result = run("coats", job, *words, *more)
    assert result.exit_code == 3
    assert said in result.stderr
    assert result.stdout == ""


def test_all_faults_come_at_once(job):
    result = run(
        "coats",
        job,
        "--ground-match",
        "mach",
        "--face",
        "few mach",
        "--step-coats",
        "0 x",
        "--card-gone-after",
        "x",
    )
    assert result.exit_code == 3
    for place in ("--step-coats", "--face", "sample.ground_check", "sample.card_gone_after"):
        assert place in result.stderr


def test_a_panel_judged_by_eye_gives_a_count_with_its_range_and_chances(job):
    before = job.read_bytes()
    result = run("coats", job, *BY_EYE)
    assert result.exit_code == 0
    assert "Panel judged by eye." in " ".join(result.stdout.split())
    assert "NEXT" in result.stdout
    assert "<- ordered" in result.stdout
    assert all(len(line) <= 80 for line in result.stdout.splitlines())
    assert job.read_bytes() == before
    assert "--save" in result.stderr


def test_save_writes_the_panel_and_keeps_every_comment(job):
    before = job.read_text()
    result = run("coats", job, *BY_EYE, "--save")
    assert result.exit_code == 0
    after = job.read_text()
    for line in before.splitlines():
        comment = line[line.index("#") :] if "#" in line else ""
        assert comment in after
    sample = tomllib.loads(after)["sample"]
    assert sample["face"] == ["few", "few", "match", "many", "many", "many"]
    assert sample["coats"] == [0, 1, 2, 3, 4, 5]
    assert run("check", job).exit_code == 0
    assert run("coats", job).stdout == result.stdout
    assert [item.name for item in job.parent.iterdir() if item.name.endswith(".part")] == []


def test_a_job_that_may_not_be_written_stays_as_it_is(job, monkeypatch):
    before = job.read_bytes()

    def refuse(self, target):
        raise PermissionError(errno.EACCES, "denied")

    # The rename at the end fails, as in a folder of somebody else; root could write there, so no rights are changed.
    monkeypatch.setattr(Path, "replace", refuse)
    result = run("coats", job, *BY_EYE, "--save")
    assert result.exit_code == 3
    assert "may not be written" in result.stderr
    assert job.read_bytes() == before
    assert [item.name for item in job.parent.iterdir()] == [job.name]


def test_a_leaf_in_a_folder_that_does_not_exist_is_refused(job):
    result = run("coats", job, "--print", job.parent / "nowhere" / "leaf.pdf")
    assert result.exit_code == 3
    assert "does not exist" in result.stderr


def test_a_count_that_cannot_be_given_ends_with_6_and_says_why_and_what_next(job):
    result = run("coats", job, "--ground-match", "off", "--face", "2", "--flop", "2", "--count")
    assert result.exit_code == 6
    assert result.stdout == ""
    assert "no count" in result.stderr
    assert "NEXT" in result.stderr


def test_without_a_panel_there_is_no_count(job):
    assert run("coats", job, "--count").exit_code == 6
    assert run("coats", job).exit_code == 0


def test_a_count_that_was_asked_for_stands_alone_on_stdout(job):
    result = run("coats", job, *BY_EYE, "--count")
    assert result.exit_code == 0
    assert float(result.stdout) in {1.5, 2.0, 2.5}


def test_readings_of_an_instrument_give_count_angles_and_json(job):
    readings = job.parent / "panel.csv"
    readings.write_text(table())
    result = run("coats", job, "--readings", readings, "--json")
    assert result.exit_code == 0
    told = json.loads(result.stdout)
    assert told["format"] == "laydown-coats/1"
    assert told["entered"] == {"readings": "panel.csv"}
    assert told["colour"]["read_by"] == "instrument"
    zone = told["colour"]["zones"][0]
    # the table was made for 2.4 coats
    assert zone["low"] <= 2.4 <= zone["high"]
    assert len(told["colour"]["evidence"]["curves"]) == 5


def test_names_that_were_only_guessed_are_shown_and_not_used_until_confirmed(job):
    rows = [line.split(",") for line in table().splitlines()[1:]]
    names = {"field": "field {}", "car": "car left side", "ground_ref": "ground"}
    lines = [f'"{names[row[1]].format(row[2])} r{row[4]}",{",".join(row[5:])}' for row in rows]
    readings, mapping = job.parent / "raw.csv", job.parent / "map.toml"
    readings.write_text("NAME,angle_deg,L,a,b\n" + "\n".join(lines) + "\n")
    text = 'format = "laydown-readings/1"\nilluminant = "D65"\nobserver = 10\n[columns]\nsample = "NAME"\n'
    mapping.write_text(text)
    guessed = run("coats", job, "--readings", readings, "--readings-map", mapping)
    assert guessed.exit_code == 3
    assert "was understood as" in guessed.stderr
    assert "confirmed = true" in guessed.stderr
    mapping.write_text(text.replace("[columns]", "confirmed = true\n[columns]"))
    confirmed = run("coats", job, "--readings", readings, "--readings-map", mapping)
    assert confirmed.exit_code == 0, confirmed.stderr
    assert "Panel read with an instrument." in " ".join(confirmed.stdout.split())


def test_the_plan_folder_has_the_pictures_of_the_panel(job):
    readings = job.parent / "panel.csv"
    readings.write_text(table())
    assert run("coats", job, "--readings", readings, "--save").exit_code == 0
    result = run("plan", job, "-o", job.parent / "out")
    assert "COLOUR" in result.stdout
    names = {item.name for item in (job.parent / "out").iterdir()}
    for picture in ("panel", "curves", "hiding", "preview"):
        assert {f"{picture}.svg", f"{picture}.png"} <= names
    why = run("why", job.parent / "out", "colour").stdout
    assert "chance of" in why
    assert "panel read with an instrument" in why
    assert "coat 1 changes" in run("why", job.parent / "out", "hiding").stdout


def test_a_ground_that_differs_too_much_gives_no_count(job):
    readings = job.parent / "panel.csv"
    readings.write_text(table(ground=6.0))
    result = run("coats", job, "--readings", readings, "--count")
    assert result.exit_code == 6
    assert "ground" in result.stderr
