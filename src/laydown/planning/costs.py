"""What the plan costs, from the user's own prices only."""

from collections.abc import Sequence
from decimal import Decimal

from laydown.planning.setup import Setup
from laydown.schema.clock import Step
from laydown.schema.supplies import Cost, Mix
from laydown.trade.money import Hours, MaterialUse, Rates, amount, job_cost


def _decimal(value: float | None) -> Decimal | None:
    """A price as decimal."""
    return None if value is None else amount(value)


def _number(value: Decimal | None) -> float | None:
    """A decimal as number."""
    return None if value is None else float(value)


def cost_of(setup: Setup, mixes: Sequence[Mix], steps: Sequence[Step]) -> Cost:
    """Return the cost of a plan.

    Parameters
    ----------
    setup
        The job with its prices.
    mixes
        What is mixed.
    steps
        The timeline.

    Returns
    -------
    Parts and total; everything without a price is listed as missing, and without any price the total is None.

    Sources
    -------
    ``laydown.trade.money``.
    """
    prices = setup.job.prices
    per_litre = {"ground": prices.ground_per_l, "effect": prices.effect_per_l, "clear": prices.clear_per_l}
    uses = [
        MaterialUse(f"{mix.layer} coat", mix.mix_g, mix.mix_ml, price_per_l=_decimal(per_litre[mix.layer]))
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
        missing=tuple(cost.missing),
    )
