"""Limits the user must keep, and the user's own prices."""

from dataclasses import dataclass
from typing import Annotated, Literal

from laydown.schema.figure import SHARE, TextLength, Within

Region = Literal["none", "eu", "uk", "us", "us-ca", "ca-qc", "other"]
"""Whose rules the shop has switched on; ``none`` shows no legal figure at all."""

LimitBasis = Literal["regulatory", "material"]
"""Which of the two VOC numbers a limit is compared with."""

LimitStanding = Literal["seen", "proposal", "from memory"]
"""How well a row is known: read in a text, read in a proposal, or remembered."""


@dataclass(frozen=True, slots=True)
class VocLimit:
    """One limit on the solvent content of a ready-to-spray product.

    Attributes
    ----------
    region
        Where the limit applies.
    category
        The rule's class of product, in plain words.
    limit_g_l
        The limit [g/L].
    basis
        Whether water and exempt compounds are taken out of the volume (regulatory) or not (material).
    source
        The rule and where it was read.
    standing
        How well the row is known.
    valid_from
        First day it applies, ``YYYY-MM-DD``; ``None``: not known.
    valid_to
        Last day it applies, ``YYYY-MM-DD``; ``None``: no end known.
    confirmed_on
        The day on which the shop checked the row with its authority, ``YYYY-MM-DD``. ``None``: never;
        such a row is not shown.
    """

    region: Region
    category: str
    limit_g_l: float
    basis: LimitBasis
    source: str
    standing: LimitStanding
    valid_from: str | None = None
    valid_to: str | None = None
    confirmed_on: str | None = None


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
    ready_by: Annotated[str, TextLength(40)] | None = None


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

    currency: Annotated[str, TextLength(8)] = ""
    ground_per_l: Money | None = None
    effect_per_l: Money | None = None
    clear_per_l: Money | None = None
    booth_per_h: Money | None = None
    labour_per_h: Money | None = None
    consumables: Money | None = None
    redo: Money | None = None
    redo_chance: Annotated[float, SHARE] | None = None
