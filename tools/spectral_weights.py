"""Writes ``src/laydown/data/spectral_weights.toml``: what turns a spectrum of 31 values into X, Y and Z.

Run ``python -m tools.spectral_weights`` in an environment with colour-science. The weights are those of ASTM E2022 at
10 nm, with the parts beyond 400 and 700 nm added to the ends as ASTM E308 has it.
"""

import warnings
from pathlib import Path
from typing import Final

import numpy as np

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    import colour
    from colour.colorimetry import (
        adjust_tristimulus_weighting_factors_ASTME308,
        tristimulus_weighting_factors_ASTME2022,
    )

TARGET: Final = Path(__file__).parents[1] / "src" / "laydown" / "data" / "spectral_weights.toml"
"""Where the table goes."""

OBSERVERS: Final = {
    2: "CIE 1931 2 Degree Standard Observer",
    10: "CIE 1964 10 Degree Standard Observer",
}
"""Names of the observers in colour-science."""

HEAD: Final = """\
# What turns a spectrum of 31 values, 400 to 700 nm in steps of 10, into X, Y and Z: multiply and sum.
# A perfect white has Y = 1. What lies beyond 400 and 700 nm counts with the value at the end.
#
# Written once by tools/spectral_weights.py.
# Source: standard observers and illuminants of the CIE as colour-science {version} holds them (ISO/CIE 11664-1, -2);
# weights by its functions for ASTM E2022 and E308.
# Licence: colour-science is under BSD-3-Clause; figures of the CIE are facts.

from_nm = 400.0
step_nm = 10.0
"""


def weights(illuminant: str, observer: int) -> np.ndarray:
    """Weights for X, Y and Z, (31, 3), a perfect white having Y = 1."""
    shape = colour.SpectralShape(360, 780, 10)
    observed = colour.MSDS_CMFS[OBSERVERS[observer]].copy().align(colour.SpectralShape(360, 780, 1))
    lit = colour.SDS_ILLUMINANTS[illuminant].copy().align(colour.SpectralShape(360, 780, 1))
    whole = tristimulus_weighting_factors_ASTME2022(observed, lit, shape)
    ends = adjust_tristimulus_weighting_factors_ASTME308(whole, shape, colour.SpectralShape(400, 700, 10))
    return ends / ends[:, 1].sum()


def main() -> None:
    """Write the file."""
    text = HEAD.format(version=colour.__version__)
    for illuminant in ("D65", "D50", "A"):
        for observer in OBSERVERS:
            text += f'\n[[weights]]\nilluminant = "{illuminant}"\nobserver_deg = {observer}\n'
            for name, column in zip("xyz", weights(illuminant, observer).T, strict=True):
                text += f"{name} = [{', '.join(f'{value:.8f}' for value in column)}]\n"
    TARGET.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
