"""Readings of a let-down panel: spots become means, fields become curves, the car becomes zones."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from laydown.physics.colour.coat_count import READING_SIGMA, travel
from laydown.physics.colour.letdown import MOST_COATS, LetdownFit, fit_letdown
from laydown.physics.colour.repeats import SpotMean, reading_sd, spot_mean
from laydown.physics.values import Floats
from laydown.schema.message import Message, message
from laydown.schema.reading import Reading, ReadingRole, Readings, SpotRead

SpotKey = tuple[str, ReadingRole, float, str]
"""Panel, role, coats and zone: a place that was read."""

Taken = Mapping[float, Mapping[int, Reading]]
"""Readings of a place by angle and number."""


def spots_of(readings: Sequence[Reading]) -> dict[SpotKey, dict[float, dict[int, Reading]]]:
    """Return readings by place, angle and number."""
    found: dict[SpotKey, dict[float, dict[int, Reading]]] = {}
    for one in readings:
        coats = one.coats if one.role == "field" and one.coats is not None else 0.0
        panel, zone = (one.panel, "") if one.role == "field" else ("", one.zone)
        spot = (panel, one.role, coats, zone)
        found.setdefault(spot, {}).setdefault(one.angle_deg, {})[one.number] = one
    return found


def common_angles_deg(spots: Mapping[SpotKey, Taken]) -> tuple[float, ...]:
    """Return the aspecular angles that every place was read at."""
    every = [set(one) for one in spots.values()]
    return tuple(sorted(set.intersection(*every))) if every else ()


def numbers_of(found: Taken, angles: Sequence[float]) -> list[tuple[int, ...]]:
    """Return which readings of a place belong together."""
    numbers = sorted(set.intersection(*(set(found[angle]) for angle in angles)))
    if numbers:
        return [(number,) * len(angles) for number in numbers]
    return list(zip(*(sorted(found[angle]) for angle in angles), strict=False))


def stack_of(found: Taken, angles: Sequence[float]) -> Floats:
    """Return the readings of one place that hold every angle."""
    rows = [
        [found[angle][number] for angle, number in zip(angles, numbers, strict=True)]
        for numbers in numbers_of(found, angles)
    ]
    return np.array([[(one.lab_l, one.lab_a, one.lab_b) for one in row] for row in rows], float)


def spots_read(readings: Readings) -> tuple[SpotRead, ...]:
    """Return every place that was read, as it is counted with."""
    spots = spots_of(readings.readings)
    common = common_angles_deg(spots)
    order = {"ground_ref": 0, "field": 1, "car": 2}
    ranked = sorted(spots, key=lambda spot: (order[spot[1]], spot[2], spot[0]))
    return tuple(_read(spot, spots[spot], common) for spot in ranked)


def _read(spot: SpotKey, found: Taken, common: tuple[float, ...]) -> SpotRead:
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


NOTHING_DE = 0.5
"""An effect coat that changes the colour by less over all fields does nothing that could be counted, CIEDE2000;
assumption."""


@dataclass(frozen=True, slots=True)
class Target:
    """Colour of one place: CIELAB and the standard deviation of its mean, both (angle, 3)."""

    lab: Floats
    sigma: Floats


@dataclass(frozen=True, slots=True)
class PanelReadings:
    """What was read, ready to be counted with."""

    angles_deg: Floats
    fit: LetdownFit
    cars: Mapping[str, Target]
    ground: Target | None
    panels: tuple[str, ...]
    sigma: float
    sigma_is_own: bool
    readings: int
    dropped: int
    left_out_deg: tuple[float, ...]
    light: tuple[str, int]


def panel_readings(readings: Readings) -> PanelReadings | Message:
    """Return the panel as curves and the car as zones, or why these readings allow no count."""
    spots = spots_of(readings.readings)
    angles = common_angles_deg(spots)
    missing = _missing(spots, angles)
    if missing is not None:
        return missing
    stacks = {spot: stack_of(found, angles) for spot, found in spots.items()}
    means = {spot: spot_mean(stack) for spot, stack in stacks.items()}
    sigma, is_own = _sigma(list(stacks.values()))
    fields = sorted((spot for spot in means if spot[1] == "field"), key=lambda spot: (spot[2], spot[0]))
    fewest = min(means[spot].count for spot in fields)
    coats = np.array([spot[2] for spot in fields])
    fit = fit_letdown(coats, np.stack([means[spot].lab for spot in fields]), sigma / np.sqrt(fewest))
    if float(travel(fit).max()) < NOTHING_DE:
        return message("effect-does-nothing", difference=float(travel(fit).max()))
    grounds = [mean for spot, mean in means.items() if spot[1] == "ground_ref"]
    first = readings.readings[0]
    return PanelReadings(
        angles_deg=np.array(angles),
        fit=fit,
        cars={spot[3]: _target(mean, sigma) for spot, mean in means.items() if spot[1] == "car"},
        ground=_together(grounds, sigma) if grounds else None,
        panels=tuple(dict.fromkeys(spot[0] for spot in fields)),
        sigma=sigma,
        sigma_is_own=is_own,
        readings=min(mean.count for mean in means.values()),
        dropped=sum(len(mean.dropped) for mean in means.values()),
        left_out_deg=tuple(sorted(set().union(*spots.values()) - set(angles))),
        light=(first.illuminant, first.observer),
    )


def _missing(spots: Mapping[SpotKey, object], common: Sequence[float]) -> Message | None:
    """What keeps the readings from being counted with."""
    coats = {spot[2] for spot in spots if spot[1] == "field"}
    if len(coats) < 2:
        return message("fields-too-few", fields=len(coats))
    if max(coats) > MOST_COATS:
        return message("field-beyond-curves", coats=max(coats), most=MOST_COATS)
    if not any(spot[1] == "car" for spot in spots):
        return message("car-not-read")
    return None if common else message("no-common-angle")


def _sigma(stacks: Sequence[Floats]) -> tuple[float, bool]:
    """Standard deviation of one reading: own where there are repeats enough, else the usual one."""
    repeated = [stack for stack in stacks if len(stack) >= 3]
    try:
        return max(reading_sd(repeated), 1e-3), True
    except ValueError:
        return READING_SIGMA, False


def _target(mean: SpotMean, sigma: float) -> Target:
    """Mean of a spot with its standard deviation."""
    return Target(mean.lab, np.full(mean.lab.shape, sigma / np.sqrt(mean.count)))


def _together(means: Sequence[SpotMean], sigma: float) -> Target:
    """Several places of the same ground as one."""
    count = sum(mean.count for mean in means)
    lab = np.mean([mean.lab for mean in means], axis=0)
    return Target(lab, np.full(lab.shape, sigma / np.sqrt(count)))
