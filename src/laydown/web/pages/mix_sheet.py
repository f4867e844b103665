"""The mix sheet at the scale: one ingredient at a time."""

from starlette.exceptions import HTTPException
from starlette.responses import RedirectResponse, Response

from laydown.desk.plans.mix_sheet import Cup, PouredLine, cup_of, keep_taps, read_total_g, taps_of
from laydown.schema.plan import Plan
from laydown.schema.problem import InputError, Problem
from laydown.web.pages.plan import plan_in
from laydown.web.request.door import Call, Door
from laydown.web.request.forms import fields_of, now_text
from laydown.web.request.render import page


def _choose(call: Call) -> Response:
    """Show every mix as a table to print or to pour from."""
    plan, _ = plan_in(call)
    return page(call, "mix_sheet.html", plan=plan)


def _at_scale(call: Call) -> Response:
    """Show the next ingredient."""
    plan, cup, taps = _stands(call)
    return _page(call, plan, cup, taps, ())


def _page(
    call: Call, plan: Plan, cup: Cup, taps: tuple[PouredLine, ...], problems: tuple[Problem, ...]
) -> Response:
    """Show a mix as it stands."""
    return page(
        call,
        "mix_scale.html",
        422 if problems else 200,
        plan=plan,
        cup=cup,
        taps=taps,
        problems=problems,
    )


def _stands(call: Call) -> tuple[Plan, Cup, tuple[PouredLine, ...]]:
    """Open plan and mix of the address."""
    plan, _ = plan_in(call)
    layer = call.path["layer"]
    taps = taps_of(call.state.book, plan.id, layer)
    cup = cup_of(plan, layer, taps)
    if cup is None:
        raise HTTPException(404)
    return plan, cup, taps


def _poured(call: Call) -> Response:
    """Take what was poured: as shown, or what the scale says."""
    plan, cup, taps = _stands(call)
    given = fields_of(call)
    # A form sent twice names the same count of pours and is taken once.
    if given.get("after") == str(len(taps)) and cup.next is not None:
        try:
            added = cup.next.add_g if given.get("as_shown") else read_total_g(cup, given.get("total_g", ""))
        except InputError as error:
            return _page(call, plan, cup, taps, error.problems)
        taps = (*taps, PouredLine(cup.next.line, round(added, 3), now_text()))
        keep_taps(call.state.book, plan.id, cup.mix.layer, taps)
    return RedirectResponse(f"/plans/{plan.id}/mix/{cup.mix.layer}", 303)


def _undo(call: Call) -> Response:
    """Take the last pour back, or begin with an empty cup."""
    plan, cup, taps = _stands(call)
    kept = () if fields_of(call).get("all") else taps[:-1]
    keep_taps(call.state.book, plan.id, cup.mix.layer, kept)
    return RedirectResponse(f"/plans/{plan.id}/mix/{cup.mix.layer}", 303)


DOORS = (
    Door("/plans/{plan}/mix", _choose, "reader"),
    Door("/plans/{plan}/mix/{layer}", _at_scale, "reader"),
    Door("/plans/{plan}/mix/{layer}", _poured, "painter", "POST"),
    Door("/plans/{plan}/mix/{layer}/undo", _undo, "painter", "POST"),
)
"""Doors of this group."""
