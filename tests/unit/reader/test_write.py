"""Files are written whole or not at all."""

import errno
import os

import pytest

from cases.speech import english
from laydown.reader import write
from laydown.reader.write import write_file, write_folder
from laydown.schema.problem import InputError


def told(call):
    with pytest.raises(InputError) as caught:
        call()
    (problem,) = caught.value.problems
    return english(problem.what)


def test_a_file_is_replaced_whole(tmp_path):
    path = tmp_path / "a.txt"
    write_file(path, b"old")
    write_file(path, b"new")
    assert path.read_bytes() == b"new"
    assert [item.name for item in tmp_path.iterdir()] == ["a.txt"]


def test_a_full_disk_leaves_the_old_file_and_nothing_else(tmp_path, monkeypatch):
    path = tmp_path / "a.txt"
    write_file(path, b"old")

    def full(descriptor):
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(write.os, "fsync", full)
    assert "disk is full" in told(lambda: write_file(path, b"new"))
    assert path.read_bytes() == b"old"
    assert [item.name for item in tmp_path.iterdir()] == ["a.txt"]


def test_a_folder_gets_all_files_or_none(tmp_path, monkeypatch):
    calls = []
    real = os.fsync

    def second_fails(descriptor):
        calls.append(descriptor)
        if len(calls) == 2:
            raise OSError(errno.ENOSPC, "No space left on device")
        real(descriptor)

    monkeypatch.setattr(write.os, "fsync", second_fails)
    assert "disk is full" in told(lambda: write_folder(tmp_path / "out", {"a": b"1", "b": b"2", "c": b"3"}))
    assert list((tmp_path / "out").iterdir()) == []


def test_a_stop_in_the_middle_leaves_nothing_half_written(tmp_path, monkeypatch):
    def stop(descriptor):
        raise KeyboardInterrupt

    monkeypatch.setattr(write.os, "fsync", stop)
    with pytest.raises(KeyboardInterrupt):
        write_file(tmp_path / "a.txt", b"new")
    assert list(tmp_path.iterdir()) == []


def test_a_folder_below_a_file_is_refused(tmp_path):
    (tmp_path / "file").write_text("x")
    assert "not a folder" in told(lambda: write_folder(tmp_path / "file" / "out", {"a": b"1"}))
    assert "is a file" in told(lambda: write_folder(tmp_path / "file", {"a": b"1"}))


def test_a_disk_that_takes_no_files_is_told():
    # /proc takes no new files from anybody, root included.
    assert told(lambda: write_folder(write.Path("/proc/laydown"), {"a": b"1"}))
    assert told(lambda: write_file(write.Path("/proc/laydown.txt"), b"1"))


def test_a_folder_or_a_device_is_no_place_for_a_file(tmp_path):
    assert "is a folder" in told(lambda: write_file(tmp_path, b"1"))
    assert "not a plain file" in told(lambda: write_file(write.Path("/dev/null"), b"1"))


def test_a_missing_folder_is_told_for_a_single_file(tmp_path):
    assert "does not exist" in told(lambda: write_file(tmp_path / "no" / "a.txt", b"1"))


def test_a_link_stays_a_link(tmp_path):
    (tmp_path / "real.txt").write_bytes(b"old")
    (tmp_path / "link.txt").symlink_to(tmp_path / "real.txt")
    write_file(tmp_path / "link.txt", b"new")
    assert (tmp_path / "link.txt").is_symlink()
    assert (tmp_path / "real.txt").read_bytes() == b"new"
