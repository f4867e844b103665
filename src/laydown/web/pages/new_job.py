"""A new job in three steps: what is it, what is damaged, today. Works by plain forms; a script only shortens it."""

from functools import cache
from typing import Any
from urllib.parse import urlencode

from starlette.responses import HTMLResponse, RedirectResponse, Response

from laydown.desk.papers.jobs import keep_new_job, read_job
from laydown.desk.papers.new_job import TAPS, body_of, last_answers, raw_job, suggest
from laydown.desk.papers.sheets import products_of, side_for
from laydown.desk.papers.sides import shapes
from laydown.reader.papers.shelf import LAYERS
from laydown.report.side.choose_panels import choice_svg
from laydown.schema.message import Name, message
from laydown.schema.problem import InputError, Problem
from laydown.schema.product import Product
from laydown.schema.side import Side
from laydown.web.request.door import Call, Door
from laydown.web.request.forms import age_words, fields_of, now_text, system_of, words_of
from laydown.web.request.render import page
from laydown.words.show import Words


def shape_pictures(words: Words) -> tuple[tuple[str, str, float], ...]:
    """Return name, picture and area of each shipped shape."""
    return _shape_pictures(words.language)


@cache
def _shape_pictures(language: str) -> tuple[tuple[str, str, float], ...]:
    """Draw the shipped shapes once for each language; they hold no figures."""
    words = Words(language)
    return tuple(
        (
            one.side.name,
            choice_svg(one.side, {}, mirrored=False, prefix=f"shape{number}", words=words),
            sum(one.areas_m2.values()),
        )
        for number, one in enumerate(shapes())
    )


def _what(call: Call) -> Response:
    """Ask what it is and which side."""
    last = last_answers(call.state.book, system_of(call))
    body = call.query.get("body", last.body)
    own = [(f"file:{kept.id}", kept.name) for kept in call.state.book.sides()]
    side = call.query.get("job.side", "")
    return page(call, "new_what.html", shapes=shape_pictures(words_of(call)), own=own, body=body, side=side)


def _damage(call: Call) -> Response:
    """Ask what is damaged."""
    return _damage_page(call, dict(call.query), ())


def _damage_page(call: Call, answers: dict[str, str], problems: tuple[Problem, ...]) -> Response:
    """Show the panels with what is said of them and what laydown suggests."""
    if answers.get("job.side") not in {"left", "right"}:
        problem = Problem("job.side", message("side-not-chosen"), message("side-not-chosen.mend"))
        own = [(f"file:{kept.id}", kept.name) for kept in call.state.book.sides()]
        body = answers.get("body", "")
        return page(
            call,
            "new_what.html",
            422,
            shapes=shape_pictures(words_of(call)),
            own=own,
            body=body,
            side="",
            problems=(problem,),
        )
    side = side_for(call.state.book, body_of(answers.get("body", "")))
    taps = _taps(answers)
    status = 422 if problems else 200
    values = _suggested(call, side, taps, answers["job.side"])
    return page(call, "new_damage.html", status, answers=answers, problems=problems, **values)


def _taps(answers: dict[str, str]) -> dict[str, str]:
    """Return what was said of the panels."""
    return {name[5:]: tap for name, tap in answers.items() if name.startswith("work.")}


def _suggested(call: Call, side: Side, taps: dict[str, str], seen: str) -> dict[str, Any]:
    """Picture, rows and findings for the panels."""
    suggestion = suggest(side, taps)
    rows = [
        (reach.panel, reach.label, taps.get(reach.panel, "suggest"), reach)
        for reach in suggestion.extents.panels
    ]
    picture = choice_svg(side, suggestion.chosen, mirrored=seen == "right", words=words_of(call))
    damaged = any(tap in {"repaired", "new"} for tap in taps.values())
    return {
        "picture": picture,
        "rows": rows,
        "taps": TAPS,
        "damaged": damaged,
        "findings": suggestion.extents.findings if damaged else (),
    }


def _suggest(call: Call) -> Response:
    """Give picture and reasons for what is tapped so far, for the script of the page."""
    answers = dict(call.query)
    side = side_for(call.state.book, body_of(answers.get("body", "")))
    values = _suggested(call, side, _taps(answers), answers.get("job.side", "left"))
    answer: HTMLResponse = page(call, "new_suggested.html", answers=answers, **values)
    return answer


def _today(call: Call) -> Response:
    """Ask for products, painter, gun and air; the last job answers most of it."""
    answers = dict(call.query)
    if not any(tap in {"repaired", "new"} for tap in _taps(answers).values()):
        problem = Problem("panel", message("no-damage-yet"), message("no-damage-yet.mend"))
        return _damage_page(call, answers, (problem,))
    return _today_page(call, answers, ())


def _today_page(call: Call, answers: dict[str, str], problems: tuple[Problem, ...]) -> Response:
    """Show the third step."""
    words = words_of(call)
    last = last_answers(call.state.book, words.system)
    filled = last.answers | answers
    products = products_of(call.state.book)
    choices = {
        layer: [(one.key, _product_name(one, words)) for one in products if one.kind == layer]
        for layer in LAYERS
    }
    carried = [
        (name, value) for name, value in answers.items() if name.startswith(("work.", "body", "job.side"))
    ]
    return page(
        call,
        "new_today.html",
        422 if problems else 200,
        answers=filled,
        carried=carried,
        back=f"/new/damage?{urlencode(carried)}",
        choices=choices,
        last=last,
        last_age=age_words(last.saved_at, words),
        system=words.system,
        problems=problems,
    )


def _product_name(product: Product, words: Words) -> str:
    """Mark what is invented."""
    name = Name(product.key)
    return words.say("product-invented", product=name) if product.status == "invented" else name


def _make(call: Call) -> Response:
    """Read the answers, keep the job and plan it."""
    answers = fields_of(call)
    answers.pop("token", None)
    book = call.state.book
    try:
        job = read_job(book, raw_job(book, answers, system_of(call)))
        plan_id = keep_new_job(book, job, now_text())
    except InputError as error:
        return _today_page(call, answers, error.problems)
    return RedirectResponse(f"/plans/{plan_id}", 303)


DOORS = (
    Door("/new", _what, "painter"),
    Door("/new/damage", _damage, "painter"),
    Door("/new/suggest", _suggest, "painter"),
    Door("/new/today", _today, "painter"),
    Door("/new", _make, "painter", "POST"),
)
"""Doors of this group."""
