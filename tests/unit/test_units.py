"""House units: reading text, refusing nonsense, showing figures."""

import math

import pytest

from cases.speech import english
from laydown.units import UnitError, examples, parse, show, suffix


@pytest.mark.parametrize(
    ("text", "name", "expected"),
    [
        ("24C", "temperature_c", 24),
        ("24 °C", "temperature_c", 24),
        ("68 °F", "temperature_c", 20),  # 36 / 1.8
        ("−5 °C", "temperature_c", -5),  # real minus sign
        ("23,5 °C", "temperature_c", 23.5),
        ("293.15 K", "temperature_c", 20),
        ("9 °F", "margin_k", 5),  # a difference has no offset
        ("1.5 min", "flash_s", 90),
        ("2 h", "pot_life_s", 7200),
        ("55 %", "rh", 0.55),
        ("55%", "overlap", 0.55),
        ("5 percent", "water", 0.05),
        ("90 %", "wet_chance", 0.9),
        ("0.6 mil", "dry_um", 15.24),
        ("1 mil", "dry_um_per_coat", 25.4),
        ("10 in", "fan_m", 0.254),
        ('10"', "fan_m", 0.254),
        ("1 ft", "fan_m", 0.3048),
        ("25 cm", "fan_m", 0.25),
        ("250 mm", "fan_m", 0.25),
        ("1.3 mm", "nozzle_mm", 1.3),
        ("100 fpm", "speed_m_s", 0.508),
        ("0,3 m/s", "speed_m_s", 0.3),
        ("186 g/min", "flow_g_s", 3.1),
        ("1013 hPa", "pressure_pa", 101_300),
        ("101\u202f325 Pa", "pressure_pa", 101_325),  # thin no-break space between thousands
        ("20\u00a0°C", "temperature_c", 20),
        ("15 μm", "dry_um", 15),  # Greek mu
        ("15 µm", "dry_um", 15),  # micro sign
        ("3 m²", "area_m2", 3),
        ("0,25 kg", "base_g", 250),
        ("1,5", "speed_m_s", 1.5),
        ("20", "temperature_c", 20),
        (20, "temperature_c", 20),
        (0.55, "rh", 0.55),
    ],
)
def test_text_becomes_the_house_unit_of_its_name(text, name, expected):
    assert parse(text, name) == pytest.approx(expected, rel=1e-15)


@pytest.mark.parametrize(
    "value",
    [True, False, math.nan, math.inf, -math.inf, "nan", "-inf", "Infinity", "1e999", 10**400, None, [], {}],
)
def test_what_is_no_finite_number_is_refused(value):
    with pytest.raises(UnitError):
        parse(value, "temperature_c")


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("90 sek", "flash_s"),
        ("5 m", "rh"),
        ("", "rh"),
        ("%", "rh"),
        ("5 5 %", "rh"),
        ("20 °C 30", "temperature_c"),
        ("1.2.3 m", "fan_m"),
        ("1e-99999999 m", "fan_m"),
        ("5 min", "seed"),
        ("9" * 5000, "fan_m"),
    ],
)
def test_text_in_no_known_unit_is_refused_with_an_example(text, name):
    with pytest.raises(UnitError) as caught:
        parse(text, name)
    assert examples(name)[0] in english(caught.value.hint)


def test_a_comma_that_may_mean_thousands_is_refused_and_both_readings_are_named():
    with pytest.raises(UnitError) as caught:
        parse("1,500 g", "base_g")
    assert "1500 or 1.500" in english(caught.value.hint)


def test_the_longest_suffix_wins():
    assert [suffix(name) for name in ("speed_m_s", "flow_g_s", "film_g_m2", "pot_life_c", "x_from_m")] == [
        "_m_s",
        "_g_s",
        "_g_m2",
        "_c",
        "_m",
    ]


def test_plain_names_have_no_unit():
    assert [
        suffix(name) for name in ("painters", "seed", "girth", "coats_max", "booth_per_h", "water_basis")
    ] == [""] * 6


@pytest.mark.parametrize(
    ("value", "name", "metric", "us"),
    [
        (24, "temperature_c", "24 °C", "75.2 °F"),  # 24 * 1.8 + 32
        (5, "margin_k", "5 K", "9 °F"),
        (600, "flash_s", "10 min", "10 min"),
        (45, "margin_s", "45 s", "45 s"),
        (94.4, "open_s", "1 min 34 s", "1 min 34 s"),
        (5400, "hold_s", "1 h 30 min", "1 h 30 min"),
        (-90, "margin_s", "−1 min 30 s", "−1 min 30 s"),
        (0.555, "rh", "55.5 %", "55.5 %"),
        (25.4, "dry_um", "25.4 µm", "1 mil"),
        (42.53, "film_g_m2", "42.5 g/m²", "3.95 g/ft²"),  # 42.53 * 0.3048**2
        (1.03, "density_g_ml", "1.03 g/mL", "8.6 lb/gal"),  # 1030 g/L / 119.826
        (1234.4, "base_g", "1234 g", "1234 g"),
        (0.254, "fan_m", "0.254 m", "10 in"),
        (3.048, "x_m", "3.05 m", "10 ft"),
        (-0.508, "x_m", "−0.508 m", "−20 in"),
        (0.508, "speed_m_s", "0.508 m/s", "100 ft/min"),
        (0, "x_m", "0 m", "0 in"),
        (2, "coats", "2", "2"),
    ],
)
def test_figures_are_shown_with_three_figures_and_a_unit(value, name, metric, us):
    assert show(value, name) == metric
    assert show(value, name, "us") == us
