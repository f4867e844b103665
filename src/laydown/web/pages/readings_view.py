"""What the page of instrument readings shows: the table, what has to be asked, what was concluded."""

from typing import Any

from laydown.desk.measured import Measured
from laydown.desk.readings_form import LEAVE, mapping_answers, sample_rows
from laydown.planning.panel_spots import spots_read
from laydown.report.reading_words import ROLE_WORDS, angle_text, count_words, read_line
from laydown.schema.choices import Sample
from laydown.schema.problem import Problem
from laydown.schema.reading import ILLUMINANTS

MOST_SPOTS = 80
"""Places shown in the table; assumption, a panel and a car have twenty."""

MOST_OPEN = 8
"""Different questions listed at most; assumption, nobody answers more in one go."""

_UNNAMED = "does not say what was read"

EXAMPLE = """panel,role,coats,zone,reading,angle_deg,L,a,b
p1,ground_ref,,,1,15,92.4,-0.8,1.1
p1,ground_ref,,,1,45,91.2,-0.8,1.0
p1,field,1,,1,15,94.1,-0.9,1.8
p1,field,1,,1,45,86.0,-1.0,1.2
p1,field,2,,1,15,97.3,-1.0,2.0
p1,field,2,,1,45,83.1,-1.0,1.6
p1,car,,front door,1,15,96.2,-1.0,1.9
p1,car,,front door,1,45,84.0,-1.0,1.5
"""
"""A small table, invented."""


def line_of(measured: Measured) -> str:
    """Say in one line what was read.

    Parameters
    ----------
    measured
        The readings.

    Returns
    -------
    The line; empty where they cannot be used yet.
    """
    found = measured.readings
    return read_line(found, spots_read(found)) if found is not None else ""


def shown_readings(measured: Measured, sample: Sample, answers: dict[str, str] | None) -> dict[str, Any]:
    """Gather what the page shows.

    Parameters
    ----------
    measured
        The readings.
    sample
        What the job says of the panel.
    answers
        What was just answered, if that was faulty; else what is kept is shown.

    Returns
    -------
    Values for the template.
    """
    kept = mapping_answers(measured) | {"zone": sample.zone or ""}
    return (
        _table(measured)
        | _concluded(measured)
        | _asked(measured, sample)
        | {"answers": kept | (answers or {})}
    )


def _table(measured: Measured) -> dict[str, Any]:
    """What was read, place by place."""
    found = measured.readings
    spots = spots_read(found) if found is not None else ()
    angles = sorted({angle for one in spots for angle in one.lab})
    return {
        "line": read_line(found, spots) if found is not None else "",
        "spots": [(one, ROLE_WORDS[one.role], count_words(one)) for one in spots[:MOST_SPOTS]],
        "further_spots": max(0, len(spots) - MOST_SPOTS),
        "angles": [(angle, angle_text(angle)) for angle in angles],
        "idle": frozenset(angle for one in spots for angle in one.idle_deg),
        "dropped": sum(len(one.dropped) for one in spots),
    }


def _concluded(measured: Measured) -> dict[str, Any]:
    """What was concluded from names and tables, and what was left out on the way."""
    found = measured.looked.readings
    understood = found.understood if found is not None else ()
    left_out = [one for one in understood if "left out" in one.what and not one.what.startswith("'")]
    return {"left_out": left_out, "concluded": [one for one in understood if one not in left_out]}


def _open(measured: Measured) -> tuple[str, ...]:
    """What has to be settled before the readings can be used; what is asked about each sample stands at the sample."""
    looked, problems = measured.looked, measured.problems
    if not looked.only_asked:
        return tuple(f"{_placed(one)}{'; ' if one.hint else ''}{one.hint}" for one in problems)
    unnamed = sum(one.spot is None for one in looked.samples)
    said = [f"{unnamed} name{'s do' if unnamed > 1 else ' does'} not say what was read"] if unnamed else []
    # The same question about many lines is one question.
    others = list({one.what: _placed(one) for one in reversed(problems) if _UNNAMED not in one.what}.values())
    more = len(others) - MOST_OPEN
    return (
        *said,
        *others[::-1][:MOST_OPEN],
        *([f"{more} further questions of the kind"] if more > 0 else ()),
    )


def _placed(problem: Problem) -> str:
    """A problem in one sentence."""
    return f"the file {problem.what}" if problem.where == "file" else f"{problem.where}: {problem.what}"


def _asked(measured: Measured, sample: Sample) -> dict[str, Any]:
    """What has to be asked, or can be answered otherwise."""
    looked, rows = measured.looked, sample_rows(measured)
    found = measured.readings.readings if measured.readings is not None else ()
    zones = tuple(dict.fromkeys(one.zone for one in found if one.role == "car"))
    is_unknown = bool(zones) and sample.zone is not None and sample.zone not in zones
    return {
        "samples": rows,
        "further_samples": len(looked.samples) + len(measured.mapping.ignore) - len(rows),
        "roles": [*ROLE_WORDS.items(), (LEAVE, "leave out")],
        "open": _open(measured),
        "asks": bool(rows or looked.asked or measured.mapping_name),
        "lights": [("", "as the file says"), *((name, name) for name in ILLUMINANTS)],
        "zones": zones if len(zones) > 1 or is_unknown else (),
    }
