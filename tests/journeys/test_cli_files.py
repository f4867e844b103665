"""Files at the command line: every fault told, nothing half-written, documents kept apart from talk."""

import json
import os
import signal
import subprocess
import sys
import tomllib
from pathlib import Path

import jsonschema
import pytest
from click.testing import CliRunner

from laydown.cli.main import cli
from laydown.reader.papers.shelf import shipped_folder

TEN_FAULTS = """
format = "laydown-job/1"
[job]
name = "4711"
side = "lft"
painters = 3
can_wlak = true
[body]
shape = "medium hatch"
[[panel]]
name = "front wing"
state = "newish"
[[panel]]
name = "Front_Wing"
[air]
temperature_c = "200 °F"
rh = 55
speed_m_s = nan
[gun]
flow_g_s = "3 gallons"
[products]
ground = "grnd-a"
effect = "effect-a"
"""


def run(*words, **extra):
    return CliRunner().invoke(cli, [str(word) for word in words], **extra)


def shell(*words, **extra):
    call = [sys.executable, "-m", "laydown", *map(str, words)]
    return subprocess.run(call, capture_output=True, text=True, timeout=60, check=False, **extra)


@pytest.fixture
def faulty(tmp_path):
    path = tmp_path / "job.toml"
    path.write_text(TEN_FAULTS)
    return path


def test_a_job_with_ten_faults_lists_all_ten_with_place_and_hint(faulty):
    result = run("check", faulty)
    lines = [line for line in result.stderr.splitlines() if line.startswith("  ")]
    places = [line.split(":")[0].strip() for line in lines]
    assert result.exit_code == 3
    assert len(places) == 11
    assert set(places) == {
        "job.side",
        "job.painters",
        "job.can_wlak",
        "panel[1].state",
        "panel[2].name",
        "air.temperature_c",
        "air.rh",
        "air.speed_m_s",
        "gun.flow_g_s",
        "products.ground",
        "products.clear",
    }
    assert all(line.endswith(")") for line in lines)


@pytest.mark.parametrize("wish", ["plan", "try", "why", "card", "mix"])
def test_every_wish_tells_the_faults_of_its_job(faulty, wish):
    result = run(wish, faulty, *(["--water", "5%"] if wish == "try" else []))
    assert result.exit_code == 3
    assert result.stdout == ""
    assert "job.can_wlak: unknown name (did you mean can_walk?)" in result.stderr


def test_with_json_the_faults_are_the_one_document_on_stdout(faulty):
    result = run("plan", faulty, "--json")
    document = json.loads(result.stdout)
    assert result.exit_code == 3
    assert document["format"] == "laydown-problems/1"
    assert {
        "where": "job.painters",
        "what": "3 is outside 1 to 2",
        "hint": "one or two painters",
    } in document["files"][0]["problems"]


def test_check_tells_of_each_file_what_it_is_and_whether_it_is_good(faulty):
    shipped = sorted(shipped_folder().glob("*/*.toml"))
    result = run("check", *shipped, faulty, "--json")
    document = json.loads(result.stdout)
    assert result.exit_code == 3
    assert [bool(item["problems"]) for item in document["files"]] == [False] * len(shipped) + [True]


@pytest.mark.parametrize(
    ("name", "content", "words"),
    [
        ("latin.toml", 'name = "Türkis"'.encode("cp1252"), "not UTF-8 text"),
        ("wide.toml", "a = 1".encode("utf-16"), "UTF-16"),
        ("broken.toml", b"a = 1 2", "line 1, column"),
        ("silent.toml", b"a = 1", "does not say what it is"),
        ("silent.toml", b"a = 1", 'format = "laydown-plan/2"'),
        ("later.toml", b'format = "laydown-job/9"', "it reads laydown-job/1"),
        ("plan.json", b'{"format": "laydown-plan/2"', "line 1, column"),
        (
            "earlier.json",
            b'{"format": "laydown-plan/1"}',
            "was made by an earlier version (plan the job again)",
        ),
    ],
)
def test_a_file_that_cannot_be_read_is_told_plainly(tmp_path, name, content, words):
    (tmp_path / name).write_bytes(content)
    result = run("check", tmp_path / name)
    assert result.exit_code == 3
    assert words in result.stderr
    assert "Traceback" not in result.stderr


def test_a_link_in_a_circle_and_a_missing_file_are_told(tmp_path):
    (tmp_path / "a.toml").symlink_to(tmp_path / "a.toml")
    result = run("check", tmp_path / "a.toml", tmp_path / "b.toml")
    assert result.exit_code == 3
    assert "leads back to itself" in result.stderr
    assert "does not exist" in result.stderr


def new_words(path, **change):
    words = {
        "--name": "4711",
        "--side": "left",
        "--vehicle": "medium hatch",
        "--air": "68F,20%",
        "--panel": "front wing=new",
    }
    words |= {f"--{name}": value for name, value in change.items()}
    return ["new", "-o", path, *(part for pair in words.items() for part in pair if part is not None)]


def test_new_writes_a_job_that_check_finds_good(tmp_path):
    path = tmp_path / "job.toml"
    assert run(*new_words(path)).exit_code == 0
    raw = tomllib.loads(path.read_text())
    assert raw["panel"] == [{"name": "front wing", "state": "new"}]
    assert raw["air"] == {"temperature_c": 20, "rh": 0.2}
    assert "# " in path.read_text()
    assert run("check", path).exit_code == 0


def test_new_without_a_terminal_names_what_is_missing(tmp_path):
    result = run("new", "--name", "4711", "-o", tmp_path / "job.toml")
    assert result.exit_code == 2
    assert "--side, --vehicle, --panel, --air" in result.stderr
    assert list(tmp_path.iterdir()) == []


def test_new_on_a_terminal_asks_for_what_is_missing_and_asks_again_after_a_wrong_word(tmp_path, monkeypatch):
    monkeypatch.setattr("laydown.cli.new._can_ask", lambda: True)
    typed = "up\nleft\nmedium hatch\nfront wing=new,sill\n20\n30 %\n"
    result = run("new", "--name", "4711", "-o", tmp_path / "job.toml", input=typed)
    assert result.exit_code == 0
    assert result.stdout == ""
    raw = tomllib.loads((tmp_path / "job.toml").read_text())
    assert raw["job"]["side"] == "left"
    assert [panel["name"] for panel in raw["panel"]] == ["front wing", "sill"]
    assert raw["air"]["rh"] == 0.3


def test_new_does_not_replace_a_file_unasked(tmp_path):
    path = tmp_path / "job.toml"
    path.write_text("mine")
    assert run(*new_words(path)).exit_code == 3
    assert path.read_text() == "mine"
    assert run(*new_words(path), "--replace").exit_code == 0


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"panel": "frnt wing=new"}, "did you mean 'front wing'"),
        ({"panel": "front wing=knew"}, "did you mean 'new'"),
        ({"vehicle": "medium hutch"}, "did you mean 'medium hatch'"),
        ({"air": "200F,20%"}, "outside 5 to 45 °C"),
        ({"effect": "effect-b"}, "did you mean 'effect-a'"),
    ],
)
def test_new_with_a_faulty_answer_is_a_wrong_call_and_writes_nothing(tmp_path, change, words):
    result = run(*new_words(tmp_path / "job.toml", **change))
    assert result.exit_code == 2
    assert words in result.stderr
    assert list(tmp_path.iterdir()) == []


def test_new_into_a_place_that_takes_no_file_is_told(tmp_path):
    (tmp_path / "file").write_text("x")
    for path in (tmp_path / "file" / "job.toml", Path("/proc/job.toml")):
        result = run(*new_words(path))
        assert result.exit_code == 3
        assert "fault in laydown" not in result.stderr


@pytest.mark.parametrize("kind", ["job", "product", "side", "plan"])
def test_schema_prints_one_schema(kind):
    result = run("schema", kind)
    jsonschema.Draft202012Validator.check_schema(json.loads(result.stdout))
    assert result.stderr == ""


def test_sides_are_listed_measured_mirrored_drawn_and_read_back(tmp_path):
    listed = json.loads(run("vehicle", "--list", "--json").stdout)
    assert [side["name"] for side in listed["sides"]] == [
        "small hatch",
        "medium hatch",
        "large saloon",
        "medium van",
        "large van",
    ]
    own = tmp_path / "own.json"
    words = [
        "vehicle",
        "medium hatch",
        "--measure",
        "roof_m=57 in",
        "--mirror",
        "-o",
        own,
        "--svg",
        tmp_path / "own.svg",
    ]
    assert run(*words).exit_code == 0
    assert json.loads(own.read_text())["side"] == "right"
    assert json.loads(own.read_text())["measures"]["roof_m"] == pytest.approx(57 * 0.0254)
    assert (tmp_path / "own.svg").read_text().startswith("<svg")
    assert run("check", own).exit_code == 0
    assert "m²" in run("vehicle", "--import", own).stdout
    assert "ft²" in run("vehicle", "--import", own, "--units", "us").stdout


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["vehicle", "medium hutch"], "did you mean 'medium hatch'"),
        (["vehicle", "medium hatch", "--measure", "roof_m=2 furlongs"], "cannot read"),
        (["vehicle", "medium hatch", "--measure", "roof"], "NAME=VALUE"),
        (["vehicle", "-o", "x.json"], "Name a shape"),
        (["plam"], "Did you mean 'plan'?"),
        (["pour", "today"], "No such command 'pour': it is called 'mix'."),
        (["strip", "job.toml"], "No such command 'strip': it is called 'coats'."),
        (["side", "--list"], "No such command 'side': it is called 'vehicle'."),
        (["fault", "today"], "No such command 'fault': it is called 'fix'."),
        (["check", "--jsn", "x"], "Did you mean '--json'?"),
        (["schema", "jop"], "jop"),
        (["try", "x.toml"], "--water"),
        (["try", "x.toml", "--air", "20C,21C"], "temperature and humidity"),
    ],
)
def test_a_wrong_call_ends_with_two_and_says_how_it_is_done(words, said):
    result = run(*words)
    assert result.exit_code == 2
    assert said in result.stderr


@pytest.mark.parametrize(
    "wish", ["card", "check", "demo", "new", "mix", "plan", "schema", "vehicle", "try", "why"]
)
def test_every_command_shows_an_example(wish):
    result = run(wish, "--help")
    assert result.exit_code == 0
    assert f"laydown {wish}" in result.stdout
    assert max(len(line) for line in result.stdout.splitlines()) <= 80


def test_an_internal_fault_is_one_line_and_the_trace_only_comes_when_asked_for(monkeypatch):
    def broken(paths):
        raise ZeroDivisionError("deep inside")

    monkeypatch.setattr("laydown.desk.papers.files.check_files", broken)
    result = run("check", "job.toml")
    assert result.exit_code == 1
    assert result.stderr.startswith("fault in laydown: ZeroDivisionError: deep inside")
    assert "Traceback" not in result.stderr
    assert "Traceback" in run("check", "job.toml", "--debug").stderr


def test_a_stop_by_hand_ends_with_130(monkeypatch):
    def stopped(paths):
        raise KeyboardInterrupt

    monkeypatch.setattr("laydown.desk.papers.files.check_files", stopped)
    result = run("check", "job.toml")
    assert result.exit_code == 130
    assert "Traceback" not in result.stderr


def test_a_real_process_stopped_by_ctrl_c_ends_with_130(tmp_path):
    # Reading a pipe that nobody writes would wait for ever if it were not refused, so the process waits at a prompt.
    call = [
        sys.executable,
        "-c",
        "import sys; sys.stdin.isatty = lambda: True; from laydown.cli.main import main; main()",
    ]
    process = subprocess.Popen(
        [*call, "new", "-o", tmp_path / "job.toml"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    )
    assert process.stderr is not None
    assert process.stderr.read(4) == b"What"
    process.send_signal(signal.SIGINT)
    _, said = process.communicate(timeout=30)
    assert process.returncode == 130
    assert b"Traceback" not in said


def test_the_version_is_printed_by_a_real_process():
    result = shell("--version")
    assert (result.returncode, result.stderr) == (0, "")
    assert result.stdout.startswith("laydown, version ")


def test_a_reader_that_goes_away_is_no_fault():
    reading, writing = os.pipe()
    os.close(reading)
    call = [sys.executable, "-m", "laydown", "schema", "plan"]
    process = subprocess.run(call, stdout=writing, stderr=subprocess.PIPE, timeout=60, check=False)
    os.close(writing)
    assert process.returncode == 0
    assert process.stderr == b""


def test_letters_that_the_terminal_lacks_do_not_break_the_program(tmp_path):
    environment = os.environ | {"PYTHONIOENCODING": "shift_jis"}
    result = shell("vehicle", "--list", env=environment, encoding="shift_jis")
    assert result.returncode == 0
    assert "m?" in result.stdout


@pytest.mark.parametrize("name", ["bash", "zsh", "fish"])
def test_the_shell_gets_its_completion(name):
    result = shell(env=os.environ | {"_LAYDOWN_COMPLETE": f"{name}_source"})
    assert result.returncode == 0
    assert "laydown" in result.stdout


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("laydown vehicle lar", {"large saloon", "large van"}),
        ("laydown new --vehicle sm", {"small hatch"}),
        ("laydown new --panel sli", {"sliding door"}),
        ("laydown mix today --layer e", {"effect"}),
        ("laydown sch", {"schema"}),
    ],
)
def test_shapes_panels_and_layers_are_completed(words, expected):
    count = len(words.split()) - 1
    found = shell(
        env=os.environ | {"_LAYDOWN_COMPLETE": "zsh_complete", "COMP_WORDS": words, "COMP_CWORD": str(count)}
    )
    assert set(found.stdout.splitlines()[1::3]) == expected
