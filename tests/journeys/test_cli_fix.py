"""Something went wrong: asked at the command line beside a kept plan."""

import json

import pytest
from click.testing import CliRunner

from laydown.cli.main import cli
from laydown.reader.papers.shelf import shipped_folder


def run(*words):
    return CliRunner().invoke(cli, [str(word) for word in words])


@pytest.fixture(scope="module")
def plan(tmp_path_factory):
    """The wing and door, planned and kept."""
    path = tmp_path_factory.mktemp("plan") / "plan.json"
    made = run("plan", shipped_folder() / "jobs" / "wing-and-door.toml", "--json")
    path.write_text(made.stdout, encoding="utf-8")
    return path


def test_without_a_fault_all_nineteen_and_six_stages_are_listed(plan):
    told = run("fix", plan)
    assert told.exit_code == 0
    listed = json.loads(run("fix", plan, "--json").stdout)
    assert len(listed["defects"]) == 19
    assert len(listed["stages"]) == 6
    assert all(f"  {stage} " in told.stdout for stage in listed["stages"])
    assert all(len(line) <= 80 for line in told.stdout.splitlines())


def test_every_fault_has_a_way_or_an_honest_end_at_every_stage(plan):
    listed = json.loads(run("fix", plan, "--json").stdout)
    for stage in listed["stages"]:
        for defect in listed["defects"]:
            words = ("--when", stage, "--defect", defect["key"].replace("_", "-"))
            told = run("fix", plan, *words)
            assert told.exit_code == 0, (stage, defect["key"])
            assert "\nA  " in told.stdout
            assert all(len(line) <= 80 for line in told.stdout.splitlines())


def test_a_nib_in_the_matt_effect_coat_is_sanded_dry_and_costs_two_coats_over_the_spot(plan):
    # a paint maker's procedure for waterborne base, from memory: dry P600 to P800, then two colour coats on the spot
    words = ("--when", "effect-dry", "--defect", "dirt", "--panel", "front door", "--size", "5 cm")
    ways = json.loads(run("fix", plan, *words[:-1], "a spot, 5 cm", "--json").stdout)["ways"]
    first = ways[0]
    assert "P600" in first["text"]["text"]
    assert first["effect_coats"] == 2.0
    whole = json.loads(run("fix", plan, *words[:4], "--json").stdout)["ways"][0]
    assert 0.0 < first["sprayed_g"] < whole["sprayed_g"], "one panel takes less than the side"


def test_us_units_reach_what_a_way_needs(plan):
    words = ("--when", "effect-dry", "--defect", "dirt", "--panel", "front door", "--units", "us")
    told = run("fix", plan, *words).stdout
    assert " cm" not in told
    assert "24 in" in told
    assert told.count("faded over") == 1, "said once"


def test_words_that_are_not_known_are_all_named_with_those_that_are(plan):
    told = run("fix", plan, "--when", "efect", "--defect", "cluds", "--panel", "bonnet", "--size", "huge")
    assert told.exit_code == 2
    for word in (
        "--when: ",
        "--defect: ",
        "efect",
        "cluds",
        "bonnet",
        "huge",
        "effect-wet",
        "dry-spray",
        "front door",
        "30 cm",
    ):
        assert word in told.stderr


def test_half_a_question_says_which_half_is_missing(plan):
    told = run("fix", plan, "--when", "effect-dry")
    assert told.exit_code == 2
    assert "--defect is missing" in told.stderr
