"""Instrument readings in words: what was read, where, at which angles."""

from collections.abc import Sequence

from laydown.schema.reading import Readings, Role, SpotRead
from laydown.units import figures

ROLE_WORDS: dict[Role, str] = {"field": "field", "ground_ref": "bare ground", "car": "car"}
"""What was read, in the painter's words."""


def angle_text(angle_deg: float) -> str:
    """Write an angle.

    Parameters
    ----------
    angle_deg
        Aspecular angle [deg].

    Returns
    -------
    Such as "15°".
    """
    return f"{figures(angle_deg)}°"


def read_line(readings: Readings, spots: Sequence[SpotRead]) -> str:
    """Say in one line what was read.

    Parameters
    ----------
    readings
        All in CIELAB.
    spots
        The same by place.

    Returns
    -------
    Such as "4 fields, bare ground, car (front door); 15°, 45°, 110°; 54 colours for D65 and 10°".
    """
    fields = sum(one.role == "field" for one in spots)
    parts = [f"{fields} field{'' if fields == 1 else 's'}"]
    if any(one.role == "ground_ref" for one in spots):
        parts.append("bare ground")
    cars = [one.zone for one in spots if one.role == "car"]
    named = ", ".join(zone for zone in cars if zone)
    parts.append(f"car ({named})" if named else "car" if cars else "no car")
    angles = sorted({angle for one in spots for angle in one.lab})
    first = readings.readings[0]
    count = len(readings.readings)
    light = f"{count} colour{'' if count == 1 else 's'} for {first.illuminant} and {first.observer}°"
    return "; ".join((", ".join(parts), ", ".join(map(angle_text, angles)), light))


def count_words(spot: SpotRead) -> str:
    """Say how many readings of a place count, and which do not.

    Parameters
    ----------
    spot
        The place.

    Returns
    -------
    Such as "4, without reading 3: far off".
    """
    if not spot.dropped:
        return str(spot.count)
    numbers = ", ".join(map(str, spot.dropped))
    return f"{spot.count}, without reading {numbers}: far off"
