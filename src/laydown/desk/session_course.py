"""How a screen of the guide changes by itself as time passes."""

from collections.abc import Callable
from dataclasses import fields
from operator import attrgetter

from laydown.schema.session import Screen

FINEST_S = 0.4
"""How exactly the instant of a change is found [s]; assumption, about as often as the tablet looks at its clock."""

SOON_S = 10800.0
"""Other clocks that run out within this time change the course [s]; assumption, beyond it the server is asked again."""

LEAST_COURSE_S = 180.0
"""How far a course reaches at least [s]; assumption."""

AFTER_S = 600.0
"""And how far beyond what it counts to [s]; assumption: a painter who is later than that looks at the card."""

_LOOKS = attrgetter(*(one.name for one in fields(Screen) if one.name != "number_s"))


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
    before = _At(from_s, first)
    for later_s in _grid(first, from_s)[1:]:
        later = _At(later_s, show(later_s))
        _find(show, before, later, course)
        before = later
    return course


class _At:
    """A screen at one instant, and what it looks like but for the number that changes every second."""

    __slots__ = ("at_s", "looks", "screen")

    def __init__(self, at_s: float, screen: Screen) -> None:
        self.at_s, self.screen, self.looks = at_s, screen, _LOOKS(screen)


def _find(
    show: Callable[[float], Screen], earlier: _At, later: _At, course: list[tuple[float, Screen]]
) -> None:
    """Add every change between two instants to a course."""
    if earlier.looks == later.looks:
        return
    if later.at_s - earlier.at_s <= FINEST_S:
        course.append((later.at_s, later.screen))
        return
    middle_s = 0.5 * (earlier.at_s + later.at_s)
    middle = _At(middle_s, show(middle_s))
    _find(show, earlier, middle, course)
    _find(show, middle, later, course)


def _grid(first: Screen, from_s: float) -> list[float]:
    """Instants between which changes are looked for; a screen never turns back to what it was."""
    ends = [first.counts_to_s or from_s, *(one.at_s for one in first.deadlines if one.at_s < from_s + SOON_S)]
    last_s = max(from_s + LEAST_COURSE_S, max(ends) + AFTER_S)
    return sorted({from_s, last_s, *(end for end in ends if end > from_s)})
