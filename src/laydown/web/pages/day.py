"""The day differs from the plan: say how, see what would change, go by the new plan or keep to the old one."""

from starlette.responses import RedirectResponse, Response

from laydown.booth.replan import Turn
from laydown.desk.papers.new_job import with_unit
from laydown.desk.sessions.session import Live
from laydown.desk.sessions.turn import follow, turn
from laydown.schema.message import message
from laydown.schema.problem import InputError, Problem
from laydown.web.pages.guide import live_of
from laydown.web.request.door import Call, Door
from laydown.web.request.forms import fields_of, system_of
from laydown.web.request.render import page

KINDS = {
    "air changed": message("differs.air"),
    "section took longer": message("differs.slower"),
    "ran low": message("differs.cup"),
    "interrupted": message("differs.interrupted"),
    "painter left": message("differs.painter"),
    "coat forgotten": message("differs.coat"),
}
"""What may differ, and how it is asked."""


def _show(call: Call) -> Response:
    """Ask what differs."""
    live = live_of(call)
    kind = call.query.get("kind", "")
    typed = {"kind": kind} if kind in KINDS else {}
    return _page(call, live, typed, None)


def _turn(call: Call) -> Response:
    """Show what would change."""
    live = live_of(call)
    typed = {name: value[:40] for name, value in fields_of(call).items()}
    if "temperature_c" in typed:
        unit = "°F" if system_of(call) == "us" else "°C"
        typed["temperature_c"] = with_unit(typed["temperature_c"].strip(), unit)
    typed["layer"], _, typed["coat"] = typed.pop("which", "").partition(" ")
    try:
        turned = turn(call.state.book, call.state.ready, live, typed, call.state.clock())
    except InputError as error:
        return _page(call, live, typed, None, error.problems)
    return _page(call, live, typed, turned)


def _page(
    call: Call, live: Live, typed: dict[str, str], turned: Turn | None, problems: tuple[Problem, ...] = ()
) -> Response:
    """Show the question, or what would change."""
    return page(
        call,
        "guide/day.html",
        422 if problems else 200,
        live=live,
        kinds=KINDS,
        typed=typed,
        turned=turned,
        problems=problems,
    )


def _follow(call: Call) -> Response:
    """Go by the new plan."""
    live = live_of(call)
    follow(call.state.book, live, str(call.form.get("plan", "")), call.state.clock())
    return RedirectResponse(f"/guide/{live.id}", 303)


DOORS = (
    Door("/guide/{session}/day", _show, "reader"),
    Door("/guide/{session}/day", _turn, "painter", "POST"),
    Door("/guide/{session}/follow", _follow, "painter", "POST"),
)
"""Doors of this group."""
