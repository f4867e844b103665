"""A mapping written and read again, and the samples a person is asked about."""

from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from cases.measured_files import CGATS
from laydown.reader.files import table_of
from laydown.reader.instrument.mapping import USUAL_MAP, decode_reading_map, reading_map_text
from laydown.reader.instrument.readings import look_into
from laydown.schema.reading import Columns, ReadingMap, SampleMeaning

NAMES = st.text(
    st.characters(codec="utf-8", exclude_categories=("Cc", "Cs", "Zl", "Zp")), min_size=1, max_size=60
).filter(lambda text: text.strip() == text)
ANGLES = st.lists(st.floats(-90, 180, allow_subnormal=False), max_size=4).map(tuple)


def meaning(role):
    coats = st.floats(0, 20) if role == "field" else st.none()
    return st.builds(SampleMeaning, NAMES, st.just(role), coats, st.just("") | NAMES, st.none() | NAMES)


@given(
    st.builds(
        ReadingMap,
        panel=NAMES,
        illuminant=st.sampled_from([None, "D65", "F11"]),
        observer=st.sampled_from([None, 2, 10]),
        angles_deg=ANGLES,
        other_angles_deg=ANGLES,
        spectra=st.sampled_from([None, "factor", "percent"]),
        columns=st.builds(Columns, angle=st.none() | NAMES, sample=st.none() | NAMES),
        sample=st.lists(st.sampled_from(["field", "ground_ref", "car"]).flatmap(meaning), max_size=3).map(
            tuple
        ),
        ignore=st.lists(NAMES, max_size=3).map(tuple),
        confirmed=st.booleans(),
    )
)
def test_a_mapping_that_is_written_reads_back_the_same(mapping):
    text = reading_map_text(mapping)
    assert decode_reading_map(table_of(text, Path("map.toml")), Path("map.toml")) == mapping


def test_a_mapping_in_which_nothing_was_said_is_one_line():
    assert reading_map_text(USUAL_MAP) == 'format = "laydown-readings/1"\n'


def test_each_sample_is_asked_about_once_and_what_is_known_is_filled_in():
    looked = look_into(CGATS.replace('"ground as45"', '"lower left as45"').encode(), "panel.txt")
    assert [(one.name, one.count, one.where, one.spot and one.spot.role) for one in looked.samples] == [
        ("field 2", 1, "line 11", "field"),
        ("lower left", 1, "line 12", None),
        ("car front door", 1, "line 13", "car"),
    ]
    assert (looked.readings, looked.asked, looked.only_asked) == (None, {"sample"}, True)


def test_a_sample_that_is_left_out_is_not_asked_about():
    looked = look_into(CGATS.encode(), "panel.txt", ReadingMap(ignore=("ground",)))
    assert [one.name for one in looked.samples] == ["field 2", "car front door"]


def test_a_fault_that_no_answer_mends_is_told_apart_from_questions():
    lower = CGATS.replace('"ground as45"', '"lower left as45"')
    assert look_into(lower.encode(), "x").only_asked
    assert not look_into(lower.replace("93.5", "bright").encode(), "x").only_asked
    assert look_into(CGATS.replace("as45", "as20").encode(), "x").asked == {"angle"}
    assert look_into(CGATS.replace("as45", "").encode(), "x").asked == {"angle"}
    no_light = "\n".join(line for line in CGATS.splitlines() if not line.startswith("WEIGHTING"))
    assert look_into(no_light.encode(), "x").asked == {"light"}
