"""How many coats a car has, from looking alone: fields of a panel that are too little, right or too much.

All lengths are in coats. A geometry is any word for a way of looking, as face and flop.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Final, Literal

import numpy as np

from laydown.physics.colour.count_chances import CoatPosterior, coat_grid, posterior_of
from laydown.physics.values import Floats

MATCH_COATS: Final = (0.25, 0.4, 0.6)
"""Half widths of what an eye takes for a match [coats], equally likely; assumption."""

EYE_COATS: Final = (0.25, 0.4, 0.7)
"""Standard deviations of one judgement [coats], equally likely; assumption."""

GEOMETRY_COATS: Final = 0.35
"""Standard deviation by which all judgements of one way of looking are off together [coats]; assumption."""

LAPSE: Final = 0.03
"""Share of judgements that are a slip, each of the three words as likely; assumption."""

CONFLICT_COATS: Final = 1.0
"""Ways of looking that lie farther apart [coats] see something else than coats; assumption."""

FEWEST: Final = 3
"""Fewer judged fields than this give a rough answer; assumption."""

Word = Literal["too_few", "match", "too_many"]
"""What is said of a field: it has too few coats, it matches, it has too many."""

Refusal = Literal["contradiction", "ground_wrong", "beyond_panel", "no_difference", "conflict"]
"""Why no number is given."""

_EDGE: Final = 6.0
_NORMAL_Z: Final = np.linspace(-_EDGE, _EDGE, 2001)
_NODES, _NODE_WEIGHTS = np.polynomial.hermite_e.hermegauss(5)


def _normal_table() -> Floats:
    """Normal distribution at `_NORMAL_Z`, by Simpson's rule within each step."""
    middle = 0.5 * (_NORMAL_Z[1:] + _NORMAL_Z[:-1])
    ends, centre = np.exp(-0.5 * _NORMAL_Z**2), np.exp(-0.5 * middle**2)
    summed = np.cumsum((ends[1:] + ends[:-1] + 4.0 * centre) * (_NORMAL_Z[1] - _NORMAL_Z[0]) / 6.0)
    table = np.concatenate([[0.0], summed])
    return np.asarray(table / table[-1], float)


_NORMAL: Final = _normal_table()


@dataclass(frozen=True, slots=True)
class Judgement:
    """What was said of one field."""

    coats: float
    geometry: str
    word: Word


@dataclass(frozen=True, slots=True)
class Slip:
    """Two fields that contradict each other: the lower is said to have too many, the higher too few."""

    geometry: str
    lower: float
    higher: float


@dataclass(frozen=True, slots=True)
class Ranking:
    """What looking says of the number of coats."""

    posterior: CoatPosterior | None
    """Chance of each number; none where a number is refused."""
    refusal: Refusal | None
    """Why none is given."""
    look_again: tuple[Slip, ...]
    """Fields to look at once more; one slip is borne, two are refused."""
    is_rough: bool
    """Whether fewer than `FEWEST` fields were judged."""
    means: tuple[tuple[str, float], ...]
    """Mean of each way of looking by itself [coats]."""


def rank_coats(judgements: Sequence[Judgement], last: float) -> Ranking:
    """Estimate how many coats of a panel look like a car.

    Parameters
    ----------
    judgements
        What was said, one or more; of both face and flop if it can be had.
    last
        Most coats that are thought of, as a rule the last field and one.

    Returns
    -------
    The chance of each number, or why there is none.

    Raises
    ------
    ValueError
        If nothing was judged, or a field lies outside 0 to `last`.

    Notes
    -----
    ::

        u = n_field - (n + o) + e,  o ~ N(0, 0.35) for a way of looking, e ~ N(0, s)   (1)
        too few if u < -t, too many if u > t, else match                               (2)
        P = 0.97 P(word | t, s) + 0.01, averaged over t, s and o                       (3)

    Refused: two slips; a bare ground that has too many; all alike; ways of looking that lie apart. How well a series
    fits is no measure of its worth: one match alone fits as badly as a sound series. Against integration with scipy
    mean and spread are within 0.02 (``tests/second/test_ranking_second.py``).

    Sources
    -------
    (1), (2) Ordinal probit model; its numbers are assumptions. (3) A lapse keeps one slip from deciding.
    """
    _require_fields(judgements, last)
    grid = coat_grid(last)
    geometries = sorted({one.geometry for one in judgements})
    parts = [_likelihoods([one for one in judgements if one.geometry == name], grid) for name in geometries]
    alone = [posterior_of(grid, part.sum(axis=0)) for part in parts]
    means = tuple((name, one.mean) for name, one in zip(geometries, alone, strict=True))
    slips = _slips(judgements)
    rough = len({one.coats for one in judgements}) < FEWEST
    refusal = _refusal(judgements, slips, [one.mean for one in alone], is_rough=rough)
    if refusal is not None:
        return Ranking(None, refusal, slips, rough, means)
    together = np.prod(np.stack(parts), axis=0).sum(axis=0)
    return Ranking(posterior_of(grid, together), None, slips, rough, means)


def normal_share(z: Floats) -> Floats:
    """Return the share of a normal distribution below z.

    Parameters
    ----------
    z
        Standard deviations from the mean.

    Returns
    -------
    Shares, 0 to 1.

    Notes
    -----
    A table of 2001 points from -6 to 6, straight in between: to 2e-6 (``tests/second/test_ranking_second.py``)::

        (1 + erf(z / sqrt(2))) / 2                                                       (1)
    """
    place = (np.clip(z, -_EDGE, _EDGE) + _EDGE) * ((_NORMAL.size - 1) / (2.0 * _EDGE))
    left = np.minimum(place.astype(np.intp), _NORMAL.size - 2)
    low = _NORMAL[left]
    return np.asarray(low + (_NORMAL[left + 1] - low) * (place - left), float)


def _likelihoods(judged: Sequence[Judgement], grid: Floats) -> Floats:
    """Likelihood of what was said in one way of looking, for each match width and eye, (9, n)."""
    fields = np.array([one.coats for one in judged])
    words = np.array([{"too_few": -1, "match": 0, "too_many": 1}[one.word] for one in judged])
    away = fields[:, None, None] - grid[:, None] - GEOMETRY_COATS * _NODES
    few, many = (words == -1)[:, None, None], (words == 1)[:, None, None]
    found = []
    for width in MATCH_COATS:
        for eye in EYE_COATS:
            below, above = normal_share((-width - away) / eye), normal_share((away - width) / eye)
            said = np.where(few, below, np.where(many, above, 1.0 - below - above))
            chance = np.prod((1.0 - LAPSE) * said + LAPSE / 3.0, axis=0)
            found.append(chance @ (_NODE_WEIGHTS / _NODE_WEIGHTS.sum()))
    return np.array(found)


def _slips(judgements: Sequence[Judgement]) -> tuple[Slip, ...]:
    """Pairs of one way of looking in which the lower field has too many and the higher too few."""
    ordered = sorted(judgements, key=lambda one: (one.geometry, one.coats))
    return tuple(
        Slip(low.geometry, low.coats, high.coats)
        for low, high in combinations(ordered, 2)
        if low.geometry == high.geometry
        and low.coats < high.coats
        and low.word == "too_many"
        and high.word == "too_few"
    )


def _refusal(
    judgements: Sequence[Judgement], slips: tuple[Slip, ...], means: list[float], *, is_rough: bool
) -> Refusal | None:
    """Why no number is given, the first reason that holds."""
    words = {one.word for one in judgements}
    if words == {"too_many"} or any(one.coats == 0.0 and one.word == "too_many" for one in judgements):
        return "ground_wrong"
    if len(slips) > 1:
        return "contradiction"
    if words == {"too_few"}:
        return "beyond_panel"
    if words == {"match"} and not is_rough:
        return "no_difference"
    return "conflict" if max(means) - min(means) > CONFLICT_COATS else None


def _require_fields(judgements: Sequence[Judgement], last: float) -> None:
    """Refuse nothing judged, and fields outside the range."""
    if not judgements:
        raise ValueError("judgements must hold at least one")
    if not all(0.0 <= one.coats <= last for one in judgements):
        raise ValueError(f"judgements must be of fields within 0 to {last:g}")
