"""When the day leaves the plan: what is done stays, the rest is planned again from here."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from laydown.booth.changes_today import DayChange, changes_of, check_change, extra_coats
from laydown.booth.day_steps import Leg, legs_of
from laydown.booth.low_cup import with_low_cup
from laydown.booth.merged_plan import layer_of, merged, with_id
from laydown.booth.plan_differences import Changed, differences
from laydown.booth.progress import Progress, replay
from laydown.booth.remaining import Again, Rest, rests_of
from laydown.planning.document.alternatives import ADJUSTED
from laydown.planning.plan import Stamp, plan_from
from laydown.planning.setup.request import changed
from laydown.planning.setup.setup import Setup, with_job
from laydown.schema.choices import Choices
from laydown.schema.message import Name, Saying, message
from laydown.schema.plan import Plan
from laydown.schema.product import LayerName
from laydown.schema.session import Session


@dataclass(frozen=True, slots=True)
class Turn:
    """The plan from here on."""

    plan: Plan
    setup: Setup
    changes: tuple[Changed, ...]
    words: Saying


def replanned(plan: Plan, session: Session, setup: Setup, change: DayChange) -> Turn:
    """Return the plan from here on."""
    check_change(change)
    legs = legs_of(plan)
    state = replay(legs, session, change.at_s)
    at = _layer_at_hand(legs, state)
    if at is None:
        return Turn(plan, setup, (), message("nothing-left-to-plan"))
    if change.kind == "ran low":
        return _ran_low(plan, setup, legs, state, change)
    extra, words = extra_coats(plan, legs, state, change)
    if extra is None:
        return Turn(plan, setup, (), words or message("nothing-changes"))
    target = next(iter(extra), at)
    today = with_job(setup, changed(setup.job, changes_of(setup, legs, state, change)))
    again = _again(plan, today, (legs, state), target, extra)
    made = merged(again)
    found = differences(plan, made)
    if not found:
        return Turn(plan, today, (), words or message("nothing-changes"))
    return Turn(made, today, found, words or made.verdict.text)


def _layer_at_hand(legs: Sequence[Leg], state: Progress) -> LayerName | None:
    """The layer at hand, or the next one; None once the last coat is on."""
    here = legs[state.leg]
    if here.kind == "flash" and here.layer == "clear" and here.last:
        return None
    ahead = [leg for leg in legs[state.leg :] if leg.kind in {"spray", "flash"}]
    if not ahead:
        return None
    return here.layer if here.layer is not None else ahead[0].layer


def _again(
    plan: Plan,
    setup: Setup,
    place: tuple[Sequence[Leg], Progress],
    target: LayerName,
    extra: dict[LayerName, float],
) -> Again:
    """Plan every open layer again; a mix in use keeps its adjustment, a layer begun its direction."""
    legs, state = place
    rests = rests_of(plan, setup.job.choices, place, extra)
    stamp = Stamp(plan.program.version, plan.made_at)
    made: dict[tuple[Choices, str], Plan] = {}

    def run(choices: Choices, start: str) -> Plan:
        if (choices, start) not in made:
            job = replace(setup.job, choices=choices, job=replace(setup.job.job, start=start))
            made[choices, start] = plan_from(with_job(setup, job), stamp, thorough=False, drawn=False).plan
        return made[choices, start]

    runs, added = {}, {}
    for name, rest in rests.items():
        if not rest.open:
            continue
        choices, start = _choices(plan, setup, rests, rest), _start(plan, setup, rest)
        runs[name] = run(choices, start)
        if rest.added_count > 0.0:
            ground = rest.added_count if name == "ground" else choices.ground_coats
            effect = rest.added_count if name == "effect" else choices.effect_coats
            added[name] = run(replace(choices, ground_coats=ground, effect_coats=effect), start)
    return Again(plan, runs, added, rests, legs, state, target)


def _start(plan: Plan, setup: Setup, rest: Rest) -> str:
    """Where a layer starts: one that is begun goes on in its direction."""
    if not rest.kept or setup.job.job.start != "best":
        return setup.job.job.start
    backwards = layer_of(plan, rest.name).coats[0].direction == message("rear-to-front")
    return "rear" if backwards else "front"


def _choices(plan: Plan, setup: Setup, rests: dict[LayerName, Rest], rest: Rest) -> Choices:
    """What is fixed while a layer is planned again: the counts, and the adjustment once its mix is in use."""
    own = setup.job.choices
    counts = {name: rests[name].coats for name in ADJUSTED if name in rests}
    fixed = rest if rest.name != "clear" else rests.get("effect", rest)
    choices = replace(own, ground_coats=counts.get("ground"), effect_coats=counts.get("effect"))
    if "ground" in rests and rests["ground"].begun:
        choices = replace(choices, hardener=plan.adjustment.ground.hardener)
    if not fixed.begun or fixed.name == "clear":
        return choices
    adjustment = plan.adjustment.ground if fixed.name == "ground" else plan.adjustment.effect
    return replace(
        choices, reducer=adjustment.reducer, water=adjustment.water, nozzle_mm=adjustment.nozzle_mm
    )


def _ran_low(plan: Plan, setup: Setup, legs: Sequence[Leg], state: Progress, change: DayChange) -> Turn:
    """The cup holds less than planned: fill it at the end of a section, at a gap if one lies on the way."""
    here = legs[state.leg]
    if here.kind != "spray" or here.coat is None or state.phase == "waiting" or change.left_g is None:
        return Turn(plan, setup, (), message("weigh-in-first"))
    density = next((mix.density_g_ml for mix in plan.mixes if mix.layer == here.layer), 1.0)
    coat = with_low_cup(
        here.coat,
        state.section,
        change.left_g,
        setup.crew.cup_ml * density,
        setup.crew.painters,
        setup.crew.refill_s,
    )
    layers = tuple(
        replace(layer, coats=tuple(coat if one is here.coat else one for one in layer.coats))
        for layer in plan.layers
    )
    made = with_id(replace(plan, layers=layers))
    if coat == here.coat:
        return Turn(plan, setup, (), message("enough-in-the-cup"))
    first = next((one for one in coat.refills if one.after_section >= state.section), None)
    said = message("enough-in-the-cup")
    if first is not None:
        said = message(
            "fill-after-section",
            fill_g=first.fill_g,
            section=first.after_section,
            feature=Name(first.feature),
        )
    return Turn(made, setup, differences(plan, made), said)
