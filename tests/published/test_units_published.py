"""Conversion factors against printed tables."""

import pytest

from laydown.units import parse


@pytest.mark.parametrize(
    ("text", "name", "expected", "tolerance"),
    [
        # NIST SP 811 (2008), appendix B.8: mil -> mm 2.54 E-02 (from memory); public metric chart prints 0.0254 mm
        ("1 mil", "dry_um", 25.4, 1e-12),
        # NIST SP 811 (2008), appendix B.8: fluid ounce (US) -> mL 2.957 353 E+01 (from memory)
        ("1 fl oz", "cup_ml", 29.57353, 1e-5),
        # NIST SP 811 (2008), appendix B.8: ounce (UK fluid) -> mL 2.841 306 E+01 (from memory)
        ("1 imp fl oz", "cup_ml", 28.41306, 1e-5),
        # NIST SP 811 (2008), appendix B.8: psi -> Pa 6.894 757 E+03 (from memory)
        ("1 psi", "pressure_bar", 0.06894757, 1e-8),
        # Finishing guidebook, appendix B, prints 119.8; NIST SP 811 appendix B.8 1.198 264 E+02 kg/m3 (from memory)
        ("1 lb/gal", "voc_g_l", 119.8264, 1e-4),
        # Code text on spray booths prints 100 fpm as 0.51 m/s; exact by the definition of the foot
        ("100 fpm", "speed_m_s", 0.508, 1e-12),
        # NIST SP 811 (2008), appendix B.8: inch of mercury, conventional -> Pa 3.386 389 E+03 (from memory)
        ("1 inHg", "pressure_pa", 3386.389, 1e-3),
        # Fixed points of the two scales, definition: 32 °F = 0 °C, 212 °F = 100 °C
        ("32 °F", "temperature_c", 0.0, 1e-12),
        ("212 °F", "temperature_c", 100.0, 1e-12),
    ],
)
def test_a_unit_converts_as_printed(text, name, expected, tolerance):
    assert parse(text, name) == pytest.approx(expected, abs=tolerance)
