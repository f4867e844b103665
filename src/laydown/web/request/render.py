"""Templates become pages; every value is escaped."""

import re
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined, select_autoescape
from markupsafe import Markup
from starlette.responses import HTMLResponse

from laydown.schema.problem import Problem
from laydown.units import System
from laydown.version import VERSION
from laydown.web.request.door import Call
from laydown.web.request.forms import system_of
from laydown.web.request.visitor import may
from laydown.words.show import retell

_QUOTED = re.compile("'([^']*)'")

HERE = Path(__file__).parent
"""Folder of templates and static files."""

NAVIGATION: tuple[tuple[str, str], ...] = (
    ("/jobs", "Jobs"),
    ("/shelf", "Shelf"),
    ("/sides", "Sides"),
    ("/settings", "Settings"),
)
"""Address and name of the entries that stand on every page."""


@cache
def environment() -> Environment:
    """Return the templates.

    Returns
    -------
    Environment that escapes every value and refuses unknown names.
    """
    made = Environment(
        loader=FileSystemLoader(HERE / "templates"),
        autoescape=select_autoescape(default=True, default_for_string=True),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.globals |= {"version": VERSION, "navigation": NAVIGATION, "problem_at": problem_at, "folded": folded}
    made.filters |= {"drawing": drawing, "field_name": field_name, "minus": minus}
    return made


def page(call: Call, template: str, status: int = 200, **values: Any) -> HTMLResponse:
    """Return a page.

    Parameters
    ----------
    call
        What the page was given.
    template
        Name of the template.
    status
        HTTP status.
    values
        What the template shows; ``problems`` stands beside the fields they name.

    Returns
    -------
    The answer.
    """
    problems: tuple[Problem, ...] = values.get("problems", ())
    system = system_of(call) if problems else "metric"
    values["problems"] = tuple(_retold(problem, system) for problem in problems)
    visitor = call.visitor
    text = (
        environment()
        .get_template(template)
        .render(
            visitor=visitor,
            token=visitor.token,
            here=call.request.url.path,
            may_paint=may(visitor.role, "painter"),
            may_manage=may(visitor.role, "manager"),
            **values,
        )
    )
    return HTMLResponse(text, status)


def _retold(problem: Problem, system: System) -> Problem:
    """Retell a problem in the units of the shop; what was typed, in quotes, stays."""
    typed = _QUOTED.findall(f"{problem.what} {problem.hint}")
    return replace(
        problem, what=retell(problem.what, system, typed), hint=retell(problem.hint, system, typed)
    )


def problem_at(problems: tuple[Problem, ...], *places: str) -> tuple[Problem, ...]:
    """Return the problems that belong to a field.

    Parameters
    ----------
    problems
        All problems of a form.
    places
        Names of the field, or beginnings of places below it when they end in a dot.

    Returns
    -------
    Those of the field, in order.
    """
    return tuple(
        problem
        for problem in problems
        if any(
            problem.where == place or (place.endswith(".") and problem.where.startswith(place))
            for place in places
        )
    )


MOST_TOLD_TWICE = 3
"""Problems of one field that the head of a page repeats; assumption."""


def folded(problems: tuple[Problem, ...], place: str) -> tuple[Problem, ...]:
    """Return the problems of a form for the head of its page, those of one field as a single one where they are many.

    Parameters
    ----------
    problems
        All problems of the form.
    place
        Name of the field.

    Returns
    -------
    The problems in order.
    """
    own = problem_at(problems, place)
    if len(own) <= MOST_TOLD_TWICE:
        return problems
    one = Problem(place, f"has {len(own)} faults", "all of them are listed at the field")
    return tuple(one if problem is own[0] else problem for problem in problems if problem not in own[1:])


FIELD_NAMES = {
    "job.name": "name of the job",
    "typed": "name of the job",
    "job.side": "side",
    "air.temperature_c": "temperature",
    "air.rh": "humidity",
    "painter.name": "painter",
    "gun.nozzle_mm": "nozzle",
    "gun.flow_g_s": "flow",
    "gun.speed_m_s": "hand speed",
    "gun.cup_ml": "cup",
    "temperature_c": "booth air",
    "rh": "humidity",
    "speed_m_s": "hand speed",
    "refill_s": "refill",
    "ground_check": "ground check",
    "card_gone_after": "hiding card",
    "coat_g_m2": "a coat of the panel",
    "file": "file",
    "text": "readings",
    "zone": "zone",
    "angles_deg": "angle of each table",
    "other_angles_deg": "further angles",
}
"""What the pages call a place in a file."""


SAMPLE_NAMES = {"role": "sample", "coats": "effect coats", "zone": "zone"}
"""What the pages call what is asked about a sample of a file of readings."""


def field_name(place: str) -> str:
    """Return what a page calls a place in a file.

    Parameters
    ----------
    place
        Dotted place.

    Returns
    -------
    Words of the page; the place itself where the page has none.
    """
    if place.startswith("sample."):
        return SAMPLE_NAMES.get(place.rpartition(".")[2], "sample")
    return FIELD_NAMES.get(place, place)


def minus(figure: str) -> str:
    """Write the minus sign of a figure as one.

    Parameters
    ----------
    figure
        A figure with a hyphen, such as "-1.0".

    Returns
    -------
    Such as "−1.0".
    """
    return figure.replace("-", "\N{MINUS SIGN}")


def drawing(svg: str) -> Markup:
    """Put a drawing made by ``laydown.report`` into a page; its texts are escaped there.

    Parameters
    ----------
    svg
        A whole SVG document, perhaps with an XML declaration.

    Returns
    -------
    The drawing without the declaration.
    """
    begin = svg.find("<svg")
    return Markup(svg[begin:])  # noqa: S704 - drawn by this program, texts escaped where it is drawn
