"""The plan as plain text: the verdict on the third line, findings last, every estimate with its interval."""

from itertools import groupby

from laydown.report.lines import NARROWEST, columns, fit, paragraph, plain
from laydown.report.panel_words import VERDICT_WORDS, count_words
from laydown.report.side_picture import INVENTED
from laydown.report.strip_text import zone_lines
from laydown.report.text_coats import layer_lines, plan_room
from laydown.report.text_words import duration, interval, minutes, water_text
from laydown.report.told import told_plan
from laydown.schema.advice import Adjustment, Alternative
from laydown.schema.finding import Finding
from laydown.schema.plan import Plan
from laydown.schema.supplies import Mix
from laydown.units import System, figures, show

FIRST_CAUTIONS = ("S01", "S02", "S06", "S07")
"""Cautions that are always printed in full; the others stand in the plan file."""

_STATE_MARKS = {"go": "=", "care": "-", "stop": "Z"}
_MOST_ALTERNATIVES = 6
_LEVELS = ("stop", "care", "note")
_LEVEL_MARKS = {"stop": "Z", "care": "!", "note": "i"}


def plan_text(plan: Plan, system: System = "metric", width: int = 80) -> str:
    """Write the plan for a terminal.

    Parameters
    ----------
    plan
        The plan.
    system
        How figures are shown.
    width
        Columns there are, 72 or more.

    Returns
    -------
    Lines of at most that width, each ended by a line feed.

    Raises
    ------
    ValueError
        When the width is under 72 columns.
    """
    if width < NARROWEST:
        raise ValueError(f"width must be {NARROWEST} columns or more; got {width}")
    plan = told_plan(plan, system)
    parts = [
        _head(plan, system, width),
        _adjustment(plan, system, width),
        *(layer_lines(layer, plan_room(plan, system, width), system, width) for layer in plan.layers),
        _mixes(plan, system, width),
        _day(plan, width),
        _alternatives(plan, width),
        _rest(plan, system, width),
        _findings(plan, width),
    ]
    return "\n\n".join("\n".join(lines) for lines in parts if lines) + "\n"


def _head(plan: Plan, system: System, width: int) -> list[str]:
    """Job, air and verdict."""
    right = f"plan {plan.id}"
    name = f"{plan.inputs.job}   {plan.side.shape}, {plan.side.side}"
    names = {"temperature_c": "air {}", "rh": "humidity {}", "speed_m_s": "booth {}"}
    air = [
        text.format(show(plan.inputs.air[key].value, key, system))
        for key, text in names.items()
        if key in plan.inputs.air
    ]
    people = (
        f"painter {plan.inputs.painter}" if plan.inputs.painters == 1 else f"{plan.inputs.painters} painters"
    )
    second = "   ".join([*air, people])
    mark = INVENTED.upper() if plan.inputs.invented else ""
    verdict = f"VERDICT  {_STATE_MARKS[plan.verdict.state]} {plan.verdict.state}   "
    return [
        f"{fit(name, width - len(right) - 2)}  {right}",
        (f"{fit(second, width - len(mark) - 2)}  {mark}" if mark else fit(second, width)).rstrip(),
        *paragraph(verdict, plan.verdict.text, width),
    ]


def _adjustment(plan: Plan, system: System, width: int) -> list[str]:
    """What is chosen for each layer, and the next best."""
    lines = []
    chosen = {
        "ground": plan.adjustment.ground,
        "effect": plan.adjustment.effect,
        "clear": plan.adjustment.clear,
    }
    for number, (name, row) in enumerate(chosen.items()):
        head = f"{'ADJUST' if number == 0 else '':8} {name:7} "
        lines += paragraph(head, _chosen(row, system), width)
        if row.runner_up is not None:
            second = row.runner_up
            text = (
                f"next best: {second.reducer} reducer, {water_text(second.water, system)}: {second.why_not}"
            )
            lines += paragraph(" " * 17, text, width)
    return [*lines, *_counts(plan, width)]


def _counts(plan: Plan, width: int) -> list[str]:
    """How many effect and ground coats, how sure that is, and what to do next."""
    colour, hiding = plan.colour, plan.hiding
    said = f"effect coats {count_words(colour)}: {VERDICT_WORDS[colour.verdict]}; {colour.reason}"
    told = f"{said}; next: {colour.next_step}" if colour.next_step else said
    ground = f"ground coats {hiding.ground_coats:g} ({hiding.low:g}-{hiding.high:g}): {hiding.reason}"
    return [
        *paragraph("COLOUR   ", told, width),
        *zone_lines(colour, width, "zone     "),
        *paragraph("HIDING   ", ground, width),
    ]


def _chosen(row: Adjustment, system: System) -> str:
    """One adjustment in words."""
    hardener = "hardener" if row.hardener else "no hardener"
    kept = " (as the job says)" if row.fixed_by_user else ""
    return f"{row.reducer} reducer, {water_text(row.water, system)}, {hardener}, nozzle {show(row.nozzle_mm, 'nozzle_mm', system)}{kept}"


def _mixes(plan: Plan, system: System, width: int) -> list[str]:
    """Every mix with its pour lines."""
    lines = []
    for mix in plan.mixes:
        lines += _mix(mix, system, width)
    return lines


def _mix(mix: Mix, system: System, width: int) -> list[str]:
    """One mix."""
    amount = f"{show(mix.mix_g, 'mix_g', system)} ({show(mix.mix_ml, 'mix_ml', system)})"
    pot = (
        "pot life not on the sheet"
        if mix.pot_life_s is None
        else f"pot life {duration(mix.pot_life_s, system)}"
    )
    text = f"{mix.product}: {amount}, need {show(mix.need_ml, 'need_ml', system)}, {pot}"
    lines = paragraph(f"MIX      {mix.layer:7} ", text, width)
    room = min(34, width - 41)
    lines += [
        columns(
            (
                (" " * 15 + line.name, room + 15),
                (f"+{line.step_g:.1f} g", -11),
                (f"{line.running_g:.1f} g", -11),
            )
        )
        for line in mix.lines
    ]
    if mix.ask:
        lines += paragraph(" " * 17 + "? ", mix.ask, width)
    return lines


def _day(plan: Plan, width: int) -> list[str]:
    """First and last moment of each layer, gates and the end."""
    lines = []
    for layer in plan.layers:
        steps = [
            step for step in plan.timeline if step.layer == layer.name and step.kind in ("spray", "flash")
        ]
        if steps:
            last = max(steps, key=lambda step: step.end_s)
            word = "ready" if layer.name == "clear" else "matt"
            end = f"{word} {minutes(last.end_s)} ({minutes(last.low_end_s)}-{minutes(last.high_end_s)})"
            lines.append(f"{layer.name:8} from {minutes(min(step.start_s for step in steps)):>5}   {end}")
    for step in plan.timeline:
        if step.kind in ("bake", "cool", "unmask", "polish"):
            end = f"done {minutes(step.end_s)} ({minutes(step.low_end_s)}-{minutes(step.high_end_s)})"
            lines.append(f"{step.kind:8} from {minutes(step.start_s):>5}   {end}")
    heads = ["DAY      ", *[" " * 9] * (len(lines) - 1)]
    told = [f"{head}{line}" for head, line in zip(heads, lines, strict=False)]
    for gate in plan.gates:
        told += paragraph(" " * 9 + "gate     ", f"{gate.id}: {', '.join(gate.ask)}?", width)
    return told


def _alternatives(plan: Plan, width: int) -> list[str]:
    """What else could be done."""
    lines = []
    for number, row in enumerate(plan.alternatives[:_MOST_ALTERNATIVES]):
        head = f"{'INSTEAD' if number == 0 else '':8} "
        lines.append(f"{head}{_instead(row, width - len(head))}")
        lines += paragraph(" " * 11, row.text, width)
    more = len(plan.alternatives) - _MOST_ALTERNATIVES
    return lines + ([f"         {more} more in the plan file"] if more > 0 else [])


def _instead(row: Alternative, width: int) -> str:
    """One alternative in a line."""
    spare = "-" if row.spare_s is None else f"{figures(round(row.spare_s))} s"
    wet = "-" if row.wet_chance is None else f"{row.wet_chance:.0%} wet"
    return columns(
        (
            (row.change, width - 43),
            (f"{_STATE_MARKS[row.verdict]} {row.verdict}", 6),
            (spare, -7),
            (wet, -9),
            (f"{row.minutes:+.1f} min", -11),
        )
    )


def _rest(plan: Plan, system: System, width: int) -> list[str]:
    """Limits of use, clocks, cost, assumptions, cautions."""
    limits = plan.limits_of_use
    air = (
        f"air {interval(limits.temperature_low_c, limits.temperature_high_c, 'temperature_c', system)}, "
        f"humidity {interval(limits.rh_low, limits.rh_high, 'rh', system)}; outside it plan again"
    )
    lines = paragraph("GOOD IN  ", air, width)
    for clock in plan.clocks:
        limit = "not on the sheet" if clock.limit_s is None else duration(clock.limit_s, system)
        text = f"{clock.kind.replace('_', ' ')} {limit}, from {clock.starts} ({clock.source})"
        lines += paragraph("CLOCK    ", text, width)
    lines += paragraph("COST     ", _cost(plan), width)
    count = len(plan.assumptions)
    told = f"{count} figure{'' if count == 1 else 's'} nobody gave; the plan file lists each with its default"
    lines += paragraph("ASSUMED  ", told, width)
    for caution in plan.safety:
        if caution.key in FIRST_CAUTIONS:
            lines += paragraph(f"{caution.key:8} ", f"{caution.title}. {caution.text}", width)
    rest = [caution.title for caution in plan.safety if caution.key not in FIRST_CAUTIONS]
    return lines + (
        paragraph("SAFETY   ", f"also in the plan file: {', '.join(rest)}", width) if rest else []
    )


def _cost(plan: Plan) -> str:
    """Cost, or what is missing for it."""
    cost = plan.cost
    known = {"materials": cost.materials, "booth": cost.booth, "labour": cost.labour, "total": cost.total}
    told = [f"{name} {value:.0f} {cost.currency}" for name, value in known.items() if value is not None]
    missing = [f"not known without {', '.join(cost.missing)}"] if cost.missing else []
    return "; ".join(told + missing) or "no prices given"


def _findings(plan: Plan, width: int) -> list[str]:
    """Findings, the gravest first; what helps against several alike stands once under them."""
    ranked = sorted(plan.findings, key=lambda row: _LEVELS.index(row.level))
    lines = []
    for _, group in groupby(ranked, key=lambda row: (row.level, row.code, row.do)):
        alike = list(group)
        for finding in alike:
            lines += _finding(finding, width)
        for action in alike[0].do:
            lines += paragraph("       do:  ", action, width)
    return lines


def _finding(finding: Finding, width: int) -> list[str]:
    """One finding: what and why."""
    head = f"{_LEVEL_MARKS[finding.level]} {finding.level:4} {plain(finding.code)}: "
    told = paragraph(head, finding.text, width, 7)
    return told + (paragraph("       why: ", finding.why, width) if finding.why else [])
