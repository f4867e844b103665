"""Tables of units: what may be written for each quantity, and how each is printed."""

from dataclasses import dataclass
from fractions import Fraction

FOOT_M = Fraction(3048, 10_000)
"""One foot [m]; international yard and pound agreement of 1959, exact."""

POUND_G = Fraction(45_359_237, 100_000)
"""One pound [g]; international yard and pound agreement of 1959, exact."""

US_GALLON_ML = 231 * (FOOT_M / 12) ** 3 * 10**6
"""One US gallon of 231 cubic inches [mL]; NIST Handbook 44, appendix C (from memory), exact."""

IMPERIAL_GALLON_ML = Fraction(454_609, 100)
"""One imperial gallon [mL]; UK Weights and Measures Act 1985, schedule 1 (from memory), exact."""

PSI_BAR = POUND_G / 1000 * Fraction(980_665, 100_000) / (FOOT_M / 12) ** 2 / 10**5
"""One pound-force per square inch [bar]; definition, standard gravity 9.80665 m/s²."""

Scale = tuple[Fraction, Fraction]
"""Factor and offset: house value = (value + offset) * factor."""


def _times(factor: Fraction | int | str) -> Scale:
    return Fraction(factor), Fraction(0)


_ONE = _times(1)
_FAHRENHEIT: Scale = (Fraction(5, 9), Fraction(-32))
_LENGTH_M = {
    "m": _ONE,
    "cm": _times("0.01"),
    "mm": _times("0.001"),
    "in": _times(FOOT_M / 12),
    "inch": _times(FOOT_M / 12),
    '"': _times(FOOT_M / 12),
    "ft": _times(FOOT_M),
    "'": _times(FOOT_M),
}
_PRESSURE_PA = {
    "Pa": _ONE,
    "hPa": _times(100),
    "mbar": _times(100),
    "kPa": _times(1000),
    "bar": _times(100_000),
    "mmHg": _times("133.322387415"),
    "inHg": _times("3386.388640341"),
}
_LB_GAL_G_L = _times(POUND_G / US_GALLON_ML * 1000)

UNITS: dict[str, dict[str, Scale]] = {
    "_c": {
        "°C": _ONE,
        "C": _ONE,
        "°F": _FAHRENHEIT,
        "F": _FAHRENHEIT,
        "K": (Fraction(1), Fraction("-273.15")),
    },
    "_k": {"K": _ONE, "°C": _ONE, "C": _ONE, "°F": _times(Fraction(5, 9)), "F": _times(Fraction(5, 9))},
    "_pa": _PRESSURE_PA,
    "_bar": {"bar": _ONE, "psi": _times(PSI_BAR), "kPa": _times("0.01"), "MPa": _times(10)},
    "_s": {
        "s": _ONE,
        "sec": _ONE,
        "min": _times(60),
        "h": _times(3600),
        "d": _times(86_400),
        "days": _times(86_400),
    },
    "_m": _LENGTH_M,
    "_mm": {unit: (scale[0] * 1000, scale[1]) for unit, scale in _LENGTH_M.items()},
    "_um": {
        "µm": _ONE,
        "um": _ONE,
        "micron": _ONE,
        "mil": _times("25.4"),
        "mils": _times("25.4"),
        "mm": _times(1000),
    },
    "_m2": {"m2": _ONE, "cm2": _times("0.0001"), "ft2": _times(FOOT_M**2), "sq ft": _times(FOOT_M**2)},
    "_g": {"g": _ONE, "kg": _times(1000), "oz": _times(POUND_G / 16), "lb": _times(POUND_G)},
    "_ml": {
        "mL": _ONE,
        "cm3": _ONE,
        "cL": _times(10),
        "L": _times(1000),
        "fl oz": _times(US_GALLON_ML / 128),
        "US fl oz": _times(US_GALLON_ML / 128),
        "imp fl oz": _times(IMPERIAL_GALLON_ML / 160),
        "qt": _times(US_GALLON_ML / 4),
        "gal": _times(US_GALLON_ML),
    },
    "_g_ml": {
        "g/mL": _ONE,
        "g/cm3": _ONE,
        "kg/L": _ONE,
        "g/L": _times("0.001"),
        "kg/m3": _times("0.001"),
        "lb/gal": (_LB_GAL_G_L[0] / 1000, Fraction(0)),
    },
    "_g_l": {"g/L": _ONE, "kg/m3": _ONE, "lb/gal": _LB_GAL_G_L},
    "_g_m2": {"g/m2": _ONE, "g/ft2": _times(1 / FOOT_M**2)},
    "_g_m2_s": {"g/m2/s": _ONE},
    "_g_s": {"g/s": _ONE, "g/min": _times(Fraction(1, 60)), "kg/h": _times(Fraction(5, 18))},
    "_m_s": {
        "m/s": _ONE,
        "cm/s": _times("0.01"),
        "m/min": _times(Fraction(1, 60)),
        "km/h": _times(Fraction(5, 18)),
        "fpm": _times(FOOT_M / 60),
        "ft/min": _times(FOOT_M / 60),
        "ft/s": _times(FOOT_M),
        "in/s": _times(FOOT_M / 12),
    },
    "_w_m2_k": {"W/m2/K": _ONE, "W/(m2 K)": _ONE},
    "_kg_m3": {"kg/m3": _ONE, "g/L": _ONE},
    "_g_m3": {"g/m3": _ONE},
    "_m2_s": {"m2/s": _ONE},
    "_j_g": {"J/g": _ONE, "kJ/kg": _ONE},
    "_j_m2_k": {"J/m2/K": _ONE},
    "_per_um": {"1/µm": _ONE},
    "share": {"%": _times("0.01"), "percent": _times("0.01"), "per cent": _times("0.01")},
}
"""For each suffix the units that may be written; exact by definition of each unit, inHg and mmHg conventional."""

EXAMPLES = {
    "_c": ("20", "'68 °F'"),
    "_k": ("3", "'3 K'"),
    "_pa": ("101325", "'1013 hPa'"),
    "_bar": ("2.0", "'29 psi'"),
    "_s": ("90", "'1.5 min'"),
    "_m": ("0.25", "'10 in'"),
    "_mm": ("1.3", "'1.3 mm'"),
    "_um": ("15", "'0.6 mil'"),
    "_m2": ("3.4", "'36 ft²'"),
    "_g": ("250", "'0.25 kg'"),
    "_ml": ("550", "'18 fl oz'"),
    "_g_ml": ("1.03", "'8.6 lb/gal'"),
    "_g_l": ("420", "'3.5 lb/gal'"),
    "_g_s": ("3.1", "'186 g/min'"),
    "_m_s": ("0.5", "'100 fpm'"),
    "share": ("0.55", "'55 %'"),
}
"""How a value is written, bare and with a unit, for hints."""


@dataclass(frozen=True, slots=True)
class UnitStyle:
    """How a house unit is printed."""

    unit: str
    factor: float = 1.0


METRIC = {
    "_c": UnitStyle("°C"),
    "_k": UnitStyle("K"),
    "_pa": UnitStyle("hPa", 0.01),
    "_bar": UnitStyle("bar"),
    "_m": UnitStyle("m"),
    "_mm": UnitStyle("mm"),
    "_um": UnitStyle("µm"),
    "_m2": UnitStyle("m²"),
    "_g": UnitStyle("g"),
    "_ml": UnitStyle("mL"),
    "_g_ml": UnitStyle("g/mL"),
    "_g_l": UnitStyle("g/L"),
    "_g_m2": UnitStyle("g/m²"),
    "_g_m2_s": UnitStyle("g/(m² s)"),
    "_g_s": UnitStyle("g/s"),
    "_m_s": UnitStyle("m/s"),
    "_w_m2_k": UnitStyle("W/(m² K)"),
    "_kg_m3": UnitStyle("kg/m³"),
    "_g_m3": UnitStyle("g/m³"),
    "_m2_s": UnitStyle("m²/s"),
    "_j_g": UnitStyle("J/g"),
    "_j_m2_k": UnitStyle("J/(m² K)"),
    "_per_um": UnitStyle("1/µm"),
    "share": UnitStyle("%", 100.0),
}
"""How each house unit is printed in metric units."""
US = METRIC | {
    "_k": UnitStyle("°F", 1.8),
    "_pa": UnitStyle("inHg", 1 / 3386.388640341),
    "_bar": UnitStyle("psi", float(1 / PSI_BAR)),
    "_m": UnitStyle("ft", float(1 / FOOT_M)),
    "_um": UnitStyle("mil", 1 / 25.4),
    "_m2": UnitStyle("ft²", float(1 / FOOT_M**2)),
    "_ml": UnitStyle("fl oz", float(128 / US_GALLON_ML)),
    "_g_ml": UnitStyle("lb/gal", float(1000 / _LB_GAL_G_L[0])),
    "_g_m2": UnitStyle("g/ft²", float(FOOT_M**2)),
    "_g_l": UnitStyle("lb/gal", float(1 / _LB_GAL_G_L[0])),
    "_m_s": UnitStyle("ft/min", float(60 / FOOT_M)),
}
"""How each house unit is printed in US units; grams stay grams."""
