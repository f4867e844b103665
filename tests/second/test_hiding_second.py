"""Hiding against scipy's integration of the differential equation, and against colour-science."""

import warnings

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from laydown.physics.colour.hiding import (
    absorption_for,
    endless_reflectance,
    lab_of_bands,
    layer_reflectance,
    neutral_reflectance,
    steps_de,
)

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    import colour


def integrated(below, absorption, scattering, film_um):
    """Reflectance by integration of dR/dx = S - 2 (K + S) R + S R^2."""
    course = solve_ivp(
        lambda _, r: scattering - 2.0 * (absorption + scattering) * r + scattering * r * r,
        (0.0, film_um),
        [below],
        method="LSODA",
        rtol=1e-11,
        atol=1e-13,
    )
    return float(course.y[0, -1])


@pytest.mark.parametrize("below", [0.0, 0.25, 0.8, 1.0])
@pytest.mark.parametrize("absorption", [1e-5, 0.002, 0.05, 0.6])
@pytest.mark.parametrize("scattering", [0.02, 0.25])
@pytest.mark.parametrize("film_um", [1.0, 8.0, 60.0])
def test_the_layer_solves_its_differential_equation(below, absorption, scattering, film_um):
    value = layer_reflectance(*(np.float64(one) for one in (below, absorption, scattering, film_um)))
    assert value == pytest.approx(integrated(below, absorption, scattering, film_um), abs=1e-7)


def test_an_endless_layer_is_where_the_differential_equation_rests():
    for absorption, scattering in ((0.002, 0.25), (0.1, 0.1), (0.6, 0.03)):
        endless = endless_reflectance(np.float64(absorption), np.float64(scattering))
        assert endless == pytest.approx(integrated(0.5, absorption, scattering, 3000.0), abs=1e-7)
        assert absorption_for(endless, np.float64(scattering)) == pytest.approx(absorption, rel=1e-9)


def seen(bands):
    """CIELAB by colour-science: linear sRGB to XYZ by the seven digits of the standard's usual inverse."""
    to_xyz = np.array(
        [
            [0.4124564, 0.3575761, 0.1804375],
            [0.2126729, 0.7151522, 0.0721750],
            [0.0193339, 0.1191920, 0.9503041],
        ]
    )
    white = to_xyz.sum(axis=1)
    return colour.XYZ_to_Lab(bands @ to_xyz.T, colour.XYZ_to_xy(white))


def test_bands_have_the_colour_that_colour_science_gives_them():
    bands = np.random.default_rng(3).random((500, 3))
    # The matrix's luminances add up to 1.0000001, which the chromaticity of white forgets.
    assert lab_of_bands(bands) == pytest.approx(seen(bands), abs=1e-5)


def test_bands_have_the_colour_of_linear_srgb_in_colour_science():
    # Its own matrix has four digits, hence the tolerance.
    bands = np.random.default_rng(4).random((500, 3))
    space = colour.RGB_COLOURSPACES["sRGB"]
    xyz = colour.RGB_to_XYZ(bands, space, apply_cctf_decoding=False)
    reference = colour.XYZ_to_Lab(xyz, space.whitepoint)
    assert lab_of_bands(bands) == pytest.approx(reference, abs=0.03)


@pytest.mark.parametrize("lightness", [0.0, 4.0, 8.0, 8.1, 30.0, 70.0, 92.0, 100.0])
def test_greys_reflect_as_in_colour_science(lightness):
    assert neutral_reflectance(lightness) == pytest.approx(
        float(colour.luminance(lightness, method="CIE 1976", Y_n=1.0)), abs=1e-9
    )


@pytest.mark.parametrize("lightness", [30.0, 70.0, 90.0])
def test_steps_of_hiding_are_those_of_scipy_and_colour_science(lightness):
    endless, scattering = np.array([0.80, 0.80, 0.78]), np.full(3, 0.25)
    absorption = scattering * (1.0 - endless) ** 2 / (2.0 * endless)
    below = (lightness + 16.0) / 116.0
    films = [0.0, 8.0, 16.0, 24.0]
    layers = [
        seen(
            np.array(
                [
                    integrated(below**3, k, s, film) if film else below**3
                    for k, s in zip(absorption, scattering, strict=True)
                ]
            )
        )
        for film in films
    ]
    steps, rest = steps_de(lightness, absorption, scattering, np.array(films[1:]))
    for index in range(3):
        step = colour.delta_E(layers[index + 1], layers[index], method="CIE 2000")
        assert steps[index] == pytest.approx(float(step), abs=1e-5)
        left = colour.delta_E(layers[index + 1], seen(endless), method="CIE 2000")
        assert rest[index] == pytest.approx(float(left), abs=1e-5)
