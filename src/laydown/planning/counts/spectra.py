"""Spectra of a let-down panel become CIELAB before anything is counted."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from laydown.physics.colour.spectrum import HIGHEST_FACTOR, lab_of_spectra, sampled
from laydown.schema.message import Message, Name, message
from laydown.schema.problem import InputError, Problem
from laydown.schema.reading import Reading, Readings, SpectralReading, SpectralWeights

USUAL_LIGHT = ("D65", 10)
"""Illuminant and observer taken where a file holds spectra only; SAE J1545, from a summary."""


def with_lab(readings: Readings, weights: Sequence[SpectralWeights], file: str) -> Readings:
    """Return readings without spectra: each is turned into CIELAB of the light that the other readings have."""
    if not readings.spectra:
        return readings
    first = readings.readings[0] if readings.readings else None
    light = (first.illuminant, first.observer) if first is not None else USUAL_LIGHT
    known = {(one.illuminant, one.observer_deg): one for one in weights}
    if light not in known:
        named = tuple(_named(one) for one in known)
        what = message("spectra-of-other-light", light=_named(light))
        raise InputError(file, (Problem(file, what, message("do.export-colours", lights=named)),))
    table = known[light]
    columns = np.array([table.x, table.y, table.z]).T
    found: list[Reading] = []
    problems: list[Problem] = []
    for one in readings.spectra:
        lab = _lab_of(one, columns)
        if isinstance(lab, Message):
            place = f"{file}, {one.role} {one.zone}".strip()
            problems.append(Problem(place, lab, message("do.see-spectra")))
        else:
            found.append(_reading(one, lab, light))
    if problems:
        raise InputError(file, tuple(problems))
    return replace(readings, readings=(*readings.readings, *found), spectra=())


def _named(light: tuple[str, int]) -> Name:
    """Illuminant and observer, as D65/10."""
    return Name(f"{light[0]}/{light[1]}")


def _lab_of(one: SpectralReading, columns: np.ndarray) -> tuple[float, float, float] | Message:
    """Colour of a spectrum, or why it has none."""
    spectrum = one.spectrum
    factors = np.array(spectrum.factors, np.float64)
    waves = spectrum.start_nm + spectrum.increment_nm * np.arange(factors.size, dtype=np.float64)
    if float(factors.max()) > HIGHEST_FACTOR:
        return message("spectrum-per-cent", highest=HIGHEST_FACTOR)
    lab = lab_of_spectra(sampled(waves, factors), columns)
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
