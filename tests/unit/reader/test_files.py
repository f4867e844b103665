"""Everything that can be wrong with a file before its fields are read."""

import os

import pytest

from cases.speech import english
from laydown.reader.files import read_table
from laydown.schema.problem import InputError


def fault(path, largest=2_000_000):
    with pytest.raises(InputError) as caught:
        read_table(path, largest)
    assert caught.value.file == str(path)
    (problem,) = caught.value.problems
    assert problem.where == "file"
    return f"{english(problem.what)} | {english(problem.hint)}"


def written(tmp_path, content, name="job.toml"):
    path = tmp_path / name
    path.write_bytes(content if isinstance(content, bytes) else content.encode())
    return path


def test_a_missing_file_is_told_with_its_likely_name(tmp_path):
    written(tmp_path, "", "monday-job.toml")
    assert "did you mean" in fault(tmp_path / "mondy-job.toml")
    assert "monday-job.toml" in fault(tmp_path / "mondy-job.toml")


def test_a_folder_is_no_file(tmp_path):
    assert "is a folder" in fault(tmp_path)


def test_a_path_below_a_file_is_told(tmp_path):
    assert "not a folder" in fault(written(tmp_path, "") / "job.toml")


def test_a_link_in_a_circle_is_told(tmp_path):
    (tmp_path / "a.toml").symlink_to(tmp_path / "b.toml")
    (tmp_path / "b.toml").symlink_to(tmp_path / "a.toml")
    assert "leads back to itself" in fault(tmp_path / "a.toml")


def test_a_pipe_is_refused_instead_of_waited_for(tmp_path):
    os.mkfifo(tmp_path / "job.toml")
    assert "not a plain file" in fault(tmp_path / "job.toml")


def test_a_name_no_file_can_have_is_told(tmp_path):
    assert "no name a file can have" in fault(tmp_path / "a\0b.toml")
    assert "too long" in fault(tmp_path / ("x" * 300))


def test_a_file_beyond_all_measure_is_not_read(tmp_path):
    assert "larger than" in fault(written(tmp_path, b"#" * 2_000_001))


@pytest.mark.parametrize(
    ("content", "words"),
    [
        ('name = "Türkis"'.encode("cp1252"), "byte 0xfc in line 1, column 10"),
        ("a = 1".encode("utf-16"), "UTF-16"),
        ("a = 1".encode("utf-16-le") + b"", "zero bytes"),
        (b"a = 1\nb = '\xff'", "line 2, column 6"),
    ],
)
def test_another_encoding_is_told_with_advice(tmp_path, content, words):
    found = fault(written(tmp_path, content))
    assert words in found
    assert "UTF-8" in found


def test_a_byte_order_mark_is_no_fault(tmp_path):
    assert read_table(written(tmp_path, b"\xef\xbb\xbfa = 1")) == {"a": 1}


@pytest.mark.parametrize(
    ("content", "words"),
    [
        ("a = 1\nrh = 55 %", "line 2, column"),
        ("a = 1\na = 2", "stands twice"),
        ("rh = 55%25", "line 1"),
        ("a = [1,", "end of the file"),
        (f"a = {'9' * 5000}", "mend the notation"),
    ],
)
def test_a_fault_of_the_toml_notation_is_told_with_its_line(tmp_path, content, words):
    assert words in fault(written(tmp_path, content))


@pytest.mark.parametrize(
    ("content", "words"),
    [
        ('{"a": 1,\n "b": }', "line 2, column 7"),
        ("[1, 2]", "does not hold a table"),
        ("[" * 100_000, "hundreds deep"),
        ('{"a": 1, "a": 2}', "'a' stands twice"),
        ('{"a": ' + "9" * 5000 + "}", "mend the notation"),
    ],
)
def test_a_fault_of_the_json_notation_is_told(tmp_path, content, words):
    assert words in fault(written(tmp_path, content, "plan.json"))
