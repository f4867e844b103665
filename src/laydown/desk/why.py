"""Why the plan says what it says: reason, runner-up and what it rests on."""

from collections.abc import Iterator
from dataclasses import dataclass

from laydown.desk.compare import weakest_join
from laydown.reader.leaf import nearest
from laydown.schema.finding import Finding
from laydown.schema.plan import Adjustment, Coat, Join, Layer, Mix, Plan
from laydown.schema.problem import InputError, Problem
from laydown.units import System, show


@dataclass(frozen=True, slots=True)
class Reason:
    """The reason for one item of a plan.

    Attributes
    ----------
    item
        Name by which it can be asked for.
    says
        What the plan says.
    reason
        Why.
    runner_up
        The next best and why it was not taken; empty if there is none.
    rests_on
        Figures and rules behind it.
    """

    item: str
    says: str
    reason: str
    runner_up: str = ""
    rests_on: tuple[str, ...] = ()


def why(plan: Plan, item: str | None, system: System) -> tuple[Reason, ...]:
    """Return the reasons for an item of a plan.

    Parameters
    ----------
    plan
        The plan.
    item
        Name of the item, or its beginning; None for the choices that cost most.
    system
        Units.

    Returns
    -------
    One reason or several.

    Raises
    ------
    InputError
        The plan has no such item.
    """
    known = tuple(_reasons(plan, system))
    if item is None:
        return _costliest(plan, known)
    wanted = item.casefold().replace(" ", "-").removeprefix("join.").removeprefix("finding.")
    found = [reason for reason in known if reason.item == wanted]
    found = found or [reason for reason in known if reason.item.startswith(f"{wanted}.")]
    if not found:
        names = [reason.item for reason in known]
        near = nearest(wanted, names)
        hint = f"did you mean '{near}'? " if near else ""
        raise InputError(
            "", (Problem("ITEM", f"the plan has no '{item}'", f"{hint}items: {', '.join(names)}"),)
        )
    return tuple(found)


def items(plan: Plan) -> tuple[str, ...]:
    """Return the names that can be asked for.

    Parameters
    ----------
    plan
        The plan.

    Returns
    -------
    Names, in the order of the plan.
    """
    return tuple(reason.item for reason in _reasons(plan, "metric"))


def _costliest(plan: Plan, known: tuple[Reason, ...]) -> tuple[Reason, ...]:
    """Verdict, adjustment, counts, and the weakest join of the plan."""
    weakest = weakest_join(plan)
    wanted = ("verdict", "adjustment.effect", "colour", "hiding", weakest.id if weakest else "")
    return tuple(reason for name in wanted for reason in known if reason.item == name)


def _reasons(plan: Plan, system: System) -> Iterator[Reason]:
    """Go through everything in a plan that was chosen."""
    verdict = plan.verdict
    yield Reason("verdict", f"{verdict.state}: {verdict.text}", "findings behind it", "", verdict.because)
    for name in ("ground", "effect", "clear"):
        yield _adjustment(name, getattr(plan.adjustment, name), plan, system)
    colour, hiding = plan.colour, plan.hiding
    count = "not fixed" if colour.effect_coats is None else f"{colour.effect_coats:g}"
    says = f"{count} effect coats ({colour.low:g} to {colour.high:g}): {colour.verdict.replace('_', ' ')}"
    yield Reason("colour", says, colour.reason, "", (colour.next_step,) if colour.next_step else ())
    says = f"{hiding.ground_coats:g} ground coats ({hiding.low:g} to {hiding.high:g})"
    yield Reason("hiding", says, hiding.reason, "", (f"worst panel: {hiding.worst_panel}",))
    for panel in plan.side.panels:
        reach = f"ground {panel.ground}, effect {panel.effect}, clear {panel.clear}"
        yield Reason(f"panel.{panel.id}", f"{panel.name}: {reach}", panel.reason or "as the job file says")
    for layer in plan.layers:
        for coat in layer.coats:
            yield _coat(layer, coat)
            yield from (_join(join, system) for join in coat.joins)
    yield from (_mix(mix, system) for mix in plan.mixes)
    yield Reason("bake", f"{plan.bake.verdict}: {show(plan.bake.metal_c, 'metal_c', system)}", plan.bake.text)
    limits = plan.limits_of_use
    air = (
        f"{show(limits.temperature_low_c, 'a_c', system)} to {show(limits.temperature_high_c, 'a_c', system)}"
    )
    says = f"good for {air}, {show(limits.rh_low, 'rh')} to {show(limits.rh_high, 'rh')} humidity"
    yield Reason("limits-of-use", says, limits.text)
    yield from (_finding(finding) for finding in plan.findings)


def _adjustment(name: str, chosen: Adjustment, plan: Plan, system: System) -> Reason:
    """Reason for reducer, water, hardener and nozzle."""
    next_best = ""
    if chosen.runner_up is not None:
        other = chosen.runner_up
        next_best = f"{_set(other.reducer, other.water, other.hardener, other.nozzle_mm)}: {other.why_not}"
    rests = tuple(
        f"{key}: {show(figure.value, key, system)}"
        + (
            f" ({show(figure.low, key, system)} to {show(figure.high, key, system)})"
            if figure.low is not None and figure.high is not None
            else ""
        )
        + f", {figure.source}"
        for key, figure in plan.inputs.air.items()
    )
    says = _set(chosen.reducer, chosen.water, chosen.hardener, chosen.nozzle_mm)
    return Reason(f"adjustment.{name}", f"{name}: {says}", chosen.reason, next_best, rests)


def _set(reducer: str, water: float, hardener: bool, nozzle_mm: float) -> str:  # noqa: FBT001 - printed as it is
    """Write an adjustment in a line."""
    return f"{reducer} reducer, {show(water, 'water')} water, {'with' if hardener else 'no'} hardener, nozzle {nozzle_mm:g}"


def _coat(layer: Layer, coat: Coat) -> Reason:
    """Reason for order and start of a coat."""
    says = f"{layer.name} coat {coat.number}: {coat.direction}, start {coat.start}"
    return Reason(f"coat.{layer.name}.{coat.number}", says, coat.reason)


def _join(join: Join, system: System) -> Reason:
    """Reason for the place of a join."""
    age, still = show(join.age_s.value, "age_s"), show(join.open_s.value, "open_s")
    says = (
        f"join {join.id} at {show(join.x_m, 'x_m', system)}, {join.feature} ({join.kind.replace('_', ' ')}): "
        f"{join.state}, wet in {100 * join.wet_chance:.0f} of 100 cases"
    )
    other = join.runner_up
    next_best = f"{show(other.x_m, 'x_m', system)}, {other.feature}: {other.why_not}" if other else ""
    spare = f"{show(join.spare_s.low, 'spare_s')} to {show(join.spare_s.high, 'spare_s')}"
    rests = (
        f"the edge is {age} old when met and stays open {still}",
        f"spare {show(join.spare_s.value, 'spare_s')} ({spare})",
    )
    return Reason(join.id, says, join.reason, next_best, rests)


def _mix(mix: Mix, system: System) -> Reason:
    """Reason for the size of a mix."""
    need, mixed = show(mix.need_ml, "need_ml", system), show(mix.mix_ml, "mix_ml", system)
    says = f"{mix.layer} mix: {mixed}, {show(mix.mix_g, 'mix_g')}"
    rests = tuple(
        f"{reading.reading}: {show(reading.water_g, 'water_g')} of water" for reading in mix.readings
    )
    return Reason(
        f"mix.{mix.layer}",
        says,
        f"the coats need {need}; the rest is reserve and what stays in the gun",
        mix.ask,
        rests,
    )


def _finding(finding: Finding) -> Reason:
    """Reason for a finding."""
    return Reason(
        finding.code, f"{finding.level}, {finding.where}: {finding.text}", finding.why, "", finding.do
    )
