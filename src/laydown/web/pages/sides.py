"""Sides: the shipped shapes, own measures on them, and own drawings."""

from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException
from starlette.responses import RedirectResponse, Response

from laydown.desk.book_files import drawn_side
from laydown.desk.book_sheets import own_side, save_side
from laydown.desk.side import built_side, default_measures, named_side, panel_rows
from laydown.reader.encode import to_json
from laydown.report.outline_picture import outline_svg
from laydown.schema.problem import InputError, Problem
from laydown.web.door import Call, Door
from laydown.web.forms import attachment, fields_of, now_text, system_of
from laydown.web.pages.new_job import shape_pictures
from laydown.web.pages.plan_view import words_in
from laydown.web.render import page

FIRST = ("wheelbase_m", "waist_front_m", "sill_low_m", "arch_radius_m", "roof_m")
"""The five measures that matter most, with the tape in a minute."""


def _list(call: Call) -> Response:
    """Show all sides, and how to add one."""
    return _shown(call, ())


def _shown(call: Call, problems: tuple[Problem, ...]) -> Response:
    """Show all sides, with what was wrong with a drawing."""
    own = call.state.book.sides()
    status = 422 if problems else 200
    return page(call, "sides.html", status, shapes=shape_pictures(), own=own, problems=problems)


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
        kept = save_side(call.state.book, side, now_text())
    except InputError as error:
        return _form(call, shape, answers, error.problems)
    return RedirectResponse(f"/sides/{kept}", 303)


def _draw(call: Call) -> Response:
    """Keep a side from a drawing."""
    given = call.form.get("drawing")
    name = fields_of(call).get("name", "").strip()
    if not isinstance(given, UploadFile) or not given.filename:
        return _shown(call, (Problem("drawing", "is missing", "choose an SVG file"),))
    try:
        side = drawn_side(given.file.read(), name or given.filename.rpartition(".")[0])
        kept = save_side(call.state.book, side, now_text())
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
        words=words_in(system_of(call)),
    )


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
    Door("/sides/{side}/side.json", _file, "reader"),
)
"""Doors of this group."""
