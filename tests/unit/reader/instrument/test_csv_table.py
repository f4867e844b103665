"""The program's own table of readings, tables with other columns, and what holds for every format."""

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cases.measured_files import CGATS, OWN, cxf, faults, lab, specification, thing
from cases.problems import answer_or_problems
from cases.speech import english
from laydown.reader.files import read_table
from laydown.reader.instrument.mapping import decode_reading_map
from laydown.reader.instrument.readings import decode_readings
from laydown.schema.problem import InputError
from laydown.schema.reading import KNOWN_ANGLES_DEG, Columns, Reading, ReadingMap, Readings, SampleMeaning


def read(text, mapping=None, encoding="utf-8"):
    return answer_or_problems(decode_readings, text.encode(encoding), "panel.csv", mapping or ReadingMap())


def test_each_row_is_a_reading_and_what_is_left_out_is_d65_and_10():
    found = read(OWN)
    assert found.readings[0] == Reading("p1", "field", 0.0, "", 1, 15.0, 103.2, -1.1, 2.5, "D65", 10)
    assert [(one.role, one.coats) for one in found.readings] == [
        ("field", 0.0),
        ("field", 2.5),
        ("ground_ref", 0.0),
        ("car", None),
        ("car", None),
    ]
    assert found.readings[4].number == 2
    assert found.source == "panel.csv"
    assert found.understood == ()


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
@pytest.mark.parametrize("mark", [";", "\t"])
def test_decimal_commas_and_encodings_of_spreadsheets_give_the_same_readings(encoding, mark):
    text = OWN.replace("front door", "Tür links")
    german = text.replace(",", mark).replace(".", ",")
    assert read(german, encoding=encoding).readings == read(text).readings
    with_lines = "# invented\r\nsep=" + mark + "\r\n" + german.replace("\n", "\r\n")
    assert read(with_lines, encoding=encoding).readings == read(text).readings


def test_lightness_above_100_is_kept_as_it_is():
    assert read(OWN.replace("103.2", "131.7")).readings[0].lab_l == 131.7


@pytest.mark.parametrize(
    ("old", "new", "line", "said"),
    [
        ("103.2", "-0.1", 2, "L* −0.1 is outside 0 to 250"),
        ("103.2", "250.1", 2, "L* 250.1 is outside 0 to 250"),
        ("-1.1,2.5", "201,2.5", 2, "a* 201 is outside −200 to 200"),
        ("-1.1,2.5", "0,-200.5", 2, "b* −200.5 is outside −200 to 200"),
        ("103.2", "nan", 2, "L* is 'nan', which is no number"),
        ("103.2", "inf", 2, "L* is 'inf', which is no number"),
        ("103.2", "1e999", 2, "L* is '1e999', which is no number"),
        ("103.2", "", 2, "L* is '', which is no number"),
        ("103.2", "103,2", 2, "has 10 cells, line 1 names 9"),
        ("1,15,103.2", "1,51,103.2", 2, "the angle 51 deg is not known"),
        ("1,15,103.2", "1,face,103.2", 2, "angle_deg is 'face', which is no angle"),
        ("1,15,103.2", "0,15,103.2", 2, "reading is '0'"),
        ("1,15,103.2", "1.5,15,103.2", 2, "reading is '1.5'"),
        ("p1,field,0", "p1,field,", 2, "is a field without coats"),
        ("p1,field,0", "p1,field,-1", 2, "−1 coats are outside 0 to 20"),
        ("p1,field,0", "p1,field,two", 2, "coats is 'two', which is no number"),
        ("p1,field,0", ",field,0", 2, "names no panel"),
        ("p1,field,0", "p1,fields,0", 2, "the role 'fields' is not known"),
        ("p1,ground_ref,", "p1,ground_ref,1", 4, "is bare ground with effect coats on it"),
        ("p1,car,,front door,1", "p1,car,3,front door,1", 5, "counts the coats of the car"),
        ("front door,2", "front door,1", 6, "repeats line 5: same spot, angle and reading number 1"),
        ("front door,2", '"front door,2', 6, "cannot be parted into cells"),
        ("front door,2", "x" * 61 + ",2", 6, f"the zone '{'x' * 39}…' cannot be a name"),
    ],
)
def test_a_fault_is_told_with_its_line_and_nothing_is_read(old, new, line, said):
    where = faults(read(OWN.replace(old, new, 1)))
    assert where[f"line {line}"][:38] == said[:38]


def test_all_faults_come_at_once_and_by_line():
    found = read(OWN.replace("103.2", "x").replace("70.4", "-3").replace("p1,ground_ref", "p1,grnd"))
    assert [one.where for one in found] == ["line 2", "line 3", "line 4"]


@pytest.mark.parametrize(
    ("header", "said"),
    [
        ("panel,role,coats,zone,reading,angle_deg,L,a", "the column 'b' is missing"),
        ("panel,role,coats,zone,reading,angle,L,a,b", "the column 'angle_deg' is missing"),
        ("panel,role,coats,zone,reading,angle_deg,L,a,b,b", "the column 'b' stands twice"),
        ("panel,role,coats,zone,reading,angle_deg,L,a,b,gloss", "the column 'gloss' is not known"),
    ],
)
def test_columns_that_do_not_fit_are_named(header, said):
    assert faults(read(header + "\n"))["line 1"] == said


def test_illuminants_and_observers_are_never_mixed():
    rows = ["illuminant,observer", "D65,10", "D65,10", "D50,10", "D65,2", "D65,10", ""]
    text = "\n".join(f"{line},{extra}" for line, extra in zip(OWN.split("\n"), rows, strict=True))
    where = faults(read(text.rstrip(",")))
    assert where["line 4"] == "is measured for D50 and 10 deg, line 2 for D65 and 10 deg"
    assert where["line 5"] == "is measured for D65 and 2 deg, line 2 for D65 and 10 deg"


def test_a_mapping_that_names_the_conditions_takes_those_and_says_how_many_it_left():
    text = OWN.replace(",b\n", ",b,illuminant,observer\n").replace("2.5\n", "2.5,D50,2\n")
    text = "\n".join(f"{line},," if line.count(",") == 8 else line for line in text.strip().split("\n"))
    found = read(text, ReadingMap(illuminant="D65", observer=10))
    assert len(found.readings) == 4
    assert english(found.understood[0].what).startswith("1 values left out")
    assert not found.understood[0].confirmed


def test_columns_of_another_program_are_named_once():
    text = "Probe;Winkel;Helligkeit;Rot;Gelb;Glanz\nField 2;15°;93,5;-1,2;3,4;90\nWagen;15°;91;-1;3;88\n"
    columns = Columns(sample="Probe", angle="winkel", lightness="Helligkeit", a="Rot", b="Gelb")
    mapping = ReadingMap(panel="p7", columns=columns, sample=(SampleMeaning("wagen", "car", zone="Tür"),))
    found = read(text, mapping)
    assert found.readings[0] == Reading("p7", "field", 2.0, "", 1, 15.0, 93.5, -1.2, 3.4)
    assert (found.readings[1].role, found.readings[1].zone) == ("car", "Tür")
    assert [one.confirmed for one in found.understood] == [False, True], (
        "the name was guessed, the car was told"
    )


def mapping_in(path):
    return decode_reading_map(read_table(path), path)


def test_a_mapping_is_read_from_a_file_with_every_problem_at_once(tmp_path):
    path = tmp_path / "map.toml"
    path.write_text(
        'format = "laydown-readings/1"\npanel = "p7"\nilluminant = "D50"\nobserver = 2\nangles_deg = [15, 45]\n'
        'ignore = ["tile"]\n[columns]\nangle = "GEO"\n[[sample]]\nname = "Muster 2"\nrole = "field"\ncoats = 2\n'
    )
    found = mapping_in(path)
    assert found.sample == (SampleMeaning("Muster 2", "field", 2.0),)
    assert (found.angles_deg, found.columns.angle, found.observer) == ((15.0, 45.0), "GEO", 2)
    path.write_text('illuminant = "D66"\nobserver = 5\n[[sample]]\nname = "x"\nrole = "field"\n')
    with pytest.raises(InputError) as raised:
        mapping_in(path)
    assert [one.where for one in raised.value.problems] == ["illuminant", "observer", "sample[1]"]
    path.write_text('format = "laydown-job/1"\n')
    with pytest.raises(InputError, match="1 problem"):
        mapping_in(path)


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (b"", "is empty"),
        (b"hello\nworld\n", "holds no readings"),
        (b"\x00\x01\x02", "is not a text file"),
        (b"\xff\xfe\x00", "is not a text file"),
        (b"\x81\x8d\x8f", "is not a text file"),
        (b"x" * 5_000_001, "is larger than 5 MB"),
        (OWN.split("\n", maxsplit=1)[0].encode(), "holds no reading that can be used"),
    ],
)
def test_what_holds_no_readings_is_said_so(data, said):
    assert faults(answer_or_problems(decode_readings, data, "x", ReadingMap()))["file"] == said


def test_a_large_damaged_file_is_refused_in_a_short_list():
    found = read(OWN + "p1,field,1,,1,45,x,y,z\n" * 20_000)
    assert len(found) == 201
    assert "further problems" in english(found[-1].what)


NAMES = st.text(st.characters(codec="utf-8", categories=("L", "N", "P", "S")), min_size=1, max_size=20)
WHOLE = OWN.encode(), CGATS.encode(), cxf(thing("car", lab((9, 1, 2), "as45")), specification(45)).encode()


@st.composite
def readings(draw):
    role = draw(st.sampled_from(["field", "ground_ref", "car"]))
    coats = {"field": draw(st.floats(0, 20)), "ground_ref": 0.0, "car": None}[role]
    return (
        draw(NAMES),
        role,
        coats,
        draw(st.just("") | NAMES),
        draw(st.integers(1, 999)),
        draw(st.sampled_from(KNOWN_ANGLES_DEG)),
        draw(st.floats(0, 250)),
        draw(st.floats(-200, 200)),
        draw(st.floats(-200, 200)),
    )


@given(st.binary(max_size=300))
def test_no_bytes_end_in_a_traceback(data):
    assert answer_or_problems(decode_readings, data, "x", ReadingMap())


@given(st.sampled_from(WHOLE), st.lists(st.tuples(st.integers(0, 1200), st.binary(max_size=3)), max_size=6))
def test_damaged_files_are_read_or_refused_but_never_end_in_a_traceback(data, damage):
    for place, piece in damage:
        data = data[:place] + piece + data[place + len(piece) + 1 :]
    found = answer_or_problems(decode_readings, data, "x", ReadingMap())
    assert isinstance(found, Readings) or found


@given(st.sampled_from(WHOLE), st.integers(0, 1500))
def test_a_file_that_was_cut_off_never_gives_a_reading_that_differs(data, end):
    whole = answer_or_problems(decode_readings, data, "x", ReadingMap())
    cut = answer_or_problems(decode_readings, data[:end], "x", ReadingMap())
    if isinstance(cut, Readings) and end < len(data) and data[:end].endswith(b"\n"):
        assert set(cut.readings) <= set(whole.readings)


def test_the_table_and_the_mapping_in_the_documentation_are_read(tmp_path):
    page = (Path(__file__).parents[4] / "docs" / "howto" / "read-a-measured-panel.md").read_text(
        encoding="utf-8"
    )
    table = re.search(r"```\n(panel,role.*?)```", page, re.DOTALL)[1]
    assert len(read(table).readings) == 5
    path = tmp_path / "map.toml"
    path.write_text(
        re.search(r'```toml\n(format = "laydown-readings/1".*?)```', page, re.DOTALL)[1], encoding="utf-8"
    )
    assert [one.name for one in mapping_in(path).sample] == ["lower left", "door"]
