"""A colour on a screen, for orientation: CIELAB of any light to sRGB."""

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from laydown.physics.colour.spectrum import lab_of_xyz, xyz_of_lab
from laydown.physics.values import Floats

WHITES: Final = {
    ("D65", 2): (0.95047, 1.0, 1.08883),
    ("D50", 2): (0.96422, 1.0, 0.82521),
    ("D65", 10): (0.94811, 1.0, 1.07304),
    ("D50", 10): (0.96720, 1.0, 0.81427),
}
"""X, Y, Z of the white by illuminant and observer [degrees]; ISO/CIE 11664-2 and ASTM E308, from memory."""

TIMES: Final = 5.0
"""How many times a difference of two whites is drawn larger, so that a screen can show it; assumption."""

_SRGB_TO_XYZ: Final = np.array(
    [[0.4124564, 0.3575761, 0.1804375], [0.2126729, 0.7151522, 0.0721750], [0.0193339, 0.1191920, 0.9503041]]
)
_XYZ_TO_SRGB: Final = np.linalg.inv(_SRGB_TO_XYZ)
_SCREEN_WHITE: Final = np.array(WHITES["D65", 2])
_BRADFORD: Final = np.array([[0.8951, 0.2664, -0.1614], [-0.7502, 1.7135, 0.0367], [0.0389, -0.0685, 1.0296]])
_OUTSIDE: Final = 0.002
_BISECTIONS: Final = 14


@dataclass(frozen=True, slots=True)
class Preview:
    """Colours for a screen, and what was done to them."""

    rgb: NDArray[np.uint8]
    """sRGB codes, colours on the last axis."""
    is_muted: NDArray[np.bool_]
    """Where chroma was taken away because the screen has no such colour."""
    exposure_stops: float
    """By how many stops all colours were darkened together, 0 or less."""


def preview(lab: Floats, illuminant: str = "D65", observer_deg: int = 10) -> Preview:
    """Return CIELAB colours as sRGB codes, all of one picture with one exposure.

    Parameters
    ----------
    lab
        L*, a*, b* on the last axis; L* above 100 is legal.
    illuminant, observer_deg
        Light and observer of the colours, one of `WHITES`.

    Returns
    -------
    Codes, which colours were muted, and the exposure. Write below it: for orientation, not for matching. Near white
    one code is 0.2 to 0.5 CIEDE2000, so no screen of 8 bit shows a match.

    Raises
    ------
    ValueError
        If the light or the observer is not known.

    Notes
    -----
    The brightest colour sets the exposure where its Y is above 1. Adapted to D65 by Bradford's matrix; a colour beyond
    the screen loses chroma at its lightness and hue. Inside the screen equal to colour-science to one code
    (``tests/second/test_spectrum_second.py``).

    Sources
    -------
    ISO/CIE 11664-4; IEC 61966-2-1; Bradford matrix as in the ICC profile specification, from memory.
    """
    if (illuminant, observer_deg) not in WHITES:
        raise ValueError(f"illuminant and observer_deg must be one of {sorted(WHITES)}")
    lab = np.asarray(lab, float)
    white = np.array(WHITES[illuminant, observer_deg])
    xyz = xyz_of_lab(lab, white)
    exposure = 1.0 / max(1.0, float(xyz[..., 1].max(initial=0.0)))
    adapted = exposure * xyz @ _adaptation(white).T
    linear = adapted @ _XYZ_TO_SRGB.T
    muted = np.asarray(((linear < -_OUTSIDE) | (linear > 1.0 + _OUTSIDE)).any(axis=-1))
    if muted.any():
        linear[muted] = _muted(lab_of_xyz(adapted[muted], _SCREEN_WHITE))
    return Preview(_encoded(linear), muted, float(np.log2(exposure)))


def exaggerated(lab: Floats, reference: Floats, times: float = TIMES) -> Floats:
    """Return colours with their difference to a reference drawn larger; mark them as such.

    Parameters
    ----------
    lab, reference
        CIELAB on the last axis; both broadcast.
    times
        How many times, 1 or more.

    Returns
    -------
    CIELAB on the last axis.
    """
    return np.asarray(reference + times * (np.asarray(lab, float) - reference), float)


def _adaptation(white: Floats) -> Floats:
    """Matrix from one white to that of the screen."""
    gain = (_BRADFORD @ _SCREEN_WHITE) / (_BRADFORD @ white)
    return np.asarray(np.linalg.inv(_BRADFORD) @ (gain[:, None] * _BRADFORD), float)


def _muted(lab: Floats) -> Floats:
    """Linear sRGB of colours with as much chroma as the screen has."""
    kept, lost = np.zeros(lab.shape[0]), np.ones(lab.shape[0])
    for _ in range(_BISECTIONS):
        tried = 0.5 * (kept + lost)
        linear = _linear(lab, tried)
        inside = ((linear >= -_OUTSIDE) & (linear <= 1.0 + _OUTSIDE)).all(axis=-1)
        kept, lost = np.where(inside, tried, kept), np.where(inside, lost, tried)
    return _linear(lab, kept)


def _linear(lab: Floats, chroma_share: Floats) -> Floats:
    """Linear sRGB of colours with a share of their chroma."""
    dulled = lab * np.stack([np.ones_like(chroma_share), chroma_share, chroma_share], axis=-1)
    return np.asarray(xyz_of_lab(dulled, _SCREEN_WHITE) @ _XYZ_TO_SRGB.T, float)


def _encoded(linear: Floats) -> NDArray[np.uint8]:
    """Codes of linear sRGB."""
    held = np.clip(linear, 0.0, 1.0)
    curved = np.where(held > 0.0031308, 1.055 * held ** (1.0 / 2.4) - 0.055, 12.92 * held)
    return np.rint(255.0 * curved).astype(np.uint8)
