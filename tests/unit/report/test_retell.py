import pytest

from laydown.words.show import retell


@pytest.mark.parametrize(
    ("metric", "us"),
    [
        # by hand from 1 in = 25.4 mm, 1 ft = 0.3048 m, 1 mil = 25.4 µm, °F = 1.8 °C + 32
        ("23 °C", "73 °F"),
        ("19.5 °C", "67.1 °F"),
        ("0 °C", "32 °F"),
        ("−5 °C", "23 °F"),
        ("-40 °C", "-40 °F"),
        ("panel at 24 °C after drying, cooled to 23 °C", "panel at 75 °F after drying, cooled to 73 °F"),
        ("5 K cooler", "9 °F cooler"),
        ("61 cm to fade", "24 in to fade"),
        ("25 cm", "9.8 in"),
        ("5 cm", "2 in"),
        ("0.47 m", "18.5 in"),
        ("1.32 m from the nearest join", "4.33 ft from the nearest join"),
        ("+0.4 m", "+16 in"),
        ("15 µm", "0.59 mil"),
        ("6.2 µm a coat", "0.244 mil a coat"),
        # 1 m/s = 196.85 ft/min
        ("0.3 m/s", "60 ft/min"),
        ("0.51 m/s", "100 ft/min"),
        # 1 US fl oz = 29.5735 mL; 1 US quart = 946.353 mL
        ("925 mL", "31.3 fl oz"),
        ("1.5 L", "1.6 qt"),
        # 1 m² = 10.7639 ft²
        ("3.4 m² of skin", "37 ft² of skin"),
        ("42 g/m²", "3.9 g/ft²"),
        ("60 cm²", "9.3 in²"),
        # 1 bar = 14.5038 psi; 1 lb/gal = 119.826 g/L
        ("1.8 bar", "26 psi"),
        ("420 g/L", "3.51 lb/gal"),
        ("1.03 g/mL", "8.6 lb/gal"),
        # 3 ft = 0.9144 m
        ("cup 289 g, 1.9 s per metre", "cup 289 g, 1.7 s per 3 ft"),
        ("1.9 s per m, pressure as the sheet", "1.7 s per 3 ft, pressure as the sheet"),
        # 1 foot-candle = 10.764 lx
        ("1000 to 4000 lx of light", "90 to 370 foot-candles of light"),
    ],
)
def test_a_figure_is_retold_with_the_digits_it_had(metric, us):
    assert retell(metric, "us") == us


@pytest.mark.parametrize(
    ("metric", "us"),
    [
        ("20 to 25 °C", "68 to 77 °F"),
        ("15-35 °C, 20 to 75 %", "59-95 °F, 20 to 75 %"),
        ("-5 to 5 °C", "23 to 41 °F"),
        ("0.4 to 0.6 m", "16 to 24 in"),
        ("0.85 to 1.20 m", "2.79 to 3.94 ft"),
        ("1, 2 and 3 m", "3, 7 and 10 ft"),
        ("2 or 3 m", "7 or 10 ft"),
    ],
)
def test_a_range_or_list_before_one_unit_is_retold_as_a_whole(metric, us):
    assert retell(metric, "us") == us


@pytest.mark.parametrize(
    ("metric", "us"),
    [
        ("after section 3, 0.42 m on", "after section 3, 16.5 in on"),
        ("coats 2 and 0.3 m", "coats 2 and 12 in"),
        ("join 1 to 0.3 m", "join 1 to 12 in"),
    ],
)
def test_the_number_of_a_section_or_coat_is_no_length(metric, us):
    assert retell(metric, "us") == us


@pytest.mark.parametrize(
    "text",
    [
        "44 s to spare (-8 to 133)",
        "113 s (39-247)",
        "effect coats 2 (1.9 to 2.28)",
        "30 min, 5 to 10 % more overlap, 289 g, 0.1 g",
        "nozzle 1.3 mm",
        "over L* 90 (front wing)",
        "0.7 dE00 at 110°",
        "dL* +0.3, b* 2",
        "P600 to P800 dry",
        "ground.1.g1.1",
        "5 m/s² and 3 W/(m² K) and 107 Pa",
        "2K clear, 12m ladder, m 4711",
        "4711",
        "",
    ],
)
def test_what_is_no_metric_figure_stays(text):
    assert retell(text, "us") == text


def test_in_metric_units_a_sentence_stays_as_it_is():
    assert retell("61 cm at 23 °C", "metric") == "61 cm at 23 °C"


@pytest.mark.parametrize(
    "name", ["2 m van", "door 2", "2 K clear", "30 cm", "5 °C + 3 m (rear)", "van 12 L", "0.4 m|x"]
)
def test_a_name_that_looks_like_a_figure_stays(name):
    text = f"The fade on the {name} has only 30.5 cm, and {name}."
    assert retell(text, "us", [name]) == f"The fade on the {name} has only 12 in, and {name}."


def test_a_name_is_no_part_of_a_list_or_of_a_longer_number():
    assert retell("door 2 and 3 m", "us", ["door 2"]) == "door 2 and 10 ft"
    assert retell("1.2 m", "us", ["2 m"]) == "3.9 ft"
    assert retell("door 23 cm", "us", ["door 2"]) == "door 9.1 in"


def test_of_two_names_the_longer_one_is_found():
    assert retell("2 m van long, 61 cm", "us", ["2 m van", "2 m van long"]) == "2 m van long, 24 in"


@pytest.mark.parametrize("text", ["0.914 m", "0 cm", "0.0 m", "0.004 m", "99.96 µm", "999.9 mL", "250 m²"])
def test_retelling_twice_changes_nothing_more(text):
    once = retell(text, "us")
    assert once != text
    assert retell(once, "us") == once
