"""Places labels side by side on a line so that none touches the next."""

from laydown.schema.side import Point


def spread(places: list[float], widths: list[float], room: Point) -> list[float]:
    """Push labels apart along a line until none touches the next.

    Parameters
    ----------
    places
        Wished middles, rising.
    widths
        Width of each.
    room
        Left and right end of the line.

    Returns
    -------
    Middles in the same order, inside the room as far as it reaches.
    """
    middles = list(places)
    for index in range(len(middles)):
        least = room[0] + widths[0] / 2
        if index:
            least = middles[index - 1] + (widths[index - 1] + widths[index]) / 2
        middles[index] = max(middles[index], least)
    most = room[1]
    for index in reversed(range(len(middles))):
        middles[index] = min(middles[index], most - widths[index] / 2)
        most = middles[index] - widths[index] / 2
    return middles
