"""A job with its readings as one ZIP file: what is taken, what is refused, and how much of it is ever unpacked."""

import io
import struct
import subprocess
import sys
import tracemalloc
import zipfile
from dataclasses import replace
from pathlib import Path

import pytest

from cases.measured import own_table
from cases.speech import english
from laydown.desk.papers.archive import MOST_ENTRIES, is_archive, pack_job, unpack_job
from laydown.reader.files import decode_file, table_of
from laydown.reader.papers.job_file import SOURCE
from laydown.schema.job import Job
from laydown.schema.problem import InputError

JOB = (Path(__file__).parents[4] / "src" / "laydown" / "data" / "jobs" / "wing-and-door.toml").read_text()
NAMED = JOB.replace("[sample]", '[sample]\nreadings = "panel.csv"\nreadings_map = "panel-map.toml"')
TABLE = own_table().encode()
MAP = b'format = "laydown-readings/1"\nconfirmed = true\n'


def packed(entries, **how):
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", **how) as archive:
        for name, content in entries.items():
            archive.writestr(name, content)
    return made.getvalue()


def job_naming(readings):
    job = decode_file(Job, table_of(JOB, Path("job.toml")), Path("job.toml"), SOURCE).noun
    return replace(job, sample=replace(job.sample, readings=readings, readings_map="panel-map.toml"))


def unpack(content):
    return unpack_job(content, Path("job.zip"))


def problems(content):
    with pytest.raises(InputError) as refused:
        unpack(content)
    assert all(one.where and one.what and one.hint for one in refused.value.problems)
    return [f"{one.where}: {english(one.what)}" for one in refused.value.problems]


def test_what_is_packed_is_unpacked_and_the_same_job_gives_the_same_bytes():
    job = job_naming("panel.csv")
    files = {"panel.csv": TABLE, "panel-map.toml": MAP, "old.csv": b"not named"}
    content = pack_job(job, files)
    assert content == pack_job(job, dict(reversed(files.items())))
    raw, found = unpack(content)
    assert decode_file(Job, raw, Path("job.toml"), SOURCE).noun == job
    assert found == {"panel.csv": TABLE, "panel-map.toml": MAP}
    assert is_archive(content)
    assert not is_archive(NAMED.encode())


def test_the_archive_is_one_that_another_program_unpacks(tmp_path):
    job = job_naming("panel.csv")
    (tmp_path / "job.zip").write_bytes(pack_job(job, {"panel.csv": TABLE, "panel-map.toml": MAP}))
    # Python's own command line stands for the unzip of a system, in a process that knows nothing of laydown.
    subprocess.run([sys.executable, "-m", "zipfile", "-e", "job.zip", "there"], cwd=tmp_path, check=True)
    assert (tmp_path / "there" / "panel.csv").read_bytes() == TABLE


def test_a_file_that_is_called_like_the_job_does_not_replace_it():
    job = job_naming("job.toml")
    content = pack_job(job, {"job.toml": MAP, "panel-map.toml": MAP})
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        assert archive.namelist() == ["the-job.toml", "job.toml", "panel-map.toml"]
    assert unpack(content)[1] == {"job.toml": MAP, "panel-map.toml": MAP}


@pytest.mark.parametrize("folder", ["", "0417/", "a/b/"])
def test_a_folder_of_a_desktop_with_what_it_adds_is_taken(folder):
    entries = {
        f"{folder}my job.toml": NAMED,
        f"{folder}panel.csv": TABLE,
        f"{folder}panel-map.toml": MAP,
        f"{folder}notes.txt": "not named by the job",
        f"__MACOSX/{folder}._my job.toml": b"\x00\x05\x16\x07",
        f"{folder}.DS_Store": b"\x00",
        f"{folder}sub/": b"",
    }
    assert unpack(packed(entries))[1] == {"panel.csv": TABLE, "panel-map.toml": MAP}


def test_readings_in_a_folder_below_the_job_are_found_as_the_job_names_them():
    text = JOB.replace("[sample]", '[sample]\nreadings = "measured/./panel.csv"')
    assert unpack(packed({"x/job.toml": text, "x/measured/panel.csv": TABLE}))[1] == {
        "measured/./panel.csv": TABLE
    }


@pytest.mark.parametrize(
    "name", ["../panel.csv", "/etc/passwd", "C:/panel.csv", "..\\\\panel.csv", "a/../../panel.csv"]
)
def test_a_name_that_leads_out_of_the_archive_is_refused(name):
    text = JOB.replace("[sample]", f'[sample]\nreadings = "{name}"')
    said = problems(packed({"job.toml": text, "panel.csv": TABLE, name.replace("\\\\", "\\"): TABLE}))
    assert said[0].startswith("sample.readings: ")
    assert "lies elsewhere" in said[0]


def test_every_file_that_is_missing_is_named():
    said = problems(packed({"job.toml": NAMED, "other.csv": TABLE}))
    assert said == [
        "sample.readings: 'panel.csv' is not in the archive",
        "sample.readings_map: 'panel-map.toml' is not in the archive",
    ]


@pytest.mark.parametrize(
    ("entries", "part"),
    [
        ({}, "holds no job file"),
        ({"panel.csv": TABLE}, "holds no job file"),
        ({"a.toml": JOB, "b.toml": JOB}, "holds 2 jobs: a.toml, b.toml"),
        (
            {"job.toml": JOB, "p.toml": 'format = "laydown-product/1"'},
            "p.toml: is a product, not part of a job",
        ),
        ({"job.toml": "format = "}, "job.toml: file: end of the file: invalid value"),
        ({"job.toml": b"\xff\xfe\x00"}, "job.toml: file: is written in UTF-16"),
        ({f"{n}.txt": b"" for n in range(MOST_ENTRIES + 1)}, f"holds {MOST_ENTRIES + 1} files"),
    ],
)
def test_an_archive_without_exactly_one_sound_job_is_refused(entries, part):
    assert part in problems(packed(entries))[0]


@pytest.mark.parametrize("how", [{"compression": zipfile.ZIP_BZIP2}, {"compression": zipfile.ZIP_LZMA}])
def test_unusual_ways_of_packing_are_refused(how):
    assert "packed in an unusual way" in problems(packed({"job.toml": JOB}, **how))[0]


def test_an_encrypted_file_is_refused():
    content = bytearray(packed({"job.toml": JOB}))
    for mark, flags in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):
        content[content.index(mark) + flags] |= 1
    assert "is encrypted" in problems(bytes(content))[0]


@pytest.mark.parametrize("cut", [10, 100, -1, -30])
def test_a_damaged_archive_is_refused_in_words(cut):
    content = packed(
        {"job.toml": NAMED, "panel.csv": TABLE, "panel-map.toml": MAP}, compression=zipfile.ZIP_DEFLATED
    )
    assert "damaged ZIP file" in problems(content[:cut])[0]
    middle = bytearray(content)
    middle[200:260] = bytes(60)
    assert "damaged ZIP file" in problems(bytes(middle))[0]


def peak_of(call):
    tracemalloc.start()
    try:
        call()
        return tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()


def test_a_bomb_is_refused_before_it_is_unpacked():
    bomb = packed({"job.toml": NAMED, "panel.csv": b"0" * 400_000_000}, compression=zipfile.ZIP_DEFLATED)
    assert len(bomb) < 500_000
    assert peak_of(lambda: problems(bomb)) < 20_000_000
    assert "would unpack to 400 MB" in problems(bomb)[0]


def test_a_bomb_that_lies_about_its_size_is_refused_too():
    bomb = bytearray(
        packed({"job.toml": NAMED, "panel.csv": b"0" * 400_000_000}, compression=zipfile.ZIP_DEFLATED)
    )
    # Both heads say 1000 bytes; APPNOTE.TXT 4.3.7 and 4.3.12: the size stands at 22 and at 24.
    for mark, size in ((b"PK\x03\x04", 22), (b"PK\x01\x02", 24)):
        at = bomb.rindex(mark)
        bomb[at + size : at + size + 4] = struct.pack("<I", 1000)
    assert peak_of(lambda: problems(bytes(bomb))) < 20_000_000
    assert "damaged ZIP file" in problems(bytes(bomb))[0]


def test_readings_that_are_larger_than_readings_may_be_are_refused():
    text = JOB.replace("[sample]", '[sample]\nreadings = "panel.csv"')
    assert "is larger than 5 MB" in problems(packed({"job.toml": text, "panel.csv": b"x" * 5_000_001}))[0]
