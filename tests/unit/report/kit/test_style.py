"""Contrast and colour vision, checked with published formulae and a reference library."""

from itertools import combinations, pairwise

import colour
import numpy as np
import pytest

from laydown.report.charts.map_scale import ramp_colours
from laydown.report.kit import style


def rgb(hex_colour):
    return np.array([int(hex_colour[i : i + 2], 16) / 255 for i in (1, 3, 5)])


def luminance(hex_colour):
    """Relative luminance; WCAG 2.2, definition of relative luminance."""
    linear = colour.models.eotf_sRGB(rgb(hex_colour))
    return float(linear @ [0.2126, 0.7152, 0.0722])


def contrast(first, second):
    """Contrast ratio; WCAG 2.2, definition of contrast ratio."""
    light, dark = sorted((luminance(first), luminance(second)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def lab(hex_colour, deficiency=None):
    linear = colour.models.eotf_sRGB(rgb(hex_colour))
    if deficiency:
        # Machado, Oliveira and Fernandes 2009, full severity, as the library tabulates it.
        linear = np.clip(colour.matrix_cvd_Machado2009(deficiency, 1.0) @ linear, 0, 1)
    xyz = colour.RGB_to_XYZ(linear, "sRGB", apply_cctf_decoding=False)
    return colour.XYZ_to_Lab(xyz)


def difference(first, second, deficiency=None):
    return float(np.linalg.norm(lab(first, deficiency) - lab(second, deficiency)))


def fills(palette):
    return [fill for tones in palette.sections.values() for fill in tones[:2]]


VISION = [None, "Protanomaly", "Deuteranomaly"]


@pytest.mark.parametrize("vision", VISION)
def test_the_three_states_of_a_join_stay_apart_for_every_colour_vision(vision):
    for first, second in combinations((style.WET, style.TIGHT, style.DRY), 2):
        assert difference(first, second, vision) >= 25


@pytest.mark.parametrize("vision", VISION)
def test_the_three_layers_stay_apart_for_every_colour_vision(vision):
    for first, second in combinations(style.LAYER_TONES.values(), 2):
        assert difference(first, second, vision) >= 20


@pytest.mark.parametrize("palette", [style.COLOUR, style.GREY])
def test_text_reaches_the_contrast_for_body_text(palette):
    # WCAG 2.2 success criterion 1.4.3: 4.5 for text.
    for tone in (palette.ink, palette.muted):
        for ground in (palette.paper, *fills(palette)):
            assert contrast(tone, ground) >= 4.5


@pytest.mark.parametrize("palette", [style.COLOUR, style.GREY])
def test_joins_and_ways_reach_the_contrast_for_graphics_on_every_section(palette):
    # WCAG 2.2 success criterion 1.4.11: 3 for graphics.
    for tone in (palette.wet, palette.tight, palette.dry, palette.muted):
        for ground in fills(palette):
            assert contrast(tone, ground) >= 3


def test_the_ramp_falls_in_lightness_at_every_step_and_begins_almost_as_paper():
    lightness = [lab(tone)[0] for tone in ramp_colours(9)]
    assert all(b < a - 3 for a, b in pairwise(lightness))
    assert lightness[0] > 95


def test_the_ends_of_the_film_scale_look_alike_in_grey_and_so_need_their_patterns():
    assert abs(lab(style.FILM_UNDER)[0] - lab(style.FILM_OVER)[0]) < 10


def test_print_uses_no_colour():
    tones = [value for name in style.GREY.__slots__ if isinstance(value := getattr(style.GREY, name), str)]
    assert all(tone[1:3] == tone[3:5] == tone[5:7] for tone in [*tones, *style.GREY.layers.values()])
