"""Mass and heat transfer, worked by hand."""

import pytest

from laydown.physics.film.transfer import evaporation_g_m2_s, h_heat_w_m2_k, h_mass_m_s


def test_still_downdraft_at_20_c_is_the_handbook_line_by_hand():
    # (0.089 + 0.0782 * 0.3) W/(m2 Pa) = 0.11246; over 1000 * 2453.57 J/g; times 461.52 J/(kg K) * 293.15 K:
    # 0.11246 / 2 453 570 * 135 295 = 6.201e-3 m/s.
    assert h_mass_m_s(0.3, 20.0) == pytest.approx(6.201e-3, rel=1e-3)


def test_the_inch_form_of_the_line_gives_the_same_evaporation():
    # ASHRAE Transactions 104(1A), 1998, abstract: W = (95 + 0.425 v)(pw - pa)/Y in lb/(h ft2), ft/min, inHg, Btu/lb.
    # 0.3 m/s = 59.06 ft/min; 1000 Pa = 0.2953 inHg; 2453.57 J/g = 1054.8 Btu/lb; 1 lb/(h ft2) = 1.3562 g/(m2 s).
    inch = (95.0 + 0.425 * 59.06) * 0.2953 / 1054.8 * 1.3562
    assert evaporation_g_m2_s(h_mass_m_s(0.3, 20.0), 2000.0, 1000.0, 20.0) == pytest.approx(inch, rel=7e-3)


@pytest.mark.parametrize("speed_m_s", [2.0, 4.0])
def test_with_blowers_the_line_agrees_with_a_turbulent_plate_of_a_blower_s_reach(speed_m_s):
    # Sh = 0.037 Re^0.8 Sc^(1/3), textbook (from memory): 0.3 m plate, nu 1.5e-5, D 2.475e-5 m2/s at 20 degC.
    sherwood = 0.037 * (speed_m_s * 0.3 / 1.5e-5) ** 0.8 * (1.5 / 2.475) ** (1.0 / 3.0)
    assert h_mass_m_s(speed_m_s, 20.0) == pytest.approx(sherwood * 2.475e-5 / 0.3, rel=0.10)


def test_heat_follows_mass_by_the_lewis_relation():
    # 6.201e-3 m/s * 1.199 kg/m3 * 1006 J/(kg K) * 0.865^(2/3) = 6.79 W/(m2 K).
    assert h_heat_w_m2_k(6.201e-3, 20.0, 0.5) == pytest.approx(6.79, rel=2e-3)


def test_the_transfer_factor_multiplies():
    assert h_mass_m_s(1.0, 25.0, 1.4) == pytest.approx(1.4 * h_mass_m_s(1.0, 25.0))


@pytest.mark.parametrize("speed_m_s", [0.0, 9.0])
def test_air_that_is_no_booth_air_is_refused(speed_m_s):
    with pytest.raises(ValueError, match="air_speed_m_s"):
        h_mass_m_s(speed_m_s, 20.0)
