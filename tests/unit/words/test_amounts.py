"""Two limits with one unit."""

import pytest

from cases.speech import US, english
from laydown.schema.message import Range, message
from laydown.units import suffix


@pytest.mark.parametrize(
    ("low", "high", "name", "metric", "us"),
    [
        # Converted by hand: 9/5 and 32; 29.5735 mL to the fluid ounce; 0.3048 m to the foot.
        (5, 45, "air_c", "5 to 45 °C", "41 to 113 °F"),
        (50, 2000, "cup_ml", "50 to 2000 mL", "1.69 to 67.6 fl oz"),
        (0.1, 3.0, "fan_m", "0.1 to 3 m", "3.94 in to 9.84 ft"),
        (0, 8, "coats", "0 to 8", "0 to 8"),
        (60, 120, "flash_s", "1 to 2 min", "1 to 2 min"),
        (90, 150, "flash_s", "1 min 30 s to 2 min 30 s", "1 min 30 s to 2 min 30 s"),
        (300, 3900, "flash_s", "5 min to 1 h 5 min", "5 min to 1 h 5 min"),
    ],
)
def test_the_unit_of_two_limits_stands_once_where_both_have_the_same(low, high, name, metric, us):
    limits = message("the-limits", limits=Range(low, high, suffix(name)))
    assert english(limits) == metric
    assert US(limits) == us
