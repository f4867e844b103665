"""The schemas accept what laydown ships and refuse what it refuses."""

import json
import tomllib
from datetime import date

import jsonschema
import pytest

from laydown.reader.encode import to_json
from laydown.reader.json_schema import NOUNS, json_schema
from laydown.reader.papers.shelf import shipped_folder
from laydown.trade.side.build import build_side
from laydown.trade.side.measures import SHAPES

FILES = sorted(shipped_folder().glob("jobs/*.toml")) + sorted(shipped_folder().glob("shelf/*.toml"))


def validator(kind):
    return jsonschema.Draft202012Validator(json_schema(kind))


@pytest.mark.parametrize("kind", NOUNS)
def test_a_schema_is_a_schema(kind):
    jsonschema.Draft202012Validator.check_schema(json_schema(kind))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_what_ships_is_valid(path):
    raw = json.loads(json.dumps(tomllib.loads(path.read_text()), default=date.isoformat))
    validator("job" if path.parent.name == "jobs" else "product").validate(raw)


@pytest.mark.parametrize("shape", SHAPES)
def test_a_built_side_is_valid(shape):
    validator("side").validate(json.loads(to_json(build_side(shape, {}))))


@pytest.mark.parametrize(
    "change",
    [
        {"painters": 3},
        {"painters": "one"},
        {"side": "up"},
        {"sied": "left"},
        {"refill_s": 1e6},
        {"name": "x" * 99},
    ],
)
def test_what_the_reader_refuses_the_schema_refuses(change):
    raw = tomllib.loads((shipped_folder() / "jobs" / "white-pearl-left.toml").read_text())
    raw["job"] |= change
    assert not validator("job").is_valid(raw)


def test_the_schema_says_what_a_field_means_in_the_words_of_the_program():
    described = json_schema("job")["$defs"]["Gun"]["properties"]
    assert described["flow_g_s"]["description"].startswith("Paint flow with this nozzle [g/s]")
    assert described["fan_m"]["description"] == described["distance_m"]["description"]
