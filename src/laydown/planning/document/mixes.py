"""One mix for each layer: grams, mix sheet, pot life, solvent, and the question a sheet leaves open."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from decimal import Decimal

from laydown.planning.layers.adjustments import Option
from laydown.planning.layers.layer import LayerResult
from laydown.planning.setup.paint import WATER_DENSITY_G_ML, Paint
from laydown.planning.setup.setup import Setup
from laydown.schema.clock import Step
from laydown.schema.figure import Spread
from laydown.schema.message import Finding, Name, Range, Saying, message
from laydown.schema.plan import Assumption
from laydown.schema.problem import InputError
from laydown.schema.product import LayerName, RecipeLine
from laydown.schema.supplies import Cost, Mix, PourLine, WaterReading
from laydown.trade.mixing.batch import Allowance, batch_ml, least_mix_g, leftover
from laydown.trade.mixing.pot_life import pot_life
from laydown.trade.mixing.pour import pour_sheet
from laydown.trade.mixing.recipe import scale
from laydown.trade.mixing.water_percent import in_house_convention, readings_of_percent
from laydown.trade.money import Hours, MaterialUse, Rates, amount, job_cost
from laydown.trade.solvent import NotComputable, voc_material_g_l, voc_regulatory_g_l


def _decimal(value: float | None) -> Decimal | None:
    """A price as decimal."""
    return None if value is None else amount(value)


def _number(value: Decimal | None) -> float | None:
    """A decimal as number."""
    return None if value is None else float(value)


def cost_of(setup: Setup, mixes: Sequence[Mix], steps: Sequence[Step]) -> Cost:
    """Return the cost of a plan."""
    prices = setup.job.prices
    per_litre = {"ground": prices.ground_per_l, "effect": prices.effect_per_l, "clear": prices.clear_per_l}
    uses = [
        MaterialUse(mix.layer, mix.mix_g, mix.mix_ml, price_per_l=_decimal(per_litre[mix.layer]))
        for mix in mixes
    ]
    booth = [step for step in steps if step.where == "booth"]
    heated = sum(step.end_s - step.start_s for step in booth if step.kind == "bake")
    cold = sum(step.end_s - step.start_s for step in booth) - heated
    hours = Hours(
        cold,
        heated,
        (cold + sum(step.end_s - step.start_s for step in steps if step.kind == "mix")) * setup.crew.painters,
    )
    rates = Rates(
        booth_per_h=_decimal(prices.booth_per_h),
        wage_per_h=_decimal(prices.labour_per_h),
        consumables=_decimal(prices.consumables),
        redo=_decimal(prices.redo),
    )
    cost = job_cost(uses, hours, rates, _decimal(prices.redo_chance))
    parts = (cost.materials, cost.booth, cost.labour, cost.redo)
    known = any(part is not None for part in parts)
    return Cost(
        currency=prices.currency,
        materials=_number(cost.materials),
        booth=_number(cost.booth),
        labour=_number(cost.labour),
        redo=_number(cost.redo),
        total=_number(cost.total) if known else None,
        missing=cost.missing,
    )


TEST_PANEL_ML = 40.0
"""Paint for the let-down panel, mixed with the layer it belongs to [mL]; common practice, no source."""


def lines_of(paint: Paint, option: Option) -> tuple[RecipeLine, ...]:
    """Return the recipe of a mix: the sheet's lines, hardener only where it is used, and the water."""
    product = paint.product
    lines = [
        replace(line, name=f"{option.reducer} {line.name}")
        if line.role == "reducer" and len(product.reducers) > 1
        else line
        for line in product.recipe
        if line.role != "hardener" or option.hardener
    ]
    if option.water > 0.0:
        lines.append(
            RecipeLine(
                "demineralised water",
                "water",
                option.water * 100.0,
                "percent",
                product.water_basis,
                product.water_percent_of,
                WATER_DENSITY_G_ML,
                0.0,
                1.0,
                solids_volume_fraction=0.0,
            )
        )
    return tuple(lines)


def _need_ml(result: LayerResult, density_g_ml: float) -> float:
    """Paint that leaves the gun for all coats."""
    return sum(coat.planned.outcome.balance.sprayed_g for coat in result.coats) / density_g_ml


def _question(
    lines: tuple[RecipeLine, ...], mix_ml: float, layer: LayerName
) -> tuple[Saying, tuple[WaterReading, ...]]:
    """The question an ambiguous water percentage raises, with the grams of each reading."""
    index = next(
        (
            i
            for i, line in enumerate(lines)
            if line.role == "water" and (line.of is None or line.basis is None)
        ),
        None,
    )
    if index is None:
        return "", ()
    readings = readings_of_percent(lines, index, volume_ml=mix_ml)
    found = tuple(
        WaterReading(message(f"water-reading.{one.of}", basis=one.basis), round(one.masses_g[index], 1))
        for one in readings
        if one.masses_g is not None
    )
    least, most = min(one.water_g for one in found), max(one.water_g for one in found)
    ask = message(
        "water-percent-of-what",
        water=lines[index].amount / 100.0,
        layer=layer,
        water_g=Range(least, most),
        reading=found[0].reading,
    )
    return ask, found


def _figure(value: float | NotComputable) -> float | None:
    """A number, or None where it cannot be computed."""
    return None if isinstance(value, NotComputable) else value


def mix_of(setup: Setup, layer: LayerName, result: LayerResult) -> Mix | Finding:
    """Return the mix of a layer."""
    paint = result.task.paint
    lines = lines_of(paint, result.option)
    need = _need_ml(result, paint.density_g_ml)
    mix_ml = batch_ml(need + (TEST_PANEL_ML if layer != "clear" else 0.0), Allowance())
    try:
        held = in_house_convention(lines)
        masses = scale(held, volume_ml=mix_ml)
        ask, readings = _question(lines, mix_ml, layer)
        least = least_mix_g(held)
    except InputError as error:
        return Finding(
            "stop",
            "recipe-not-weighable",
            f"{layer}.mix",
            message("recipe-not-weighable", product=Name(paint.product.key)),
            message("recipe-faults", faults=tuple(fault.what for fault in error.problems)),
            tuple(dict.fromkeys(fault.hint for fault in error.problems)) or (message("do.complete-recipe"),),
        )
    steps = pour_sheet(masses)
    left = leftover(mix_ml, need, hardened=result.option.hardener)
    rule = paint.product.hardener
    life: float | None = paint.product.pot_life_s
    if result.option.hardener and rule.pot_life_s is not None:
        life = pot_life(rule.pot_life_s.value, rule.pot_life_c, setup.job.air.temperature_c.value).life_s
    return Mix(
        layer,
        paint.product.key,
        need,
        mix_ml,
        sum(masses),
        sum(masses) / mix_ml,
        tuple(
            PourLine(line.name, line.role, step.step_g, step.running_g)
            for line, step in zip(lines, steps, strict=True)
        ),
        life,
        least,
        Spread(left.expected_ml, left.low_ml, left.high_ml),
        _figure(voc_material_g_l(held, masses)),
        _figure(voc_regulatory_g_l(held, masses)),
        ask,
        readings,
    )


def mix_findings(mix: Mix, use_s: float) -> list[Finding]:
    """Return what there is to fear of a mix.

    Source: The sheet; common practice, no source.
    """
    found = []
    where = f"{mix.layer}.mix"
    if mix.ask:
        found.append(
            Finding(
                "caution",
                "water-percent-of-what",
                where,
                mix.ask,
                message("water-percent-of-what.why"),
                (message("do.ask-and-write-water"),),
            )
        )
    if mix.pot_life_s is not None and use_s > mix.pot_life_s:
        found.append(
            Finding(
                "stop",
                "pot-life-too-short",
                where,
                message("pot-life-too-short", life_s=mix.pot_life_s, use_s=use_s),
                message("pot-life-too-short.why"),
                (message("do.harden-in-parts"), message("do.keep-cup-cool")),
            )
        )
    if mix.mix_g < mix.least_mix_g:
        found.append(
            Finding(
                "caution",
                "mix-too-small",
                where,
                message("mix-too-small", mix_g=mix.mix_g, least_g=mix.least_mix_g),
                message("mix-too-small.why"),
                (message("do.mix-at-least", least_g=mix.least_mix_g), message("do.finer-scale")),
            )
        )
    return found


MIX_ASSUMPTIONS = tuple(
    Assumption(name, value, message("source.common-practice"))
    for name, value in (
        ("mix.reserve_share", Allowance().reserve_share),
        ("mix.dead_ml", Allowance().dead_ml),
        ("mix.test_panel_ml", TEST_PANEL_ML),
    )
)
"""Defaults that every mix leans on."""


def mixes_of(
    setup: Setup, layers: Mapping[LayerName, LayerResult]
) -> tuple[tuple[Mix, ...], tuple[Finding, ...]]:
    """Return one mix for each layer."""
    made = [mix_of(setup, name, layer) for name, layer in layers.items()]
    return tuple(one for one in made if isinstance(one, Mix)), tuple(
        one for one in made if isinstance(one, Finding)
    )
