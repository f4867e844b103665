"""Sides: the shipped shapes, own measures on them, and own drawings."""

from urllib.parse import quote

from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException
from starlette.responses import RedirectResponse, Response

from laydown.desk.deleting import delete_side
from laydown.desk.exchange import TakenError, drawn_side, save_new_side
from laydown.desk.papers.second_save import Draft, kept_paper
from laydown.desk.papers.sheets import own_side
from laydown.desk.papers.sides import built_side, default_measures, named_side, panel_rows
from laydown.reader.encode import to_json
from laydown.report.side.body import outline_svg
from laydown.schema.message import message
from laydown.schema.problem import InputError, Problem
from laydown.web.pages.new_job import shape_pictures
from laydown.web.pages.second_save import clash_page
from laydown.web.request.door import Call, Door
from laydown.web.request.fields import measure_names
from laydown.web.request.forms import (
    attachment,
    fields_of,
    made_from,
    now_text,
    said_made_from,
    words_of,
)
from laydown.web.request.render import page

FIRST = ("wheelbase_m", "waist_front_m", "sill_low_m", "arch_radius_m", "roof_m")
"""The five measures that matter most, with the tape in a minute."""


def _list(call: Call) -> Response:
    """Show all sides, and how to add one."""
    return _shown(call, ())


def _shown(call: Call, problems: tuple[Problem, ...]) -> Response:
    """Show all sides, with what was wrong with a drawing."""
    own = call.state.book.sides()
    status = 422 if problems else 200
    gone = call.query.get("gone", "")[:120]
    gone = "" if any(one.name == gone for one in own) else gone
    return page(
        call,
        "sides.html",
        status,
        shapes=shape_pictures(words_of(call)),
        own=own,
        gone=gone,
        problems=problems,
    )


def _measure(call: Call) -> Response:
    """Ask for tape measures."""
    shape = call.query.get("shape", "medium hatch")
    return _form(call, shape, {}, ())


def _form(call: Call, shape: str, answers: dict[str, str], problems: tuple[Problem, ...]) -> Response:
    """Show the measures of a shape."""
    known = default_measures(shape)
    if not known:
        raise HTTPException(404)
    names = [*(name for name in FIRST if name in known), *(name for name in known if name not in FIRST)]
    status = 422 if problems else 200
    return page(
        call,
        "side_measure.html",
        status,
        shape=shape,
        known=known,
        names=names,
        heads=measure_names(call, names),
        first=FIRST,
        answers=answers,
        problems=problems,
    )


def _keep(call: Call) -> Response:
    """Keep a side with own measures."""
    answers = fields_of(call)
    shape = answers.get("shape", "")
    typed = {
        name.rpartition(".")[2]: text.strip()
        for name, text in answers.items()
        if name.startswith("body.measures.") and text.strip()
    }
    try:
        side = named_side(built_side(shape, typed), answers.get("name", ""))
        kept = save_new_side(call.state.book, side, now_text())
    except TakenError as taken:
        return clash_page(call, Draft("side", taken.id, taken.text))
    except InputError as error:
        return _form(call, shape, answers, error.problems)
    return RedirectResponse(f"/sides/{kept}", 303)


def _draw(call: Call) -> Response:
    """Keep a side from a drawing."""
    given = call.form.get("drawing")
    name = fields_of(call).get("name", "").strip()
    if not isinstance(given, UploadFile) or not given.filename:
        return _shown(call, (Problem("drawing", message("is-missing"), message("choose-drawing")),))
    try:
        side = drawn_side(given.file.read(), name or given.filename.rpartition(".")[0])
        kept = save_new_side(call.state.book, side, now_text())
    except TakenError as taken:
        return clash_page(call, Draft("side", taken.id, taken.text))
    except InputError as error:
        return _shown(call, error.problems)
    return RedirectResponse(f"/sides/{kept}", 303)


def _show(call: Call) -> Response:
    """Show one own side."""
    try:
        side = own_side(call.state.book, call.path["side"])
    except InputError:
        raise HTTPException(404) from None
    return page(
        call,
        "side.html",
        side=side,
        side_id=call.path["side"],
        picture=outline_svg(side),
        rows=panel_rows(side),
    )


def _ask(call: Call) -> Response:
    """Ask once more before a side is deleted."""
    return _asking(call, ())


def _asking(call: Call, problems: tuple[Problem, ...]) -> Response:
    """Say that a side goes, and what keeps it from going."""
    side_id = call.path["side"]
    kept = kept_paper(call.state.book, "side", side_id)
    if kept is None:
        raise HTTPException(404)
    return page(
        call,
        "paper_delete.html",
        422 if problems else 200,
        what="side",
        name=kept.name,
        place=f"/sides/{quote(side_id)}",
        file=f"/sides/{quote(side_id)}/side.json",
        hides=False,
        made=made_from(kept),
        problems=problems,
    )


def _delete(call: Call) -> Response:
    """Delete a side that no job uses."""
    kept = kept_paper(call.state.book, "side", call.path["side"])
    try:
        delete_side(call.state.book, call.path["side"], said_made_from(call).version)
    except InputError as error:
        return _asking(call, error.problems)
    return RedirectResponse(f"/sides?gone={quote(kept.name if kept is not None else '')}", 303)


def _file(call: Call) -> Response:
    """Give a side as a side file."""
    try:
        side = own_side(call.state.book, call.path["side"])
    except InputError:
        raise HTTPException(404) from None
    return attachment(to_json(side), call.path["side"], "application/json")


DOORS = (
    Door("/sides", _list, "reader"),
    Door("/sides/measure", _measure, "painter"),
    Door("/sides/measure", _keep, "painter", "POST"),
    Door("/sides/draw", _draw, "painter", "POST"),
    Door("/sides/{side}", _show, "reader"),
    Door("/sides/{side}/delete", _ask, "manager"),
    Door("/sides/{side}/delete", _delete, "manager", "POST"),
    Door("/sides/{side}/side.json", _file, "reader"),
)
"""Doors of this group."""
