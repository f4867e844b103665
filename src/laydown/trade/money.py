"""The till: cost of a plan from the user's own prices, exact in minor units.

Sources: arithmetic of a till; definition.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from laydown.schema.message import Message, message
from laydown.schema.product import LayerName

SECONDS_PER_HOUR = 3600
"""Definition."""


@dataclass(frozen=True, slots=True)
class MaterialUse:
    """One material of the job.

    Attributes
    ----------
    layer
        Which layer it is for.
    mixed_g, mixed_ml
        What is mixed of it [g], [mL]; all of it costs, used or not.
    price_per_kg, price_per_l
        The user's price; one of them, or neither.
    """

    layer: LayerName
    mixed_g: float
    mixed_ml: float
    price_per_kg: Decimal | None = None
    price_per_l: Decimal | None = None


@dataclass(frozen=True, slots=True)
class Hours:
    """What the job takes.

    Attributes
    ----------
    booth_s, bake_s
        Time in the booth without heat and with it [s].
    worked_s
        Time of the painters, each counted [s].
    """

    booth_s: float
    bake_s: float
    worked_s: float


@dataclass(frozen=True, slots=True)
class Rates:
    """The user's own rates; what is not given stays ``None``.

    Attributes
    ----------
    booth_per_h, bake_per_h, wage_per_h
        Rates per hour; a bake rate left out is the booth rate.
    consumables
        For the whole job.
    redo
        What doing the side again would cost.
    minor_digits
        Digits after the point that the currency has, 0 or more.
    """

    booth_per_h: Decimal | None = None
    bake_per_h: Decimal | None = None
    wage_per_h: Decimal | None = None
    consumables: Decimal | None = None
    redo: Decimal | None = None
    minor_digits: int = 2


@dataclass(frozen=True, slots=True)
class JobCost:
    """What a plan costs.

    Attributes
    ----------
    materials, booth, labour, redo
        The parts, each rounded to minor units; ``None`` where a price is missing.
    total
        Sum of the parts that are known.
    missing
        What has no price; the total is too low by these.
    """

    materials: Decimal | None
    booth: Decimal | None
    labour: Decimal | None
    redo: Decimal | None
    total: Decimal
    missing: tuple[Message, ...]


def amount(number: float) -> Decimal:
    """Return a float of a file as the decimal number that was written there.

    Parameters
    ----------
    number
        Finite.

    Raises
    ------
    ValueError
        If it is not finite.
    """
    if not math.isfinite(number):
        raise ValueError("number must be finite")
    return Decimal(repr(number))


def minor_units(value: Decimal, digits: int = 2) -> Decimal:
    """Return an amount rounded to the currency's minor unit, halves up as a till does.

    Parameters
    ----------
    value
        The amount.
    digits
        Digits after the point, 0 or more.
    """
    return value.quantize(Decimal(1).scaleb(-digits), rounding=ROUND_HALF_UP)


def job_cost(
    materials: Sequence[MaterialUse], hours: Hours, rates: Rates, defect_chance: Decimal | None = None
) -> JobCost:
    """Return the expected cost of a plan.

    Parameters
    ----------
    materials, hours, rates
        What is mixed, what it takes, and the user's own prices.
    defect_chance
        Chance that the side is done again, 0 to 1; ``None``: not known.

    Returns
    -------
    The parts and their sum. No price is assumed: what has none is listed under ``missing``.

    Notes
    -----
    ::

        materials = sum(grams / 1000 price_per_kg) + consumables      (1)
        booth     = hours price;  labour = hours wage                 (2)
        redo      = chance cost_of_redo                               (3)

    Each line is rounded to minor units, so the parts printed add up to the total printed.
    """
    missing: list[Message] = []
    digits = rates.minor_digits
    parts = {
        "materials": _materials(materials, rates, missing),
        "booth": _booth(hours, rates, missing),
        "labour": _hourly(hours.worked_s, rates.wage_per_h, message("wage"), digits, missing),
        "redo": _redo(rates, defect_chance, missing),
    }
    total = sum((part for part in parts.values() if part is not None), start=minor_units(Decimal(0), digits))
    return JobCost(**parts, total=total, missing=tuple(missing))


def _materials(materials: Sequence[MaterialUse], rates: Rates, missing: list[Message]) -> Decimal | None:
    """Sum of what is priced; None if nothing is."""
    priced: list[Decimal] = []
    for use in materials:
        if use.price_per_kg is not None:
            priced.append(minor_units(amount(use.mixed_g) / 1000 * use.price_per_kg, rates.minor_digits))
        elif use.price_per_l is not None:
            priced.append(minor_units(amount(use.mixed_ml) / 1000 * use.price_per_l, rates.minor_digits))
        else:
            missing.append(message("price-of", layer=use.layer))
    if rates.consumables is None:
        missing.append(message("price-of-consumables"))
    else:
        priced.append(minor_units(rates.consumables, rates.minor_digits))
    return sum(priced, start=Decimal(0)) if priced else None


def _booth(hours: Hours, rates: Rates, missing: list[Message]) -> Decimal | None:
    """Booth without heat and with it."""
    cold = _hourly(
        hours.booth_s, rates.booth_per_h, message("rate-of-the-booth"), rates.minor_digits, missing
    )
    if cold is None:
        return None
    bake_rate = rates.bake_per_h if rates.bake_per_h is not None else rates.booth_per_h
    warm = _hourly(hours.bake_s, bake_rate, message("rate-of-the-bake"), rates.minor_digits, missing)
    return cold if warm is None else cold + warm


def _hourly(
    time_s: float, per_h: Decimal | None, name: Message, digits: int, missing: list[Message]
) -> Decimal | None:
    """Time at a rate, or a note that the rate is missing."""
    if per_h is None:
        missing.append(name)
        return None
    return minor_units(amount(time_s) / SECONDS_PER_HOUR * per_h, digits)


def _redo(rates: Rates, defect_chance: Decimal | None, missing: list[Message]) -> Decimal | None:
    """Chance times cost of doing it again."""
    if rates.redo is None:
        missing.append(message("cost-of-doing-it-again"))
    if defect_chance is None:
        missing.append(message("chance-of-doing-it-again"))
    if rates.redo is None or defect_chance is None:
        return None
    return minor_units(rates.redo * defect_chance, rates.minor_digits)
