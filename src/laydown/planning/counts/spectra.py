"""Spectra of a let-down panel become CIELAB before anything is counted."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from laydown.physics.colour.spectrum import lab_of_spectra, sampled
from laydown.schema.problem import Problem
from laydown.schema.reading import Reading, Readings, SpectralReading, SpectralWeights

USUAL_LIGHT = ("D65", 10)
"""Illuminant and observer taken where a file holds spectra only; SAE J1545, from a summary."""


def with_lab(
    readings: Readings, weights: Sequence[SpectralWeights], file: str
) -> Readings | tuple[Problem, ...]:
    """Return readings without spectra: each is turned into CIELAB of the light that the other readings have.

    Parameters
    ----------
    readings
        As read from a file.
    weights
        Weights of the lights that are known.
    file
        Name of the file, for problems.

    Returns
    -------
    The readings, or what keeps a spectrum from becoming a colour.

    Sources
    -------
    ``laydown.physics.colour.spectrum``.
    """
    if not readings.spectra:
        return readings
    first = readings.readings[0] if readings.readings else None
    light = (first.illuminant, first.observer) if first is not None else USUAL_LIGHT
    known = {(one.illuminant, one.observer_deg): one for one in weights}
    if light not in known:
        named = ", ".join(f"{name}/{degrees}" for name, degrees in known)
        what = f"holds spectra beside colours of {light[0]}/{light[1]}, for which there are no weights"
        return (Problem(file, what, f"export the colours too, or take one of {named}"),)
    table = known[light]
    columns = np.array([table.x, table.y, table.z]).T
    found: list[Reading] = []
    problems: list[Problem] = []
    for one in readings.spectra:
        lab = _lab_of(one, columns)
        if isinstance(lab, str):
            problems.append(
                Problem(f"{file}, {one.role} {one.zone}".strip(), lab, "see spectra in the mapping")
            )
        else:
            found.append(_reading(one, lab, light))
    return (
        tuple(problems) if problems else replace(readings, readings=(*readings.readings, *found), spectra=())
    )


def _lab_of(one: SpectralReading, columns: np.ndarray) -> tuple[float, float, float] | str:
    """Colour of a spectrum, or why it has none."""
    spectrum = one.spectrum
    factors = np.array(spectrum.factors, np.float64)
    waves = spectrum.start_nm + spectrum.increment_nm * np.arange(factors.size, dtype=np.float64)
    try:
        lab = lab_of_spectra(sampled(waves, factors), columns)
    except ValueError as error:
        return str(error)
    return float(lab[0]), float(lab[1]), float(lab[2])


def _reading(one: SpectralReading, lab: tuple[float, float, float], light: tuple[str, int]) -> Reading:
    """The same spot as a colour."""
    return Reading(
        one.panel,
        one.role,
        one.coats,
        one.zone,
        one.number,
        one.angle_deg,
        *lab,
        illuminant=light[0],
        observer=light[1],
    )
