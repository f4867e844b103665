"""Rules for booth and gun against printed figures."""

import pytest

from laydown.trade.regions import commonly_required


def rule(region, quantity):
    (found,) = [one for one in commonly_required(region) if one.quantity == quantity]
    return found


def test_air_through_an_open_booth_face():
    # Mechanical code 502.7.3.3.1 and a letter of 2001 on 29 CFR 1910.107(b)(5)(i): 100 ft/min, printed 0.51 m/s.
    assert rule("us", "booth_air_m_s").low == pytest.approx(100 * 0.3048 / 60)
    assert rule("us", "booth_air_m_s").low == pytest.approx(0.51, abs=0.005)


def test_booth_filters():
    # 40 CFR 63 Subpart HHHHHH, two guidance pages: 98 % capture.
    assert rule("us", "filter_capture_fraction").low == 0.98


def test_low_pressure_guns():
    # South Coast rule 1151 as quoted in a bulletin of 1991: 0.1 to 10 psig; 1 psi = 0.06894757 bar (NIST SP 811).
    found = rule("us-ca", "cap_pressure_bar")
    assert (found.low, found.high) == pytest.approx((0.006894757, 0.6894757), rel=1e-6)


def test_transfer_efficiency_of_other_guns():
    # South Coast page on spray equipment: 65 %.
    assert rule("us-ca", "transfer_efficiency").low == 0.65
