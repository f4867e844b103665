"""The page of a plan: what it says and why, what if, keep, undo, and what is printed from it."""

from typing import Any
from urllib.parse import urlencode

from starlette.exceptions import HTTPException
from starlette.responses import RedirectResponse, Response

from laydown.desk.exchange import plan_file
from laydown.desk.papers.jobs import OF_PLAN, plan_kept
from laydown.desk.papers.second_save import Draft
from laydown.desk.papers.sheets import named_products
from laydown.desk.plans.glance import tiles
from laydown.desk.plans.kept import job_of_plan, maps_of_plan, open_kept_plan, try_change
from laydown.reader.encode import to_json
from laydown.report.paper.card import card_pdf
from laydown.report.side.coat import all_coats
from laydown.schema.job import Job
from laydown.schema.plan import Plan
from laydown.schema.problem import InputError, Problem
from laydown.web.pages.levers import Lever, changes_of, levers_of, typed_levers
from laydown.web.pages.plan_view import (
    STATES,
    coat_of,
    drawn_maps,
    moved_rows,
    rest_of_plan,
    shown_plan,
)
from laydown.web.pages.second_save import save_or_ask, step_back
from laydown.web.request.door import Call, Door
from laydown.web.request.forms import (
    age_words,
    attachment,
    fields_of,
    made_from,
    now_text,
    system_of,
    words_of,
)
from laydown.web.request.render import page

MOST_COMPARED = 4
"""Plans side by side; assumption, more do not fit on a tablet."""


def plan_in(call: Call) -> tuple[Plan, str]:
    """Open the plan of the address."""
    book, ready, plan_id = call.state.book, call.state.ready, call.path["plan"]
    found = open_kept_plan(book, ready, plan_id)
    if found is not None and book.job(found[1]) is None:
        # Another program deleted the job, and perhaps made it anew since.
        ready.forget({plan_id})
        found = open_kept_plan(book, ready, plan_id)
    if found is None:
        raise HTTPException(404)
    return found


def _levers(call: Call, plan: Plan) -> tuple[Lever, ...]:
    """Return the levers of a plan; none if it came in without its job."""
    key = f"levers {call.state.book.shop_id} {plan.id} {system_of(call)}"
    levers: tuple[Lever, ...] | None = call.state.ready.get(key)
    if levers is None:
        job: Job | None = job_of_plan(call.state.book, plan.id)
        if job is None:
            return ()
        products = named_products(call.state.book, job.products)
        levers = levers_of(job, plan, products["effect"].water_max or 0.0, system_of(call))
        call.state.ready.put(key, levers)
    return levers


def _result(call: Call, plan: Plan, *, drawn: bool = True) -> tuple[dict[str, Any], int]:
    """Gather what the page shows for the levers as they stand, and the status that goes with it."""
    levers = _levers(call, plan)
    stands = typed_levers(levers, call.query)
    changes = changes_of(levers, stands)
    values: dict[str, Any] = {
        "levers": levers,
        "stands": stands,
        "changes": changes,
        "rows": (),
        "tried": False,
    }
    seen, query = plan, dict(call.query)
    problems: tuple[Problem, ...] = ()
    if changes:
        try:
            seen = _tried(call, plan, changes)
            values |= {"rows": moved_rows(plan, seen, words_of(call)), "tried": True}
        except InputError as error:
            problems = error.problems
    values |= shown_plan(seen, query, words_of(call), drawn=drawn)
    moved = {name: stands[name] for name in changes}
    return values | {
        "problems": problems,
        "plan_id": plan.id,
        "kept": plan,
        "carried": moved,
        "tabs": _tabs(seen, values["shown"], moved),
    }, 422 if problems else 200


def _tried(call: Call, plan: Plan, changes: dict[str, str]) -> Plan:
    """Plan a change, or take what was planned a moment ago: table and picture are asked for one after the other."""
    key = f"tried {call.state.book.shop_id} {plan.id} {sorted(changes.items())}"
    seen: Plan | None = call.state.ready.get(key)
    if seen is None:
        seen = try_change(call.state.book, call.state.ready, plan.id, changes).plan
        call.state.ready.put(key, seen)
    return seen


CoatTab = tuple[int, str, str, bool]
"""Number and part of a coat, its address, and whether it is shown."""


def _tabs(plan: Plan, shown: Any, moved: dict[str, str]) -> list[tuple[str, list[CoatTab]]]:
    """Return the coats of each layer with their addresses."""
    tabs: dict[str, list[CoatTab]] = {}
    for layer, coat in all_coats(plan):
        query = urlencode({"layer": layer.name, "coat": coat.number, **moved})
        now = shown is not None and shown[0].name == layer.name and shown[1].number == coat.number
        tabs.setdefault(layer.name, []).append((coat.number, coat.part, f"?{query}#picture", now))
    return list(tabs.items())


def _show(call: Call) -> Response:
    """Show a plan."""
    plan, job_id = plan_in(call)
    values, status = _result(call, plan)
    others = [one for one in call.state.book.plans(job_id) if one.id != plan.id]
    before = call.query.get("kept_from", "")
    away = next((one for one in call.state.book.away() if one.job_id == job_id), None)
    return page(
        call,
        "plan.html",
        status,
        job_id=job_id,
        away=away,
        away_age=age_words(away.put_at, words_of(call)) if away is not None else "",
        made=made_from(call.state.book.job(job_id)),
        others=others[:MOST_COMPARED],
        with_files=bool(call.state.book.job_files(job_id)),
        before=before if any(one.id == before for one in others) else "",
        **values | rest_of_plan(plan, words_of(call)),
    )


def _try(call: Call) -> Response:
    """Answer a moved lever with the part of the page that it moves."""
    plan, _ = plan_in(call)
    values, status = _result(call, plan, drawn=False)
    return page(call, "plan_result.html", status, **values)


def _picture(call: Call) -> Response:
    """Draw the coat that is shown, for the levers as they stand."""
    plan, _ = plan_in(call)
    values, status = _result(call, plan)
    return page(call, "plan_picture.html", status, **values)


def _keep(call: Call) -> Response:
    """Keep a tried change: the job is changed and planned anew, with alternatives."""
    plan, job_id = plan_in(call)
    levers = _levers(call, plan)
    changes = changes_of(levers, typed_levers(levers, fields_of(call)))
    if not changes:
        return RedirectResponse(f"/plans/{plan.id}", 303)
    book = call.state.book
    job = try_change(book, call.state.ready, plan.id, changes).job

    def keep(seen: int) -> str:
        return f"/plans/{plan_kept(book, job_id, job, now_text(), seen=seen).id}?kept_from={plan.id}"

    draft = Draft("job", job_id, to_json(job), files_of=f"{job_id}{OF_PLAN}{plan.id}")
    return save_or_ask(call, draft, keep)


def _undo(call: Call) -> Response:
    """Make an earlier plan the job's plan again."""
    plan, job_id = plan_in(call)
    job = job_of_plan(call.state.book, plan.id)
    if job is None:
        raise HTTPException(404)
    return step_back(call, (job_id, plan.id), job, f"/plans/{plan.id}")


def _maps(call: Call) -> Response:
    """Show the maps of a coat: film, age, dry spray."""
    plan, _ = plan_in(call)
    chosen = coat_of(plan, call.query.get("layer", ""), call.query.get("coat", ""))
    maps = maps_of_plan(call.state.book, call.state.ready, plan.id)
    picture = ""
    if chosen is not None and maps is not None:
        picture = drawn_maps(plan, maps, (chosen[0].name, chosen[1].number), words_of(call))
    tabs = _tabs(plan, chosen, {})
    return page(call, "plan_maps.html", plan=plan, shown=chosen, picture=picture, tabs=tabs)


def _compare(call: Call) -> Response:
    """Show plans of the same job side by side."""
    plan, job_id = plan_in(call)
    book, ready, words = call.state.book, call.state.ready, words_of(call)
    found = [open_kept_plan(book, ready, one.id) for one in book.plans(job_id)[:MOST_COMPARED]]
    plans = [pair[0] for pair in found if pair is not None]
    if all(one.id != plan.id for one in plans):
        plans = [plan, *plans[: MOST_COMPARED - 1]]
    columns = [
        (one, STATES[one.verdict.state], words.word("verdict_large", one.verdict.state), tiles(one, words))
        for one in plans
    ]
    return page(call, "plan_compare.html", plan=plan, columns=columns)


def _card(call: Call) -> Response:
    """Give the booth card."""
    plan, _ = plan_in(call)
    answer = attachment(
        card_pdf(plan, words=words_of(call)), f"card {plan.inputs.job}.pdf", "application/pdf"
    )
    answer.headers["content-disposition"] = answer.headers["content-disposition"].replace(
        "attachment", "inline"
    )
    return answer


def _document(call: Call) -> Response:
    """Give the plan document."""
    plan, _ = plan_in(call)
    return attachment(plan_file(plan), f"plan {plan.inputs.job}.json", "application/json")


DOORS = (
    Door("/plans/{plan}", _show, "reader"),
    Door("/plans/{plan}/try", _try, "reader"),
    Door("/plans/{plan}/picture", _picture, "reader"),
    Door("/plans/{plan}/keep", _keep, "painter", "POST"),
    Door("/plans/{plan}/undo", _undo, "painter", "POST"),
    Door("/plans/{plan}/maps", _maps, "reader"),
    Door("/plans/{plan}/compare", _compare, "reader"),
    Door("/plans/{plan}/card.pdf", _card, "reader"),
    Door("/plans/{plan}/plan.json", _document, "reader"),
)
"""Doors of this group."""
