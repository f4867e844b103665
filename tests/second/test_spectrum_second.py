"""Spectra, screen colours and parts of a difference against colour-science."""

import warnings

import numpy as np
import pytest

from laydown.physics.colour.difference import colour_parts
from laydown.physics.colour.screen import WHITES, preview
from laydown.physics.colour.spectrum import lab_of_spectra, lab_of_xyz, sampled, xyz_of_lab
from laydown.reader.papers.tables import read_spectral_weights

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    import colour

WEIGHTS = {
    (row.illuminant, row.observer_deg): np.array([row.x, row.y, row.z]).T for row in read_spectral_weights()
}


@pytest.mark.parametrize("light", WHITES)
def test_all_chips_of_a_chart_have_the_colours_that_colour_science_gives_them(light):
    observer = {2: "CIE 1931 2 Degree Standard Observer", 10: "CIE 1964 10 Degree Standard Observer"}[
        light[1]
    ]
    names = {2: "CIE 1931 2 Degree Standard Observer", 10: "CIE 1964 10 Degree Standard Observer"}
    white = colour.CCS_ILLUMINANTS[names[light[1]]][light[0]]
    for chip in colour.SDS_COLOURCHECKERS["BabelColor Average"].values():
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            xyz = colour.sd_to_XYZ(chip, colour.MSDS_CMFS[observer], colour.SDS_ILLUMINANTS[light[0]]) / 100.0
        reference = colour.XYZ_to_Lab(xyz, white)
        spectrum = sampled(np.asarray(chip.wavelengths, float), np.asarray(chip.values, float))
        assert lab_of_spectra(spectrum, WEIGHTS[light]) == pytest.approx(reference, abs=0.15)


@pytest.mark.parametrize("light", [("D65", 2), ("D50", 2)])
def test_colours_inside_the_screen_have_the_codes_of_colour_science(light):
    dice = np.random.default_rng(6)
    lab = np.array([20.0, -25.0, -25.0]) + np.array([75.0, 50.0, 50.0]) * dice.random((3000, 3))
    white = np.array(WHITES[light])
    reference = colour.XYZ_to_sRGB(
        colour.Lab_to_XYZ(lab, colour.XYZ_to_xy(white)),
        illuminant=colour.XYZ_to_xy(white),
        chromatic_adaptation_transform="Bradford",
    )
    inside = ((reference > 0.0) & (reference < 1.0)).all(axis=1)
    found = preview(lab[inside], *light)
    assert inside.sum() > 2000
    assert not found.is_muted.any()
    assert np.abs(found.rgb - 255.0 * reference[inside]).max() < 1.0


def test_cielab_goes_as_in_colour_science_there_and_back():
    dice = np.random.default_rng(7)
    lab = np.array([0.0, -80.0, -80.0]) + np.array([130.0, 160.0, 160.0]) * dice.random((5000, 3))
    white = np.array(WHITES["D65", 10])
    reference = colour.Lab_to_XYZ(lab, colour.XYZ_to_xy(white))
    real = (reference > 0.0).all(axis=1)
    assert xyz_of_lab(lab, white)[real] == pytest.approx(reference[real], abs=2e-5)
    assert lab_of_xyz(xyz_of_lab(lab, white), white)[real] == pytest.approx(lab[real], abs=1e-9)


def test_parts_of_a_difference_make_the_whole_as_in_colour_science():
    dice = np.random.default_rng(8)
    first, second = (
        np.array([0.0, -60.0, -60.0]) + np.array([110.0, 120.0, 120.0]) * dice.random((20_000, 3))
        for _ in range(2)
    )
    parts = colour_parts(first, second)
    whole = colour.delta_E(first, second, method="CIE 1976")
    assert parts.total == pytest.approx(whole, abs=1e-9)
    assert np.sqrt(parts.lightness**2 + parts.chroma**2 + parts.hue**2) == pytest.approx(whole, abs=1e-6)
    # The sign of the hue is that of the angle of CIE LCh.
    angles = [colour.Lab_to_LCHab(one)[:, 2] for one in (first, second)]
    turn = (angles[1] - angles[0] + 180.0) % 360.0 - 180.0
    clear = np.abs(np.abs(turn) - 90.0) < 89.0
    assert (np.sign(parts.hue[clear]) == np.sign(turn[clear])).all()


def test_opposite_hues_and_neutrals_have_parts_as_well():
    first = np.array([[50.0, 10.0, 0.0], [50.0, 0.0, 0.0], [50.0, 0.0, 0.0]])
    second = np.array([[50.0, -10.0, 0.0], [50.0, 3.0, 4.0], [50.0, 0.0, 0.0]])
    parts = colour_parts(first, second)
    assert parts.hue == pytest.approx([20.0, 0.0, 0.0])
    assert parts.chroma == pytest.approx([0.0, 5.0, 0.0])
