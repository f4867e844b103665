"""CGATS text: the notation, what is concluded from it, and the files of two Debian packages."""

import subprocess
from collections import Counter
from pathlib import Path

import pytest

from cases.measured_files import CGATS, faults
from cases.problems import answer_or_problems
from cases.speech import english
from laydown.reader.instrument.cgats import read_cgats
from laydown.reader.instrument.raw import Faults, lines_of
from laydown.reader.instrument.readings import decode_readings
from laydown.schema.reading import Columns, ReadingMap, Readings, SampleMeaning

PACKAGES = ("argyll-ref", "colord-data")
"""Debian packages with colour files of others; ./run test installs them."""

KINDS = {".ti1", ".ti2", ".cie", ".sp", ".cmf", ".cal", ".gam", ".cht"}


def read(text, mapping=None):
    return answer_or_problems(decode_readings, text.encode(), "panel.txt", mapping or ReadingMap())


def test_names_tell_what_was_read_and_wait_to_be_confirmed():
    found = read(CGATS)
    assert [(one.role, one.coats, one.zone, one.angle_deg) for one in found.readings] == [
        ("field", 2.0, "", 45.0),
        ("ground_ref", 0.0, "", 45.0),
        ("car", None, "front door", 45.0),
    ]
    assert [english(one.what) for one in found.understood] == [
        "'field 2 as45': field with 2 effect coats, 45 deg",
        "'ground as45': bare ground coat, 45 deg",
        "'car front_door as45': the car, zone 'front door', 45 deg",
    ]
    assert not any(one.confirmed for one in found.understood)
    assert all(one.confirmed for one in read(CGATS, ReadingMap(confirmed=True)).understood)


@pytest.mark.parametrize(
    ("name", "angle"),
    [
        ("field 2 as45", 45),
        ("Field_2_AS45", 45),
        ("as 110 field 2", 110),
        ("field 2 45deg", 45),
        ("field 2 45 degrees", 45),
        ("field 2, 45°", 45),
        ("field-2-45deg", 45),
        ("field 2 as-15", -15),
        ("field 2 as m15", -15),
        ("field 2 asm15", -15),
        ("field 2 -15 deg", -15),
        ("field 2 as15 reading 1", 15),
        ("field 2 r1 as15", 15),
    ],
)
def test_an_angle_stands_after_as_or_before_deg(name, angle):
    (one,) = [found for found in read(CGATS.replace("field 2 as45", name)).readings if found.role == "field"]
    assert (one.angle_deg, one.coats, one.zone, one.number) == (angle, 2, "", 1)


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("field 2", "the sample 'field 2' has no angle"),
        ("field 2 45", "the sample 'field 2 45' has no angle"),
        ("field 2 as45 as15", "the sample 'field 2 as45 as15' names several angles"),
        ("field 2 as50", "the angle 50 deg is not known"),
        ("patch as45", "the sample 'patch as45' does not say what was read"),
        ("car field 2 as45", "the sample 'car field 2 as45' does not say what was read"),
        ("carpet as45", "the sample 'carpet as45' does not say what was read"),
        ("field as45", "the sample 'field as45' does not say what was read"),
    ],
)
def test_a_name_that_says_too_little_or_too_much_is_refused(name, said):
    assert faults(read(CGATS.replace("field 2 as45", name)))["line 11"] == said


def test_keywords_in_small_letters_decimal_commas_tabs_and_commas_between_cells_are_the_same_file():
    want = read(CGATS).readings
    for other in (
        CGATS.lower(),
        CGATS.replace("93.5 -1.2 3.4", "93,5 -1,2 3,4"),
        CGATS.replace("93.5 -1.2 3.4", "93,5\t-1,2\t3,4"),
        CGATS.replace('1 "field 2 as45" 93.5 -1.2 3.4', '1,"field 2 as45",93.5,-1.2,3.4'),
        CGATS.replace('1 "field 2 as45" 93.5 -1.2 3.4', '1, "field 2 as45", 93.5, -1.2, 3.4'),
        CGATS.replace('1 "field 2 as45" 93.5 -1.2 3.4', '1;"field 2 as45";93,5;-1,2;3,4'),
        CGATS.replace("NUMBER_OF_FIELDS 5\n", ""),
        CGATS.replace("\n", "\r\n"),
        CGATS.replace("\n", '\n\n# a remark with one " quote\n'),
    ):
        assert read(other).readings == want


def test_a_quote_inside_a_text_is_doubled():
    table = read_cgats(
        ["BEGIN_DATA_FORMAT", "A B", "END_DATA_FORMAT", "BEGIN_DATA", '"5"" wide" 2', "END_DATA"], Faults()
    )
    assert table[0].rows[0][1] == ('5" wide', "2")


@pytest.mark.parametrize(
    ("old", "new", "where", "said"),
    [
        ("SETS 3", "SETS 4", "line 9", "NUMBER_OF_SETS is 4, the table has 3 rows"),
        ("SETS 3", "SETS three", "line 9", "NUMBER_OF_SETS is no whole number"),
        ("END_DATA\n", "", "file", "ends inside the block BEGIN_DATA of line 10"),
        ("END_DATA_FORMAT\n", "", "line 9", "begins BEGIN_DATA inside the block BEGIN_DATA_FORMAT of line 6"),
        ("93.5 -1.2 3.4", "93.5 -1.2", "line 11", "has 4 values for 5 fields"),
        ("93.5 -1.2 3.4", "93.5 -1.2 3.4 7", "line 11", "has 6 values for 5 fields"),
        ('"field 2 as45"', '"field 2 as45', "line 11", "has an opening quote without its end"),
        ("LAB_B", "LAB_A", "line 8", "the field 'LAB_A' is named twice"),
        ("LAB_B", "XYZ_Y", "table 1", "has no column LAB_B"),
        ("93.5 ", "251 ", "line 11", "L* 251 is outside 0 to 250"),
        ("93.5 ", "NaN ", "line 11", "L* is 'NaN', which is no number"),
        ("93.5 ", "1.234,5 ", "line 11", "L* is '1.234,5', which is no number"),
        ("D65", "D66", "table 1", "states the illuminant 'D66', which is not known"),
        ("10 degree", "5 degree", "table 1", "states the observer '5 degree', which is not known"),
        (
            'WEIGHTING_FUNCTION "ILLUMINANT, D65"\n',
            "",
            "file",
            "does not say for which illuminant and observer L*, a*",
        ),
    ],
)
def test_a_fault_is_told_with_its_line(old, new, where, said):
    assert faults(read(CGATS.replace(old, new, 1)))[where].startswith(said)


def test_a_mapping_says_what_the_header_does_not():
    text = CGATS.replace(
        'WEIGHTING_FUNCTION "ILLUMINANT, D65"\nWEIGHTING_FUNCTION "OBSERVER, 10 degree"\n', ""
    )
    found = read(text, ReadingMap(illuminant="D50", observer=2))
    assert {(one.illuminant, one.observer) for one in found.readings} == {("D50", 2)}
    against = faults(read(CGATS, ReadingMap(illuminant="D50", observer=2)))
    assert against == {"file": "holds no reading that can be used"}


def test_an_angle_may_stand_in_a_column_that_the_user_names():
    text = (
        CGATS.replace(" as45", "")
        .replace("SAMPLE_ID", "GEO")
        .replace("\n1 ", "\nas15 ")
        .replace("\n2 ", "\n15° ")
    )
    text = text.replace("\n3 ", "\n-15 ")
    found = read(text, ReadingMap(columns=Columns(angle="geo")))
    assert [one.angle_deg for one in found.readings] == [15, 15, -15]
    assert faults(read(text, ReadingMap(columns=Columns(angle="goe")))) == {
        "table 1": "has no column 'goe'"
    } | {
        f"line {n}": f"the sample '{name}' has no angle"
        for n, name in ((11, "field 2"), (12, "ground"), (13, "car front_door"))
    }


def test_one_table_for_each_angle_is_told_by_the_mapping_and_shown():
    table = CGATS.replace(" as45", "")
    second = table.split("WEIGHTING_FUNCTION", maxsplit=1)[0] + table[table.index("NUMBER_OF_FIELDS") :]
    found = read(table + second, ReadingMap(angles_deg=(15.0, 45.0)))
    assert [one.angle_deg for one in found.readings] == [15, 15, 15, 45, 45, 45]
    assert {one.illuminant for one in found.readings} == {"D65"}, "the header of an earlier table holds on"
    assert [(one.where, english(one.what)) for one in found.understood][:2] == [
        ("table 1", "all its rows at 15 deg"),
        ("table 2", "all its rows at 45 deg"),
    ]
    where = faults(read(table, ReadingMap(angles_deg=(15.0, 45.0))))
    assert where["angles_deg"] == "names 2 angles, the file has 1 tables with colours"


def test_repeats_are_counted_but_a_sample_id_stands_once():
    again = CGATS.replace("SETS 3", "SETS 4").replace("END_DATA\n", '4 "field 2 as45" 93.7 -1 3\nEND_DATA\n')
    again = again.replace("END_4", "4").replace("END_DATA_FORMAT\n", "END_DATA_FORMAT\n")
    assert [one.number for one in read(again).readings] == [1, 1, 1, 2]
    twice = again.replace('4 "field', '1 "field')
    assert faults(read(twice))["line 14"].startswith(
        "sample '1' has L*, a*, b* for D65 and 10 deg at 45 deg in line 11"
    )


def test_a_mapping_explains_and_ignores_samples():
    text = CGATS.replace("field 2", "Muster 2").replace("ground as45", "Kachel")
    told = ReadingMap(sample=(SampleMeaning("muster 2", "field", 2.5, "unten", "p9"),), ignore=("kachel",))
    found = read(text, told)
    assert [(one.panel, one.role, one.coats, one.zone) for one in found.readings] == [
        ("p9", "field", 2.5, "unten"),
        ("panel", "car", None, "front door"),
    ]


def test_spectra_keep_wavelengths_and_ask_whether_they_are_per_cent():
    text = CGATS.replace("LAB_L LAB_A LAB_B", "NM_400 NM_410 NM_420")
    assert "factors or per cent?" in faults(read(text.replace("-1.2", "1.2")))["line 11"]
    plain = text.replace("93.5 -1.2 3.4", "93.5 1.2 3.4")
    first = read(plain, ReadingMap(spectra="percent")).spectra[0]
    assert (first.spectrum.start_nm, first.spectrum.increment_nm) == (400, 10)
    assert first.spectrum.factors == pytest.approx((0.935, 0.012, 0.034))
    uneven = faults(read(plain.replace("NM_420", "NM_425")))
    assert uneven["table 1"] == "has spectra at uneven wavelengths"


@pytest.fixture(scope="module")
def files():
    listed = subprocess.run(["dpkg", "-L", *PACKAGES], capture_output=True, text=True, check=False)
    assert listed.returncode == 0, f"install {' and '.join(PACKAGES)}; ./run test does it"
    return [Path(line) for line in listed.stdout.split("\n") if Path(line).suffix in KINDS]


def test_tables_of_other_programs_are_read_to_the_last_row(files):
    # Counted by hand in the packages argyll-ref 2.3.1 and colord-data 1.4.6: 76 tables in CGATS notation and 23 chart
    # descriptions (.cht) in a notation of their own. The rows are counted here by the lines between the keywords.
    read_of, tables = Counter(), 0
    for path in files:
        problems = Faults()
        lines = lines_of(path.read_bytes(), problems)
        found = read_cgats(lines, problems)
        assert problems.listed() == (), f"{path.name}: {problems.listed()[:3]}"
        begins = [number for number, line in enumerate(lines) if line.strip() == "BEGIN_DATA"]
        ends = [number for number, line in enumerate(lines) if line.strip() == "END_DATA"]
        assert [len(table.rows) for table in found] == [
            sum(bool(line.strip()) and not line.strip().startswith("#") for line in lines[begin + 1 : end])
            for begin, end in zip(begins, ends, strict=True)
        ], path.name
        read_of[path.suffix == ".cht", bool(found)] += 1
        tables += len(found)
    assert read_of[False, False] == 0, "a file in CGATS notation gave no table"
    assert read_of[True, True] == 0, "a chart description gave a table"
    assert read_of[False, True] >= 76
    assert read_of[True, False] >= 23
    assert tables >= read_of[False, True]


def test_files_without_readings_of_a_panel_are_refused_in_clear_lines(files):
    for path in files:
        where = faults(answer_or_problems(decode_readings, path.read_bytes(), path.name, ReadingMap()))
        assert all(len(said) < 200 for said in where.values()), path.name


def test_a_colour_chart_gives_the_values_that_its_maker_lists(files):
    # Lab D50/2 of the 24 patches as listed by the maker (before 2014), from memory: dark skin 37.99 13.56 14.06,
    # white 96.54 -0.43 1.19, black 20.46 -0.08 -0.97.
    path = next(one for one in files if one.name == "ColorChecker.cie")
    names = {"A01": (37.986, 13.555, 14.059), "D01": (96.539, -0.425, 1.186), "D06": (20.461, -0.079, -0.973)}
    mapping = ReadingMap(
        illuminant="D50",
        observer=2,
        angles_deg=(45.0,),
        sample=tuple(SampleMeaning(name, "car", zone=name) for name in names),
        ignore=tuple(f"{row}0{n}" for row in "ABCD" for n in range(1, 7) if f"{row}0{n}" not in names),
    )
    found = decode_readings(path.read_bytes(), path.name, mapping)
    for one in found.readings:
        assert (one.lab_l, one.lab_a, one.lab_b) == pytest.approx(names[one.zone], abs=0.0051)
    assert len(found.readings) == 3


def test_spectra_of_the_cie_test_colours_are_those_of_another_library(files):
    from colour.quality.datasets import SDS_TCS  # noqa: PLC0415 - slow, for this test only

    path = next(one for one in files if one.name == "CIE-TCS.sp")
    other = SDS_TCS["CIE 1995"]  # three decimals; the file has two
    mapping = ReadingMap(
        angles_deg=(45.0,),
        sample=tuple(SampleMeaning(name, "field", number, name) for number, name in enumerate(other)),
        ignore=("TCS15",),
    )
    found = decode_readings(path.read_bytes(), path.name, mapping)
    assert isinstance(found, Readings), found[:3]
    assert len(found.spectra) == len(other) == 14
    for one in found.spectra:
        assert (one.spectrum.start_nm, one.spectrum.increment_nm) == (360, 5)
        assert one.spectrum.factors == pytest.approx(tuple(other[one.zone].values), abs=0.0051), one.zone


def test_a_name_as_long_as_a_page_and_a_header_as_long_as_a_book_are_no_burden():
    long = CGATS.replace("field 2 as45", "field 2 as45 " + "1" * 1_000_000)
    assert faults(read(long))["line 11"] == "its sample name has 1000013 letters"
    header = "".join(f"WORD_{number} 1\n" for number in range(100_000))
    other = "BEGIN_DATA_FORMAT\nRGB_R\nEND_DATA_FORMAT\nBEGIN_DATA\n1\nEND_DATA\n" * 1000
    assert read(header + CGATS + other).readings == read(CGATS).readings
