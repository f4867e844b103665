"""Coverage and film arithmetic against geometry and printed sheets."""

import pytest

from laydown.trade.mixing.batch import need_ml, theoretical_coverage_m2_l, wet_from_dry_um
from laydown.trade.solvent import WATER_DENSITY_G_ML


def test_water_density_is_that_of_the_iapws_formulation_at_20_degrees():
    # IAPWS-95 at 20 °C and 101 325 Pa: 0.99821 g/mL.
    assert pytest.approx(0.99821, abs=2e-5) == WATER_DENSITY_G_ML


def test_a_litre_of_solids_at_one_micrometre_covers_a_thousand_square_metres():
    # Geometry: 1e-3 m3 / 1e-6 m.
    assert theoretical_coverage_m2_l(1.0, 1.0) == 1000.0


def test_a_gallon_of_solids_at_one_mil_covers_the_trade_figure():
    # 231 in3 / 0.001 in / 144 in2/ft2 = 1604.2 ft2; the trade figure is 1604. NIST SP 811: 1 ft2 = 0.09290304 m2.
    litres = 231 * 0.0254**3 * 1000
    assert theoretical_coverage_m2_l(1.0, 25.4) * litres / 0.09290304 == pytest.approx(1604.2, abs=0.1)


def test_coverage_of_a_printed_sheet():
    # A paint sheet with 35 % volume solids and 28 µm dry: 10 x 35 / 28 = 12.5 m2/L in theory (10 to 12 in use).
    assert theoretical_coverage_m2_l(0.35, 28.0) == pytest.approx(12.5)


def test_wet_film_of_a_printed_sheet():
    # The same sheet prints wet 80 µm for dry 28 µm at 35 % volume solids.
    assert wet_from_dry_um(28.0, 0.35) == pytest.approx(80.0)


def test_ten_percent_water_asks_for_a_thicker_wet_film():
    # By hand: solids 0.20 / 1.10 = 0.18182; 12 µm dry needs 66.0 µm wet instead of 60.0.
    assert wet_from_dry_um(12.0, 0.20) == pytest.approx(60.0)
    assert wet_from_dry_um(12.0, 0.20 / 1.10) == pytest.approx(66.0, abs=1e-4)


def test_sixty_micrometres_wet_weigh_what_the_house_units_say():
    # Identity: µm x m2 = mL, mL x g/mL = g: 60 µm x 1.05 g/mL = 63.0 g on one square metre.
    assert need_ml(1.0, [60.0], 1.0) * 1.05 == pytest.approx(63.0)
