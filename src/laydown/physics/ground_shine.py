"""How another ground shines through a translucent coat."""

from typing import Final

import numpy as np

from laydown.physics.values import Floats

_LEAST: Final = 1e-4


def over_other_ground(lab: Floats, start: Floats, ground_delta: Floats, fading: Floats) -> Floats:
    """Return the colours of a coat over a ground that differs from the panel's.

    Parameters
    ----------
    lab
        CIELAB over the panel's ground, (..., n, angle, 3).
    start
        CIELAB of the panel's ground, (..., angle, 3).
    ground_delta
        Other ground less the panel's, (angle, 3).
    fading
        Share of the ground's light that the bend of the curve lets through, 0 to 1, (..., n).

    Returns
    -------
    CIELAB over the other ground, same shape as `lab`.

    Notes
    -----
    ::

        R = f^3,  f = (L* + 16) / 116, f + a* / 500, f - b* / 200               (1)
        R' = R + T (R_other - R_own)                                            (2)
        T = min(fading, R / R_own at the angle where it is least)               (3)

    Nothing but the ground can be left at the angle where flakes send back least, so the ground's share is no more
    than what is seen there. Light adds up; CIELAB does not, which is why the shift is not added there: added there, an
    error of 0.03 to 0.06 coats is left of a ground 1 L* off, here 0.02 (``tests/unit/physics/test_ground.py``).

    Sources
    -------
    (1) ISO/CIE 11664-4 above its straight foot; the foot is left out both ways. (2) Light through a film adds up.
    (3) A bound from (2); that the film is alike at all angles is an assumption.
    """
    seen, own, other = _light(lab), _light(start), _light(start + ground_delta)
    share = (seen / np.maximum(own, _LEAST)[..., None, :, :]).min(axis=-2, keepdims=True)
    through = np.minimum(share, fading[..., None, None])
    root = np.cbrt(seen + through * (other - own)[..., None, :, :])
    middle = root[..., 1]
    parts = [116.0 * middle - 16.0, 500.0 * (root[..., 0] - middle), 200.0 * (middle - root[..., 2])]
    return np.stack(parts, axis=-1)


def _light(lab: Floats) -> Floats:
    """X, Y and Z over those of the white."""
    middle = (lab[..., 0] + 16.0) / 116.0
    root = np.stack([middle + lab[..., 1] / 500.0, middle, middle - lab[..., 2] / 200.0], axis=-1)
    return np.asarray(root**3, float)
