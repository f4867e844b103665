"""The pour sheet as plain text: running totals as the scale shows them, and room to tick."""

from laydown.report.side.coat import INVENTED
from laydown.report.text.lines import NARROWEST, columns, fit, paragraph
from laydown.schema.plan import Plan
from laydown.schema.supplies import Mix
from laydown.units import System, show
from laydown.words.numbers import duration
from laydown.words.show import told_plan


def pour_text(plan: Plan, layer: str | None = None, system: System = "metric", width: int = 80) -> str:
    """Write the pour sheet.

    Parameters
    ----------
    plan
        The plan.
    layer
        "ground", "effect" or "clear"; None for all.
    system
        How volumes are shown; grams stay grams.
    width
        Columns there are, 72 or more.

    Returns
    -------
    Lines of at most that width, each ended by a line feed.

    Raises
    ------
    ValueError
        When the width is under 72 columns or the plan has no mix for the layer.
    """
    if width < NARROWEST:
        raise ValueError(f"width must be {NARROWEST} columns or more; got {width}")
    plan = told_plan(plan, system)
    mixes = [mix for mix in plan.mixes if layer in (None, mix.layer)]
    if not mixes:
        raise ValueError(f"layer must be one of {[mix.layer for mix in plan.mixes]}; got {layer!r}")
    mark = INVENTED.upper() if plan.inputs.invented else ""
    right = f"plan {plan.id}   {mark}".rstrip()
    parts = [[f"{fit(f'POUR SHEET   {plan.inputs.job}', width - len(right) - 2)}  {right}"]]
    parts += [_mix(mix, system, width) for mix in mixes]
    safe = [row for row in plan.safety if row.key == "S01"]
    parts += [paragraph("SAFETY  ", f"{row.title}. {row.text}", width) for row in safe]
    return "\n\n".join("\n".join(lines) for lines in parts) + "\n"


def _mix(mix: Mix, system: System, width: int) -> list[str]:
    """One mix: amounts, lines to tick, clock."""
    total = f"{show(mix.mix_g, 'mix_g', system)} = {show(mix.mix_ml, 'mix_ml', system)}"
    need = f"the coats need {show(mix.need_ml, 'need_ml', system)}"
    left = mix.left_over_ml
    rest = f"left over {show(round(left.value), 'left_ml', system)} ({show(round(left.low), 'left_ml', system)} to {show(round(left.high), 'left_ml', system)})"
    lines = paragraph(f"{mix.layer.upper():7} ", f"{mix.product}: {total}; {need}; {rest}", width)
    lines.append("        empty cup on the scale, press zero once: the totals add up")
    room = min(36, width - 38)
    lines.append(columns((("", 3), ("", room), ("add", -11), ("scale shows", -13))))
    lines += [
        columns(
            (("[ ]", 3), (line.name, room), (f"+{line.step_g:.1f} g", -11), (f"{line.running_g:.1f} g", -13))
        )
        for line in mix.lines
    ]
    if mix.ask:
        lines += paragraph("ask     ", mix.ask, width)
        lines += [
            columns((("", 6), (row.reading, width - 24), (f"{row.water_g:.1f} g", -11)))
            for row in mix.readings
        ]
    lines += paragraph(
        "least   ", f"under {show(mix.least_mix_g, 'least_mix_g', system)} the scale is too coarse", width
    )
    if mix.pot_life_s is not None:
        limit = duration(mix.pot_life_s, system)
        lines += paragraph(
            "clock   ", f"pot life {limit} from the hardener on   mixed at _____   use by _____", width
        )
    voc = _voc(mix, system)
    return lines + (paragraph("solvent ", voc, width) if voc else [])


def _voc(mix: Mix, system: System) -> str:
    """Estimates of the solvent content."""
    parts = []
    if mix.voc_material_g_l is not None:
        parts.append(f"about {show(round(mix.voc_material_g_l), 'voc_g_l', system)} of the mix")
    if mix.voc_regulatory_g_l is not None:
        less = f"about {show(round(mix.voc_regulatory_g_l), 'voc_g_l', system)} less water"
        same = mix.voc_material_g_l is not None and round(mix.voc_material_g_l) == round(
            mix.voc_regulatory_g_l
        )
        parts.append("the same less water" if same else less)
    return "; ".join(parts)
