"""What Python programs may use: each public name is documented with an example that runs, and importing costs nothing."""

import doctest
import inspect
import re
import subprocess
import sys
from dataclasses import replace

import pytest

import laydown
from laydown import interface
from rules.source_tree import DOCS

FUNCTIONS = [name for name in laydown.__all__ if inspect.isfunction(getattr(laydown, name))]


def test_every_public_name_is_there_and_listed():
    assert {name: hasattr(laydown, name) for name in laydown.__all__} == dict.fromkeys(laydown.__all__, True)
    assert set(laydown.__all__) <= set(dir(laydown))
    with pytest.raises(AttributeError, match="no attribute 'spray'"):
        _ = laydown.spray


@pytest.mark.parametrize("name", FUNCTIONS)
def test_a_public_function_is_documented_with_an_example(name):
    text = inspect.getdoc(getattr(laydown, name))
    for heading in ("Parameters", "Returns", "Examples"):
        assert re.search(rf"^{heading}\n-+$", text, re.MULTILINE), f"{name}: {heading}"
    documented = re.findall(r"^\*{0,2}(\w+(?:, \w+)*)\n    ", text[text.index("Parameters") :], re.MULTILINE)
    taken = set(inspect.signature(getattr(laydown, name)).parameters)
    assert taken <= {one for line in documented for one in line.split(", ")}


def test_the_examples_run():
    found = doctest.testmod(interface)
    assert found.attempted >= len(FUNCTIONS)
    assert found.failed == 0


def test_importing_loads_no_planner():
    done = subprocess.run(
        [sys.executable, "-c", "import laydown, sys; print('numpy' in sys.modules, 'typst' in sys.modules)"],
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stdout.split() == ["False", "False"]


def test_the_page_about_python_runs_as_it_is_printed(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    names = {}
    page = (DOCS / "reference" / "python.md").read_text("utf-8")
    pieces = re.findall(r"```python\n(.*?)```", page, re.DOTALL)
    assert len(pieces) >= 4
    for piece in pieces:
        exec(compile(piece, "python.md", "exec"), names)


def test_a_refusal_says_below_the_traceback_what_is_wrong():
    job = laydown.read_job(laydown.EXAMPLE)
    with pytest.raises(laydown.InputError) as refused:
        laydown.plan(replace(job, panel=()))
    assert refused.value.__notes__ == [
        "panel: lists no panel; write one [[panel]] for each panel that is touched"
    ]


def test_a_job_that_was_read_gives_the_plan_of_its_file():
    assert laydown.plan(laydown.read_job(laydown.EXAMPLE)) == laydown.plan(laydown.EXAMPLE)


def test_a_folder_beside_a_job_file_is_refused(tmp_path):
    for call in (laydown.plan, laydown.what_if):
        with pytest.raises(ValueError, match="lies beside it"):
            call(laydown.EXAMPLE, folder=tmp_path)
