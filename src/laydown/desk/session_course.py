"""How a screen of the guide changes by itself as time passes."""

from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise

from laydown.schema.session import Screen

FINEST_S = 0.4
"""How exactly the instant of a change is found [s]; assumption, about as often as the tablet looks at its clock."""

SOON_S = 10800.0
"""Other clocks that run out within this time change the course [s]; assumption, beyond it the server is asked again."""

LEAST_COURSE_S = 180.0
"""How far a course reaches at least [s]; assumption."""

AFTER_S = 600.0
"""And how far beyond what it counts to [s]; assumption: a painter who is later than that looks at the card."""


def course_of(show: Callable[[float], Screen], from_s: float) -> list[tuple[float, Screen]]:
    """Return which screen stands from when on, while nobody taps.

    Parameters
    ----------
    show
        From the clock to the screen.
    from_s
        When the course begins, seconds since 1970.

    Returns
    -------
    Beginnings and screens in order of time; each change is found by halving.
    """
    first = show(from_s)
    course = [(from_s, first)]
    for earlier_s, later_s in pairwise(_grid(first, from_s)):
        _find(show, (earlier_s, course[-1][1]), (later_s, show(later_s)), course)
    return course


def _find(
    show: Callable[[float], Screen],
    earlier: tuple[float, Screen],
    later: tuple[float, Screen],
    course: list[tuple[float, Screen]],
) -> None:
    """Add every change between two instants to a course."""
    if _looks(earlier[1]) == _looks(later[1]):
        return
    if later[0] - earlier[0] <= FINEST_S:
        course.append(later)
        return
    middle_s = 0.5 * (earlier[0] + later[0])
    middle = (middle_s, show(middle_s))
    _find(show, earlier, middle, course)
    _find(
        show,
        (middle_s, course[-1][1]) if _looks(course[-1][1]) == _looks(middle[1]) else middle,
        later,
        course,
    )


def _looks(screen: Screen) -> Screen:
    """The screen without the number that changes every second."""
    return replace(screen, number_s=None)


def _grid(first: Screen, from_s: float) -> list[float]:
    """Instants between which changes are looked for; a screen never turns back to what it was."""
    ends = [first.counts_to_s or from_s, *(one.at_s for one in first.deadlines if one.at_s < from_s + SOON_S)]
    last_s = max(from_s + LEAST_COURSE_S, max(ends) + AFTER_S)
    return sorted({from_s, last_s, *(end for end in ends if end > from_s)})
