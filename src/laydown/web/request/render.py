"""Templates become pages; every value is escaped."""

from functools import cache, partial
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined, pass_context, select_autoescape
from jinja2.runtime import Context
from markupsafe import Markup
from starlette.responses import HTMLResponse

from laydown.report.text.why import name_words, value_text
from laydown.schema.message import Message, Saying, message
from laydown.schema.problem import Problem
from laydown.units import System
from laydown.version import VERSION
from laydown.web.request.door import Call
from laydown.web.request.forms import words_of
from laydown.web.request.visitor import may
from laydown.words.numbers import duration, minutes, place_words, spread_text, water_text
from laydown.words.show import ENGLISH, Words

HERE = Path(__file__).parents[1]
"""Folder of templates and static files."""

NAVIGATION = ("jobs", "shelf", "sides", "settings")
"""Addresses that stand on every page."""


def environment(words: Words = ENGLISH) -> Environment:
    """Return the templates as one reader is spoken to; all of them know ``words``."""
    return _environment(words.language, words.system)


@cache
def _environment(language: str, system: System) -> Environment:
    """Make the templates for one language and one system of units."""
    words = Words(language, system)
    made = Environment(
        loader=FileSystemLoader(HERE / "templates"),
        autoescape=select_autoescape(default=True, default_for_string=True),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        finalize=partial(plain, words),
    )
    made.globals |= {"version": VERSION, "problem_at": problem_at, "folded": folded}
    made.globals |= {"words": words, "navigation": navigation(words)}
    made.globals |= {"limit": duration, "water": water_text, "value_text": value_text}
    made.filters |= {
        "drawing": drawing,
        "field_name": partial(field_name, words),
        "minus": minus,
        "large": partial(large, words),
    }
    made.filters |= {
        "clock": minutes,
        "spread": partial(spread_text, words=words),
        "named": partial(name_words, words=words),
    }
    made.filters |= {"place": partial(placed, words), "said": words}
    made.add_extension("jinja2.ext.i18n")
    made.install_gettext_callables(_translated, _counted, newstyle=True)  # type: ignore[attr-defined]
    return made


def navigation(words: Words) -> tuple[tuple[str, str], ...]:
    """Return address and name of the entries that stand on every page."""
    return tuple((f"/{place}", words.word("navigation", place)) for place in NAVIGATION)


@pass_context
def _translated(context: Context, text: str) -> str:
    """Say a text of a template in the language of the reader; a macro needs the context of its page for it."""
    words: Words = context["words"]
    return words.translated(text)


@pass_context
def _counted(context: Context, one: str, many: str, count: int) -> str:
    """Say a text of a template that a number bends."""
    words: Words = context["words"]
    return words.counted(one, many, count)


def plain(words: Words, value: Any) -> Any:
    """Say a sentence wherever one stands in a template; anything else stays."""
    return words(value) if isinstance(value, Message) else value


def large(words: Words, said: Saying) -> str:
    """Begin a text with a large letter."""
    text: str = plain(words, said)
    return text[:1].upper() + text[1:]


def placed(words: Words, said: Saying) -> str:
    """Write the label of a place, or a sentence that names one, for people."""
    return place_words(plain(words, said))


def page(call: Call, template: str, status: int = 200, **values: Any) -> HTMLResponse:
    """Fill a template in, with problems beside the fields they name."""
    words = words_of(call)
    values.setdefault("problems", ())
    visitor = call.visitor
    text = (
        environment(words)
        .get_template(template)
        .render(
            words=words,
            visitor=visitor,
            token=visitor.token,
            here=call.request.url.path,
            may_paint=may(visitor.role, "painter"),
            may_manage=may(visitor.role, "manager"),
            **values,
        )
    )
    return HTMLResponse(text, status)


def problem_at(problems: tuple[Problem, ...], *places: str) -> tuple[Problem, ...]:
    """Return the problems that belong to a field."""
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
    """Return the problems of a form for the head of its page, those of one field as a single one where they are many."""
    own = problem_at(problems, place)
    if len(own) <= MOST_TOLD_TWICE:
        return problems
    one = Problem(place, message("many-faults", count=len(own)), message("many-faults.hint"))
    return tuple(one if problem is own[0] else problem for problem in problems if problem not in own[1:])


def field_name(words: Words, place: str) -> str:
    """Return what a page calls a place in a file."""
    if place.startswith("sample."):
        asked = place.rpartition(".")[2]
        return words.word("sample_field", asked if words.knows("sample_field", asked) else "role")
    return words.word("field", place) if words.knows("field", place) else place


def minus(figure: str) -> str:
    """Write the minus sign of a figure as one."""
    return figure.replace("-", "\N{MINUS SIGN}")


def drawing(svg: str) -> Markup:
    """Put a drawing made by ``laydown.report`` into a page; its texts are escaped there."""
    begin = svg.find("<svg")
    return Markup(svg[begin:])  # noqa: S704 - drawn by this program, texts escaped where it is drawn
