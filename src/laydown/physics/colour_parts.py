"""A colour difference in its parts: lightness, chroma, hue, and along both axes of CIELAB."""

from dataclasses import dataclass

import numpy as np

from laydown.physics.values import Floats


@dataclass(frozen=True, slots=True)
class ColourParts:
    """Second colour less first colour; every part without the last axis of the colours."""

    lightness: Floats
    """dL*; above 0 is lighter."""
    redness: Floats
    """da*; above 0 is redder, below greener."""
    yellowness: Floats
    """db*; above 0 is yellower, below bluer."""
    chroma: Floats
    """dC*ab; above 0 is more vivid."""
    hue: Floats
    """dH*ab; above 0 is turned from red towards yellow."""

    @property
    def total(self) -> Floats:
        """The whole difference dE*ab."""
        return np.asarray(np.sqrt(self.lightness**2 + self.redness**2 + self.yellowness**2), float)


def colour_parts(first: Floats, second: Floats) -> ColourParts:
    """Return the parts of the difference of pairs of CIELAB colours.

    Parameters
    ----------
    first, second
        L*, a*, b* on the last axis; the other axes broadcast.

    Returns
    -------
    Second less first.

    Notes
    -----
    ::

        dH = (a1 b2 - a2 b1) / sqrt((C1 C2 + a1 a2 + b1 b2) / 2)                (1)
        dE^2 = dL^2 + da^2 + db^2 = dL^2 + dC^2 + dH^2                          (2)

    Sources
    -------
    (1) Sève, Color Res. Appl. 16 (1991) 217-218, which has the sign without an angle. (2) ISO/CIE 11664-4.
    """
    first, second = np.broadcast_arrays(np.asarray(first, float), np.asarray(second, float))
    step = second - first
    c1, c2 = (np.hypot(one[..., 1], one[..., 2]) for one in (first, second))
    cross = first[..., 1] * second[..., 2] - second[..., 1] * first[..., 2]
    along = first[..., 1] * second[..., 1] + first[..., 2] * second[..., 2]
    half = np.maximum(0.5 * (c1 * c2 + along), 0.0)
    # Opposite hues leave nothing to divide by; there the whole of what is not chroma is hue.
    opposite = half <= 1e-9 * c1 * c2
    turned = cross / np.sqrt(np.where(opposite, 1.0, half))
    hue = np.where(opposite, 2.0 * np.sqrt(c1 * c2), turned)
    return ColourParts(step[..., 0], step[..., 1], step[..., 2], c2 - c1, hue)
