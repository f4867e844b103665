"""What is missing is said, never set to nothing."""

from dataclasses import replace

import pytest

from laydown.schema.message import message
from laydown.schema.product import RecipeLine
from laydown.trade.solvent import (
    NotComputable,
    voc_mass_fraction,
    voc_material_g_l,
    voc_regulatory_g_l,
)

PAINT = RecipeLine(
    "base", "base", 1, "parts", "mass", density_g_ml=1.0, voc_mass_fraction=0.1, water_mass_fraction=0.6
)


def test_a_line_of_nothing_may_be_silent():
    blank = replace(PAINT, voc_mass_fraction=None)
    assert voc_material_g_l((PAINT, blank), (90.0, 0.0)) == pytest.approx(100.0)


def test_exempt_solvent_is_taken_out_with_its_own_density():
    # By hand: 1000 g: 100 g solvent; 1000 - 200 / 0.8 = 750 mL left: 133.3 g/L.
    line = replace(PAINT, water_mass_fraction=0.0, exempt_mass_fraction=0.2, exempt_density_g_ml=0.8)
    assert voc_regulatory_g_l((line,), (1000.0,)) == pytest.approx(133.33, abs=0.01)
    unknown = replace(line, exempt_density_g_ml=None)
    assert voc_regulatory_g_l((unknown,), (1000.0,)) == NotComputable(
        message("solvent.sheet-is-silent"), ("base: exempt_density_g_ml",)
    )


def test_nothing_mixed_has_no_number():
    assert isinstance(voc_material_g_l((PAINT,), (0.0,)), NotComputable)
    assert isinstance(voc_mass_fraction((PAINT,), (0.0,)), NotComputable)
