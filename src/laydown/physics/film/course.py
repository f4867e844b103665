"""What can be read off a film's course: open time, matt time, panel temperature, what is left."""

import numpy as np

from laydown.physics.film.wet_film import Course
from laydown.physics.values import Floats, Values


def open_time_s(course: Course) -> Floats:
    """When each column stops taking in a neighbouring stroke or fog [s]; infinite if it never does.

    Parameters
    ----------
    course
        From `laydown.physics.film.wet_film.dry`.

    Notes
    -----
    First time the progress reaches 1, straight between steps in its reciprocal (the liquid, which falls
    nearly straight with time).

    Sources
    -------
    Assumption: the film is open until its effective binder fraction reaches that of the mix (`wet_film`).
    """
    return _reached_s(course, course.open_progress)


def matt_time_s(course: Course) -> Floats:
    """When each column looks matt and may take the next coat [s]; infinite if it never does.

    Parameters
    ----------
    course
        From `laydown.physics.film.wet_film.dry`.

    Sources
    -------
    As `open_time_s`.
    """
    return _reached_s(course, course.matt_progress)


def panel_c_at(course: Course, at_s: Values) -> Floats:
    """Panel temperature of each column at a time [degC].

    Parameters
    ----------
    course
        From `laydown.physics.film.wet_film.dry`.
    at_s
        Time [s], one for all or one per column, within the course.

    Raises
    ------
    ValueError
        If the course does not reach that time; give `dry` times that do.

    Sources
    -------
    Straight between steps.
    """
    return _at(course, course.panel_c, at_s)


def residual_share(course: Course, at_s: Values) -> Floats:
    """Volatile matter left in each column at a time, over its solids [g/g].

    Parameters
    ----------
    course
        From `laydown.physics.film.wet_film.dry`.
    at_s
        Time [s], one for all or one per column, within the course.

    Raises
    ------
    ValueError
        If the course does not reach that time; give `dry` times that do.

    Notes
    -----
    Counts water and co-solvent in the film, not what the layer below holds. It ranks waiting times; it does not
    predict pinholes or popping, at which a published diffusion model failed too.

    Sources
    -------
    Henshaw, Prendi and Mancina, J. Coat. Technol. Res. 3 (2006) 285-294, on what it cannot say.
    """
    return _at(course, course.water_g_m2 + course.cosolvent_g_m2, at_s) / course.solids_g_m2


def _reached_s(course: Course, progress: Floats) -> Floats:
    """First time a progress reaches 1, per column."""
    # The reciprocal is liquid over solids plus one, which falls nearly straight with time.
    level = 1.0 / progress
    hit = np.argmax(level <= 1.0, axis=0)
    columns = np.arange(level.shape[1])
    after, before = level[hit, columns], level[np.maximum(hit - 1, 0), columns]
    late, early = course.times_s[hit, columns], course.times_s[np.maximum(hit - 1, 0), columns]
    drop = np.where(before > after, before - after, 1.0)
    crossed = early + (late - early) * np.clip((before - 1.0) / drop, 0.0, 1.0)
    found: Floats = np.where(after <= 1.0, crossed, np.inf)
    return found


def _at(course: Course, values: Floats, at_s: Values) -> Floats:
    """Values at a time, straight between steps, per column."""
    times = course.times_s
    at = at_s + np.zeros(times.shape[1])
    if not bool(np.all((at >= 0.0) & (at <= times[-1]))):
        raise ValueError(f"at_s must lie within the course, 0 to {times[-1].min():g} s")
    upper = np.clip(np.sum(times <= at, axis=0), 1, len(times) - 1)
    columns = np.arange(times.shape[1])
    early, late = times[upper - 1, columns], times[upper, columns]
    share = np.clip((at - early) / np.where(late > early, late - early, 1.0), 0.0, 1.0)
    low, high = values[upper - 1, columns], values[upper, columns]
    between: Floats = low + share * (high - low)
    return between
