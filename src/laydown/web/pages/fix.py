"""Something went wrong: stage, defect, place and size, one question each, then the ways out."""

from starlette.responses import HTMLResponse, Response

from laydown.booth.defect_stage import stage_of
from laydown.desk.sessions.fix import (
    SIZE_WORDS,
    WHOLE_SIDE,
    Asked,
    read_asked,
    rescue_table,
    ways_for,
)
from laydown.desk.sessions.session import Live
from laydown.schema.message import Saying, message
from laydown.schema.rescue import Stage, WayOut
from laydown.web.pages.guide import live_of
from laydown.web.request.door import Call, Door
from laydown.web.request.forms import words_of
from laydown.web.request.render import environment, page

STAGES: tuple[Stage, ...] = ("ground_wet", "ground_dry", "effect_wet", "effect_dry", "clear_wet", "baked")
"""Stages in the order of work."""

SIGNS = {"sound": "wet", "risky": "tight", "not possible": "dry"}
"""Sign beside a way out."""


def _show(call: Call) -> Response:
    """Ask what went wrong; the list of ways without figures stands in the page for a time without network."""
    live = live_of(call)
    table = rescue_table()
    return page(
        call,
        "guide/fix.html",
        live=live,
        stages=STAGES,
        stage=stage_of(live.plan, live.session, call.state.clock()),
        defects=tuple(table.defects.values()),
        panels=_panels(live),
        sizes=SIZE_WORDS,
        listed=_listed(live, call.state.clock()),
        signs=SIGNS,
    )


def _panels(live: Live) -> dict[str, Saying]:
    """Panels of the plan, and the whole side, with what they are called."""
    return {one.name: one.name for one in live.plan.side.panels} | {WHOLE_SIDE: message("whole-side")}


def _listed(live: Live, now_s: float) -> tuple[tuple[str, Saying, tuple[WayOut, ...]], ...]:
    """Ways of every defect at every stage as this job allows them; their figures wait for the network."""
    return tuple(
        (
            f"{stage} {key}",
            defect.title,
            ways_for(live.plan, live.session, now_s, Asked(stage, defect.key)),
        )
        for stage in STAGES
        for key, defect in rescue_table().defects.items()
    )


def _ways(call: Call) -> Response:
    """Show the ways out with the figures of the job."""
    live = live_of(call)
    said = {name: call.query.get(name, "") for name in ("stage", "defect", "panel", "size")}
    asked = read_asked(**said, plan=live.plan)
    ways = ways_for(live.plan, live.session, call.state.clock(), asked)
    template = environment(words_of(call)).get_template("guide/ways.html")
    title = rescue_table().defects[asked.defect].title
    return HTMLResponse(template.render(ways=ways, figures=True, signs=SIGNS, said=said, title=title))


DOORS = (
    Door("/guide/{session}/fix", _show, "reader"),
    Door("/guide/{session}/ways", _ways, "reader"),
)
"""Doors of this group."""
