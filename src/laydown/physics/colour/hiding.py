"""How a covering coat hides what lies below: Kubelka-Munk in three bands."""

import numpy as np

from laydown.physics.colour.difference import de2000
from laydown.physics.values import Floats

_TO_XYZ = np.array(
    [[0.4124564, 0.3575761, 0.1804375], [0.2126729, 0.7151522, 0.0721750], [0.0193339, 0.1191920, 0.9503041]]
)
_WHITE = _TO_XYZ.sum(axis=1)
_EDGE = 216.0 / 24389.0


def layer_reflectance(
    below: Floats, absorption_per_um: Floats, scattering_per_um: Floats, film_um: Floats
) -> Floats:
    """Return the reflectance of a layer over a background.

    Parameters
    ----------
    below
        Reflectance of the background, 0 to 1.
    absorption_per_um, scattering_per_um
        Kubelka-Munk K (0 or more) and S (above 0) of the layer per µm of dry film.
    film_um
        Dry film [µm], 0 or more. All broadcast.

    Returns
    -------
    Reflectance 0 to 1.

    Notes
    -----
    ::

        a = 1 + K / S,  b = sqrt(a^2 - 1),  z = b S x
        R = ((1 - a Rg) tanh z + b Rg) / ((a - Rg) tanh z + b)                  (1)

    Equal to the numerical solution of ``dR/dx = S - 2 (K + S) R + S R^2`` to 1e-7
    (checked in ``tests/second/test_hiding_second.py``).

    Sources
    -------
    (1) Kubelka-Munk, hyperbolic solution.
    """
    a = 1.0 + absorption_per_um / scattering_per_um
    b = np.sqrt(np.maximum(a * a - 1.0, 1e-18))
    bend = np.tanh(np.minimum(b * scattering_per_um * film_um, 350.0))
    return np.asarray(((1.0 - a * below) * bend + b * below) / ((a - below) * bend + b), float)


def endless_reflectance(absorption_per_um: Floats, scattering_per_um: Floats) -> Floats:
    """Return the reflectance of an endlessly thick layer.

    Parameters
    ----------
    absorption_per_um, scattering_per_um
        K and S as in ``layer_reflectance``.

    Returns
    -------
    Reflectance 0 to 1.

    Notes
    -----
    ::

        R = 1 + K/S - sqrt((K/S)^2 + 2 K/S)                                     (1)

    Sources
    -------
    (1) Kubelka-Munk.
    """
    ratio = absorption_per_um / scattering_per_um
    return np.asarray(1.0 + ratio - np.sqrt(ratio * ratio + 2.0 * ratio), float)


def absorption_for(endless: Floats, scattering_per_um: Floats) -> Floats:
    """Return K of a layer from its endless reflectance and S, the inverse of ``endless_reflectance``.

    Parameters
    ----------
    endless
        Reflectance of an endlessly thick layer, above 0 to 1.
    scattering_per_um
        S per µm of dry film, above 0.

    Returns
    -------
    K per µm of dry film.

    Sources
    -------
    Kubelka-Munk: K/S = (1 - R)^2 / (2 R).
    """
    return np.asarray(scattering_per_um * (1.0 - endless) ** 2 / (2.0 * endless), float)


def neutral_reflectance(lightness: float) -> float:
    """Return the reflectance of a neutral grey from its CIE L*.

    Parameters
    ----------
    lightness
        CIE L*, 0 to 100.

    Returns
    -------
    Reflectance 0 to 1.

    Sources
    -------
    ISO/CIE 11664-4:2019, CIE L*.
    """
    return ((lightness + 16.0) / 116.0) ** 3 if lightness > 8.0 else lightness * 27.0 / 24389.0


def lab_of_bands(bands: Floats) -> Floats:
    """Return CIELAB of reflectances in a red, a green and a blue band.

    Parameters
    ----------
    bands
        Reflectance in three bands on the last axis, 0 to 1.

    Returns
    -------
    L*, a*, b* on the last axis, for D65 and 2 degrees.

    Notes
    -----
    The bands are taken as linear sRGB. Good for neutral and pale colours; a saturated colour over grey needs a
    chart.

    Sources
    -------
    IEC 61966-2-1 primaries; ISO/CIE 11664-4.
    """
    ratio = bands @ _TO_XYZ.T / _WHITE
    f = np.where(ratio > _EDGE, np.cbrt(ratio), (24389.0 / 27.0 * ratio + 16.0) / 116.0)
    return np.stack(
        [
            116.0 * f[..., 1] - 16.0,
            500.0 * (f[..., 0] - f[..., 1]),
            200.0 * (f[..., 1] - f[..., 2]),
        ],
        axis=-1,
    )


def steps_de(
    lightness: float, absorption: Floats, scattering: Floats, films_um: Floats
) -> tuple[Floats, Floats]:
    """Return how much each further film changes the colour, and how far it still is from full hiding.

    Parameters
    ----------
    lightness
        CIE L* of the neutral undercoat, 0 to 100.
    absorption, scattering
        K and S per µm in three bands, shape (3,).
    films_um
        Growing dry films [µm], shape (n,).

    Returns
    -------
    Differences CIEDE2000 between successive films (the first against the undercoat) and to an endless film,
    both of shape (n,).

    Sources
    -------
    ISO/CIE 11664-6:2014 for the difference; films as in `layer_reflectance`.
    """
    below = np.full(3, neutral_reflectance(lightness))
    layers = layer_reflectance(below, absorption, scattering, np.concatenate([[0.0], films_um])[:, None])
    colours = lab_of_bands(layers)
    full = lab_of_bands(endless_reflectance(absorption, scattering))
    return de2000(colours[1:], colours[:-1]), de2000(colours[1:], full)
