"""The version in the program is the version of the project."""

import tomllib
from pathlib import Path

from laydown.version import VERSION


def test_program_and_project_state_the_same_version():
    project = tomllib.loads((Path(__file__).parents[2] / "pyproject.toml").read_text())
    assert project["project"]["version"] == VERSION
