import json
import tomllib

import pytest

from laydown.reader.papers.job_text import save_table
from laydown.schema.problem import InputError

TEXT = """# my job
format = "laydown-job/1"   # first

[sample]        # panel
zone = 'roof'   # R. said so

[limits]
dft = 1 # last
"""


def saved(path, text, values):
    path.write_text(text)
    save_table(path, "sample", values)
    return path.read_text()


def test_values_change_and_comments_and_other_tables_stay(tmp_path):
    after = saved(tmp_path / "job.toml", TEXT, {"zone": "side", "face": ["few", "match"]})
    for comment in ("# my job", "# first", "# panel", "# R. said so", "# last"):
        assert comment in after
    assert tomllib.loads(after)["sample"] == {"zone": "side", "face": ["few", "match"]}
    assert after.index("[sample]") < after.index("[limits]")


def test_a_missing_table_is_added_at_the_end(tmp_path):
    after = saved(tmp_path / "job.toml", 'a = 1 # keep\n[limits]\nb = "ü"\n', {"zone": "side"})
    assert tomllib.loads(after) == {"a": 1, "limits": {"b": "ü"}, "sample": {"zone": "side"}}
    assert "# keep" in after


@pytest.mark.parametrize("text", ['sample.zone = "roof"\n', 'sample = {zone = "roof"}\n', "", "[sample]"])
def test_a_table_in_any_notation_is_found(tmp_path, text):
    after = saved(tmp_path / "job.toml", text, {"zone": "side", "coats": [0, 2.5]})
    assert tomllib.loads(after)["sample"] == {"zone": "side", "coats": [0, 2.5]}


def test_json_stays_json(tmp_path):
    after = saved(tmp_path / "job.json", '{"sample": {"zone": "a"}, "x": 1}', {"zone": "b"})
    assert json.loads(after) == {"sample": {"zone": "b"}, "x": 1}


@pytest.mark.parametrize("text", ["sample = 3\n", "[[sample]]\nzone = 'a'\n", "sample = [\n"])
def test_a_file_in_which_the_table_cannot_be_changed_stays_as_it_was(tmp_path, text):
    path = tmp_path / "job.toml"
    path.write_text(text)
    with pytest.raises(InputError):
        save_table(path, "sample", {"zone": "b"})
    assert path.read_text() == text
    assert list(tmp_path.iterdir()) == [path]
