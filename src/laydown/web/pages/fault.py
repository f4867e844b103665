"""Something went wrong: stage, fault, place and size, one question each, then the ways out."""

from starlette.responses import HTMLResponse, Response

from laydown.desk.sessions.fault import (
    SIZES,
    WHOLE_SIDE,
    Asked,
    read_asked,
    rescue_table,
    stage_now,
    ways_for,
)
from laydown.desk.sessions.session import Live
from laydown.schema.rescue import Stage, WayOut
from laydown.units import System
from laydown.web.pages.guide import live_of
from laydown.web.pages.plan_view import words_in
from laydown.web.request.door import Call, Door
from laydown.web.request.forms import system_of
from laydown.web.request.render import environment, page
from laydown.words.show import told

STAGES: tuple[tuple[Stage, str], ...] = (
    ("ground_wet", "Ground coat, wet"),
    ("ground_dry", "Ground coat, matt"),
    ("effect_wet", "Effect coat, wet"),
    ("effect_dry", "Effect coat, matt"),
    ("clear_wet", "Clear coat"),
    ("baked", "After the bake"),
)
"""Stages and what they are called, in the order of work."""

SIGNS = {"sound": "wet", "risky": "hurry", "not possible": "late"}
"""Sign beside a way out."""


def _show(call: Call) -> Response:
    """Ask what went wrong; the list of ways without figures stands in the page for a time without network."""
    live = live_of(call)
    table = rescue_table()
    return page(
        call,
        "guide/fault.html",
        live=live,
        stages=STAGES,
        stage=stage_now(live.plan, live.session, call.state.clock()),
        faults=tuple(table.faults.values()),
        panels=_panels(live),
        sizes=tuple(name for name, _ in SIZES),
        listed=_listed(live, call.state.clock(), system_of(call)),
        signs=SIGNS,
        words=words_in(system_of(call)),
    )


def _panels(live: Live) -> tuple[str, ...]:
    """Panels of the plan, and the whole side."""
    return (*(one.name for one in live.plan.side.panels), WHOLE_SIDE)


def _listed(live: Live, now_s: float, system: System) -> tuple[tuple[str, str, tuple[WayOut, ...]], ...]:
    """Ways of every fault at every stage as this job allows them; their figures wait for the network."""
    return tuple(
        (
            f"{stage} {key}",
            fault.title,
            told(ways_for(live.plan, live.session, now_s, Asked(stage, fault.key)), system),
        )
        for stage, _ in STAGES
        for key, fault in rescue_table().faults.items()
    )


def _ways(call: Call) -> Response:
    """Show the ways out with the figures of the job."""
    live = live_of(call)
    said = {name: call.query.get(name, "") for name in ("stage", "fault", "panel", "size")}
    asked = read_asked(**said, plan=live.plan)
    ways = told(ways_for(live.plan, live.session, call.state.clock(), asked), system_of(call))
    template = environment().get_template("guide/ways.html")
    title = rescue_table().faults[asked.fault].title
    return HTMLResponse(template.render(ways=ways, figures=True, signs=SIGNS, said=said, title=title))


DOORS = (
    Door("/guide/{session}/fault", _show, "reader"),
    Door("/guide/{session}/ways", _ways, "reader"),
)
"""Doors of this group."""
