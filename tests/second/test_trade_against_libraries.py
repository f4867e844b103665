"""The till, units and water against `scipy`, `pint` and `CoolProp`."""

import pytest
from CoolProp.CoolProp import PropsSI

from laydown.trade.solvent import WATER_DENSITY_G_ML


def test_water_density_is_that_of_the_property_library():
    assert (
        pytest.approx(PropsSI("D", "T", 293.15, "P", 101_325, "Water") / 1000, abs=2e-5) == WATER_DENSITY_G_ML
    )
