"""A job with its side and products: everything that is wrong with any of them is told at once."""

import shutil

import pytest

from cases.speech import english
from laydown.cli.output import ProgressBar
from laydown.desk.papers.files import check_files, open_job
from laydown.reader.encode import to_json
from laydown.reader.papers.shelf import known_products, missing_product, shipped_folder
from laydown.schema.problem import InputError
from laydown.trade.side.build import build_side


@pytest.fixture
def folder(tmp_path):
    shutil.copytree(shipped_folder() / "shelf", tmp_path / "shelf")
    shutil.copy(shipped_folder() / "jobs" / "wing-and-door.toml", tmp_path / "job.toml")
    return tmp_path


def edit(path, old, new):
    text = path.read_text()
    assert old in text
    path.write_text(text.replace(old, new, 1))


def told(folder):
    with pytest.raises(InputError) as caught:
        open_job(folder / "job.toml")
    return {
        problem.where: f"{english(problem.what)} | {english(problem.hint)}"
        for problem in caught.value.problems
    }


def test_a_sound_job_becomes_a_request(folder):
    request = open_job(folder / "job.toml", "2026-11-25T16:00:00")
    assert request.side.name == "medium hatch"
    assert request.products.effect.key == "effect-a"
    assert request.made_at == "2026-11-25T16:00:00"


def test_faults_of_panels_and_of_all_products_are_told_together(folder):
    edit(folder / "job.toml", 'name = "rear door"', 'name = "reer door"')
    edit(folder / "shelf" / "ground-a.toml", "density_g_ml = 1.1675", "")
    edit(folder / "shelf" / "effect-a.toml", 'kind = "effect"', 'kind = "efect"')
    found = told(folder)
    assert "did you mean 'rear door'" in found["panel[3].name"]
    assert "recipe[1].density_g_ml" in " ".join(found)
    assert "did you mean 'effect'" in found["effect-a: kind"]


def test_two_names_of_one_panel_are_told(folder):
    edit(folder / "job.toml", 'name = "rear door"', 'name = "front-door"')
    assert "the same panel as panel[2]" in told(folder)["panel[3].name"]


def test_a_measure_that_cannot_be_is_told_with_its_name(folder):
    edit(
        folder / "job.toml",
        'shape = "medium hatch"',
        'shape = "medium hatch"\nmeasures = { wheelbase_m = "9 ft" }',
    )
    open_job(folder / "job.toml")  # 9 ft = 2.74 m, a possible car
    edit(folder / "job.toml", '"9 ft"', '"9 m"')
    assert any(place.startswith("body.measures") for place in told(folder))


def test_a_side_of_ones_own_is_read_and_checked(folder):
    side = folder / "own.json"
    side.write_text(to_json(build_side("medium hatch", {})))
    edit(folder / "job.toml", 'shape = "medium hatch"', 'file = "own.json"')
    assert open_job(folder / "job.toml").side.panels
    edit(side, '"id": "quarter"', '"id": "sill"')
    assert "twice" in str(told(folder))
    side.write_text("{}")
    assert "is missing" in told(folder)["format"]


def test_a_recipe_that_cannot_become_grams_is_told_by_check(folder):
    edit(folder / "shelf" / "clear-a.toml", 'role = "base"', 'role = "other"')
    (found,) = check_files((folder / "shelf" / "clear-a.toml",))
    assert found.kind == "product"
    assert found.problems[0].where == "recipe[1].role"


def test_the_shelf_beside_the_job_and_the_shipped_one_are_known(folder):
    shutil.copy(folder / "shelf" / "ground-a.toml", folder / "shelf" / "white-7.toml")
    assert known_products(folder) == ["clear-a", "effect-a", "ground-a", "white-7"]
    assert "known here: clear-a" in english(missing_product("clear", "zzz", folder).hint)


def test_progress_is_shown_on_a_terminal_once_it_takes_long_and_never_on_stdout(monkeypatch, capsys):
    monkeypatch.setattr("laydown.cli.output.PATIENCE_S", 0.0)
    with ProgressBar() as progress:
        progress("nobody looks", 0.5)
    assert capsys.readouterr() == ("", "")
    monkeypatch.setattr("sys.stderr.isatty", lambda: True, raising=False)
    monkeypatch.setenv("TERM", "dumb")
    with ProgressBar() as progress:
        progress("sections and coats", 0.5)
        assert progress._bar is not None
    assert capsys.readouterr().out == ""
