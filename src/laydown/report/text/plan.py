"""The plan as plain text: the verdict on the third line, findings last, every estimate with its interval."""

import re
from itertools import groupby

from laydown.report.side.coat import INVENTED
from laydown.report.text.coats import layer_lines, plan_room
from laydown.report.text.letdown import zone_lines
from laydown.report.text.lines import NARROWEST, columns, fit, paragraph, plain
from laydown.schema.clock import Step
from laydown.schema.coat import Coat, Join, Layer
from laydown.schema.finding import Finding
from laydown.schema.plan import Adjustment, Alternative, Plan
from laydown.schema.supplies import Mix
from laydown.units import System, show
from laydown.words.gun import clock_text
from laydown.words.letdown import VERDICT_WORDS, count_words
from laydown.words.numbers import duration, interval, minutes, people_text, place_words, water_text
from laydown.words.show import told_plan

_LEVELS = ("stop", "care", "note")
_LEVEL_MARKS = {"stop": "Z", "care": "!", "note": "i"}
_JOINS = {"join-late": "joins come too late", "join-hurry": "joins are tight"}
_FEW = 2

_Place = tuple[Layer, Coat, Join]


def finding_lines(plan: Plan, width: int) -> list[str]:
    """Write the findings.

    Parameters
    ----------
    plan
        The plan.
    width
        Columns there are.

    Returns
    -------
    Lines; several joins of one kind make a table, and what helps against several alike stands once under them.
    """
    ranked = sorted(plan.findings, key=lambda row: _LEVELS.index(row.level))
    lines = []
    for _, group in groupby(ranked, key=lambda row: (row.level, row.code, row.do)):
        alike = list(group)
        joins = [place for row in alike if (place := _join(plan, row)) is not None]
        coats = [where for row in alike if (where := _coat(plan, row)) is not None]
        if alike[0].code in _JOINS and len(joins) == len(alike) >= _FEW:
            lines += _table(alike[0], joins, width)
        elif len(coats) == len(alike) > _FEW:
            lines += [*_finding(alike[0], width), *paragraph("       also: ", ", ".join(coats[1:]), width)]
        else:
            for finding in alike:
                lines += _finding(finding, width)
        for action in alike[0].do:
            lines += paragraph("       do:  ", action, width)
    return lines


def _head(finding: Finding) -> str:
    """Mark, level and code."""
    return f"{_LEVEL_MARKS[finding.level]} {finding.level:4} {plain(finding.code)}: "


def _finding(finding: Finding, width: int) -> list[str]:
    """One finding: what and why."""
    told = paragraph(_head(finding), place_words(finding.text), width, 7)
    return told + (paragraph("       why: ", place_words(finding.why), width) if finding.why else [])


def _join(plan: Plan, finding: Finding) -> _Place | None:
    """Join a finding is about."""
    return next(
        (
            (layer, coat, join)
            for layer in plan.layers
            for coat in layer.coats
            for join in coat.joins
            if finding.where == f"{layer.name}.{coat.number}.{join.id}"
        ),
        None,
    )


def _coat(plan: Plan, finding: Finding) -> str | None:
    """Coat a finding is about, in words."""
    return next(
        (
            f"{layer.name} {coat.number}"
            for layer in plan.layers
            for coat in layer.coats
            if finding.where == f"{layer.name}.{coat.number}"
        ),
        None,
    )


def _table(first: Finding, joins: list[_Place], width: int) -> list[str]:
    """Joins of one kind, a row each."""
    sizes = (9, width - 50, -9, -9, -9)
    rows = [("coat", "join", "wet", "edge old", "open for")]
    rows += [
        (
            f"{layer.name} {coat.number}",
            place_words(join.feature),
            f"{100 * join.wet_chance:.0f} %",
            f"{round(join.age_s.value)} s",
            f"{round(join.open_s.value)} s",
        )
        for layer, coat, join in joins
    ]
    lines = paragraph(_head(first), f"{len(joins)} {_JOINS[first.code]}.", width, 7)
    return lines + [" " * 7 + columns(tuple(zip(row, sizes, strict=True)), 1) for row in rows]


_AFTER = ("bake", "cool", "unmask", "polish")
_LEAST_S = 60.0
_KEY = "h:min from the first mix; in 9 of 10 cases between the two in brackets"


def day_lines(plan: Plan, width: int) -> list[str]:
    """Write the day in its order.

    Parameters
    ----------
    plan
        The plan.
    width
        Columns there are.

    Returns
    -------
    Lines; times are hours and minutes from the first mix.
    """
    rows = [*_layers(plan), *(row for step in plan.timeline if (row := _step(step)) is not None)]
    told = [text for _, text in sorted(rows, key=lambda row: row[0])]
    lines = paragraph("DAY      ", _KEY, width)
    lines += [f"         {text}" for text in told]
    for gate in plan.gates:
        lines += paragraph(" " * 9 + "check    ", f"{gate.id}: {', '.join(gate.ask)}?", width)
    return lines


def _layers(plan: Plan) -> list[tuple[float, str]]:
    """First and last moment of each layer."""
    rows = []
    for layer in plan.layers:
        steps = [
            step for step in plan.timeline if step.layer == layer.name and step.kind in {"spray", "flash"}
        ]
        if steps:
            last = max(steps, key=lambda step: step.end_s)
            begin = min(step.start_s for step in steps)
            word = "ready" if layer.name == "clear" else "matt"
            rows.append((begin, f"{layer.name:8} from {minutes(begin):>5}   {word:5} {_end(last)}"))
    return rows


def _step(step: Step) -> tuple[float, str] | None:
    """One step after the coats; a pause under a minute is left out."""
    if step.kind not in _AFTER:
        return None
    if step.kind == "polish":
        return step.start_s, f"{step.kind:8} from {_end(step)}"
    if step.end_s - step.start_s < _LEAST_S:
        return None
    return step.start_s, f"{step.kind:8} from {minutes(step.start_s):>5}   done  {_end(step)}"


def _end(step: Step) -> str:
    """End of a step with its interval."""
    return f"{minutes(step.end_s):>5} ({minutes(step.low_end_s)}-{minutes(step.high_end_s)})"


FIRST_CAUTIONS = ("S01", "S02", "S06", "S07")
"""Cautions that are always printed in full; the others stand in the plan file."""

_STATE_MARKS = {"go": "=", "care": "-", "stop": "Z"}
_MOST_ALTERNATIVES = 6
_LEAST_NAME = 12
_MINUTES = re.compile(r"[+-]?\d+ min")
_KEY_text = (
    "s: trigger time; g: sprayed; cup g: paint left in the cup; join: how far behind the middle of the front wheel; "
    "spare: how long the edge is still open when the next section reaches it, in 9 of 10 cases between the two figures"
)


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
        _head_text(plan, system, width),
        _adjustment(plan, system, width),
        paragraph("KEY      ", _KEY_text, width),
        *(layer_lines(layer, plan_room(plan, system, width), system, width) for layer in plan.layers),
        _mixes(plan, system, width),
        day_lines(plan, width),
        _alternatives(plan, width),
        _rest(plan, system, width),
        _safety(plan, width),
        finding_lines(plan, width),
    ]
    return "\n\n".join("\n".join(lines) for lines in parts if lines) + "\n"


def _head_text(plan: Plan, system: System, width: int) -> list[str]:
    """Job, air and verdict."""
    right = f"plan {plan.id}"
    body = f"   {plan.side.shape}, {plan.side.side}"
    # A long name of the job gives way; shape and side never do.
    room = max(_LEAST_NAME, width - len(right) - 2 - len(body))
    name = f"{fit(plan.inputs.job, room).rstrip()}{body}"
    names = {"temperature_c": "air {}", "rh": "humidity {}", "speed_m_s": "booth {}"}
    air = [
        text.format(show(plan.inputs.air[key].value, key, system))
        for key, text in names.items()
        if key in plan.inputs.air
    ]
    second = "   ".join([*air, people_text(plan)])
    mark = INVENTED.upper() if plan.inputs.invented else ""
    verdict = f"VERDICT  {_STATE_MARKS[plan.verdict.state]} {plan.verdict.state}   "
    return [
        f"{fit(name, width - len(right) - 2)}  {right}",
        (f"{fit(second, width - len(mark) - 2)}  {mark}" if mark else fit(second, width)).rstrip(),
        *paragraph(verdict, f"{plan.verdict.text[:1].upper()}{plan.verdict.text[1:]}", width),
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
    lines.append(columns(((" " * 15, room + 15), ("pour", -11), ("scale shows", -11))))
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


def _alternatives(plan: Plan, width: int) -> list[str]:
    """What else could be done."""
    if not plan.alternatives:
        return []
    head = columns((("change", width - 53), ("verdict", 7), ("tightest", -7), ("wet", -9), ("day", -11)), 2)
    lines = [f"INSTEAD  {head}"]
    for row in plan.alternatives[:_MOST_ALTERNATIVES]:
        lines.append(f"         {_instead(row, width - 9)}")
        # The minutes stand in the row.
        told = "; ".join(part for part in row.text.split("; ") if not _MINUTES.fullmatch(part))
        lines += paragraph(" " * 11, told, width) if told else []
    rest = [f"{row.change} ({row.verdict})" for row in plan.alternatives[_MOST_ALTERNATIVES:]]
    return lines + (paragraph("         ", f"also tried: {', '.join(rest)}", width) if rest else [])


def _instead(row: Alternative, width: int) -> str:
    """One alternative in a line."""
    spare = "-" if row.spare_s is None else f"{round(row.spare_s)} s"
    wet = "-" if row.wet_chance is None else f"{100 * row.wet_chance:.0f} %"
    return columns(
        (
            (row.change, width - 44),
            (f"{_STATE_MARKS[row.verdict]} {row.verdict}", 7),
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
    for number, clock in enumerate(plan.clocks):
        lines += paragraph("CLOCK    " if number == 0 else " " * 9, clock_text(clock, system), width)
    lines += paragraph("COST     ", _cost(plan), width)
    count = len(plan.assumptions)
    told = f"{count} figure{'' if count == 1 else 's'} nobody gave; the plan file lists each with its default"
    return lines + paragraph("ASSUMED  ", told, width)


def _safety(plan: Plan, width: int) -> list[str]:
    """The first cautions in full, the others by name."""
    first = [f"{row.title}. {row.text}" for row in plan.safety if row.key in FIRST_CAUTIONS]
    rest = [row.title for row in plan.safety if row.key not in FIRST_CAUTIONS]
    told = [*first, *([f"Also in the plan file: {', '.join(rest)}."] if rest else [])]
    lines = []
    for number, text in enumerate(told):
        lines += paragraph("SAFETY   " if number == 0 else " " * 9, text, width)
    return lines


def _cost(plan: Plan) -> str:
    """Cost, or what is missing for it."""
    cost = plan.cost
    known = {"materials": cost.materials, "booth": cost.booth, "labour": cost.labour, "total": cost.total}
    told = [f"{name} {value:.0f} {cost.currency}" for name, value in known.items() if value is not None]
    if not known or all(value is None for value in known.values()):
        told.append("no sum without prices in the job")
    elif cost.missing:
        told.append(f"not known without {', '.join(cost.missing)}")
    return "; ".join(told)
