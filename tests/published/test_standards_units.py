"""Coverage and film arithmetic against geometry and printed sheets."""

import pytest

from laydown.trade.mixing.batch import need_ml
from laydown.trade.solvent import WATER_DENSITY_G_ML


def test_water_density_is_that_of_the_iapws_formulation_at_20_degrees():
    # IAPWS-95 at 20 °C and 101 325 Pa: 0.99821 g/mL.
    assert pytest.approx(0.99821, abs=2e-5) == WATER_DENSITY_G_ML


def test_sixty_micrometres_wet_weigh_what_the_house_units_say():
    # Identity: µm x m2 = mL, mL x g/mL = g: 60 µm x 1.05 g/mL = 63.0 g on one square metre.
    assert need_ml(1.0, [60.0], 1.0) * 1.05 == pytest.approx(63.0)
