"""A let-down panel: how the colour of a translucent coat over its ground moves with the number of coats.

Every length of this module is in coats, every colour in CIELAB, one row of three for each angle of the instrument.
"""

from dataclasses import dataclass, replace
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
    error of 0.03 to 0.06 coats is left of a ground 1 L* off, here 0.02 (``tests/unit/physics/colour/test_ground_check.py``).

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


MOST_COATS: Final = 8.0
"""No curve is drawn beyond this many coats; assumption."""

BEYOND: Final = 1.0
"""A curve is drawn this far beyond the last field [coats], no further; assumption."""

UNEVEN: Final = 25.0
"""Misfit over degrees of freedom from which the fields were not sprayed alike; assumption. Film scatter of 4 % a
coat already gives about 3."""

_RATES: Final = np.concatenate([[0.0], np.geomspace(0.02, 2.0, 60)])
_STRAIGHT: Final = 1e-6
_LEAST_WEIGHT: Final = 1e-4


@dataclass(frozen=True, slots=True)
class LetdownFit:
    """Curves through the fields of one panel, for every bend that the fields allow."""

    coats: Floats
    """Coats of each field, (field,)."""
    lab: Floats
    """CIELAB of each field, (field, angle, 3)."""
    sigma: Floats
    """Standard deviation of a field's mean, (angle, 3)."""
    rate: float
    """Bend of the best curve [per coat]; 0 is straight."""
    rates: Floats
    """Bends that are kept [per coat], (bend,)."""
    weights: Floats
    """Weight of each bend, sum 1, (bend,)."""
    start: Floats
    """Colour at no coat for each bend, (bend, angle, 3)."""
    slope: Floats
    """Change per coat at no coat for each bend, (bend, angle, 3)."""
    spread: Floats
    """Inverse normal matrix of each bend, (bend, 2, 2)."""
    chi2: float
    """Weighted sum of squares of what the best curve leaves."""
    freedom: int
    """Degrees of freedom; 0 or less where two fields leave nothing to test."""
    worst_field: int
    """The field that lies farthest from the best curve."""

    @property
    def inflation(self) -> float:
        """How many times the variance of the readings the fields scatter, 1 or more."""
        return max(1.0, self.chi2 / self.freedom) if self.freedom > 0 else 1.0

    @property
    def is_rough(self) -> bool:
        """Whether there are only two different fields, so that the bend is a guess."""
        return np.unique(self.coats).size < 3

    @property
    def is_uneven(self) -> bool:
        """Whether the fields fit no curve: coats were not alike. Look at `worst_field` first."""
        return self.freedom > 0 and self.chi2 / self.freedom > UNEVEN

    @property
    def has_ground(self) -> bool:
        """Whether a field without effect coat is among the fields; without it the curve below one coat is a guess."""
        return bool(np.min(self.coats) == 0.0)

    @property
    def last(self) -> float:
        """Most coats for which a curve is drawn."""
        return min(float(np.max(self.coats)) + BEYOND, MOST_COATS)


def built_up(coats: Floats, rates: Floats) -> Floats:
    """Return how much of the first coat's step the coats together bring.

    Parameters
    ----------
    coats
        Coats, 0 or more.
    rates
        Bends [per coat], 0 or more; both broadcast.

    Returns
    -------
    As many first coats; equal to `coats` where the bend is 0.

    Notes
    -----
    ::

        phi(n, k) = (1 - exp(-k n)) / k,   n where k < 1e-6                     (1)

    Sources
    -------
    (1) A translucent layer over a ground nears its end exponentially: Kubelka-Munk, and Beer-Lambert there and back.
    """
    bend = np.maximum(rates, _STRAIGHT)
    return np.asarray(np.where(rates < _STRAIGHT, coats, -np.expm1(-bend * coats) / bend), float)


def fit_letdown(coats: Floats, lab: Floats, sigma: Floats | float) -> LetdownFit:
    """Fit curves to the fields of a let-down panel, one for every bend that the fields allow.

    Parameters
    ----------
    coats
        Coats of each field, 0 to 8, (field,). Halves are coats with half the pigment.
    lab
        CIELAB of each field, (field, angle, 3); L* above 100 is legal. All of one illuminant and observer.
    sigma
        Standard deviation of a field's mean, one for all or (angle, 3); above 0.

    Returns
    -------
    The curves, and how well the fields fit them.

    Raises
    ------
    ValueError
        If the shapes do not belong together, a number is not finite, or fewer than two fields differ in coats.

    Notes
    -----
    ::

        X(n) = B + A phi(n, k)                                                  (1)
        w(k) ~ exp(-(chi2(k) - min chi2) / (2 f)),  f = max(1, min chi2 / dof)  (2)

    B and A by least squares for each angle and each of L*, a*, b*; one k for the whole panel, on 61 values from 0 to
    2 per coat. Two fields give a straight line (k = 0), which is rough. Against panels from a spectral model of a
    layer of flakes within 1.2 CIEDE2000, 0.3 in the mean, for a colour that travels 17, and within 0.5 for one of
    half the strength (``tests/unit/physics/colour/test_letdown.py``).

    Sources
    -------
    (1) `built_up`. (2) Likelihood of normal errors; least squares with a nonlinear parameter scanned.
    """
    coats, lab = np.asarray(coats, float), np.asarray(lab, float)
    _require_fields(coats, lab)
    deviations = np.broadcast_to(np.asarray(sigma, float), lab.shape[1:])
    if not bool(np.all(deviations > 0.0)):
        raise ValueError("sigma must be above 0")
    rates = _RATES if np.unique(coats).size > 2 else _RATES[:1]
    design = _design(coats, rates)
    spread = np.linalg.inv(design.swapaxes(1, 2) @ design)
    scaled = (lab / deviations).reshape(coats.size, -1)
    found = spread @ (design.swapaxes(1, 2) @ scaled)
    left = np.square(scaled - design @ found).sum(axis=2)
    chi2 = left.sum(axis=1)
    best = int(chi2.argmin())
    freedom = lab.size - 2 * scaled.shape[1] - 1
    inflation = max(1.0, float(chi2[best]) / freedom) if freedom > 0 else 1.0
    weights = np.exp(-0.5 * (chi2 - chi2[best]) / inflation)
    kept = weights >= _LEAST_WEIGHT
    shaped = found.reshape(rates.size, 2, *lab.shape[1:]) * deviations
    return LetdownFit(
        coats=coats,
        lab=lab,
        sigma=deviations,
        rate=float(rates[best]),
        rates=rates[kept],
        weights=weights[kept] / weights[kept].sum(),
        start=shaped[kept, 0],
        slope=shaped[kept, 1],
        spread=spread[kept],
        chi2=float(chi2[best]),
        freedom=freedom,
        worst_field=int(left[best].argmax()),
    )


def curves(fit: LetdownFit, coats: Floats, ground_delta: Floats | None = None) -> tuple[Floats, Floats]:
    """Return the colours after some coats and the leverage of the fields there, for every bend.

    Parameters
    ----------
    fit
        The panel.
    coats
        Coats, 0 to `LetdownFit.last`, (n,).
    ground_delta
        Ground of the car less ground of the panel, (angle, 3).

    Returns
    -------
    CIELAB, (bend, n, angle, 3), and leverage, (bend, n).

    Raises
    ------
    ValueError
        If coats lie outside the range.

    Notes
    -----
    ::

        leverage = e (D' D)^-1 e',  e = (1, phi(n, k))                          (1)

    Sources
    -------
    (1) Least squares; another ground: `over_other_ground`.
    """
    coats = np.asarray(coats, float)
    if not bool(np.all((coats >= 0.0) & (coats <= fit.last + 1e-9))):
        raise ValueError(f"coats must be within 0 to {fit.last:g}, one coat beyond the last field")
    step = built_up(coats, fit.rates[:, None])
    lab = fit.start[:, None] + fit.slope[:, None] * step[:, :, None, None]
    if ground_delta is not None:
        fading = np.exp(-fit.rates[:, None] * coats)
        lab = over_other_ground(lab, fit.start, np.asarray(ground_delta, float), fading)
    one, both, two = fit.spread[:, :1, 0], fit.spread[:, :1, 1], fit.spread[:, 1:, 1]
    return lab, np.asarray(one + 2.0 * both * step + two * step * step, float)


def curve(fit: LetdownFit, coats: Floats, ground_delta: Floats | None = None) -> tuple[Floats, Floats]:
    """Return the colours after some coats and the leverage of the fields there, on the best curve.

    Parameters
    ----------
    fit, coats, ground_delta
        As in `curves`.

    Returns
    -------
    CIELAB, (n, angle, 3), and leverage, (n,); its square root times a field's deviation is that of the curve.

    Raises
    ------
    ValueError
        If coats lie outside 0 to `LetdownFit.last`.

    Sources
    -------
    As `curves`.
    """
    lab, leverage = curves(_best_of(fit), coats, ground_delta)
    return lab[0], leverage[0]


def _best_of(fit: LetdownFit) -> LetdownFit:
    """The panel with its best bend only."""
    at = int(np.flatnonzero(fit.rates == fit.rate)[0])
    one = slice(at, at + 1)
    return replace(
        fit,
        rates=fit.rates[one],
        weights=np.ones(1),
        start=fit.start[one],
        slope=fit.slope[one],
        spread=fit.spread[one],
    )


def _design(coats: Floats, rates: Floats) -> Floats:
    """Columns 1 and phi for every bend, (bend, field, 2)."""
    step = built_up(coats, rates[:, None])
    return np.stack([np.ones_like(step), step], axis=2)


def _require_fields(coats: Floats, lab: Floats) -> None:
    """Refuse fields that make no panel."""
    if lab.ndim != 3 or lab.shape[2] != 3 or coats.shape != lab.shape[:1]:
        raise ValueError("lab must have the shape (field, angle, 3) with one field for each of coats")
    if not bool(np.all(np.isfinite(lab))):
        raise ValueError("lab must be finite")
    if not bool(np.all((coats >= 0.0) & (coats <= MOST_COATS))):
        raise ValueError(f"coats must be within 0 to {MOST_COATS:g}")
    if np.unique(coats).size < 2:
        raise ValueError("coats must hold at least two different fields, better three")
