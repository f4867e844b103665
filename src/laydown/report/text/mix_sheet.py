"""The mix sheet as plain text: running totals as the scale shows them, and room to tick."""

from laydown.report.kit.chart import invented
from laydown.report.text.lines import NARROWEST, columns, fit, paragraph
from laydown.schema.message import Name
from laydown.schema.plan import Plan
from laydown.schema.supplies import Mix
from laydown.words.numbers import caution_text, duration
from laydown.words.show import ENGLISH, Words

_HEAD = 8


def mix_sheet_text(plan: Plan, layer: str | None = None, words: Words = ENGLISH, width: int = 80) -> str:
    """Write the mix sheet."""
    if width < NARROWEST:
        raise ValueError(f"width must be {NARROWEST} columns or more; got {width}")
    mixes = [mix for mix in plan.mixes if layer in (None, mix.layer)]
    if not mixes:
        raise ValueError(f"layer must be one of {[mix.layer for mix in plan.mixes]}; got {layer!r}")
    mark = invented(words).upper() if plan.inputs.invented else ""
    right = f"{words.say('plan-number', plan=Name(plan.id))}   {mark}".rstrip()
    title = f"{words.say('pour-title')}   {plan.inputs.job}"
    parts = [[f"{fit(title, width - len(right) - 2)}  {right}"]]
    parts += [_mix(mix, words, width) for mix in mixes]
    safe = [row for row in plan.safety if row.key == "S01"]
    parts += [paragraph(_head(words, "safety"), caution_text(row, words), width) for row in safe]
    return "\n\n".join("\n".join(lines) for lines in parts) + "\n"


def _head(words: Words, name: str) -> str:
    """Head of a line, as wide as every other."""
    return f"{words.say(f'pour-head.{name}'):{_HEAD - 1}} "


def _mix(mix: Mix, words: Words, width: int) -> list[str]:
    """One mix: amounts, lines to tick, clock."""
    left = mix.left_over_ml
    told = words.say(
        "pour-mix",
        product=Name(mix.product),
        mix_g=mix.mix_g,
        mix_ml=mix.mix_ml,
        need_ml=mix.need_ml,
        left_ml=round(left.value),
        low_ml=round(left.low),
        high_ml=round(left.high),
    )
    name = words.word("short_layer", mix.layer).upper()
    lines = paragraph(f"{name:{_HEAD - 1}} ", told, width)
    lines.append(f"{' ' * _HEAD}{words.say('pour-zero')}")
    room = min(36, width - 38)
    lines.append(columns((("", 3), ("", room), (words.say("pour-add"), -11), (words.say("mix-scale"), -13))))
    lines += [
        columns(
            (
                ("[ ]", 3),
                (line.name, room),
                (words.amount(line.step_g, "step_g", "+.1f"), -11),
                (words.amount(line.running_g, "running_g", ".1f"), -13),
            )
        )
        for line in mix.lines
    ]
    if mix.ask:
        lines += paragraph(_head(words, "ask"), words(mix.ask), width)
        lines += [
            columns(
                (
                    ("", 6),
                    (words(row.reading), width - 24),
                    (words.amount(row.water_g, "water_g", ".1f"), -11),
                )
            )
            for row in mix.readings
        ]
    lines += paragraph(_head(words, "least"), words.say("pour-least", least_g=mix.least_mix_g), width)
    if mix.pot_life_s is not None:
        limit = words.say("pour-clock", limit=Name(duration(mix.pot_life_s, words)))
        lines += paragraph(_head(words, "clock"), limit, width)
    voc = _voc(mix, words)
    return lines + (paragraph(_head(words, "solvent"), voc, width) if voc else [])


def _voc(mix: Mix, words: Words) -> str:
    """Estimates of the solvent content."""
    material, regulatory = mix.voc_material_g_l, mix.voc_regulatory_g_l
    parts = []
    if material is not None:
        parts.append(words.say("pour-voc", voc_g_l=round(material)))
    if regulatory is not None:
        is_same = material is not None and round(material) == round(regulatory)
        less = words.say("pour-voc-less", voc_g_l=round(regulatory))
        parts.append(words.say("pour-voc-same") if is_same else less)
    return "; ".join(parts)
