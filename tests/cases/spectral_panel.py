"""Invented let-down panels from a spectral model that shares nothing with the fitted curves.

A layer of flakes in a yellowish binder lies over a white ground. Light goes down and up at an angle, is absorbed on its
way by Beer and Lambert with the slant path in the film, is hindered by flakes, and each flake that is met sends back an
interference colour that moves with the angle. Reflectance at 31 wavelengths becomes CIELAB for D65 and 10 degrees.
"""

from dataclasses import dataclass
from functools import cache

import numpy as np

from laydown.physics.colour.spectrum import lab_of_spectra
from laydown.reader.papers.tables import read_spectral_weights

ANGLES_DEG = np.array([15.0, 25.0, 45.0, 75.0, 110.0])
NM = np.arange(400.0, 701.0, 10.0)
FILM_SCATTER = 0.07
READING = 0.15 / np.sqrt(3.0)
MISMATCH = 0.3
FIELDS = np.arange(6.0)


@cache
def weights():
    """Weights for D65 and 10 degrees."""
    row = next(one for one in read_spectral_weights() if (one.illuminant, one.observer_deg) == ("D65", 10))
    return np.array([row.x, row.y, row.z]).T


def ground(brightness=1.0, yellow=0.0):
    """Reflectance of the ground, (31,): white with a soft edge towards violet."""
    edge = 1.0 / (1.0 + np.exp(-(NM - 415.0) / 9.0))
    return brightness * (0.12 + 0.73 * edge) * (1.0 - yellow * np.exp(-(((NM - 440.0) / 45.0) ** 2)))


def reflected(coats, strength=1.0, below=None, flake=1.0):
    """Reflectance, (n, angle, 31), after real numbers of coats; ``flake`` above 1 lies flatter."""
    coats = np.asarray(coats, float)[:, None, None]
    below = ground() if below is None else below
    # Illumination at 45 degrees; detector at 45 degrees less the aspecular angle; both bent into the film (n = 1.5).
    inside = [np.arcsin(np.sin(np.radians(angle)) / 1.5) for angle in (45.0, *(45.0 - ANGLES_DEG))]
    path = (1.0 / np.cos(inside[0]) + 1.0 / np.cos(np.array(inside[1:])))[:, None]
    absorbed = 0.012 + 0.035 * np.exp(-(((NM - 430.0) / 60.0) ** 2)) + 0.010 * (NM / 700.0) ** 2
    hindered = 0.052
    tilt = np.radians(ANGLES_DEG) / 2.0  # a flake mirrors into an angle when it is tilted by half of it
    width = np.radians(13.0) / flake
    # Tilts lie in a plane, so a lobe that is narrower is higher by the square; few flakes lie anyhow.
    lobe = (np.exp(-((tilt / width) ** 2) / 2.0) * flake**2 + 0.06 / flake**2)[:, None]
    order = 2.0 * 1.5 * 190.0 * np.cos(tilt)[:, None] / NM
    colour = 0.55 + 0.45 * np.sin(np.pi * order) ** 2
    through = np.exp(-strength * (absorbed + hindered) * path * coats)
    # Upper flakes shade lower ones on both ways, so what flakes send back nears its end sooner than the ground fades.
    met = (
        hindered
        / (absorbed + hindered)
        * (1.0 - np.exp(-1.4 * strength * (absorbed + hindered) * path * coats))
    )
    return below * through + 2.6 * lobe * colour * met


def panel(coats, strength=1.0, **kind):
    """CIELAB, (n, angle, 3), after real numbers of coats."""
    return lab_of_spectra(reflected(coats, strength, **kind), weights())


@dataclass(frozen=True)
class Case:
    """A panel as it is read, and a car."""

    coats: np.ndarray
    lab: np.ndarray
    target: np.ndarray
    true: float


def case(seed, strength=1.0, true=3.0, fields=FIELDS, mismatch=MISMATCH, film=FILM_SCATTER):
    """One panel sprayed by hand and read, and one car with a true number of coats."""
    dice = np.random.default_rng(seed)
    # A coat goes over all fields that are still open in one go, so what it is too thick by stays in every later field.
    coat = 1.0 + film * dice.standard_normal(int(fields.max()))
    films = np.interp(fields, np.arange(coat.size + 1.0), np.concatenate([[0.0], np.cumsum(coat)]))
    lab = panel(films, strength)
    target = panel([true], strength)[0]
    noise = READING * dice.standard_normal(lab.shape)
    seen = READING * dice.standard_normal(target.shape) + mismatch * dice.standard_normal(target.shape)
    return Case(fields, lab + noise, target + seen, true)
