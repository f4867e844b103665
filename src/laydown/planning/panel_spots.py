"""Readings by the place they were taken at: what each says, how many count, and what is left out."""

from collections.abc import Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from laydown.physics.readings import spot_mean
from laydown.schema.reading import Reading, Readings, Role, SpotRead

Floats = NDArray[np.float64]

Spot = tuple[str, Role, float, str]
"""Panel, role, coats and zone: a place that was read."""

Taken = Mapping[float, Mapping[int, Reading]]
"""Readings of a place by angle and number."""


def spots_of(readings: Sequence[Reading]) -> dict[Spot, dict[float, dict[int, Reading]]]:
    """Return readings by place, angle and number.

    Parameters
    ----------
    readings
        All in CIELAB.

    Returns
    -------
    Places in the order of the file. The car belongs to no panel, so its zones are not split by one.

    Sources
    -------
    Definition.
    """
    found: dict[Spot, dict[float, dict[int, Reading]]] = {}
    for one in readings:
        coats = one.coats if one.role == "field" and one.coats is not None else 0.0
        panel, zone = (one.panel, "") if one.role == "field" else ("", one.zone)
        spot = (panel, one.role, coats, zone)
        found.setdefault(spot, {}).setdefault(one.angle_deg, {})[one.number] = one
    return found


def common_angles_deg(spots: Mapping[Spot, Taken]) -> tuple[float, ...]:
    """Return the aspecular angles that every place was read at.

    Parameters
    ----------
    spots
        Readings by place.

    Returns
    -------
    Angles [degrees], rising.

    Sources
    -------
    Definition.
    """
    every = [set(one) for one in spots.values()]
    return tuple(sorted(set.intersection(*every))) if every else ()


def numbers_of(found: Taken, angles: Sequence[float]) -> list[tuple[int, ...]]:
    """Return which readings of a place belong together.

    Parameters
    ----------
    found
        Readings of one place.
    angles
        Angles that are compared [degrees].

    Returns
    -------
    For each repeat the number of its reading at each angle. Where angles are numbered apart from one another: as many
    as the rarest has, in their order.

    Sources
    -------
    Definition.
    """
    numbers = sorted(set.intersection(*(set(found[angle]) for angle in angles)))
    if numbers:
        return [(number,) * len(angles) for number in numbers]
    return list(zip(*(sorted(found[angle]) for angle in angles), strict=False))


def stack_of(found: Taken, angles: Sequence[float]) -> Floats:
    """Return the readings of one place that hold every angle.

    Parameters
    ----------
    found
        Readings of one place.
    angles
        Angles that are compared [degrees].

    Returns
    -------
    CIELAB, (reading, angle, 3).

    Sources
    -------
    Definition.
    """
    rows = [
        [found[angle][number] for angle, number in zip(angles, numbers, strict=True)]
        for numbers in numbers_of(found, angles)
    ]
    return np.array([[(one.lab_l, one.lab_a, one.lab_b) for one in row] for row in rows], float)


def spots_read(readings: Readings) -> tuple[SpotRead, ...]:
    """Return every place that was read, as it is counted with.

    Parameters
    ----------
    readings
        All in CIELAB, of one illuminant and observer.

    Returns
    -------
    Ground, fields by their coats, then the car.

    Sources
    -------
    ``laydown.physics.readings``.
    """
    spots = spots_of(readings.readings)
    common = common_angles_deg(spots)
    order = {"ground_ref": 0, "field": 1, "car": 2}
    ranked = sorted(spots, key=lambda spot: (order[spot[1]], spot[2], spot[0]))
    return tuple(_read(spot, spots[spot], common) for spot in ranked)


def _read(spot: Spot, found: Taken, common: tuple[float, ...]) -> SpotRead:
    """One place: the mean that counts at common angles, the plain one elsewhere."""
    panel, role, coats, zone = spot
    lab = {angle: _plain(found[angle]) for angle in found}
    count = max(len(numbered) for numbered in found.values())
    dropped: tuple[int, ...] = ()
    if common:
        mean = spot_mean(stack_of(found, common))
        lab |= {angle: _three(mean.lab[place]) for place, angle in enumerate(common)}
        numbers = numbers_of(found, common)
        count, dropped = mean.count, tuple(numbers[place][0] for place in mean.dropped)
    idle = tuple(sorted(set(found) - set(common)))
    own = coats if role == "field" else None
    return SpotRead(panel, role, own, zone, dict(sorted(lab.items())), count, dropped, idle)


def _plain(numbered: Mapping[int, Reading]) -> tuple[float, float, float]:
    """Mean of all readings at one angle."""
    return _three(np.mean([(one.lab_l, one.lab_a, one.lab_b) for one in numbered.values()], axis=0))


def _three(lab: Floats) -> tuple[float, float, float]:
    """L*, a*, b* as plain numbers."""
    return float(lab[0]), float(lab[1]), float(lab[2])
