"""CxF3: what is read, what is refused, and the same values by another reader."""

import sys

import pytest

from cases.measured_files import SPACE, cxf, faults, lab, specification, spectrum, thing
from cases.problems import answer_or_problems
from cases.speech import english
from laydown.reader.instrument.readings import decode_readings
from laydown.schema.reading import ReadingMap, Readings, SampleMeaning, Spectrum

ANGLES = (15, 45, 110)
VALUES = {15: (104.125, -1.5, 4.25), 45: (71.5, -0.75, 2.0), 110: (52.0, 0.25, -3.5)}
SPECIFICATIONS = "".join(specification(angle) for angle in ANGLES)
FIELD = thing("field 2", "".join(lab(VALUES[angle], f"as{angle}") for angle in ANGLES))
CAR = thing("car rear door", spectrum((0.81, 0.92, 1.07), "as45"))


def read(text, mapping=None):
    return answer_or_problems(decode_readings, text.encode(), "panel.cxf", mapping or ReadingMap())


def test_each_value_has_the_angle_of_its_specification():
    found = read(cxf(FIELD + CAR, SPECIFICATIONS))
    assert {one.angle_deg: (one.lab_l, one.lab_a, one.lab_b) for one in found.readings} == VALUES
    assert {(one.role, one.coats, one.illuminant, one.observer) for one in found.readings} == {
        ("field", 2.0, "D65", 10)
    }
    (one,) = found.spectra
    assert (one.role, one.zone, one.angle_deg) == ("car", "rear door", 45)
    assert one.spectrum == Spectrum(400, 10, (0.81, 0.92, 1.07))
    assert [one.confirmed for one in found.understood] == [False, False]


def test_a_spectrum_beside_its_colour_is_left_out_and_said_so():
    both = thing("car", lab((70, 1, 2), "as45") + spectrum((0.5, 0.6), "as45"))
    found = read(cxf(both, SPECIFICATIONS))
    assert (len(found.readings), len(found.spectra)) == (1, 0)
    assert english(found.understood[-1].what).startswith("1 spectra left out")


def test_objects_of_one_name_are_repeats():
    objects = thing("car", lab((70, 1, 2), "as45"), "i1") + thing("car", lab((71, 1, 2), "as45"), "i2")
    assert [one.number for one in read(cxf(objects, SPECIFICATIONS)).readings] == [1, 2]


def test_other_lights_and_directions_are_left_out_and_said_so():
    extra = specification(45, "aside", extra="<Azimuth>90</Azimuth>")
    steep = specification(45, "steep").replace("<IlluminationAngle>45", "<IlluminationAngle>15")
    values = lab((70, 1, 2), "as45") + lab((60, 1, 2), "aside") + lab((50, 1, 2), "steep")
    found = read(cxf(thing("car", values), SPECIFICATIONS + extra + steep))
    assert [one.lab_l for one in found.readings] == [70]
    assert [english(one.what) for one in found.understood[:2]] == [
        "ColorCIELab left out: seen out of the plane of the light (azimuth 90 deg)",
        "ColorCIELab left out: lit at 15 deg instead of 45 deg",
    ]


def test_two_conditions_are_refused_until_the_user_chooses():
    other = specification(45, "d50", "D50", "2_Degree")
    text = cxf(thing("car", lab((70, 1, 2), "as45") + lab((71, 2, 3), "d50")), SPECIFICATIONS + other)
    assert "is measured for D50 and 2 deg" in faults(read(text))["object 'car'"]
    assert read(text, ReadingMap(illuminant="D50", observer=2)).readings[0].lab_l == 71


@pytest.mark.parametrize(
    ("objects", "specifications", "where", "said"),
    [
        (
            thing("car", lab((70, 1, 2), "gone")),
            SPECIFICATIONS,
            "object 'car'",
            "points to the specification 'gone', which",
        ),
        (
            thing("car", lab((70, 1, 2), "as45").replace(' ColorSpecification="as45"', "")),
            SPECIFICATIONS,
            "object 'car'",
            "has a value without ColorSpecification",
        ),
        (
            thing("car", lab(("NaN", 1, 2), "as45")),
            SPECIFICATIONS,
            "object 'car'",
            "L* is 'NaN', which is no number",
        ),
        (thing("car", lab((70, 201, 2), "as45")), SPECIFICATIONS, "object 'car'", "a* 201 is outside"),
        (
            thing("car", lab((70, 1, 2), "as45") * 2),
            SPECIFICATIONS,
            "object 'car'",
            "sample 'car' has L*, a*, b*",
        ),
        (
            thing("car", lab((70, 1, 2), "as45")) * 2,
            SPECIFICATIONS,
            "object 'car'",
            "its Id 'car' stands twice",
        ),
        (
            thing("tile", lab((70, 1, 2), "as45")),
            SPECIFICATIONS,
            "object 'tile'",
            "the sample 'tile' does not say",
        ),
        (
            thing("car", spectrum((0.5, "x"), "as45")),
            SPECIFICATIONS,
            "object 'car'",
            "its spectrum holds 'x'",
        ),
        (
            thing("car", spectrum((0.5,), "as45")),
            SPECIFICATIONS,
            "object 'car'",
            "its spectrum has fewer than two",
        ),
        (
            thing("car", spectrum((50, 60), "as45")),
            SPECIFICATIONS,
            "object 'car'",
            "its spectrum reaches 60: factors or",
        ),
        (
            thing("car", spectrum((0.5, 0.6), "as50")),
            specification(50),
            "object 'car'",
            "the angle 50 deg is not known",
        ),
        (thing("car", lab((70, 1, 2), "as45")), SPECIFICATIONS * 2, "specification 'as15'", "stands twice"),
        ("", SPECIFICATIONS, "file", "has no object with ColorCIELab or ReflectanceSpectrum"),
        (
            thing("car", lab((70, 1, 2), "as45")),
            specification(45).replace("<Aspecular>45</Aspecular>", ""),
            "specification 'as45'",
            "its Aspecular is '', which is no number",
        ),
        (
            thing("car", spectrum((0.5, 0.6), "as45")),
            specification(45).replace('Increment="10"', ""),
            "object 'car'",
            "does not say at which wavelengths its spectrum stands",
        ),
        (
            thing("car", lab((70, 1, 2), "as45")),
            specification(45, eye="Custom_CMF"),
            "specification 'as45'",
            "has the observer",
        ),
    ],
)
def test_a_fault_is_told_with_the_name_of_its_object(objects, specifications, where, said):
    assert faults(read(cxf(objects, specifications)))[where].startswith(said)


BOMB = "<!DOCTYPE x [<!ENTITY a 'ha'>" + "".join(
    f"<!ENTITY {name} '{f'&{before};' * 10}'>" for before, name in zip("abcdefgh", "bcdefghi", strict=True)
)


@pytest.mark.parametrize(
    "declaration",
    [
        BOMB + "]>",
        "<!DOCTYPE x [<!ENTITY a SYSTEM 'file:///etc/passwd'>]>",
        "<!DOCTYPE x [<!ENTITY % a SYSTEM 'http://127.0.0.1:9/x.dtd'> %a;]>",
        "<!DOCTYPE x SYSTEM 'http://127.0.0.1:9/x.dtd'>",
        "<!DOCTYPE x>",
    ],
    ids=["entities by the million", "a file", "a page", "a definition elsewhere", "an empty definition"],
)
def test_a_document_type_is_refused_whatever_it_holds(declaration):
    text = cxf(thing("car &a;" if "ENTITY a" in declaration else "car", ""), SPECIFICATIONS, declaration)
    assert faults(read(text)) == {"file": "declares a document type or entities"}


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("<html/>", "is XML, but no CxF3: it begins with 'html'"),
        (f"<CxF xmlns='{SPACE}x'/>", "is XML, but no CxF3"),
        ("<CxF", "line 1, column 0: unclosed token"),
        (cxf(FIELD, SPECIFICATIONS)[:900], "line "),
        ("<?xml version='1.0' encoding='ebcdic-cp-be'?><a/>", ""),
        ("<" + "x" * 6_000_000, "is larger than 5 MB"),
        ("<a>" * 200_000, "line 1, column 600000: no element found"),
        ("<a>" * 200_000 + "</a>" * 200_000, "is XML, but no CxF3: it begins with 'a'"),
    ],
)
def test_other_and_damaged_files_are_refused(text, said):
    assert faults(read(text))["file"].startswith(said)


@pytest.mark.parametrize("cut", range(200, 2500, 250))
def test_a_file_cut_off_anywhere_is_refused(cut):
    text = cxf(FIELD + CAR, SPECIFICATIONS)
    assert cut < len(text)
    assert "the file is cut off" in english(read(text[:cut])[0].hint)


NO_OTHER = pytest.mark.skipif(sys.version_info >= (3, 14), reason="the other reader stops at Python 3.13")


def as_others_read(data):
    """Values by angle as the other reader gives them."""
    import colour_cxf  # noqa: PLC0415 - only where it can be installed

    resources = colour_cxf.read_cxf(data).resources
    angles = {
        one.id: one.measurement_spec.geometry_choice.choice.brdfangle[0].aspecular
        for one in resources.color_specification_collection.color_specification
    }
    labs, spectra = {}, {}
    for item in resources.object_collection.object_value:
        for value in item.color_values.choice:
            place = (item.name, angles[value.color_specification])
            if hasattr(value, "l"):
                labs[place] = (value.l, value.a, value.b)
            else:
                spectra[place] = (value.start_wl, tuple(value.value))
    return labs, spectra


@NO_OTHER
def test_another_reader_finds_the_same_values():
    text = cxf(FIELD + CAR, SPECIFICATIONS)
    labs, spectra = as_others_read(text.encode())
    found = read(text)
    assert {("field 2", one.angle_deg): (one.lab_l, one.lab_a, one.lab_b) for one in found.readings} == labs
    assert {
        ("car rear door", one.angle_deg): (one.spectrum.start_nm, one.spectrum.factors)
        for one in found.spectra
    } == spectra


@NO_OTHER
def test_a_file_written_by_another_program_gives_the_same_readings():
    import colour_cxf  # noqa: PLC0415 - only where it can be installed

    text = cxf(FIELD + CAR, SPECIFICATIONS)
    written = colour_cxf.write_cxf(colour_cxf.read_cxf(text.encode()))
    assert written != text.encode()
    assert decode_readings(written, "panel.cxf", ReadingMap()) == read(text)


def test_a_mapping_names_the_objects_of_another_program():
    mapping = ReadingMap(sample=(SampleMeaning("Muster zwei", "field", 2.0),), confirmed=True)
    found = read(cxf(FIELD.replace("field 2", "Muster zwei"), SPECIFICATIONS), mapping)
    assert isinstance(found, Readings)
    assert all(one.confirmed for one in found.understood)
