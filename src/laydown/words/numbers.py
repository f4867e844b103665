"""Words and numbers that the plain texts share."""

from collections.abc import Callable, Sequence

from laydown.schema.figure import Spread
from laydown.schema.plan import Plan
from laydown.units import System, show
from laydown.words.show import retell

MARKS = {"wet": "=", "hurry": "-", "late": "Z"}
"""Mark of a join's state; the word always stands beside it."""


def spread_text(spread: Spread) -> str:
    """Write seconds with their interval.

    Parameters
    ----------
    spread
        Seconds.

    Returns
    -------
    Such as "9 s (3-16)"; with a negative end "(-3 to 16)", so that a minus is not taken for a dash.
    """
    low, high = round(spread.low), round(spread.high)
    between = "-" if low >= 0 else " to "
    return f"{round(spread.value)} s ({low}{between}{high})"


def people_text(plan: Plan) -> str:
    """Name who sprays.

    Parameters
    ----------
    plan
        The plan.

    Returns
    -------
    Such as "painter R.", "1 painter" where no name is given, or "2 painters, R. and S.".
    """
    name, count = plan.inputs.painter.strip(), plan.inputs.painters
    if count == 1:
        return f"painter {name}" if name else "1 painter"
    return f"{count} painters, {name}" if name else f"{count} painters"


def minutes(seconds: float) -> str:
    """Write elapsed time as hours and minutes.

    Parameters
    ----------
    seconds
        Time from the start [s].

    Returns
    -------
    Such as "1:05".
    """
    whole = round(seconds / 60)
    return f"{whole // 60}:{whole % 60:02d}"


def interval(low: float, high: float, name: str, system: System) -> str:
    """Write two limits with one unit.

    Parameters
    ----------
    low, high
        In the house unit of the name.
    name
        Name whose suffix states the unit.
    system
        How figures are shown.

    Returns
    -------
    Such as "17 to 25 °C".
    """
    first, second = show(low, name, system), show(high, name, system)
    number, _, unit = first.rpartition(" ")
    return f"{number} to {second}" if unit and second.endswith(unit) else f"{first} to {second}"


def water_text(share: float, system: System) -> str:
    """Write how much water goes in.

    Parameters
    ----------
    share
        Share of the base.
    system
        How figures are shown.

    Returns
    -------
    Such as "5 % water" or "no water".
    """
    return f"{show(share, 'water', system)} water" if share else "no water"


def names_that_fit(names: Sequence[str], fits: Callable[[str], bool]) -> str:
    """Name as many panels as there is room for, and how many are left out.

    Parameters
    ----------
    names
        Labels, the most important first.
    fits
        Whether a text fits its place.

    Returns
    -------
    Such as "sliding door +2"; the first name always stands, even where it is too long.
    """
    for count in range(len(names), 0, -1):
        rest = len(names) - count
        text = ", ".join(names[:count]) + (f" +{rest}" if rest else "")
        if fits(text):
            return text
    return f"{names[0]} +{len(names) - 1}" if len(names) > 1 else "".join(names)


def duration(seconds: float, system: System) -> str:
    """Write a limit without seconds that nobody keeps.

    Parameters
    ----------
    seconds
        A limit [s].
    system
        How figures are shown.

    Returns
    -------
    From ten minutes on in whole minutes, rounded down, so that a limit is never passed.
    """
    return show(seconds - seconds % 60 if seconds >= 600 else seconds, "limit_s", system)


def pace_text(seconds_per_m: float, system: System) -> str:
    """Write how fast the hand goes.

    Parameters
    ----------
    seconds_per_m
        Seconds for a metre [s/m].
    system
        How figures are shown.

    Returns
    -------
    Such as "1.9 s per m", or the seconds for three feet.
    """
    return retell(f"{seconds_per_m:.1f} s per m", system)


def place_words(feature: str) -> str:
    """Write the label of a place for people.

    Parameters
    ----------
    feature
        Label such as "front door|rear door".

    Returns
    -------
    Such as "front door / rear door".
    """
    return feature.replace("|", " / ")
