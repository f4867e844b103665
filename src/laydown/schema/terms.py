"""Limits the user must keep, and the user's own prices."""

from dataclasses import dataclass
from typing import Annotated, Literal

from laydown.schema.bounds import SHARE, Within, Words


@dataclass(frozen=True, slots=True)
class Limits:
    """Limits the user must keep.

    Attributes
    ----------
    region
        Which region's rows may be shown; "none" shows no legal figure.
    electric_vehicle
        Whether the vehicle has a traction battery.
    metal_max_c
        The vehicle maker's limit for the metal [°C].
    ready_by
        When the car must be unmasked, as ISO 8601 text.
    """

    region: Literal["none", "eu", "uk", "us", "us-ca", "ca-qc", "other"] = "none"
    electric_vehicle: bool = False
    metal_max_c: Annotated[float, Within(20, 120)] | None = None
    ready_by: Annotated[str, Words(40)] | None = None


Money = Annotated[float, Within(0, 1e6)]
"""An amount in the user's currency."""


@dataclass(frozen=True, slots=True)
class Prices:
    """The user's own prices; nothing is assumed.

    Attributes
    ----------
    currency
        Label only.
    ground_per_l, effect_per_l, clear_per_l
        Ready to spray, in currency per litre.
    booth_per_h, labour_per_h
        In currency per hour.
    consumables
        For the whole job, in currency.
    redo
        What doing the side again would cost, in currency.
    redo_chance
        The shop's own share of jobs done again, 0 to 1.
    """

    currency: Annotated[str, Words(8)] = ""
    ground_per_l: Money | None = None
    effect_per_l: Money | None = None
    clear_per_l: Money | None = None
    booth_per_h: Money | None = None
    labour_per_h: Money | None = None
    consumables: Money | None = None
    redo: Money | None = None
    redo_chance: Annotated[float, SHARE] | None = None
