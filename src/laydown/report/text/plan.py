"""The plan as plain text: the verdict on the third line, findings last, every estimate with its interval."""

import re
from itertools import groupby

from laydown.report.kit.chart import invented
from laydown.report.text.coats import layer_lines, plan_room
from laydown.report.text.letdown import zone_lines
from laydown.report.text.lines import NARROWEST, columns, fit, paragraph, plain
from laydown.schema.clock import Step
from laydown.schema.coat import Coat, Join, Layer
from laydown.schema.message import Finding, Message, Name, Range, message
from laydown.schema.plan import Adjustment, Alternative, Plan
from laydown.schema.supplies import Mix
from laydown.words.gun import clock_text
from laydown.words.letdown import effect_count_words, verdict_words
from laydown.words.numbers import (
    caution_text,
    duration,
    gate_name,
    minutes,
    people_text,
    place_words,
    water_text,
)
from laydown.words.show import ENGLISH, Words

_AFTER = ("bake", "cool", "unmask", "polish")
_LEAST_S = 60.0
_HEAD = 9


def _head(words: Words, name: str) -> str:
    """Head of a part, as wide as every other."""
    return f"{words.say(f'plan-head.{name}'):{_HEAD - 1}} "


def day_lines(plan: Plan, words: Words, width: int) -> list[str]:
    """Write the day in its order."""
    steps = (row for step in plan.timeline if (row := _step(step, words)) is not None)
    rows = [*_layers(plan, words), *steps]
    told = [text for _, text in sorted(rows, key=lambda row: row[0])]
    lines = paragraph(_head(words, "day"), words.say("day-key"), width)
    lines += [f"         {text}" for text in told]
    for gate in plan.gates:
        asked = words.say(
            "day-gate",
            gate=Name(gate_name(gate, words)),
            questions=tuple(gate.ask),
        )
        lines += paragraph(f"{' ' * _HEAD}{words.say('day-check'):8} ", asked, width)
    return lines


def _layers(plan: Plan, words: Words) -> list[tuple[float, str]]:
    """First and last moment of each layer."""
    rows = []
    for layer in plan.layers:
        steps = [
            step for step in plan.timeline if step.layer == layer.name and step.kind in {"spray", "flash"}
        ]
        if steps:
            last = max(steps, key=lambda step: step.end_s)
            begin = min(step.start_s for step in steps)
            word = words.say("day-ready" if layer.name == "clear" else "day-matt")
            name = words.word("short_layer", layer.name)
            rows.append(
                (begin, f"{name:8} {words.say('day-from')} {minutes(begin):>5}   {word:5} {_end(last)}")
            )
    return rows


def _step(step: Step, words: Words) -> tuple[float, str] | None:
    """One step after the coats; a pause under a minute is left out."""
    if step.kind not in _AFTER:
        return None
    begun = f"{words.word('step_kind', step.kind):8} {words.say('day-from')}"
    if step.kind == "polish":
        return step.start_s, f"{begun} {_end(step)}"
    if step.end_s - step.start_s < _LEAST_S:
        return None
    return step.start_s, f"{begun} {minutes(step.start_s):>5}   {words.say('day-done'):5} {_end(step)}"


def _end(step: Step) -> str:
    """End of a step with its interval."""
    return f"{minutes(step.end_s):>5} ({minutes(step.low_end_s)}-{minutes(step.high_end_s)})"


_LEVELS = ("stop", "caution", "note")
_LEVEL_MARKS = {"stop": "Z", "caution": "!", "note": "i"}
_JOINS = ("join-dry", "join-tight")
_FEW = 2

_Place = tuple[Layer, Coat, Join]


def finding_lines(plan: Plan, words: Words, width: int) -> list[str]:
    """Write the findings."""
    ranked = sorted(plan.findings, key=lambda row: _LEVELS.index(row.level))
    lines = []
    for _, group in groupby(ranked, key=lambda row: (row.level, row.code, row.do)):
        alike = list(group)
        joins = [place for row in alike if (place := _join(plan, row)) is not None]
        coats = [where for row in alike if (where := _coat(plan, row, words)) is not None]
        if alike[0].code in _JOINS and len(joins) == len(alike) >= _FEW:
            lines += _table(alike[0], joins, words, width)
        elif len(coats) == len(alike) > _FEW:
            others = paragraph(_under(words, "also"), ", ".join(coats[1:]), width)
            lines += [*_finding(alike[0], words, width), *others]
        else:
            for finding in alike:
                lines += _finding(finding, words, width)
        for action in alike[0].do:
            lines += paragraph(_under(words, "do"), words(action), width)
    return lines


def _level(finding: Finding, words: Words) -> str:
    """Mark, level and code."""
    mark, level = _LEVEL_MARKS[finding.level], words.word("level", finding.level)
    return f"{mark} {level:4} {plain(finding.code)}: "


def _under(words: Words, name: str) -> str:
    """Head of a line under a finding."""
    return f"       {words.say(f'finding-line.{name}'):4} "


def _finding(finding: Finding, words: Words, width: int) -> list[str]:
    """One finding: what and why."""
    told = paragraph(_level(finding, words), place_words(words(finding.text)), width, 7)
    if not finding.why:
        return told
    return told + paragraph(_under(words, "why"), place_words(words(finding.why)), width)


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


def _coat(plan: Plan, finding: Finding, words: Words) -> str | None:
    """Coat a finding is about, in words."""
    return next(
        (
            _coat_of(layer, coat, words)
            for layer in plan.layers
            for coat in layer.coats
            if finding.where == f"{layer.name}.{coat.number}"
        ),
        None,
    )


def _coat_of(layer: Layer, coat: Coat, words: Words) -> str:
    """Layer and number of a coat."""
    return words.say("layer-coat", short_layer=layer.name, number=coat.number)


def _table(first: Finding, joins: list[_Place], words: Words, width: int) -> list[str]:
    """Joins of one kind, a row each."""
    sizes = (9, width - 50, -9, -9, -9)
    rows = [tuple(words.say(f"joins-head.{name}") for name in ("coat", "join", "wet", "age", "open"))]
    rows += [
        (
            _coat_of(layer, coat, words),
            place_words(join.feature),
            words.amount(join.wet_chance, "wet_chance", ".0f"),
            words.amount(round(join.age_s.value), "age_s", ".0f"),
            words.amount(round(join.open_s.value), "open_s", ".0f"),
        )
        for layer, coat, join in joins
    ]
    late = first.code == "join-dry"
    told = words.say("joins-late" if late else "joins-tight", count=len(joins))
    lines = paragraph(_level(first, words), told, width, 7)
    return lines + [" " * 7 + columns(tuple(zip(row, sizes, strict=True)), 1) for row in rows]


FIRST_CAUTIONS = ("S01", "S02", "S06", "S07")
"""Cautions that are always printed in full; the others stand in the plan file."""

_STATE_MARKS = {"go": "=", "caution": "-", "stop": "Z"}
_MOST_ALTERNATIVES = 6
_LEAST_NAME = 12
_MINUTES = re.compile(r"[+-]?\d+ min")


def plan_text(plan: Plan, words: Words = ENGLISH, width: int = 80) -> str:
    """Write the plan for a terminal."""
    if width < NARROWEST:
        raise ValueError(f"width must be {NARROWEST} columns or more; got {width}")
    parts = [
        _plan_head(plan, words, width),
        _adjustment(plan, words, width),
        paragraph(_head(words, "key"), words.say("plan-key"), width),
        *(layer_lines(layer, plan_room(plan, words, width), words, width) for layer in plan.layers),
        _mixes(plan, words, width),
        day_lines(plan, words, width),
        _alternatives(plan, words, width),
        _rest(plan, words, width),
        _safety(plan, words, width),
        finding_lines(plan, words, width),
    ]
    return "\n\n".join("\n".join(lines) for lines in parts if lines) + "\n"


def _plan_head(plan: Plan, words: Words, width: int) -> list[str]:
    """Job, air and verdict."""
    right = words.say("plan-number", plan=Name(plan.id))
    body = f"   {words.say('plan-body', shape=Name(plan.side.shape), side=plan.side.side)}"
    # A long name of the job gives way; shape and side never do.
    room = max(_LEAST_NAME, width - len(right) - 2 - len(body))
    name = f"{fit(plan.inputs.job, room).rstrip()}{body}"
    air = [
        words.say(f"plan-air.{key}", value=Name(words.amount(plan.inputs.air[key].value, key)))
        for key in ("temperature_c", "rh", "speed_m_s")
        if key in plan.inputs.air
    ]
    second = "   ".join([*air, people_text(plan, words)])
    mark = invented(words).upper() if plan.inputs.invented else ""
    state = plan.verdict.state
    verdict = f"{_head(words, 'verdict')}{_STATE_MARKS[state]} {words.word('verdict', state)}   "
    said = words(plan.verdict.text)
    return [
        f"{fit(name, width - len(right) - 2)}  {right}",
        (f"{fit(second, width - len(mark) - 2)}  {mark}" if mark else fit(second, width)).rstrip(),
        *paragraph(verdict, f"{said[:1].upper()}{said[1:]}", width),
    ]


def _adjustment(plan: Plan, words: Words, width: int) -> list[str]:
    """What is chosen for each layer, and the next best."""
    lines = []
    chosen = {
        "ground": plan.adjustment.ground,
        "effect": plan.adjustment.effect,
        "clear": plan.adjustment.clear,
    }
    for number, (name, row) in enumerate(chosen.items()):
        begun = _head(words, "adjust") if number == 0 else " " * _HEAD
        lines += paragraph(f"{begun}{words.word('short_layer', name):7} ", _chosen(row, words), width)
        if row.runner_up is not None:
            second = row.runner_up
            text = words.say(
                "next-best",
                reducer=second.reducer,
                water=Name(water_text(second.water, words)),
                why_not=second.why_not,
            )
            lines += paragraph(" " * 17, text, width)
    return [*lines, *_counts(plan, words, width)]


def _counts(plan: Plan, words: Words, width: int) -> list[str]:
    """How many effect and ground coats, how sure that is, and what to do next."""
    colour, hiding = plan.colour, plan.hiding
    told = words.say(
        "plan-colour",
        effect_coats=Name(effect_count_words(colour, words)),
        verdict=Name(verdict_words(colour.verdict, words)),
        reason=colour.reason,
    )
    if colour.next_step:
        told = words.say("plan-colour-next", colour=Name(told), step=colour.next_step)
    ground = words.say(
        "plan-hiding",
        coats=hiding.ground_coats,
        low=hiding.low,
        high=hiding.high,
        reason=hiding.reason,
    )
    return [
        *paragraph(_head(words, "colour"), told, width),
        *zone_lines(colour, words, width, _head(words, "zone")),
        *paragraph(_head(words, "hiding"), ground, width),
    ]


def _chosen(row: Adjustment, words: Words) -> str:
    """One adjustment in words."""
    told = words.say(
        "chosen-hardener" if row.hardener else "chosen",
        reducer=row.reducer,
        water=Name(water_text(row.water, words)),
        nozzle_mm=row.nozzle_mm,
    )
    return words.say("chosen-by-job", chosen=Name(told)) if row.fixed_by_user else told


def _mixes(plan: Plan, words: Words, width: int) -> list[str]:
    """Every mix with its pour lines."""
    lines = []
    for mix in plan.mixes:
        lines += _mix(mix, words, width)
    return lines


def _mix(mix: Mix, words: Words, width: int) -> list[str]:
    """One mix."""
    pot = (
        message("mix-pot-unknown")
        if mix.pot_life_s is None
        else message("mix-pot", limit=Name(duration(mix.pot_life_s, words)))
    )
    text = words.say(
        "plan-mix",
        product=Name(mix.product),
        mix_g=mix.mix_g,
        mix_ml=mix.mix_ml,
        need_ml=mix.need_ml,
        pot=pot,
    )
    lines = paragraph(f"{_head(words, 'mix')}{words.word('short_layer', mix.layer):7} ", text, width)
    room = min(34, width - 41)
    lines.append(
        columns(((" " * 15, room + 15), (words.say("mix-pour"), -11), (words.say("mix-scale"), -11)))
    )
    lines += [
        columns(
            (
                (" " * 15 + line.name, room + 15),
                (words.amount(line.step_g, "step_g", "+.1f"), -11),
                (words.amount(line.running_g, "running_g", ".1f"), -11),
            )
        )
        for line in mix.lines
    ]
    if mix.ask:
        lines += paragraph(" " * 17 + "? ", words(mix.ask), width)
    return lines


def _alternatives(plan: Plan, words: Words, width: int) -> list[str]:
    """What else could be done."""
    if not plan.alternatives:
        return []
    sizes = {"change": width - 55, "verdict": 9, "tightest": -7, "wet": -9, "day": -11}
    head = columns(tuple((words.say(f"instead-head.{name}"), size) for name, size in sizes.items()), 2)
    lines = [f"{_head(words, 'instead')}{head}"]
    for row in plan.alternatives[:_MOST_ALTERNATIVES]:
        lines.append(f"         {_instead(row, words, width - 9)}")
        # The minutes stand in the row.
        told = "; ".join(part for part in words(row.text).split("; ") if not _MINUTES.fullmatch(part))
        lines += paragraph(" " * 11, told, width) if told else []
    rest = tuple(
        Name(words.say("instead-tried", change=row.change, verdict=row.verdict))
        for row in plan.alternatives[_MOST_ALTERNATIVES:]
    )
    return lines + (paragraph("         ", words.say("instead-also", changes=rest), width) if rest else [])


def _instead(row: Alternative, words: Words, width: int) -> str:
    """One alternative in a line."""
    margin = "-" if row.margin_s is None else words.amount(round(row.margin_s), "margin_s", ".0f")
    wet = "-" if row.wet_chance is None else words.amount(row.wet_chance, "wet_chance", ".0f")
    return columns(
        (
            (words(row.change), width - 46),
            (f"{_STATE_MARKS[row.verdict]} {words.word('verdict', row.verdict)}", 9),
            (margin, -7),
            (wet, -9),
            (words.say("minutes-more", minutes=row.minutes), -11),
        )
    )


def _rest(plan: Plan, words: Words, width: int) -> list[str]:
    """Limits of use, clocks, cost, assumptions, cautions."""
    limits = plan.limits_of_use
    air = words.say(
        "plan-limits",
        temperature_c=Range(limits.temperature_low_c, limits.temperature_high_c),
        rh=Range(limits.rh_low, limits.rh_high),
    )
    lines = paragraph(_head(words, "good"), air, width)
    for number, clock in enumerate(plan.clocks):
        begun = _head(words, "clock") if number == 0 else " " * _HEAD
        lines += paragraph(begun, clock_text(clock, words), width)
    lines += paragraph(_head(words, "cost"), _cost(plan, words), width)
    told = words.say("plan-assumed", count=len(plan.assumptions))
    return lines + paragraph(_head(words, "assumed"), told, width)


def _safety(plan: Plan, words: Words, width: int) -> list[str]:
    """The first cautions in full, the others by name."""
    first = [caution_text(row, words) for row in plan.safety if row.key in FIRST_CAUTIONS]
    rest = tuple(row.title for row in plan.safety if row.key not in FIRST_CAUTIONS)
    told = [*first, *([words.say("safety-also", titles=rest)] if rest else [])]
    lines = []
    for number, text in enumerate(told):
        lines += paragraph(_head(words, "safety") if number == 0 else " " * _HEAD, text, width)
    return lines


def _cost(plan: Plan, words: Words) -> str:
    """Cost, or what is missing for it."""
    cost = plan.cost
    known = {"materials": cost.materials, "booth": cost.booth, "labour": cost.labour, "total": cost.total}
    told: list[Message] = [
        message(f"cost.{name}", value=value, currency=Name(cost.currency))
        for name, value in known.items()
        if value is not None
    ]
    if not told:
        told.append(message("cost-without-prices"))
    elif cost.missing:
        told.append(message("cost-missing", missing=tuple(cost.missing)))
    return "; ".join(map(words, told))
