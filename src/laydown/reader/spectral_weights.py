"""Read the table of spectral weights that ships with laydown."""

import tomllib
from importlib.resources import files

from laydown.schema.spectral_weights import SpectralWeights


def read_spectral_weights() -> tuple[SpectralWeights, ...]:
    """Return every row of the shipped table: an illuminant with an observer each.

    Returns
    -------
    Rows in the order of the file.
    """
    raw = tomllib.loads((files("laydown.data") / "spectral_weights.toml").read_text(encoding="utf-8"))
    return tuple(
        SpectralWeights(
            illuminant=row["illuminant"],
            observer_deg=row["observer_deg"],
            from_nm=raw["from_nm"],
            step_nm=raw["step_nm"],
            x=tuple(row["x"]),
            y=tuple(row["y"]),
            z=tuple(row["z"]),
        )
        for row in raw["weights"]
    )
