"""The plan as plain text: the verdict on the third line, findings last, every estimate with its interval."""

import re

from laydown.report.clock_words import clock_text
from laydown.report.lines import NARROWEST, columns, fit, paragraph
from laydown.report.panel_words import VERDICT_WORDS, count_words
from laydown.report.side_picture import INVENTED
from laydown.report.strip_text import zone_lines
from laydown.report.text_coats import layer_lines, plan_room
from laydown.report.text_day import day_lines
from laydown.report.text_findings import finding_lines
from laydown.report.text_words import duration, interval, people_text, water_text
from laydown.report.told import told_plan
from laydown.schema.advice import Adjustment, Alternative
from laydown.schema.plan import Plan
from laydown.schema.supplies import Mix
from laydown.units import System, show

FIRST_CAUTIONS = ("S01", "S02", "S06", "S07")
"""Cautions that are always printed in full; the others stand in the plan file."""

_STATE_MARKS = {"go": "=", "care": "-", "stop": "Z"}
_MOST_ALTERNATIVES = 6
_LEAST_NAME = 12
_MINUTES = re.compile(r"[+-]?\d+ min")
_KEY = (
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
        _head(plan, system, width),
        _adjustment(plan, system, width),
        paragraph("KEY      ", _KEY, width),
        *(layer_lines(layer, plan_room(plan, system, width), system, width) for layer in plan.layers),
        _mixes(plan, system, width),
        day_lines(plan, width),
        _alternatives(plan, width),
        _rest(plan, system, width),
        _safety(plan, width),
        finding_lines(plan, width),
    ]
    return "\n\n".join("\n".join(lines) for lines in parts if lines) + "\n"


def _head(plan: Plan, system: System, width: int) -> list[str]:
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
