"""What a table of spectral weights is."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class SpectralWeights:
    """Weights that turn a spectrum into X, Y and Z under one light for one observer; a perfect white has Y = 1."""

    illuminant: str
    observer_deg: int
    from_nm: float
    step_nm: float
    x: tuple[float, ...]
    y: tuple[float, ...]
    z: tuple[float, ...]
