"""From a reflected spectrum to CIELAB. Wavelengths are in nm, reflectances are factors: 1 is a perfect white."""

from typing import Final

import numpy as np

from laydown.physics.values import Floats

FROM_NM: Final = 400.0
"""First wavelength of the weights [nm]; definition."""

TO_NM: Final = 700.0
"""Last wavelength of the weights [nm]; definition."""

STEP_NM: Final = 10.0
"""Step of the weights [nm]; definition."""

HIGHEST_FACTOR: Final = 2.5
"""Greater reflectances would be per cent; an effect coat may exceed 1 near the gloss; assumption."""

_EDGE: Final = 216.0 / 24389.0
_KAPPA: Final = 24389.0 / 27.0


def sampled(wavelengths_nm: Floats, reflectance: Floats) -> Floats:
    """Return spectra at 400 to 700 nm in steps of 10, the values at the ends held beyond them.

    Parameters
    ----------
    wavelengths_nm
        Rising wavelengths [nm], (w,).
    reflectance
        Reflectance factors, (..., w); an effect coat may exceed 1 near the gloss.

    Returns
    -------
    Reflectance factors, (..., 31).

    Raises
    ------
    ValueError
        If wavelengths do not rise or any factor is above 2.5, which would be per cent.

    Sources
    -------
    Straight lines between readings; ends held after ASTM E308.
    """
    if not bool(np.all(np.diff(wavelengths_nm) > 0.0)):
        raise ValueError("wavelengths_nm must rise")
    if bool(np.any(np.asarray(reflectance) > HIGHEST_FACTOR)):
        raise ValueError(
            f"reflectance must be a factor up to {HIGHEST_FACTOR:g}; these numbers look like per cent"
        )
    wanted = np.arange(FROM_NM, TO_NM + STEP_NM / 2.0, STEP_NM)
    rows = np.asarray(reflectance, float).reshape(-1, wavelengths_nm.size)
    found = np.array([np.interp(wanted, wavelengths_nm, row) for row in rows])
    return found.reshape(*np.shape(reflectance)[:-1], wanted.size)


def lab_of_spectra(reflectance: Floats, weights: Floats) -> Floats:
    """Return CIELAB of reflected spectra.

    Parameters
    ----------
    reflectance
        Reflectance factors at 400 to 700 nm in steps of 10, (..., 31).
    weights
        Weights for X, Y and Z of one light and observer, (31, 3), a perfect white having Y = 1.

    Returns
    -------
    L*, a*, b* on the last axis, of the light and observer of the weights.

    Notes
    -----
    With the shipped weights four chips of a published chart are met to 0.02
    (``tests/published/test_spectrum_published.py``).

    Sources
    -------
    ASTM E308 and ISO/CIE 11664-3, -4.
    """
    return lab_of_xyz(reflectance @ weights, weights.sum(axis=0))


def lab_of_xyz(xyz: Floats, white: Floats) -> Floats:
    """Return CIELAB of tristimulus values.

    Parameters
    ----------
    xyz
        X, Y, Z on the last axis, Y of the white being 1.
    white
        X, Y, Z of the white, (3,).

    Returns
    -------
    L*, a*, b* on the last axis; L* above 100 is legal.

    Sources
    -------
    ISO/CIE 11664-4.
    """
    ratio = xyz / white
    f = np.where(ratio > _EDGE, np.cbrt(ratio), (_KAPPA * ratio + 16.0) / 116.0)
    parts = [116.0 * f[..., 1] - 16.0, 500.0 * (f[..., 0] - f[..., 1]), 200.0 * (f[..., 1] - f[..., 2])]
    return np.stack(parts, axis=-1)


def xyz_of_lab(lab: Floats, white: Floats) -> Floats:
    """Return tristimulus values of CIELAB, the inverse of `lab_of_xyz`.

    Parameters
    ----------
    lab
        L*, a*, b* on the last axis.
    white
        X, Y, Z of the white, (3,).

    Returns
    -------
    X, Y, Z on the last axis.

    Sources
    -------
    ISO/CIE 11664-4.
    """
    middle = (lab[..., 0] + 16.0) / 116.0
    f = np.stack([middle + lab[..., 1] / 500.0, middle, middle - lab[..., 2] / 200.0], axis=-1)
    cube = f**3
    return np.asarray(np.where(cube > _EDGE, cube, (116.0 * f - 16.0) / _KAPPA) * white, float)
