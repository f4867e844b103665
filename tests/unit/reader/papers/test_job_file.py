"""What a job says as a whole, and where its products lie."""

import re
import shutil
import tomllib
from pathlib import Path

import pytest

from cases.problems import problems_of
from cases.speech import english
from laydown.reader.papers.job_file import decode_job, read_job
from laydown.reader.papers.other_files import decode_product, read_plan
from laydown.reader.papers.shelf import LAYERS, find_product, read_named_product, shipped_folder
from laydown.schema.problem import InputError

SHIPPED = sorted((shipped_folder() / "jobs").glob("*.toml"))
JOB = """
format = "laydown-job/1"
[job]
name = "4711"
side = "left"
[body]
shape = "medium hatch"
[[panel]]
name = "front wing"
state = "new"
undercoat_lightness = 90
ground = "full"
effect = "full"
clear = "full"
[[panel]]
name = "front door"
[[panel]]
name = "quarter"
[[panel]]
name = "sill"
[air]
temperature_c = 20
rh = 0.2
[gun]
nozzle_mm = 1.2
nozzles_owned_mm = [1.2, 1.3]
[products]
ground = "ground-a"
effect = "effect-a"
clear = "clear-a"
[choices]
[sample]
face = ["few", "few", "match", "many"]
flop = ["few", "few", "match", "many"]
"""
GROUND = (shipped_folder() / "shelf" / "ground-a.toml").read_text()


def problems(text, tmp_path):
    with pytest.raises(InputError) as caught:
        decode_job(tomllib.loads(text), tmp_path / "job.toml")
    return {
        problem.where: f"{english(problem.what)} | {english(problem.hint)}"
        for problem in caught.value.problems
    }


def product_problems(text):
    with pytest.raises(InputError) as caught:
        decode_product(tomllib.loads(text), Path("p.toml"))
    return [problem.where for problem in caught.value.problems]


@pytest.mark.parametrize("path", SHIPPED, ids=lambda path: path.stem)
def test_every_shipped_job_is_read_and_marked_as_invented(path):
    job = read_job(path)
    assert job.invented
    assert all(
        product.status == "invented" for product in (read_named_product(layer, job, path) for layer in LAYERS)
    )


@pytest.mark.parametrize(
    ("old", "new", "place", "words"),
    [
        ('name = "front door"', 'name = "Front_Wing"', "panel[2].name", "stands in panel[1] already"),
        ('shape = "medium hatch"', "", "body", "neither shape nor file"),
        ('shape = "medium hatch"', 'shape = "a"\nfile = "b.json"', "body", "a shape and a file"),
        ('shape = "medium hatch"', 'file = "b.json"', "body.file", "no file 'b.json'"),
        ('effect = "effect-a"', 'effect = "effct-a"', "products.effect", "did you mean 'effect-a'?"),
        ("[choices]", "[choices]\nnozzle_mm = 1.4", "choices.nozzle_mm", "choose one of 1.2, 1.3"),
        ("[choices]", "[choices]\neffect_coats = 2.3", "choices.effect_coats", "halves"),
        ("[choices]", "[choices]\nwater = 1.2", "choices.water", "outside 0 to 1"),
        ('flop = ["few", "few", "match", "many"]', 'flop = ["few"]', "sample.flop", "judges 1 fields"),
        ("[sample]", "[sample]\ncoats = [0, 1]", "sample.coats", "names 2 fields"),
        ("[sample]", "[sample]\ncoats = [0, 1, 1, 2]", "sample.coats", "names a field twice"),
        ("[sample]", '[limits]\nready_by = "soon"\n[sample]', "limits.ready_by", "no date and time"),
        ('state = "new"', 'state = "new"\nundercoat = "white"', "panel[1]", "undercoat twice"),
    ],
)
def test_what_fields_say_together_is_checked(tmp_path, old, new, place, words):
    assert old in JOB
    found = problems(JOB.replace(old, new, 1), tmp_path)
    assert words in found[place]


def test_a_layer_must_reach_as_far_as_the_one_below(tmp_path):
    found = problems(JOB.replace('effect = "full"', 'effect = "fade"', 1), tmp_path)
    assert "'fade' over ground 'full'" in found["panel[1].effect"]


def test_faults_of_fields_and_of_the_whole_are_told_together(tmp_path):
    text = JOB.replace('side = "left"', 'side = "up"').replace('name = "sill"', 'name = "quarter"')
    assert set(problems(text.replace('"clear-a"', '"none"'), tmp_path)) == {
        "job.side",
        "panel[4].name",
        "products.clear",
    }


def test_a_product_beside_the_job_comes_before_the_shipped_one(tmp_path):
    (tmp_path / "shelf").mkdir()
    shutil.copy(shipped_folder() / "shelf" / "ground-a.toml", tmp_path / "shelf")
    assert find_product("ground-a", tmp_path) == tmp_path / "shelf" / "ground-a.toml"
    assert find_product("clear-a", tmp_path) == shipped_folder() / "shelf" / "clear-a.toml"
    assert find_product("../clear-a", tmp_path) is None


def test_a_product_of_another_layer_is_told(tmp_path):
    job = decode_job(
        tomllib.loads(JOB.replace('effect = "effect-a"', 'effect = "ground-a"')), tmp_path / "job.toml"
    )
    (problem,) = problems_of(read_named_product, "effect", job, tmp_path / "job.toml")
    assert "product for the ground coat" in english(problem.what)


def test_what_a_sheet_says_together_is_checked():
    text = re.sub(r"(?m)^min_s = .*$", 'min_s = "4 h"', GROUND)
    text = re.sub(r"(?m)^coats_min = .*$", "coats_min = 7.5", text)
    text = re.sub(r"(?m)^temperature_low_c = .*$", "temperature_low_c = 44", text)
    assert product_problems(text) == ["flash.min_s", "coats_min", "allowed.temperature_low_c"]


def test_a_figure_of_a_sheet_carries_the_source_of_the_sheet():
    product = decode_product(tomllib.loads(GROUND), Path("p.toml"))
    assert product.volume_solids.source == "invented sheet GA, edition 1"
    assert product.hardener.pot_life_s.source == "invented sheet GA, edition 1"


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ('format = "laydown-product/1"', "is a product file, not a job file"),
        ('format = "laydown-job/2"', "it reads laydown-job/1"),
        ("format = 3", "it reads laydown-job/1"),
    ],
)
def test_another_kind_or_number_of_format_is_one_plain_problem(tmp_path, line, words):
    found = problems(JOB.replace('format = "laydown-job/1"', line), tmp_path)
    assert list(found) == ["file"]
    assert words in found["file"]


def test_a_missing_format_is_asked_for_with_its_line(tmp_path):
    found = problems(JOB.replace('format = "laydown-job/1"', ""), tmp_path)
    assert 'format = "laydown-job/1"' in found["format"]


def test_a_job_file_is_no_plan(tmp_path):
    with pytest.raises(InputError) as caught:
        read_plan(tmp_path / "job.toml")
    assert "laydown plan JOB" in english(caught.value.problems[0].hint)
