"""Spectra, whites and screen colours against printed values."""

import numpy as np
import pytest

from laydown.physics.colour.screen import WHITES, exaggerated, preview
from laydown.physics.colour.spectrum import lab_of_spectra, lab_of_xyz, sampled, xyz_of_lab
from laydown.reader.papers.tables import read_spectral_weights

NM = np.arange(400.0, 701.0, 10.0)

# Average spectra of a common chart of 24 chips, published by its measurers (data set "BabelColor Average", 400 to 700
# nm by 10), with CIELAB for D65 and 10 degrees as colour-science 0.4.7 computes them from the whole spectra.
CHIPS = {
    "white": (
        (
            ".423 .660 .811 .862 .877 .884 .891 .896 .899 .904 .907 .909 .911 .910 .911 .914 "
            ".913 .916 .915 .916 .914 .915 .918 .919 .921 .923 .924 .922 .922 .925 .927"
        ),
        [96.4516, -0.9035, 2.8642],
    ),
    "neutral": (
        (
            ".163 .180 .186 .190 .193 .194 .194 .192 .191 .191 .191 .192 .192 .192 .192 .192 "
            ".192 .193 .192 .192 .191 .189 .188 .186 .184 .182 .181 .179 .178 .176 .174"
        ),
        [50.839, -0.497, -0.051],
    ),
    "red": (
        (
            ".048 .047 .047 .047 .047 .047 .046 .045 .044 .044 .045 .046 .047 .048 .049 .050 "
            ".054 .060 .072 .104 .178 .312 .467 .581 .644 .675 .690 .698 .706 .715 .724"
        ),
        [40.0377, 46.6067, 24.8359],
    ),
    "yellow": (
        (
            ".052 .052 .053 .054 .056 .059 .067 .081 .107 .152 .225 .336 .462 .559 .616 .650 "
            ".672 .694 .710 .723 .731 .739 .746 .752 .758 .764 .769 .771 .776 .782 .790"
        ),
        [79.6785, 5.4963, 79.4552],
    ),
}


def weights(illuminant, observer):
    """Shipped weights of one light and observer, (31, 3)."""
    rows = read_spectral_weights()
    row = next(one for one in rows if (one.illuminant, one.observer_deg) == (illuminant, observer))
    assert (row.from_nm, row.step_nm, len(row.x)) == (400.0, 10.0, 31)
    return np.array([row.x, row.y, row.z]).T


@pytest.mark.parametrize("chip", CHIPS)
def test_chips_have_their_published_colours(chip):
    spectrum, lab = CHIPS[chip]
    assert lab_of_spectra(np.array(spectrum.split(), float), weights("D65", 10)) == pytest.approx(
        lab, abs=0.02
    )


# White points: CIE 15 and ASTM E308, 2 and 10 degrees (from memory; A from the same).
WHITE_POINTS = {
    ("D65", 2): (0.95047, 1.0, 1.08883),
    ("D65", 10): (0.94811, 1.0, 1.07304),
    ("D50", 2): (0.96422, 1.0, 0.82521),
    ("D50", 10): (0.96720, 1.0, 0.81427),
    ("A", 2): (1.09850, 1.0, 0.35585),
    ("A", 10): (1.11144, 1.0, 0.35200),
}


@pytest.mark.parametrize("light", WHITE_POINTS)
def test_a_perfect_white_has_the_white_point_of_its_light(light):
    assert np.ones(31) @ weights(*light) == pytest.approx(WHITE_POINTS[light], abs=2e-4)


def test_the_screen_knows_the_same_white_points():
    for light, white in WHITES.items():
        assert white == pytest.approx(WHITE_POINTS[light], abs=2e-5)


def test_spectra_read_otherwise_are_brought_to_the_weights():
    wide = np.linspace(380.0, 730.0, 71)
    straight = 0.2 + 0.001 * (wide - 400.0)
    found = sampled(wide, np.stack([straight, 2.0 * straight]))
    assert found[0] == pytest.approx(0.2 + 0.001 * (NM - 400.0))
    assert found.shape == (2, 31)
    short = sampled(np.array([420.0, 680.0]), np.array([0.3, 0.5]))
    assert short[0] == short[2] == 0.3  # held beyond the end, as ASTM E308 does
    with pytest.raises(ValueError, match="per cent"):
        sampled(wide, 100.0 * straight)
    with pytest.raises(ValueError, match="rise"):
        sampled(wide[::-1], straight)


@pytest.mark.parametrize("lightness", [0.0, 8.0, 50.0, 100.0, 130.0])
def test_greys_go_there_and_back(lightness):
    lab = np.array([lightness, 0.0, 0.0])
    white = np.array(WHITES["D65", 10])
    assert lab_of_xyz(xyz_of_lab(lab, white), white) == pytest.approx(lab, abs=1e-9)


# Codes by colour-science 0.4.7 (Lab_to_XYZ, XYZ_to_sRGB with Bradford), IEC 61966-2-1; one code is allowed.
@pytest.mark.parametrize(
    ("light", "lab", "rgb"),
    [
        (("D65", 2), (91.6, -0.5, 1.2), (231, 231, 229)),
        (("D65", 2), (50.0, 20.0, -30.0), (127, 109, 170)),
        (("D65", 2), (75.0, 5.0, 60.0), (223, 179, 69)),
        (("D65", 2), (20.0, 0.0, 0.0), (48, 48, 48)),
        (("D50", 2), (75.0, 5.0, 60.0), (216, 180, 67)),
    ],
)
def test_colours_have_their_codes(light, lab, rgb):
    found = preview(np.array(lab), *light)
    assert np.abs(found.rgb.astype(int) - np.array(rgb)).max() <= 1
    assert found.exposure_stops == 0.0


def test_whites_of_every_light_are_the_white_of_the_screen():
    for light in WHITES:
        assert (preview(np.array([100.0, 0.0, 0.0]), *light).rgb == 255).all()


def test_one_exposure_holds_for_a_picture_and_is_told():
    found = preview(np.array([[103.0, 0.0, 0.0], [70.0, 0.0, 2.0]]))
    alone = preview(np.array([70.0, 0.0, 2.0]))
    assert found.exposure_stops < 0.0
    assert (found.rgb[0] == 255).all()
    assert (found.rgb[1] < alone.rgb).all()


def test_a_colour_beyond_the_screen_loses_chroma_only():
    # Of a grey of the same lightness the code is known; hue must not turn.
    found = preview(np.array([[60.0, -90.0, 20.0], [60.0, 0.0, 0.0]]))
    assert list(found.is_muted) == [True, False]
    red, green, blue = (int(code) for code in found.rgb[0])
    assert green > blue > red


def test_a_light_that_is_not_known_is_refused():
    with pytest.raises(ValueError, match="illuminant"):
        preview(np.array([50.0, 0.0, 0.0]), "F11", 10)


def test_a_difference_is_drawn_five_times_as_large():
    car, panel = np.array([93.0, -1.0, 4.0]), np.array([92.8, -1.0, 4.3])
    assert exaggerated(panel, car) == pytest.approx([92.0, -1.0, 5.5])
